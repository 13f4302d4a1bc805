/**
 * The plan of one unit: everything that a paper about it may say, every figure with its basis.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import type { Finding } from '../base/finding.js';
import { flag, phrase, span, term, verbatim, type Term, type Verbatim } from '../base/value.js';
import type { ReadUnit } from '../read/shelf.js';
import { STRATEGIES } from '../trade/strategies.js';
import { asFound } from './as-found.js';
import { cautionsFor } from './cautions.js';
import { foundFood } from './consequences/found-food.js';
import type { Scenes } from './consequences/index.js';
import { defrostsOf } from './defrosts.js';
import { checkUnit } from './checks.js';
import type { StoreContext } from './context.js';
import type { StoreFacts } from './facts.js';
import { headline } from './headline.js';
import { practice, told, toldLeaf, unknownSetting, written } from './known.js';
import { kit } from './kit.js';
import type { Leaving } from './leaving.js';
import { lesson } from './lesson.js';
import { burns, nameplateFacts } from './nameplate.js';
import { roomForFood } from './needs.js';
import { panMap } from './openings.js';
import { partsOf } from './parts.js';
import { marksSome, notKnown, origins } from './origins.js';
import { ownQuestions } from './own-questions.js';
import { notPredicted, physicsOf } from './physics/index.js';
import { pressures } from './pressures.js';
import { foundFindings } from './rest-findings.js';
import { restTree, stopsInPowerCut } from './rest-tree.js';
import type { Rests } from './rests.js';
import { callWhen, loadingRules, neverRules } from './rules.js';
import { sensorFacts } from './sensor.js';
import { service } from './service.js';
import { setBy } from './set-by.js';
import { stepsOf } from './steps.js';
import { foodOf } from './unit-food.js';
import { cautionTraitsOf, traitFlags, type UnitTraits } from './unit-traits.js';
import { upkeep } from './upkeep.js';
import { zoneFacts } from './zone-facts.js';

export interface UnitContext extends StoreContext {
  readonly rests: Rests;
  /** When the tops are empty that no clock stops at night. */
  readonly leavings: ReadonlyMap<string, Leaving>;
}

/** The limit that a unit's food is read against. Where the law only says "kept frozen", it is the maker's own figure for the food. */
const limitOf = (facts: StoreFacts, unit: ReadUnit, { box }: ReturnType<typeof partsOf>, frozen: boolean) => {
  const { law } = facts;
  if (!frozen || law.frozen) return (frozen && law.frozen) || law.limit;
  const key = box?.zone.aim ? 'aim' : 'air';
  const own = box?.zone[key];
  return box && own ? written<Amount<'temperature'>>(own.high, unit.originOf('zones', box.id, key)) : law.limit;
};

export const planUnit = (context: UnitContext, unit: ReadUnit) => {
  const { shelf, read, facts, crew } = context;
  const { profile } = unit;
  const { lang } = shelf;
  const at = (...path: string[]) => read.originOf('units', unit.id, ...path);
  const findings: Finding[] = [];

  const parts = partsOf(profile);
  const { top, box } = parts;
  const holds = (top ?? box)?.kind.holds ?? 'cold';
  const zonePlans = Object.fromEntries(Object.entries(profile.zones).map(([id, zone]) => [id, zoneFacts(unit, id, zone, lang)]));
  const rules = loadingRules(unit, lang);
  const wait = rules.do.flatMap(({ figures }) => figures['wait'] ?? [])[0];
  const { defrosts, findings: ofDefrosts } = defrostsOf(unit, zonePlans, read, facts, wait);
  findings.push(...ofDefrosts);
  const nameplate = nameplateFacts(shelf, unit, zonePlans);
  const refrigerant = nameplate.circuits[0]?.refrigerant as Known<Verbatim>;
  const gas = shelf.refrigerants.get(refrigerant.value.text)?.value;
  const limit = limitOf(facts, unit, parts, holds === 'frozen');

  // The rail: its rest and its times, or only its move.
  const rest = context.rests.byUnit.get(unit.id);
  const move = context.moves.get(unit.id);
  const forFood = top ? roomForFood(read, unit, top.id, top.zone) : { findings: [] };
  findings.push(...forFood.findings);
  const map = top ? panMap(read, unit, top.zone, lang) : { findings: [] };
  findings.push(...map.findings);
  findings.push(...(rest?.findings ?? []));
  const leaving = context.leavings.get(unit.id);

  const physics = physicsOf(shelf, facts, unit);
  const food = foodOf(context, unit, { parts, holds, zonePlans, physics });
  const { ready, destination } = food;

  const afternoon = rest?.afternoon === true && context.afternoon ? context.afternoon : undefined;
  const traits: UnitTraits = {
    rail: top?.kind,
    box: box?.kind,
    holds,
    strategy: profile.control.strategy,
    elsewhere: food.elsewhere,
    covered: top?.zone.covers?.night !== 'none',
    drainsByHand: top?.zone.drains === 'by-hand',
    flammable: burns(shelf, unit),
    gasMayBurn: read.units.some((one) => burns(shelf, one)),
    room: box?.kind.carries === 'room',
    ownStop: rest !== undefined,
    byHand: rest?.clock.byHand === true,
    inReach: rest?.clock.inReach === true,
    timed: rest?.times !== undefined,
    afternoon: afternoon !== undefined,
  };
  const probed = box && zonePlans[box.id];
  const backup = unit.unit.backup === undefined ? facts.backup : written(told(unit.unit.backup, lang), at('backup'));
  const steps = stepsOf({ ...context, afternoon }, traits, {
    ...food,
    limit,
    times: rest?.times,
    leaving,
    covers: top?.zone.covers?.night,
    where: probed?.probe.where,
    backup,
  });

  const has = cautionTraitsOf(traits);
  const press = pressures(gas, unit, facts, refrigerant, read.store.measure);
  findings.push(...press.findings);
  findings.push(...physics.findings);
  const tables = service(gas, {
    shelf,
    unit,
    facts,
    physics,
    press,
    refrigerant,
    measure: read.store.measure,
    read: at,
  });
  findings.push(...tables.findings);
  const clockFound = rest?.times && !rest.clock.byHand ? unit.unit.found?.clock : undefined;
  const foundWarm =
    rest && physics.tree && physics.climate
      ? foundFood({ rail: physics.rail, climate: physics.climate, facts, physics: physics.tree }, rest.found)
      : [];
  if (rest && clockFound) {
    const { found: did, settings: should } = rest;
    findings.push(...foundFindings(read, unit, { clock: clockFound, did, food: foundWarm, should }));
  }
  const signed = setBy(read, unit, rest);
  findings.push(...signed.findings);

  const is = traitFlags(traits, { there: profile.condensing.ports, origin: unit.originOf('condensing', 'ports') });
  const lessonOf = lesson({
    traits,
    limit,
    aim: holds === 'cold' ? facts.law.aim : undefined,
    ready,
    destination,
    where: rest?.clock.where,
    backup,
    emergency: facts.phones.emergency,
    service: facts.phones.service,
    phone: facts.phones.number,
    rule: facts.law.over_limit,
    timed: rest?.times,
    own: ownQuestions(shelf, is),
    leaving,
  });
  const tree = {
    id: written(verbatim(unit.id), at()),
    nickname: written(told(unit.unit.nickname, lang), at('nickname')),
    position: written(told(unit.unit.position, lang), at('position')),
    serial: unit.unit.serial === undefined ? undefined : written(verbatim(unit.unit.serial), at('serial')),
    name: written(told(profile.name, lang), unit.originOf('name')),
    sort: written(told(profile.sort, lang), unit.originOf('sort')),
    maker: {
      name: written(verbatim(profile.maker.name), unit.originOf('maker', 'name')),
      support:
        profile.maker.support === undefined
          ? undefined
          : written(verbatim(profile.maker.support), unit.originOf('maker', 'support')),
      warranty: toldLeaf(profile.maker.warranty, lang, unit.originOf('maker', 'warranty')),
    },
    set_by: signed.tree,
    /** Its clock was set, but not to the times that these papers tell. */
    clock_other: signed.other,
    /** Nobody has signed for it as it stands: it was set to other times, or found so, or held, after who signed. */
    clock_unsigned: signed.clockUnsigned,
    /** The clock alone was set: nobody has signed for the controls. */
    clock_alone: signed.clockAlone,
    clock_stands: signed.stands,
    /** Its override was found holding the top off, whatever its times: it cools nothing. */
    clock_held_off: signed.heldOff,
    is,
    limit,
    ready,
    /** What the air in its box reads before food goes in. */
    air: food.air,
    read_every: food.readEvery,
    destination,
    nameplate,
    // A rail that rests by a clock is stopped by it, whatever its strategy would do by itself.
    sequence: sequenceOf(unit)
      .map((code) => (rest && code === 'rail-rests-itself' ? 'clock-stops-rail' : code))
      .map((code) => practice(phrase(`sequence.${code}`), `sequence-${code}`)),
    strategy: written<Term>(term(profile.control.strategy), unit.originOf('control', 'strategy')),
    restart_delay:
      profile.control.restart_delay && written(profile.control.restart_delay, unit.originOf('control', 'restart_delay')),
    condensing: {
      place: written<Term>(term(profile.condensing.place), unit.originOf('condensing', 'place')),
      feed: written<Term>(term(profile.condensing.feed), unit.originOf('condensing', 'feed')),
      power: profile.condensing.power && written(profile.condensing.power, unit.originOf('condensing', 'power')),
      superheat:
        profile.condensing.superheat && written(span(profile.condensing.superheat), unit.originOf('condensing', 'superheat')),
      receiver: written(flag(profile.condensing.receiver), unit.originOf('condensing', 'receiver')),
    },
    zones: zonePlans,
    defrosts,
    rail: top && zonePlans[top.id],
    box: box && zonePlans[box.id],
    move,
    room: forFood.room,
    needs: rest?.needs,
    rest: rest && restTree(rest, afternoon?.first_pan ?? crew.first_pan),
    remedies: rest?.remedies ?? [],
    leaving: leaving && { start: leaving.start, empty_by: leaving.emptyBy },
    headline: headline({ traits, limit, rest: rest?.times, leaving }),
    ...steps,
    lesson: lessonOf,
    kit: kit({
      emptyBy: rest?.times?.emptyBy ?? leaving?.emptyBy,
      ready,
      traits,
      questions: lessonOf.questions,
      showMe: lessonOf.show_me,
      unit: unit.id,
      training: read.store.training,
    }),
    pan_map: map.map,
    loading: rules.do,
    never: neverRules(traits, rules.never),
    call: callWhen(traits, { limit, backup, elsewhere: food.elsewhere ? destination : undefined }),
    /** Where its cold food goes when it fails. */
    backup,
    looks: (profile.looks ?? []).map((look, i) =>
      typeof look === 'string'
        ? written(phrase(`looks.${look}`), unit.originOf('looks', i))
        : written(told(look.say, lang), unit.originOf('looks', i)),
    ),
    ...upkeep(unit, traits, { backup, air: food.air, ready }, rest !== undefined && stopsInPowerCut(rest), lang),
    notes: (profile.notes ?? []).map((note, i) => written(told(note, lang), unit.originOf('notes', i))),
    origins: origins(unit, zonePlans, lang),
    not_known: notKnown(unit, zonePlans),
    /** Some of its facts were taken over, and are marked on a technician's pages. */
    not_confirmed: marksSome(profile) ? practice(phrase('card.not-confirmed'), 'nobody-confirmed') : undefined,
    pressure: {
      not_known: unknownSetting(unit, 'control.pressure'),
      dial: press.dial,
      /** Fixed by its maker: told, and never set. */
      fixed: profile.control.pressure_switch && {
        cut_in: written(profile.control.pressure_switch.cut_in, unit.originOf('control', 'pressure_switch', 'cut_in')),
        cut_out: written(profile.control.pressure_switch.cut_out, unit.originOf('control', 'pressure_switch', 'cut_out')),
      },
      either: press.either,
      split: press.split,
      remote: written(flag(profile.condensing.place === 'remote'), unit.originOf('condensing', 'place')),
      held_up: written(flag(profile.condensing.head_control === true), unit.originOf('condensing', 'head_control')),
      usual: headTree(press.usual),
      hottest: headTree(press.hottest),
      heads: tables.heads,
      for_air: tables.for_air,
      left_alone: tables.left_alone,
      over_box: tables.over_box,
      found: tables.found,
    },
    sensor: sensorFacts(shelf, unit),
    physics: physics.tree,
    /** What the physics has no model of, where that is the unit or one of its parts. */
    not_predicted: notPredicted(physics, top !== undefined, box !== undefined),
    /** What happens if people don't: worked out only for papers that ask (plan/consequences). */
    scenes: undefined as Scenes | undefined,
    found: asFound(read, unit, lang, rest?.found ?? [], foundWarm, zonePlans, press.dial),
    cautions: { staff: cautionsFor('staff', has, facts), technician: cautionsFor('technician', has, facts) },
  };
  findings.push(...checkUnit(context, unit));
  return { tree, findings, traits: has };
};

/** Without a pressure control (one that is there but unknown is there) the compressor follows the thermostats. */
const sequenceOf = ({ profile, unknown }: ReadUnit): readonly string[] => {
  const { sequence, sequenceWithout } = STRATEGIES[profile.control.strategy];
  return profile.control.pressure || unknown.includes('control.pressure') ? sequence : (sequenceWithout ?? sequence);
};

/** Of a head pressure, whether both ends matter is for a template's `#if`. */
const headTree = (head: ReturnType<typeof pressures>['usual']) => head && { ...head, glide: practice(flag(head.glide), 'trait') };

export type UnitPlan = ReturnType<typeof planUnit>['tree'];
