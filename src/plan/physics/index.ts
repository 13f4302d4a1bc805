/**
 * The physics of one unit in its store: the model that fits what a technician told, what it says of the hottest kitchen, and findings where
 * facts contradict each other or physics. Predictions explain and warn; none clears food or loosens a limit.
 */
import { amount, type Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { asOnPage, note, warning, type Finding } from '../../base/finding.js';
import { phrase, type Phrase } from '../../base/value.js';
import type { ReadUnit, Shelf } from '../../read/shelf.js';
import type { CalibrationFault } from '../../science/cabinet/calibrate.js';
import type { MoistAir } from '../../science/moist-air.js';
import { inKitchen } from '../../science/cabinet/state.js';
import { railAir } from '../../science/cabinet/pans-in-rail.js';
import type { FoodTemperature } from '../../science/pan.js';
import { isRail, ZONE_KINDS } from '../../trade/zones.js';
import type { StoreFacts } from '../facts.js';
import { computed, practice, written } from '../known.js';
import { climateOf, type Climate } from './climate.js';
import { fit, steady } from './fit.js';
import { isModelled, unitFacts, type Machine, type Modelled } from './unit-facts.js';

type Temperature = Known<Amount<'temperature'>>;

export interface UnitPhysics {
  /** Keys of the profile without which there is no model. */
  readonly missing?: readonly string[];
  readonly tree: PhysicsTree | undefined;
  readonly climate: Climate | undefined;
  /** The machine that cools the rail, and the one that cools the box: one and the same in most units. Only such as fit their facts. */
  readonly rail: Machine | undefined;
  readonly box: Machine | undefined;
  readonly findings: readonly Finding[];
}

export type PhysicsTree = Modelled['tree'] &
  Climate['tree'] & {
    /** Predicted mean of the rail's food on the hottest day, covers open and shut. */
    readonly hot: { readonly open: Temperature; readonly shut: Temperature } | undefined;
    /** Predicted warmest spot of the rail's food on a usual day, covers shut, where that is over the law's limit. */
    readonly usual_over: Temperature | undefined;
    /** Of the foods whose freezing point is known, the first to freeze. */
    readonly freezes: Temperature | undefined;
  };

/** The warmest of the foods' freezing points. */
const firstToFreeze = (shelf: Shelf): Temperature | undefined => {
  const [first] = [...shelf.foodProperties.entries()].sort(([, a], [, b]) => b.value.freezing - a.value.freezing);
  if (!first) return undefined;
  const [name, { value, at }] = first;
  return written(amount('temperature', value.freezing), { at: { ...at, path: [name, 'freezing'] }, assumed: false });
};

const NOTHING: UnitPhysics = { tree: undefined, climate: undefined, rail: undefined, box: undefined, findings: [] };

/** Which of the figures that a zone was described by tell what is wrong. */
const faultFinding = (unit: ReadUnit, { machine, zones, tree }: Modelled, fault: CalibrationFault, index: number): Finding => {
  const id = zones[index] ?? '';
  const zone = machine.facts.zones[index];
  const { lowPressure } = machine.facts;
  const kelvin = (si: number | undefined) => (si === undefined ? {} : amount('temperature', si));
  const air = zone && (zone.cooled === 'forced-air' ? (zone.thermostat.cutIn + zone.thermostat.cutOut) / 2 : railAir(zone));
  const at = unit.originOf('zones', id, ...(unit.profile.zones[id]?.measured ? ['measured'] : [])).at;
  const data = {
    zone: id,
    kitchen: tree.kitchen.value,
    ...(air === undefined ? {} : { air: kelvin(air) as Amount }),
    ...(zone && zone.cooled !== 'forced-air' ? { food: kelvin(zone.foodTemperature) as Amount } : {}),
    ...(lowPressure ? { coil: amount('temperature', (lowPressure.cutIn + lowPressure.cutOut) / 2) } : {}),
  };
  return warning(`physics-${fault}`, at, data);
};

/** A control that is the wrong way round has an error of its own. */
const toldElsewhere = (fault: CalibrationFault, { profile }: ReadUnit): boolean => {
  const wrong = (c: { cut_in: Amount; cut_out: Amount } | undefined): boolean => c !== undefined && c.cut_in.si <= c.cut_out.si;
  return (
    fault === 'controls-contradict' &&
    [profile.control.pressure, ...Object.values(profile.zones).map((z) => z.control)].some(wrong)
  );
};

/** What the rail does on the hottest day, and what that means. */
const onHotDays = (unit: ReadUnit, { machine, zones }: Modelled, climate: Climate, facts: StoreFacts) => {
  const { rail } = machine;
  const findings: Finding[] = [];
  if (rail === undefined) return { findings };
  const at = (covers: 'open' | 'shut') => steady({ facts: machine.facts, rail, kitchen: climate.hottest, covers })?.food;
  const [open, shut] = [at('open'), at('shut')];
  if (open === undefined || shut === undefined) return { findings };
  const from = [climate.tree.hottest, climate.tree.humidity, climate.tree.altitude];
  const hot = (si: number): Temperature => computed(amount('temperature', si), 'rail-on-hottest-day', from, 'up');
  const place = unit.originOf('zones', zones[rail] ?? '').at;
  const data = { kitchen: asOnPage(climate.tree.hottest), aim: asOnPage(facts.law.aim) };
  // The warmest spot decides, as it does on the card: up to which kitchen it holds. The model shows it too warm: a mean over the aim is graver.
  const over = ({ warmest }: FoodTemperature): boolean => warmest > facts.law.aim.value.si;
  const warmest = ({ warmest: si }: FoodTemperature) => ({ food: asOnPage(hot(si)) });
  const grave = shut.mean > facts.law.aim.value.si ? warning : note;
  if (over(shut)) findings.push(grave('rail-cannot-hold', place, { ...data, ...warmest(shut) }));
  else if (over(open)) findings.push(note('rail-needs-covers', place, { ...data, ...warmest(open) }));
  return { hot: { open: hot(open.mean), shut: hot(shut.mean) }, findings };
};

/** Food that is predicted over the law's limit on a usual day though its covers are shut: its readings lie closer together. */
const usualOver = (
  { machine: { facts, rail } }: Modelled,
  climate: Climate,
  { law: { limit } }: StoreFacts,
): Temperature | undefined => {
  const warmest = (kitchen: MoistAir): number =>
    (rail === undefined ? undefined : steady({ facts, rail, kitchen, covers: 'shut' })?.food.warmest) ?? 0;
  // The hottest day is worked out already, and a cooler one warms the food no more.
  const si = warmest(climate.hottest) > limit.value.si ? warmest(climate.usual) : 0;
  if (si <= limit.value.si) return undefined;
  return computed<Amount<'temperature'>>(amount('temperature', si), 'warmest-on-usual-day', [climate.tree.usual, limit], 'up');
};

const physicsIn = (shelf: Shelf, facts: StoreFacts, unit: ReadUnit): UnitPhysics => {
  const climate = climateOf(facts);
  if (!climate || ![climate.usual, climate.hottest].every(({ temperature }) => inKitchen(temperature))) return NOTHING;
  const all = unitFacts(shelf, unit, climate);
  const findings: Finding[] = [];
  const hasRail = Object.values(unit.profile.zones).some((zone) => isRail(ZONE_KINDS[zone.kind]));
  const missing = all.flatMap((one) => (isModelled(one) ? [] : one.missing));
  if (hasRail && missing.length > 0) findings.push(note('not-modelled', unit.originOf().at, { unit: unit.id, keys: missing }));
  const sound: Modelled[] = [];
  for (const one of all.filter(isModelled)) {
    const found = fit(one.machine.facts);
    if (found.ok) sound.push(one);
    else if (!toldElsewhere(found.fault, unit)) findings.push(faultFinding(unit, one, found.fault, found.zone));
  }
  const rail = sound.find(({ machine }) => machine.rail !== undefined);
  const box = sound.find(({ machine }) => machine.box !== undefined);
  const first = rail ?? box;
  if (!first) return { ...NOTHING, missing, findings };
  const hot = rail ? onHotDays(unit, rail, climate, facts) : { findings: [], hot: undefined };
  const over = rail && usualOver(rail, climate, facts);
  if (rail && over)
    findings.push(
      warning('food-over-usual', unit.originOf('zones', rail.zones[rail.machine.rail ?? 0] ?? '').at, {
        store: facts.id.value.text,
        unit: unit.id,
        kitchen: asOnPage(climate.tree.usual),
        food: asOnPage(over),
        limit: facts.law.limit.value,
      }),
    );
  return {
    missing,
    tree: {
      ...first.tree,
      ...climate.tree,
      hot: hot.hot,
      usual_over: over,
      freezes: firstToFreeze(shelf),
    },
    climate,
    rail: rail?.machine,
    box: box?.machine,
    findings: [...findings, ...hot.findings],
  };
};

const known = new WeakMap<StoreFacts, Map<string, UnitPhysics>>();

/** The same answer for the same unit of a store, so that its leaves are the same wherever they are named. */
export const physicsOf = (shelf: Shelf, facts: StoreFacts, unit: ReadUnit): UnitPhysics => {
  const ofStore = known.get(facts) ?? new Map<string, UnitPhysics>();
  known.set(facts, ofStore);
  const found = ofStore.get(unit.id) ?? physicsIn(shelf, facts, unit);
  ofStore.set(unit.id, found);
  return found;
};

/** A part that no model fits: it lacks a figure, its figures contradict each other, or its kind is not modelled. */
export const notPredicted = ({ tree, rail, box }: UnitPhysics, hasRail: boolean, hasBox: boolean): Known<Phrase> | undefined => {
  const lacks = [...(hasRail && !rail ? ['top'] : []), ...(hasBox && !box ? ['bottom'] : [])];
  const part = tree === undefined ? 'unit' : lacks[0];
  return part === undefined ? undefined : practice(phrase(`scenes.nothing-${part}`), 'not-modelled');
};
