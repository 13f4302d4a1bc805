/**
 * Amounts in the reader's units, rounded so that a reader errs to the safe side. The only table of who reads what in which unit.
 */
import { fromSI, symbol, type Amount, type Measure, type Quantity, type UnitName } from '../base/amount.js';
import type { Rounding } from '../base/basis.js';

const NBSP = '\u00a0';

const inUnits: Record<Measure, Record<Quantity, UnitName>> = {
  us: {
    temperature: '°F', difference: 'Δ°F', pressure: 'psia', gauge: 'psig', 'gauge-difference': 'Δpsi', duration: 'min', length: 'in', altitude: 'Δft', area: 'sq ft', volume: 'cu ft', mass: 'oz',
    resistance: 'kohm', power: 'hp', cooling: 'BTU/h', voltage: 'V', current: 'A', frequency: 'Hz', fraction: '%',
  },
  si: {
    temperature: '°C', difference: 'Δ°C', pressure: 'bar(a)', gauge: 'bar(g)', 'gauge-difference': 'Δbar', duration: 'min', length: 'mm', altitude: 'Δm', area: 'm²', volume: 'L', mass: 'g',
    resistance: 'kohm', power: 'W', cooling: 'ΔW', voltage: 'V', current: 'A', frequency: 'Hz', fraction: '%',
  },
}; // prettier-ignore

/** Units in which plates and dials are marked, each measure's own. */
const MARKED: Record<Measure, readonly UnitName[]> = { us: ['oz', 'lb', 'psig', 'inHg'], si: ['g', 'kg', 'bar(g)', 'kPa(g)'] };

/** A unit for the size of the thing: a room's length in feet, a pan's depth in inches; a platinum sensor in ohms, a thermistor in thousands. */
const unitFor = (a: Amount, measure: Measure): UnitName => {
  const usual = inUnits[measure][a.q];
  if (a.q === 'length' && a.si >= 1.5) return measure === 'us' ? 'ft' : 'm';
  if (a.q === 'mass' && a.si >= 2) return measure === 'us' ? 'lb' : 'kg';
  if (a.q === 'resistance' && a.si < 2000) return 'ohm';
  if (a.q === 'gauge' && a.si < 0 && measure === 'us') return 'inHg';
  return usual;
};

const DECIMALS: Partial<Record<UnitName, number>> = {
  'bar(g)': 2,
  'bar(a)': 2,
  Δbar: 2,
  'm²': 2,
  kohm: 2,
  // A sensor's volts; a supply's have no fraction.
  V: 3,
  W: 0,
  ΔW: 0,
  'BTU/h': 0,
  mm: 0,
  g: 0,
  oz: 2,
  min: 0,
  '%': 0,
  ft: 0,
  Δft: 0,
  Δm: 0,
  'cu ft': 0,
  'sq ft': 2,
  L: 0,
  m: 0,
};

const FRACTIONS: readonly (readonly [number, string])[] = [
  [1 / 8, '1/8'],
  [1 / 6, '1/6'],
  [1 / 5, '1/5'],
  [0.25, '1/4'],
  [1 / 3, '1/3'],
  [0.375, '3/8'],
  [0.5, '1/2'],
  [0.75, '3/4'],
];

const roundTo = (value: number, decimals: number, rounded: Rounding | undefined): number => {
  if (!rounded) {
    const factor = 10 ** decimals;
    return Math.round(value * factor) / factor;
  }
  // Rounded for safety: whole units, after taking off what binary fractions leave.
  const clean = Math.round(value * 1e6) / 1e6;
  return rounded === 'up' || rounded === 'later' ? Math.ceil(clean) : Math.floor(clean);
};

export interface Figures {
  readonly amount: (a: Amount, rounded?: Rounding) => string;
  /** In a named unit, whatever the reader's. */
  readonly inUnit: (a: Amount, unit: UnitName) => string;
  readonly span: (low: Amount, high: Amount) => string;
  readonly number: (n: number) => string;
}

const WHOLE: readonly (readonly [seconds: number, unit: 'weeks' | 'days' | 'h'])[] = [
  [604800, 'weeks'],
  [86400, 'days'],
  [3600, 'h'],
];

/** Units that readers have words for, by their name there: a Spanish `in` is a word of another meaning. Others are written alike everywhere. */
const WORDED: Partial<Record<UnitName, string>> = { in: 'in', ft: 'ft', Δft: 'ft', 'sq ft': 'sq-ft', 'cu ft': 'cu-ft' };

/** A minus as long as a dash: a hyphen before a figure is overlooked, and seven under zero read as seven. */
const MINUS = '\u2212';

/** By locale: making a format takes far longer than using it. */
const formats = new Map<string, Intl.NumberFormat>();

/**
 * @param locale BCP 47 tag for decimal marks
 * @param unitWord the reader's word for `weeks`, `days`, `h`, `min`, `s`, `months`, `in`, `ft`, `sq-ft`, `cu-ft` with its number, and for `to` between two figures
 */
export const figures = (measure: Measure, locale: string, unitWord: (unit: string, n: number) => string): Figures => {
  const format = formats.get(locale) ?? new Intl.NumberFormat(locale, { maximumFractionDigits: 3, useGrouping: false });
  formats.set(locale, format);
  const number = (n: number): string => format.format(n).replace('-', MINUS);
  const duration = (seconds: number, rounded?: Rounding): string => {
    const say = (n: number, unit: string): string => `${number(n)}${NBSP}${unitWord(unit, n)}`;
    if (seconds >= 2629746 * 0.9 && Math.abs(seconds / 2629746 - Math.round(seconds / 2629746)) < 0.001)
      return say(Math.round(seconds / 2629746), 'months');
    for (const [length, unit] of WHOLE)
      if (seconds >= length && seconds % length === 0 && (unit !== 'h' || seconds >= 2 * length))
        return say(seconds / length, unit);
    if (seconds < 120 && seconds % 60 !== 0) return say(roundTo(seconds, 0, rounded), 's');
    const minutes = roundTo(seconds / 60, 0, rounded ?? 'up');
    if (minutes <= 90) return say(minutes, 'min');
    return minutes % 60 === 0 ? say(minutes / 60, 'h') : `${say(Math.floor(minutes / 60), 'h')} ${say(minutes % 60, 'min')}`;
  };
  const figure = (a: Amount, rounded?: Rounding, wanted?: UnitName): { n: string; unit: string } => {
    const unit = wanted ?? unitFor(a, measure);
    const exact = a.printed?.[symbol(unit)];
    const word = WORDED[unit];
    const named = (n: number): string => (word === undefined ? symbol(unit) : unitWord(word, n));
    if (exact !== undefined) return { n: number(exact), unit: named(exact) };
    const value = fromSI(unit, a.si);
    const decimals = DECIMALS[unit] ?? (Math.abs(value) >= 100 ? 0 : 1);
    const fraction = unit === 'hp' ? FRACTIONS.find(([f]) => Math.abs(f - value) < 0.005)?.[1] : undefined;
    const round = roundTo(value, decimals, rounded);
    return { n: fraction ?? number(round), unit: named(round) };
  };
  const inUnit = (a: Amount, wanted?: UnitName, rounded?: Rounding): string => {
    const { n, unit } = figure(a, rounded, wanted);
    return `${n}${NBSP}${unit}`;
  };
  /** A charge, or what a dial is set to, in the reader's units, and beside it as the plate or the dial has it where that is of the others: no rounding between them. */
  const asMarked = (a: Amount, rounded?: Rounding): string => {
    const plate = Object.keys(a.printed ?? {})[0] as UnitName | undefined;
    if (plate === undefined) return inUnit(a, undefined, rounded);
    const own = MARKED[measure].includes(plate);
    return own ? inUnit(a, plate) : `${inUnit(a, undefined, rounded)} (${inUnit(a, plate)})`;
  };
  const amount = (a: Amount, rounded?: Rounding): string => {
    if (a.q === 'duration') return duration(a.si, rounded);
    if (a.q === 'mass' || a.q === 'gauge') return asMarked(a, rounded);
    return inUnit(a, undefined, rounded);
  };
  const span = (low: Amount, high: Amount): string => {
    if (low.si === high.si) return amount(low);
    if (low.q === 'duration') return `${amount(low)} – ${amount(high)}`;
    const [from, to] = [figure(low), figure(high)];
    // A dash beside a minus is read for another one.
    const dash = from.n.startsWith(MINUS) || to.n.startsWith(MINUS) ? unitWord('to', 2) : '–';
    return from.unit === to.unit
      ? `${from.n}${NBSP}${dash}${NBSP}${to.n}${NBSP}${to.unit}`
      : `${amount(low)} ${dash} ${amount(high)}`;
  };
  return { amount, inUnit, span, number };
};
