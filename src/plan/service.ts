/**
 * The technician's tables: head pressure over the air entering the condenser, the dial for a wanted air under the pans, and what a dial left alone
 * after a change of refrigerant, or as it was found, would mean. To look for a cause with, never a verdict.
 */
import { amount, of, type Amount, type Measure } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { error, note, warning, type Finding } from '../base/finding.js';
import { phrase, verbatim, type Phrase, type Value, type Verbatim } from '../base/value.js';
import type { PressureControl } from '../model/profile.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';
import { absoluteFromGauge, dialForMeanEvaporating, evaporatingAt, type Zero } from '../science/pressure-control.js';
import { dewTemperature, type Refrigerant } from '../science/saturation.js';
import { STRATEGIES } from '../trade/strategies.js';
import { dialled, dialledUnder } from './dial-steps.js';
import type { StoreFacts } from './facts.js';
import { computed, practice, written } from './known.js';
import type { UnitPhysics } from './physics/index.js';
import { headAt, overCurves, type pressures } from './pressures.js';
import { builtAs } from './refilled.js';

type Temperature = Known<Amount<'temperature'>>;
type Gauge = Known<Amount<'gauge'>>;

/** Air entering a condenser, from a cold room to a hot line: 60 to 110 °F, in steps of the reader's own unit. */
const AIR = {
  us: [60, 70, 80, 90, 100, 110].map((f) => of(f, '°F')),
  si: [15, 20, 25, 30, 35, 40].map((c) => of(c, '°C')),
} as const;
/** Steps of air under the pans, either side of what the dial gives now. */
const STEPS = [-4, -2, 0, 2, 4].map((f) => f / 1.8);

export interface HeadRow {
  readonly air: Temperature;
  readonly condensing: Temperature;
  readonly mean: Gauge;
  readonly bubble: Gauge;
  readonly dew: Gauge;
  /** Which of the store's own kitchens it is. */
  readonly day: Known<Phrase> | undefined;
  readonly [key: string]: Known<Value> | undefined;
}

/** Air no further apart than this is printed as one. */
const SAME_AIR = 0.5 / 1.8;

/** Rows of a table of air and the store's own kitchens, coldest first; of two with the same air, the store's own. */
const withKitchens = (rows: readonly HeadRow[], { usual, hottest }: ServiceContext['press']): readonly HeadRow[] => {
  const own = (row: typeof usual, code: string): readonly HeadRow[] => {
    if (!row) return [];
    const { air, condensing, mean, bubble, dew } = row;
    return [{ air, condensing, mean, bubble, dew, day: practice(phrase(`card.head-${code}`), 'trait') }];
  };
  return [...own(usual, 'usual'), ...own(hottest, 'hottest'), ...rows]
    .reduce<readonly HeadRow[]>(
      (all, row) => (all.some(({ air }) => Math.abs(air.value.si - row.air.value.si) <= SAME_AIR) ? all : [...all, row]),
      [],
    )
    .toSorted((a, b) => a.air.value.si - b.air.value.si);
};

const headTable = (r: Refrigerant, context: ServiceContext): readonly HeadRow[] => {
  const { facts, measure, press, refrigerant } = context;
  const { split } = press;
  if (!split) return [];
  return AIR[measure].flatMap((value): readonly HeadRow[] => {
    const found = headAt(r, practice(value, 'air-entering'), split, facts, refrigerant);
    if (!found) return [];
    const { air, condensing, mean, bubble, dew } = found;
    return [{ air, condensing, mean, bubble, dew, day: undefined }];
  });
};

export interface AirRow {
  readonly air: Temperature;
  readonly cut_in: Gauge;
  readonly cut_out: Gauge;
  readonly [key: string]: Known<Amount>;
}

const zeroOf = (control: PressureControl, facts: StoreFacts): Zero => ({
  reference: control.reference,
  altitude: facts.altitude.value.si,
});

/** Air stays as far over the coil as it is now: both ends of the dial move the coil by as much as the air is to move. */
const dialsForAir = (r: Refrigerant, control: PressureControl, context: ServiceContext): readonly AirRow[] => {
  const { facts, measure, physics, press, refrigerant } = context;
  const air = physics.tree?.air;
  const [cutIn, cutOut] = [press.dial?.cut_in, press.dial?.cut_out];
  if (!air || !cutIn || !cutOut) return [];
  const zero = zeroOf(control, facts);
  const coil = (end: typeof cutIn) => evaporatingAt(r, end.dial.value.si, { ...zero, altitude: 0 })?.mean;
  const [high, low] = [coil(cutIn), coil(cutOut)];
  if (high === undefined || low === undefined) return [];
  return STEPS.flatMap((step): readonly AirRow[] => {
    const [on, off] = [dialForMeanEvaporating(r, high + step, zero), dialForMeanEvaporating(r, low + step, zero)];
    if (on === undefined || off === undefined) return [];
    const wanted: Temperature = computed(amount('temperature', air.value.si + step), 'air-step', [air]);
    const gauge = (si: number): Gauge =>
      computed(dialled(si, measure), 'dial-for-air', [wanted, air, cutIn.dial, cutOut.dial, refrigerant, facts.altitude]);
    return [{ air: wanted, cut_in: gauge(on), cut_out: gauge(off) }];
  });
};

export interface MeantRow {
  /** Cut-in or cut-out. */
  readonly end: Known<Phrase>;
  readonly dial: Gauge;
  /** What it stood for with the old refrigerant, at sea level. */
  readonly was: Temperature | undefined;
  /** What it stands for here, with the refrigerant that is in the unit. */
  readonly is: Temperature;
  readonly [key: string]: Known<Amount> | Known<Phrase> | undefined;
}

const END = { cut_in: 'card.cut-in', cut_out: 'card.cut-out' } as const;
const endName = (key: keyof typeof END): Known<Phrase> => practice(phrase(END[key]), 'trait');

/** What a pressure control that was left alone means with another refrigerant. */
const leftAlone = (r: Refrigerant, { shelf, unit, facts, refrigerant }: ServiceContext) => {
  const built = builtAs(shelf, unit, 0);
  const old = built && shelf.refrigerants.get(built.refrigerant)?.value;
  const dial = built?.made.control.pressure;
  if (!built || !old || !dial || built.refrigerant === r.name) return undefined;
  const at = (...path: (string | number)[]) => ({ at: { ...built.at, path }, assumed: false });
  const from: Known<Verbatim> = written(verbatim(built.refrigerant), at('nameplate', 'circuits', 0, 'refrigerant'));
  const row = (key: 'cut_in' | 'cut_out'): readonly MeantRow[] => {
    const gauge: Gauge = written(dial[key], at('control', 'pressure', key));
    const was = evaporatingAt(old, dial[key].si, { reference: dial.reference, altitude: 0 })?.mean;
    const is = evaporatingAt(r, dial[key].si, zeroOf(dial, facts))?.mean;
    if (is === undefined || was === undefined) return [];
    const temperature = (si: number, of: Known<unknown>): Temperature =>
      computed(amount('temperature', si), 'dial-mean', [gauge, of, facts.altitude]);
    return [{ end: endName(key), dial: gauge, was: temperature(was, from), is: temperature(is, refrigerant) }];
  };
  return { from, to: refrigerant, rows: [...row('cut_in'), ...row('cut_out')] };
};

/** What the settings that were found on the unit meant. */
const asFoundMeant = (r: Refrigerant, { read, unit, facts, press, refrigerant }: ServiceContext): readonly MeantRow[] => {
  const found = unit.unit.found?.pressure;
  const dial = unit.profile.control.pressure;
  if (!found || !dial) return [];
  const zero = press.dial ? [press.dial.reference] : [];
  return (['cut_in', 'cut_out'] as const).flatMap((key): readonly MeantRow[] => {
    const set = found[key];
    const is = set && evaporatingAt(r, set.si, zeroOf(dial, facts))?.mean;
    if (set === undefined || is === undefined) return [];
    const gauge: Gauge = written(set, read('found', 'pressure', key));
    const mean: Temperature = computed(amount('temperature', is), 'dial-mean', [gauge, refrigerant, ...zero, facts.altitude]);
    return [{ end: endName(key), dial: gauge, was: undefined, is: mean }];
  });
};

/** The mean evaporating temperature is known to dew of a warm room; over that dew alone tells that no coil is so warm. */
const coilAt = (r: Refrigerant, gauge: number, { reference }: PressureControl): number | undefined => {
  const zero: Zero = { reference, altitude: 0 };
  const pressure = absoluteFromGauge(gauge, zero);
  return evaporatingAt(r, gauge, zero)?.mean ?? (pressure === undefined ? undefined : dewTemperature(r, pressure));
};

/** Where a pump-down control starts at a warmer coil than that at which a thermostat stops. */
const overBox = (r: Refrigerant, control: PressureControl, { profile }: ReadUnit) => {
  const starts = coilAt(r, control.cut_in.si, control);
  const [coldest] = Object.values(profile.zones)
    .flatMap((zone) => (zone.control ? [zone.control.cut_out] : []))
    .sort((a, b) => a.si - b.si);
  if (starts === undefined || !coldest || starts < coldest.si) return undefined;
  return { coil: amount('temperature', starts), air: coldest };
};

/** What the coil must be for the unit to work at all. */
const checks = (r: Refrigerant, control: PressureControl, { unit, facts }: ServiceContext): readonly Finding[] => {
  const at = unit.originOf('control', 'pressure').at;
  const [starts, stops] = [coilAt(r, control.cut_in.si, control), coilAt(r, control.cut_out.si, control)];
  if (starts === undefined || stops === undefined) return [];
  const kitchen = facts.kitchen.usual.value;
  const coil = (si: number) => amount('temperature', si);
  if (starts >= kitchen.si) return [error('evaporating-over-kitchen', at, { coil: coil(starts), kitchen })];
  const zones = Object.entries(unit.profile.zones);
  if (STRATEGIES[unit.profile.control.strategy].pressureControl === 'temperature') {
    const [, rail] = zones.find(([, zone]) => zone.rest) ?? [];
    if (rail?.air && stops >= rail.air.high.si)
      return [warning('coil-not-colder', at, { coil: coil(stops), air: rail.air.high })];
    return [];
  }
  const unchecked = zones.flatMap(([zone]) =>
    unit.unknown.includes(`zones.${zone}.control`) ? [warning('safety-not-checked', at, { zone })] : [],
  );
  const over = overBox(r, control, unit);
  if (!over) return unchecked;
  const meets = dialForMeanEvaporating(r, over.air.si, { reference: control.reference, altitude: 0 });
  const most = meets === undefined ? {} : { most: dialledUnder(meets, control.cut_in) };
  return [warning('safety-over-box', at, { ...over, ...most }), ...unchecked];
};

export interface ServiceContext {
  readonly shelf: Shelf;
  readonly unit: ReadUnit;
  readonly facts: StoreFacts;
  readonly physics: UnitPhysics;
  readonly press: Omit<ReturnType<typeof pressures>, 'findings'>;
  readonly refrigerant: Known<Value>;
  readonly measure: Measure;
  /** Where a value of the unit was written in its store. */
  readonly read: (...path: string[]) => Parameters<typeof written>[1];
}

const overBoxSays = (r: Refrigerant, control: PressureControl, { unit, press, refrigerant }: ServiceContext) => {
  const over = overBox(r, control, unit);
  if (!over || !press.dial) return undefined;
  const from = [refrigerant, press.dial.cut_in.dial];
  const figures = {
    coil: computed<Amount>(over.coil, 'dial-mean', from),
    air: computed<Amount>(over.air, 'coldest-thermostat', []),
  };
  return { ...figures, says: practice(phrase('card.over-box', figures), 'safety-over-box') };
};

export const service = (r: Refrigerant | undefined, context: ServiceContext) => {
  const control = context.unit.profile.control.pressure;
  if (!r) return { heads: [], for_air: [], left_alone: undefined, over_box: undefined, found: [], findings: [] };
  const rules = STRATEGIES[context.unit.profile.control.strategy].pressureControl === 'temperature';
  const heads = headTable(r, context);
  // The hottest rows of a refrigerant near its critical point have no figure.
  const { split } = context.press;
  const untold = AIR[context.measure].find((air) => !heads.some((row) => row.air.value.si === air.si));
  const short =
    split && untold
      ? [note('outside-curves-head', context.unit.originOf('condensing', 'split').at, overCurves(r, untold, split.value))]
      : [];
  return {
    heads: withKitchens(heads, context.press),
    for_air: control && rules ? dialsForAir(r, control, context) : [],
    left_alone: leftAlone(r, context),
    over_box: control && !rules ? overBoxSays(r, control, context) : undefined,
    found: asFoundMeant(r, context),
    findings: [...short, ...(control ? checks(r, control, context) : [])],
  };
};
