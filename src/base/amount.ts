/**
 * A number that knows what it is. SI inside; people's units are read (`parseAmount`) and said (`say`) from the one table here.
 * Adding a unit of measure is adding a line to UNITS.
 */
export type Quantity =
  | 'temperature' // K
  | 'difference' // K, of two temperatures
  | 'pressure' // Pa absolute
  | 'gauge' // Pa above the zero that its gauge or control was set against
  | 'gauge-difference' // Pa between two gauge pressures
  | 'duration' // s
  | 'length' // m
  | 'altitude' // m above the sea
  | 'area' // m²
  | 'volume' // m³
  | 'mass' // kg
  | 'resistance' // ohm
  | 'power' // W
  | 'cooling' // W of heat carried away
  | 'voltage' // V
  | 'current' // A
  | 'frequency' // Hz
  | 'fraction'; // 1

/** In whose units a paper is: °F and psig, or °C and bar. */
export const measures = ['us', 'si'] as const;
export type Measure = (typeof measures)[number];

export interface Amount<Q extends Quantity = Quantity> {
  readonly q: Q;
  readonly si: number;
  /** The figure as its source prints it, by unit: a law's own pair (41 °F and 5 °C), a nameplate's charge; never converted. */
  readonly printed?: Readonly<Record<string, number>>;
}

export const amount = <Q extends Quantity>(q: Q, si: number): Amount<Q> => ({ q, si });

interface Unit {
  readonly q: Quantity;
  /** SI = value * scale + zero. */
  readonly scale: number;
  readonly zero: number;
  /** Other spellings that people write. */
  readonly spellings: readonly string[];
}

const unit = <Q extends Quantity>(q: Q, scale: number, spellings: string[] = [], zero = 0): Unit & { readonly q: Q } => ({
  q,
  scale,
  zero,
  spellings,
});

export const PSI = 6894.757293168361;
const FEET = 0.3048;
const INCH = 0.0254;

/** The one table of units: the key is how the unit is printed. Definitions are exact (international inch and pound); horsepower is the mechanical one. */
export const UNITS = {
  '°F': unit('temperature', 5 / 9, ['F', 'ºF', 'degF'], 459.67 * (5 / 9)),
  '°C': unit('temperature', 1, ['C', 'ºC', 'degC'], 273.15),
  'Δ°F': unit('difference', 5 / 9, ['°F', 'F', 'ºF', 'degF']),
  'Δ°C': unit('difference', 1, ['°C', 'C', 'ºC', 'degC', 'K']),
  psia: unit('pressure', PSI, ['psi(a)']),
  'bar(a)': unit('pressure', 1e5, ['bara']),
  'kPa(a)': unit('pressure', 1e3, ['kPaa']),
  psig: unit('gauge', PSI, ['psi(g)']),
  'bar(g)': unit('gauge', 1e5, ['barg']),
  'kPa(g)': unit('gauge', 1e3, ['kPag']),
  // A vacuum below the zero of the gauge: 4 inHg is 4 inches of mercury (at 0 °C) under it.
  inHg: unit('gauge', -3386.389, ['in Hg', 'inHg vac']),
  // Between two pressures; neither has a zero of its own.
  Δpsi: unit('gauge-difference', PSI, ['psi']),
  Δbar: unit('gauge-difference', 1e5, ['bar']),
  s: unit('duration', 1, ['sec', 'second', 'seconds']),
  min: unit('duration', 60, ['minute', 'minutes', 'mins']),
  h: unit('duration', 3600, ['hr', 'hrs', 'hour', 'hours']),
  days: unit('duration', 86400, ['d', 'day']),
  weeks: unit('duration', 604800, ['week', 'wk']),
  months: unit('duration', 2629746, ['month']),
  years: unit('duration', 31556952, ['year', 'yr']),
  in: unit('length', INCH, ['"', 'inch', 'inches']),
  ft: unit('length', FEET, ["'", 'foot', 'feet']),
  mm: unit('length', 0.001),
  cm: unit('length', 0.01),
  m: unit('length', 1, ['metre', 'metres', 'meter', 'meters']),
  // Written like any length, and said in feet or metres however small it is.
  Δft: unit('altitude', FEET, ['ft', "'", 'foot', 'feet']),
  Δm: unit('altitude', 1, ['m', 'metre', 'metres', 'meter', 'meters']),
  'sq ft': unit('area', FEET * FEET, ['ft2', 'ft²']),
  'sq in': unit('area', INCH * INCH, ['in2', 'in²']),
  'm²': unit('area', 1, ['m2', 'sq m']),
  'cu ft': unit('volume', FEET ** 3, ['ft3', 'ft³']),
  L: unit('volume', 0.001, ['l', 'litre', 'litres', 'liter', 'liters']),
  qt: unit('volume', 0.000946352946, ['quart', 'quarts']),
  oz: unit('mass', 0.028349523125, ['ounce', 'ounces']),
  lb: unit('mass', 0.45359237, ['lbs', 'pound', 'pounds']),
  g: unit('mass', 0.001),
  kg: unit('mass', 1),
  ohm: unit('resistance', 1, ['ohms', 'Ω']),
  kohm: unit('resistance', 1000, ['kohms', 'kΩ', 'k']),
  W: unit('power', 1),
  kW: unit('power', 1000),
  hp: unit('power', 745.6998715822702),
  // The International Table BTU. Watts of cooling are written like a motor's, and are another quantity.
  'BTU/h': unit('cooling', 0.2930710701722222, ['BTUH', 'BTU/hr']),
  ΔW: unit('cooling', 1, ['W']),
  ΔkW: unit('cooling', 1000, ['kW']),
  V: unit('voltage', 1, ['volt', 'volts']),
  A: unit('current', 1, ['amp', 'amps', 'ampere', 'amperes']),
  Hz: unit('frequency', 1, ['hertz']),
  '%': unit('fraction', 0.01, ['percent', '% RH']),
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof UNITS;

export const toSI = (unitName: UnitName, value: number): number => value * UNITS[unitName].scale + UNITS[unitName].zero;
export const fromSI = (unitName: UnitName, si: number): number => (si - UNITS[unitName].zero) / UNITS[unitName].scale;

/** The unit's name as a reader sees it: a difference is printed with the plain degree sign, cooling with the plain watt. */
export const symbol = (unitName: UnitName): string => unitName.replace('Δ', '');

/** Builds an amount in a person's unit: `of(41, '°F')`. */
export const of = <U extends UnitName>(value: number, unitName: U): Amount<(typeof UNITS)[U]['q']> =>
  amount<(typeof UNITS)[U]['q']>(UNITS[unitName].q, toSI(unitName, value));

const unitNames = Object.keys(UNITS) as UnitName[];

const spellingsOf = (name: UnitName): readonly string[] => [symbol(name), ...UNITS[name].spellings].map((s) => s.toLowerCase());

/** Units of pressure without their zero: psi for psi(a) and psi(g). */
const WITHOUT_ZERO: ReadonlySet<string> = new Set(
  unitNames.flatMap(spellingsOf).flatMap((spelling) => /^(.+)\([ag]\)$/.exec(spelling)?.[1] ?? []),
);

const finder = (q: Quantity): ReadonlyMap<string, UnitName> => {
  const found = new Map<string, UnitName>();
  for (const name of unitNames) {
    if (UNITS[name].q !== q) continue;
    for (const spelling of spellingsOf(name)) found.set(spelling, name);
  }
  return found;
};

const finders = new Map<Quantity, ReadonlyMap<string, UnitName>>();
const unitsOf = (q: Quantity): ReadonlyMap<string, UnitName> => {
  const known = finders.get(q) ?? finder(q);
  finders.set(q, known);
  return known;
};

/** Why a text is not an amount of the quantity asked for; the words are in words/ under `findings`. */
export type AmountFault =
  | { readonly fault: 'no-number' }
  | { readonly fault: 'no-unit' }
  | { readonly fault: 'unknown-unit'; readonly unit: string }
  | { readonly fault: 'wrong-quantity'; readonly unit: string; readonly is: Quantity }
  | { readonly fault: 'no-zero'; readonly unit: string } // bare psi, bar, kPa: gauge or absolute?
  // The whole text without groups; and with the sign as a decimal one, where it may be that.
  | { readonly fault: 'thousands'; readonly whole: string; readonly decimal?: string }
  // A span whose ends stand the wrong way round, or with a hyphen, which is a minus; and how such a span is written.
  | { readonly fault: 'span'; readonly instead: string }
  | { readonly fault: 'out-of-range' };

export type Parsed<T> = { readonly ok: true; readonly value: T } | ({ readonly ok: false } & AmountFault);

const NUMBER = String.raw`[-−+]?(?:\d+[.,]?\d*|[.,]\d+)(?:\s?\d+/\d+|/\d+)?`;
const PART = new RegExp(String.raw`^\s*(${NUMBER})\s*`);

/** Figures in groups of three, as one country parts thousands and another decimals: `5,100`, `1.234.567`, `5 100`, `5,100.5`. */
const GROUPED =
  /(?<![\d.,/])(?<groups>[1-9]\d{0,2}(?<sign>[.,\s])\d{3}(?<more>\k<sign>\d{3})*)(?:(?!\k<sign>)[.,](?<tail>\d+))?(?![\d/]|[.,]\d)/g;

/** Nobody writes these to a thousandth, so three figures after a dot are a group too. A pressure or a point of a curve may have three. */
const DOT_PARTS_GROUPS: Partial<Record<Quantity, RegExp>> = { altitude: /./, cooling: /btu|[^k]w/i };

/**
 * What a text with figures in groups of three may say, `5,100 ft`: too much hangs on it to guess.
 * @returns undefined where each number can be one only: `5,3 oz`, `0,125 in`, `1.234 kohm`
 */
export const inGroups = (q: Quantity, text: string): (AmountFault & { readonly fault: 'thousands' }) | undefined => {
  const dotParts = DOT_PARTS_GROUPS[q]?.test(text) ?? false;
  let [some, doubtful] = [false, false];
  const written = (decimal: boolean): string =>
    text.trim().replace(GROUPED, (number, ...rest) => {
      const { groups, sign, more, tail } = rest.at(-1) as Record<string, string | undefined>;
      const oneGroup = more === undefined && tail === undefined && sign !== undefined && /[.,]/.test(sign);
      if (oneGroup && sign === '.' && !dotParts) return number;
      [some, doubtful] = [true, doubtful || oneGroup];
      if (oneGroup && decimal) return String(Number(number.replace(',', '.')));
      return (groups as string).replace(/\D/g, '') + (tail === undefined ? '' : `.${tail}`);
    });
  const whole = written(false);
  if (!some) return undefined;
  // What nobody writes to a thousandth is not proposed so.
  return doubtful && !dotParts ? { fault: 'thousands', whole, decimal: written(true) } : { fault: 'thousands', whole };
};

const readNumber = (text: string): number => {
  const plain = text.replace('−', '-').replace(',', '.').trim();
  const mixed = /^([-+]?)(?:(\d+)\s)?(\d+)\/(\d+)$/.exec(plain);
  if (mixed) {
    const sign = mixed[1] === '-' ? -1 : 1;
    return sign * (Number(mixed[2] ?? 0) + Number(mixed[3]) / Number(mixed[4]));
  }
  return Number(plain);
};

const quantityOf = (spelling: string): Quantity | undefined => {
  const name = unitNames.find((n) => spellingsOf(n).includes(spelling));
  return name && UNITS[name].q;
};

const readUnit = (q: Quantity, written: string): Parsed<UnitName> => {
  const spelling = written.trim().replace(/\s+/g, ' ').toLowerCase();
  if (spelling === '') return { ok: false, fault: 'no-unit' };
  const known = unitsOf(q).get(spelling);
  if (known) return { ok: true, value: known };
  if ((q === 'gauge' || q === 'pressure') && WITHOUT_ZERO.has(spelling)) {
    return { ok: false, fault: 'no-zero', unit: written.trim() };
  }
  const other = quantityOf(spelling);
  return other
    ? { ok: false, fault: 'wrong-quantity', unit: written.trim(), is: other }
    : { ok: false, fault: 'unknown-unit', unit: written.trim() };
};

/** Colder and warmer than anything in a kitchen or its machines, K: from -150 to 400 °F. */
const TEMPERATURES = { least: 172, most: 478 } as const;

/** Nothing is, weighs, holds or draws nothing; these may be nought. */
const MAY_BE_NOUGHT: readonly Quantity[] = [
  'duration',
  'length',
  'altitude',
  'area',
  'fraction',
  'voltage',
  'resistance',
  'difference',
  'gauge-difference',
];

/** Absolute zero, an unbounded weight and the like never pass for a figure. */
const possible = (q: Quantity, si: number): boolean => {
  if (!Number.isFinite(si) || Math.abs(si) >= 1e12) return false;
  if (q === 'temperature') return si >= TEMPERATURES.least && si <= TEMPERATURES.most;
  return q === 'gauge' || si > 0 || (si === 0 && MAY_BE_NOUGHT.includes(q));
};

const keepsItsUnit = (q: Quantity): boolean => q === 'mass' || q === 'gauge';

/**
 * Reads what a person writes: `41 °F`, `14 psig`, `1 h 30 min`, `1/2 hp`, `4 in`.
 * @param q the quantity that is wanted; `41 °F` is a temperature or a difference as asked.
 * @returns the amount in SI, or why it is none. Never throws.
 */
export const parseAmount = <Q extends Quantity>(q: Q, text: string): Parsed<Amount<Q>> => {
  const grouped = inGroups(q, text);
  if (grouped) return { ok: false, ...grouped };
  let rest = text.trim();
  let total = 0;
  let parts = 0;
  let wrote: Readonly<Record<string, number>> = {};
  while (rest !== '') {
    const number = PART.exec(rest);
    if (!number) return parts === 0 ? { ok: false, fault: 'no-number' } : { ok: false, fault: 'unknown-unit', unit: rest };
    rest = rest.slice(number[0].length);
    // A sign belongs to a whole figure, never to one of its parts, and how long a thing lasts has none; nor has a vacuum.
    if (/^[-−+]/.test(number[1] as string) && (q === 'duration' || /^\s*in\s?Hg/.test(rest)))
      return { ok: false, fault: 'out-of-range' };
    // `1 h 30 min` is the one form of several parts; every other quantity takes all the rest as its unit.
    const written = q === 'duration' ? (/^[^\d+\-−.,]*/.exec(rest)?.[0] ?? '') : rest;
    rest = rest.slice(written.length);
    const found = readUnit(q, written);
    if (!found.ok) return found;
    const value = readNumber(number[1] as string);
    total += toSI(found.value, value);
    wrote = { [symbol(found.value)]: value };
    parts += 1;
  }
  if (parts === 0) return { ok: false, fault: 'no-number' };
  if (!possible(q, total)) return { ok: false, fault: 'out-of-range' };
  // A charge is weighed as the nameplate prints it, and a dial is set as it is marked: no rounding between their units.
  return { ok: true, value: keepsItsUnit(q) && parts === 1 ? { ...amount(q, total), printed: wrote } : amount(q, total) };
};

/** A span of amounts, `18 to 22 °F`; a single figure is a span of one. */
export interface Span<Q extends Quantity = Quantity> {
  readonly low: Amount<Q>;
  readonly high: Amount<Q>;
}

/** One end of a span: a figure, and a unit where it has one of its own. */
const END = String.raw`\s*(${NUMBER})\s*([^\d\s-−-]*)\s*`;
const HYPHENED = new RegExp(`^${END}[-−]${END}$`);
const SPAN = new RegExp(`^${END}(?:to|–)${END}$`);

/** A span of two figures as it is written: the lower first, with the unit of either, or the quantity's first. */
const asSpan = (q: Quantity, [, first, its, second, unit]: RegExpExecArray): AmountFault | undefined => {
  const named = unit || its || '';
  const found = named === '' ? undefined : readUnit(q, named);
  if (found?.ok === false || (unit && its && unit !== its)) return undefined;
  const name = found?.ok ? found.value : (unitNames.find((one) => UNITS[one].q === q) as UnitName);
  const [low, high] = [first, second].map((one) => one as string).sort((a, b) => readNumber(a) - readNumber(b));
  return { fault: 'span', instead: `${low} to ${high} ${symbol(name)}` };
};

/** Reads `18 to 22 °F`, `18 °F to 22 °F` or `20 °F`. */
export const parseSpan = <Q extends Quantity>(q: Q, text: string): Parsed<Span<Q>> => {
  const grouped = inGroups(q, text);
  if (grouped) return { ok: false, ...grouped };
  const [first, second, ...more] = text.split(/\s+to\s+|\s*–\s*/);
  if (more.length > 0 || first === undefined) return { ok: false, fault: 'no-number' };
  if (second === undefined) {
    const only = parseAmount(q, first);
    if (only.ok) return { ok: true, value: { low: only.value, high: only.value } };
    const hyphened = HYPHENED.exec(text);
    return { ...only, ...(hyphened ? asSpan(q, hyphened) : {}), ok: false };
  }
  const high = parseAmount(q, second);
  if (!high.ok) return high;
  const bare = new RegExp(`^\\s*${NUMBER}\\s*$`).test(first);
  const low = parseAmount(q, bare ? `${first} ${/[^\d\s.,+\-−/].*$/.exec(second)?.[0] ?? ''}` : first);
  if (!low.ok) return low;
  if (low.value.si <= high.value.si) return { ok: true, value: { low: low.value, high: high.value } };
  const turned = SPAN.exec(text);
  return { ok: false, ...((turned && asSpan(q, turned)) ?? { fault: 'out-of-range' }) };
};
