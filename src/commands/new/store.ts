/**
 * What is asked of a store: only what differs from its chain has to be said. Each unit has its own questions, more of them where it has a rail.
 */
import { sheetSizes } from '../../base/sheet-size.js';
import { storeSchema } from '../../model/store.js';
import { openWeek } from '../../plan/business-days.js';
import { checkZone } from '../../plan/checks-of-hours.js';
import { isListed } from '../../read/unknown.js';
import { isRail, ZONE_KINDS, type ZoneKindName } from '../../trade/zones.js';
import { isNeeded, type Form, type Question } from './question.js';
import { at, type Path } from './tree.js';

interface Asked {
  readonly of: string;
  readonly example: string;
  readonly form?: Form;
  readonly choices?: readonly string[];
  readonly ifOtherwise?: true;
}

const OF_STORE: readonly Asked[] = [
  { of: 'name', example: 'Copper Ferry' },
  { of: 'timezone', example: 'America/Chicago' },
  { of: 'hours', example: 'Su-Th 11:00-22:00; Fr-Sa 11:00-00:30' },
  { of: 'clock_shows', example: '12-hour', form: 'choice', choices: ['24-hour', '12-hour'] },
  { of: 'sheet', example: 'tabloid', form: 'choice', choices: sheetSizes },
  { of: 'quiet_window', example: '02:00-05:00' },
  { of: 'crew.comes', example: '90 min before opening' },
  { of: 'crew.leaves', example: '45 min after closing' },
  { of: 'crew.start_before_closing', example: '10 min, or 0 min where it may not' },
  { of: 'crew.first_pan', example: '30 min before opening' },
  { of: 'crew.closers', example: '2', form: 'number' },
  { of: 'crew.openers', example: '1', form: 'number' },
  { of: 'altitude', example: '590 ft' },
  // The hottest first: the usual one is held against it.
  { of: 'kitchen.hottest', example: '92 °F' },
  { of: 'kitchen.usual', example: '78 °F' },
  { of: 'backup', example: 'the walk-in cooler behind the dish room' },
  { of: 'phones.service.name', example: 'Frostwick Kitchen Service' },
  { of: 'phones.service.phone', example: '555-0142' },
  { of: 'phones.emergency', example: '911' },
  { of: 'phones.manager', example: '555-0103' },
];

const OF_UNIT: readonly Asked[] = [
  { of: 'nickname', example: 'Line 1' },
  { of: 'position', example: 'left of the grill' },
  { of: 'serial', example: 'OC15-20417' },
];

/** Where a rail's food may go: another unit of the store, and a zone of it or of its own. */
const OF_FOOD = (others: readonly string[], zones: readonly string[]): readonly Asked[] => [
  ...(others.length > 0 ? [{ of: 'food_goes_to.unit', example: 'cold-room', form: 'choice' as const, choices: others }] : []),
  { of: 'food_goes_to.zone', example: 'base', ...(zones.length > 0 ? { form: 'choice' as const, choices: zones } : {}) },
];

const OF_RAIL: readonly Asked[] = [
  { of: 'food_goes_to.free_shelf', example: '6 sq ft' },
  { of: 'food_goes_to.height', example: '6 in' },
  { of: 'heat', example: 'right', form: 'choice', choices: ['left', 'right'] },
];

/** Where nobody knew it when the profile was written, whoever stands at the unit is asked. */
const ofDrains = (profile: unknown): readonly Asked[] =>
  Object.entries(zonesOf(profile)).flatMap(([id, zone]): readonly Asked[] =>
    zone.rest !== undefined && (zone.drains === undefined || isListed(profile, `zones.${id}.drains`))
      ? [{ of: `differs.zones.${id}.drains`, example: 'by-itself', form: 'choice', choices: ['by-itself', 'by-hand'] }]
      : [],
  );

/** What was found before anybody set it: the clock is asked for, dials only where something was found otherwise, and who found it once there is something. */
const OF_CLOCK: Asked = { of: 'found.clock', example: '01:15-08:00, or sun-thu 23:30-06:30; sat-sun 01:30-08:00', form: 'clock' };
const OF_CLOCK_TIME = (['slow', 'fast'] as const).map((way): Asked => ({ of: `found.clock.${way}`, example: '40 min' }));
const OF_PRESSURE: readonly Asked[] = [
  { of: 'found.pressure.cut_in', example: '40 psig', ifOtherwise: true },
  { of: 'found.pressure.cut_out', example: '20 psig', ifOtherwise: true },
];
const OF_NOTES: Asked = { of: 'found.notes', example: 'cover of the clock missing', ifOtherwise: true };
const OF_FINDER: readonly Asked[] = [
  { of: 'found.when', example: '2026-11-12', form: 'date' },
  { of: 'found.who', example: 'R. Talavera' },
];

const codeOf = (of: string): string => of.replaceAll('.', '-').replaceAll('_', '-');

const question = (asked: Asked, path: Path, code: string, under: unknown, whole: unknown): Question => ({
  path,
  code,
  form: asked.form ?? 'text',
  example: asked.example,
  choices: asked.choices ?? [],
  now: at(under, path),
  needed: isNeeded(storeSchema, whole, path),
  ...(asked.ifOtherwise ? { ifOtherwise: asked.ifOtherwise } : {}),
  ...(asked.of === 'timezone'
    ? { faults: (value, where) => (typeof value === 'string' ? checkZone(value, where([])) : []) }
    : {}),
});

/** Only such a store is asked when its rails may rest. */
const neverCloses = (wrote: unknown): boolean => {
  const hours = storeSchema.shape.hours.safeParse(wrote);
  return hours.success && openWeek({ hours: hours.data }) === 'always';
};

/**
 * @param under the chain's and nightrail's own defaults, which hold where a store says nothing
 * @param whole the draft laid over them
 */
export const storeQuestions = (under: unknown, whole: unknown, so: unknown): readonly Question[] =>
  OF_STORE.filter(({ of }) => of !== 'quiet_window' || neverCloses(at(so, ['hours']))).map((asked) =>
    question(asked, asked.of.split('.'), codeOf(asked.of), under, whole),
  );

type Zones = Readonly<Record<string, Zone>>;

const zonesOf = (profile: unknown): Zones => (at(profile, ['zones']) ?? {}) as Zones;

/** Its zones that may take a rail's food, by their ids. */
const storing = (profile: unknown): readonly string[] =>
  Object.entries(zonesOf(profile)).flatMap(([id, { kind }]) =>
    kind !== undefined && kind in ZONE_KINDS && ZONE_KINDS[kind].stores ? [id] : [],
  );

interface Zone {
  readonly kind?: ZoneKindName;
  readonly control?: unknown;
  readonly drains?: unknown;
  readonly rest?: { readonly clock?: unknown };
}

/**
 * @param profiles of all units of the store, as their files have them
 * @param so the answers so far: once something is told as found, who found it has to be told too
 */
export const unitQuestions = (
  unit: string,
  profiles: ReadonlyMap<string, unknown>,
  under: unknown,
  whole: unknown,
  so: unknown,
): readonly Question[] => {
  const profile = profiles.get(unit);
  const zones = Object.entries(zonesOf(profile));
  const rail = zones.some(([, { kind }]) => kind !== undefined && kind in ZONE_KINDS && isRail(ZONE_KINDS[kind]));
  const others = [...profiles.keys()].filter((id) => id !== unit && storing(profiles.get(id)).length > 0);
  const goesTo = at(so, ['units', unit, 'food_goes_to', 'unit']);
  const takes = storing(typeof goesTo === 'string' && goesTo !== '' ? profiles.get(goesTo) : profile);
  const found = at(so, ['units', unit, 'found']) !== undefined;
  const clock = at(so, ['units', unit, 'found', 'clock']);
  const controls = zones.flatMap(([id, { control }]): readonly Asked[] =>
    control === undefined
      ? []
      : [
          { of: `found.control.${id}.cut_in`, example: '37 °F', ifOtherwise: true },
          { of: `found.control.${id}.cut_out`, example: '33 °F', ifOtherwise: true },
        ],
  );
  return [
    ...OF_UNIT,
    ...(rail ? [...OF_FOOD(others, takes), ...OF_RAIL] : []),
    ...ofDrains(profile),
    ...(zones.some(([, { rest }]) => rest?.clock !== undefined) ? [OF_CLOCK] : []),
    ...(clock === undefined ? [] : OF_CLOCK_TIME.slice(0, at(clock, ['slow']) === undefined ? 2 : 1)),
    ...(at(profile, ['control', 'pressure']) === undefined ? [] : OF_PRESSURE),
    ...controls,
    OF_NOTES,
    ...(found ? OF_FINDER : []),
  ].map((asked) => {
    const made = question(
      asked,
      ['units', unit, ...asked.of.split('.')],
      `unit-${codeOf(asked.of.replace(/^(found\.control|differs\.zones)\.[^.]+/, '$1'))}`,
      under,
      whole,
    );
    // Without a place for its food, a rail's plan is refused; and in its own bottom no other unit is named.
    const food = rail && asked.of === 'food_goes_to.zone';
    return food || OF_FINDER.includes(asked) ? { ...made, needed: true } : made;
  });
};
