/**
 * What is asked of a unit that is like one that is known already, and what of the known one stays: its controls, zones and rules, never its
 * plate, its codes, its notes or who told of it.
 */
import { CLOCK_KINDS, clockKindNames, isDial, type ClockKind, type ClockKindName } from '../../trade/clocks.js';
import { needsPressureControl, type StrategyName } from '../../trade/strategies.js';
import { panSizeNames } from '../../trade/pans.js';
import { isRail, ZONE_KINDS, type ZoneKind, type ZoneKindName } from '../../trade/zones.js';
import { profileSchema } from '../../model/profile.js';
import { MAY_LACK, SAFE_SIDE } from '../../read/unknown.js';
import type { Draft } from './draft.js';
import { isNeeded, nameOf, type Form, type Question } from './question.js';
import { at, changed, meeting, type Path } from './tree.js';

interface Asked {
  readonly of: string;
  readonly example: string;
  readonly form?: Form;
  readonly choices?: readonly string[];
  /** Of a rail without a fan, whose coil is far colder than a box's. */
  readonly onStatic?: string;
  /** Says something of this very unit: the similar one's is no answer. */
  readonly own?: true;
  /** Asked of such clocks alone. */
  readonly ofClock?: (kind: ClockKind) => boolean;
  /** Asked of an open top alone. */
  readonly ofRail?: true;
}

/** In the order in which a person stands before the unit: its plate, its machine, its controls, zone by zone. */
const ASKED: readonly Asked[] = [
  { of: 'name', example: 'Prep table 48', own: true },
  { of: 'sort', example: 'prep table' },
  { of: 'maker.name', example: 'Ostrandt Coldworks', own: true },
  { of: 'maker.support', example: '555-0117', own: true },
  { of: 'nameplate.model', example: 'Tern 1', own: true },
  { of: 'nameplate.volts', example: '115', form: 'number' },
  { of: 'nameplate.amps', example: '7.2', form: 'number', own: true },
  { of: 'nameplate.hertz', example: '60', form: 'number' },
  { of: 'nameplate.built', example: '2019', form: 'number', own: true },
  { of: 'nameplate.circuits.*.refrigerant', example: 'R-448A' },
  { of: 'nameplate.circuits.*.charge', example: '28 oz', own: true },
  { of: 'condensing.feed', example: 'capillary', form: 'choice', choices: ['expansion-valve', 'capillary'] },
  { of: 'condensing.receiver', example: 'no', form: 'yes-no' },
  { of: 'condensing.ports', example: 'no', form: 'yes-no' },
  { of: 'condensing.power', example: '1/2 hp' },
  { of: 'condensing.split', example: '27 °F' },
  { of: 'condensing.superheat', example: '6 to 10 °F' },
  {
    of: 'control.pressure.dial',
    example: 'cut-in-and-cut-out',
    form: 'choice',
    choices: ['cut-in-and-cut-out', 'cut-in-and-difference'],
  },
  { of: 'control.pressure.cut_in', example: '46 psig' },
  { of: 'control.pressure.cut_out', example: '28 psig' },
  { of: 'control.pressure.reference', example: 'atmosphere', form: 'choice', choices: ['atmosphere', 'sealed'] },
  { of: 'control.restart_delay', example: '3 min' },
  { of: 'control.sensor', example: 'ntc-10k-type-2' },
  { of: 'zones.*.aim', example: '36 to 38 °F' },
  { of: 'zones.*.air', example: '33 to 37 °F', onStatic: '16 to 20 °F' },
  { of: 'zones.*.control.cut_in', example: '37 °F', onStatic: '20 °F' },
  { of: 'zones.*.control.cut_out', example: '33 °F', onStatic: '14 °F' },
  { of: 'zones.*.control.senses', example: 'air', form: 'choice', choices: ['air', 'return-air', 'coil', 'rail-probe'] },
  { of: 'zones.*.probe.where', example: 'top center of the pan nearest the heat' },
  { of: 'zones.*.pans.count', example: '12', form: 'number' },
  { of: 'zones.*.pans.size', example: 'sixth', form: 'choice', choices: panSizeNames },
  { of: 'zones.*.pans.depth', example: '4 in' },
  { of: 'zones.*.pans.load_line', example: '1 in' },
  { of: 'zones.*.drains', example: 'by-itself', form: 'choice', choices: ['by-itself', 'by-hand'], ofRail: true },
  { of: 'zones.*.covers.night', example: 'shut', form: 'choice', choices: ['shut', 'up-to-dry', 'none'] },
  { of: 'zones.*.shelves.count', example: '4', form: 'number' },
  { of: 'zones.*.shelves.volume', example: '16 cu ft' },
  { of: 'zones.*.rest.least', example: '5 h' },
  { of: 'zones.*.rest.enough', example: '7 h' },
  { of: 'zones.*.rest.pull_down', example: '60 min' },
  { of: 'zones.*.rest.clock.kind', example: 'daily-dial', form: 'choice', choices: clockKindNames },
  { of: 'zones.*.rest.clock.step', example: '15 min', own: true, ofClock: ({ by }) => by === 'clock' },
  {
    of: 'zones.*.rest.clock.polarity',
    example: 'out-is-on',
    form: 'choice',
    choices: ['out-is-on', 'out-is-off'],
    ofClock: isDial,
  },
  { of: 'zones.*.rest.clock.reachable', example: 'no', form: 'yes-no' },
  { of: 'zones.*.rest.clock.follows_dst', example: 'no', form: 'yes-no', ofClock: ({ face }) => face === 'figures' },
  { of: 'zones.*.rest.clock.where', example: 'behind the right side panel' },
];

/** Where nobody knows: the safe side, which then is written. Undefined where neither answer is safer: what stands there stays, and papers tell both. */
const SAFE: Readonly<Record<string, unknown>> = {
  'condensing.ports': SAFE_SIDE.ports,
  'control.pressure.reference': undefined,
  'zones.*.drains': SAFE_SIDE.drains,
  'zones.*.rest.clock.reachable': SAFE_SIDE.reachable,
  'zones.*.rest.clock.follows_dst': false,
};

/** Of the plate, what may stay unknown. */
const PLATE: readonly string[] = MAY_LACK.filter((fact) => fact.startsWith('nameplate.'));

/** Facts that are often known another way than the plate, and asked about as one. */
export const GROUPS = { pressures: ['condensing.split', 'condensing.superheat', 'control'], zones: ['zones'] } as const;
export type Group = keyof typeof GROUPS;

export const groupOf = (name: string): Group | undefined =>
  (Object.keys(GROUPS) as Group[]).find((group) => GROUPS[group].some((key) => `${name}.`.startsWith(`${key}.`)));

/** Of the similar unit, what says nothing of another one. */
const OWN: readonly Path[] = [['display'], ['notes'], ['origins'], ['not_known'], ['maker', 'warranty']];

/** The similar profile without what is its own. */
export const begun = (similar: unknown): unknown =>
  OWN.reduce<unknown>((draft, path) => changed(draft, path, undefined), similar);

/** `zones.rail.rest.least` has its words under `zones.rest.least`: without ids and numbers. */
const codeOf = (pattern: string): string => pattern.replaceAll('.*', '').replaceAll('.', '-').replaceAll('_', '-');

const PRESSURE = 'control.pressure';
const isPressure = (of: string): boolean => of.startsWith(`${PRESSURE}.cut_`);

const refrigerants = (profile: unknown): string =>
  JSON.stringify(meeting(profile, ['nameplate', 'circuits', '*', 'refrigerant']).map((path) => at(profile, path)));

/** Whether the similar unit's pressures say anything of this one: with another refrigerant they are other temperatures, and a control set by them is wrong. */
export const pressuresHold = ({ value, notKnown }: Pick<Draft, 'value' | 'notKnown'>, similar: unknown): boolean =>
  refrigerants(value) === refrigerants(similar) && !notKnown.some((name) => name.endsWith('.refrigerant'));

/** The draft without pressures that nobody told and the similar unit can't tell, and without a pressure control of which neither end is left. */
export const withoutForeign = (draft: Draft, similar: unknown): Draft => {
  const ends = ASKED.filter(({ of }) => isPressure(of)).map(({ of }) => of);
  const foreign = pressuresHold(draft, similar) ? [] : ends.filter((of) => !draft.told.includes(of));
  const left = foreign.reduce((so, of) => changed(so, of.split('.'), undefined), draft.value);
  const any = ends.some((of) => at(left, of.split('.')) !== undefined);
  return { ...draft, value: any ? left : changed(left, PRESSURE.split('.'), undefined) };
};

/** A pull-down that was asked on this unit takes the similar one's for hot days with it. */
export const withoutOtherPullDown = (draft: Draft): Draft => ({
  ...draft,
  value: meeting(draft.value, ['zones', '*', 'rest', 'pull_down_hot'])
    .filter((path) => [...draft.told, ...draft.notKnown].includes([...path.slice(0, -1), 'pull_down'].join('.')))
    .reduce((so, path) => changed(so, path, undefined), draft.value),
});

/** The kind of the clock that a fact is of: as told, else as on the similar unit. */
const clockOf = (so: unknown, similar: unknown, path: Path): ClockKind | undefined =>
  [so, similar]
    .map((one) => at(one, [...path.slice(0, -1), 'kind']))
    .flatMap((kind) => (typeof kind === 'string' && kind in CLOCK_KINDS ? [CLOCK_KINDS[kind as ClockKindName]] : []))[0];

/** The draft without facts of a clock that this unit's clock has not. */
export const withoutOtherClock = (draft: Draft): Draft => ({
  ...draft,
  value: ASKED.flatMap(({ of, ofClock }) => meeting(draft.value, of.split('.')).map((path) => ({ path, ofClock })))
    .filter(({ path, ofClock }) => {
      const kind = ofClock && clockOf(draft.value, undefined, path);
      return ofClock && kind && !ofClock(kind) && !draft.told.includes(nameOf(path));
    })
    .reduce((so, { path }) => changed(so, path, undefined), draft.value),
});

/** Nothing else starts such a unit's compressor. */
const rulesByPressure = (draft: unknown): boolean => {
  const strategy = at(draft, ['control', 'strategy']) as StrategyName | undefined;
  return strategy !== undefined && needsPressureControl(strategy);
};

const kindOf = (draft: unknown, [, zone = '']: Path): ZoneKind | undefined => {
  const kind = at(draft, ['zones', zone, 'kind']) as ZoneKindName | undefined;
  return kind !== undefined && kind in ZONE_KINDS ? ZONE_KINDS[kind] : undefined;
};

const isOpen = (kind: ZoneKind | undefined): boolean => kind !== undefined && isRail(kind);

/** Each fact that the draft may hold, of zones one zone after the other. */
const inOrder = (draft: unknown, so: unknown): readonly (Asked & { readonly path: Path })[] => {
  const facts = ASKED.flatMap((asked) =>
    meeting(draft, asked.of.split('.'))
      .filter((path) => !asked.ofRail || isOpen(kindOf(draft, path)))
      .filter((path) => {
        const clock = asked.ofClock && clockOf(so, draft, path);
        return !clock || asked.ofClock(clock);
      })
      .map((path) => ({ ...asked, path })),
  );
  const zones = Object.keys(at(draft, ['zones']) ?? {});
  return [
    ...facts.filter(({ path }) => path[0] !== 'zones'),
    ...zones.flatMap((zone) => facts.filter(({ path }) => path[0] === 'zones' && path[1] === zone)),
  ];
};

/** @param so the draft as far as it was answered: its refrigerant decides what the similar unit can tell of pressures */
export const equipmentQuestions = (
  draft: unknown,
  names: { readonly refrigerants: readonly string[]; readonly sensors: readonly string[] },
  so: Pick<Draft, 'value' | 'notKnown'> = { value: draft, notKnown: [] },
): readonly Question[] =>
  inOrder(draft, so.value).map(({ path, of, example, onStatic, form, choices, own }): Question => {
    const listed = of.endsWith('.refrigerant') ? names.refrigerants : of.endsWith('.sensor') ? names.sensors : (choices ?? []);
    return {
      path,
      code: codeOf(of),
      form: listed.length > 0 ? 'choice' : (form ?? 'text'),
      example: onStatic !== undefined && kindOf(draft, path)?.cooled === 'static' ? onStatic : example,
      choices: listed,
      similar: true,
      now: own || (isPressure(of) && !pressuresHold(so, draft)) ? undefined : at(draft, path),
      ...(of in SAFE ? { safe: { as: SAFE[of] } } : {}),
      ...(isPressure(of)
        ? { needed: rulesByPressure(draft), mayBeUnknown: true }
        : PLATE.includes(of)
          ? { needed: true, mayBeUnknown: true }
          : { needed: isNeeded(profileSchema, draft, path) }),
    };
  });

/** The draft without what only this very unit can say, so that nothing of the similar one slips through. */
export const withoutOwn = (draft: unknown): unknown =>
  ASKED.filter(({ own }) => own)
    .flatMap(({ of }) => meeting(draft, of.split('.')))
    .reduce<unknown>((all, path) => changed(all, path, undefined), draft);
