/**
 * `nightrail saturation`: what a pressure or a temperature of a refrigerant stands for: both ends of the glide, and what each is used for.
 */
import { amount, fromSI, parseAmount, type Amount, type AmountFault, type UnitName } from '../base/amount.js';
import { error, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import { place } from '../base/place.js';
import { readWords } from '../fleet/workshop.js';
import { findChain, readFiles } from '../host/disk.js';
import { makeTerminal, showFinding, spoken, type Terminal } from '../host/terminal.js';
import { makeReader, readRefrigerants, SHIPPED, type Files } from '../read/reader.js';
import { figures } from '../say/figures.js';
import { findingWords } from '../say/findings.js';
import { speaker } from '../say/speaker.js';
import { absoluteFromGauge, gaugeFromAbsolute, zeroPressure, type Zero } from '../science/pressure-control.js';
import { pressureLimits, pressuresAt, temperaturesAt, type Glide } from '../science/glide.js';
import type { Refrigerant } from '../science/saturation.js';
import { EXIT } from './shared/exit.js';

export interface SaturationOptions {
  readonly chain?: string;
  readonly json?: boolean;
  readonly altitude?: string;
  readonly sealed?: boolean;
}

/** What a person typed is a place too. */
const TYPED = place('command line');

/** What each figure is for, in the order in which it is told. */
const USES: readonly (readonly [keyof Glide, string, string])[] = [
  ['dew', 'dew', 'superheat counts from it'],
  ['meanEvaporating', 'mean evaporating', 'what a pressure control on the suction side stands for'],
  ['inlet', 'coil inlet', 'liquid at 95 °F, throttled to this pressure'],
  ['meanCondensing', 'mean condensing', 'air entering the condenser plus the split; head pressure'],
  ['bubble', 'bubble', 'subcooling counts from it'],
];

/** Names as people type them: `r448a`, `448A`, `R-448A`. */
const plain = (name: string): string =>
  name
    .toUpperCase()
    .replace(/[^A-Z0-9]/g, '')
    .replace(/^R/, '');

const named = (wrote: string, all: ReadonlyMap<string, { readonly value: Refrigerant }>): Refrigerant | Finding => {
  const names = [...all.keys()];
  const found = names.find((name) => plain(name) === plain(wrote));
  if (found !== undefined) return (all.get(found) as { value: Refrigerant }).value;
  return error('unknown-refrigerant', TYPED, { wrote, ...suggestion(wrote, names) });
};

type Asked = Amount<'temperature'> | Amount<'gauge'> | Amount<'pressure'>;

const FORMS = ['24 psig', '4 inHg', '38.7 psia', '1.7 bar(g)', '20 °F'];

/** Why a text is no amount, as a finding. */
const notRead = (
  fault: { readonly ok: false } & AmountFault,
  wrote: string,
  quantity: string,
  forms: readonly string[],
): Finding => {
  const { ok: _, fault: code, ...data } = fault;
  return error(`amount-${code}`, TYPED, { ...data, wrote, quantity, forms });
};

const read = (wrote: string): Asked | Finding => {
  const gauge = parseAmount('gauge', wrote);
  if (gauge.ok) return gauge.value;
  for (const q of ['pressure', 'temperature'] as const) {
    const other = parseAmount(q, wrote);
    if (other.ok) return other.value;
  }
  return notRead(gauge, wrote, 'pressure or temperature', FORMS);
};

/** What to write in its place, below the sea too. */
const signed = <F extends AmountFault>(fault: F): F =>
  fault.fault === 'thousands'
    ? { ...fault, whole: `-${fault.whole}`, ...(fault.decimal === undefined ? {} : { decimal: `-${fault.decimal}` }) }
    : fault;

const heightOf = (wrote: string): Amount<'altitude'> | Finding => {
  // A store may stand below the sea; a length by itself is never negative.
  const below = wrote.trim().startsWith('-');
  const parsed = parseAmount('altitude', below ? wrote.trim().slice(1) : wrote);
  if (!parsed.ok) return notRead(below ? signed(parsed) : parsed, wrote, 'altitude', ['5280 ft', '1600 m']);
  return amount('altitude', below ? -parsed.value.si : parsed.value.si);
};

const isFinding = (x: object): x is Finding => 'severity' in x;

const columns = (rows: readonly (readonly string[])[]): readonly string[] => {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
  return rows.map((row) =>
    `  ${row.map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0))).join('   ')}`.trimEnd(),
  );
};

const say = figures('us', 'en', (unit) => unit);
const inUnit = (unit: UnitName, si: number, decimals: number): string => `${fromSI(unit, si).toFixed(decimals)} ${unit}`;

const temperatureCells = (kelvin: number): readonly string[] => [inUnit('°F', kelvin, 1), inUnit('°C', kelvin, 1)];

/** Gauge where there is a zero to count from, and absolute. */
const pressureCells = (pascal: number, zero: Zero): readonly string[] => {
  const gauge = gaugeFromAbsolute(pascal, zero);
  return [
    gauge === undefined ? '' : say.amount(amount('gauge', gauge)).replace('\u00a0', ' '),
    inUnit('psia', pascal, 1),
    inUnit('bar(a)', pascal, 2),
  ];
};

/** A finding in words, without opening the chain: what was typed has nothing to do with its files. */
const tell = (findings: readonly Finding[], files: Files, terminal: Terminal, json: boolean): number => {
  const words = readWords(makeReader(files)).words.get('en');
  const reader = words && speaker(words, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon' });
  const wordsOf = (finding: Finding) =>
    words && reader ? findingWords(finding, words, reader) : { says: finding.code, hint: undefined };
  if (json) terminal.line(JSON.stringify({ findings: findings.map((f) => spoken(f, wordsOf(f), new Map())) }, null, 2));
  else for (const finding of findings) terminal.line(showFinding(finding, wordsOf(finding), new Map(), terminal));
  return EXIT.findings;
};

export const saturation = (refrigerant: string, parts: readonly string[], options: SaturationOptions): number => {
  const terminal = makeTerminal();
  const files = readFiles(findChain(options.chain ?? '.'), SHIPPED);
  const r = named(refrigerant, readRefrigerants(makeReader(files)));
  const asked = read(parts.join(' '));
  const altitude = options.altitude === undefined ? amount('altitude', 0) : heightOf(options.altitude);
  const wrong = [r, asked, altitude].filter(isFinding);
  if (isFinding(r) || isFinding(asked) || isFinding(altitude)) return tell(wrong, files, terminal, options.json === true);

  const zero: Zero = { reference: options.sealed ? 'sealed' : 'atmosphere', altitude: altitude.si };
  const nought = zeroPressure(zero);
  if (nought === undefined)
    return tell([error('altitude-out-of-range', TYPED, { altitude })], files, terminal, options.json === true);
  const pressure = asked.q === 'gauge' ? absoluteFromGauge(asked.si, zero) : asked.si;
  const found: Glide | undefined =
    asked.q === 'temperature' ? pressuresAt(r, asked.si) : pressure === undefined ? undefined : temperaturesAt(r, pressure);
  if (found === undefined || USES.every(([key]) => found[key] === undefined)) {
    const [low, high] = pressureLimits(r).map((pascal) => amount('pressure', pascal));
    const finding = error('outside-saturation', TYPED, {
      wrote: parts.join(' '),
      refrigerant: r.name,
      low: low as Amount,
      high: high as Amount,
    });
    return tell([finding], files, terminal, options.json === true);
  }
  if (options.json) {
    const figuresOf = Object.fromEntries(USES.map(([key]) => [key, found[key] ?? null]));
    terminal.line(
      JSON.stringify(
        {
          refrigerant: r.name,
          asked,
          altitude,
          zero: amount('pressure', nought),
          ...(asked.q === 'temperature'
            ? { pascal: figuresOf }
            : { pressure: amount('pressure', pressure as number), kelvin: figuresOf }),
        },
        null,
        2,
      ),
    );
    return EXIT.fine;
  }
  const where = `${options.sealed ? 'sealed gauge' : altitude.si === 0 ? 'sea level' : say.amount(altitude).replace('\u00a0', ' ')}, nought is ${inUnit('psia', nought, 2)}`;
  const given =
    asked.q === 'temperature' ? temperatureCells(asked.si).join(', ') : pressureCells(pressure as number, zero).join(', ');
  terminal.line(`${terminal.strong(`${r.name} at ${given}`)}  ${terminal.quiet(`(${where})`)}`);
  const cellsOf = (si: number): readonly string[] => (asked.q === 'temperature' ? pressureCells(si, zero) : temperatureCells(si));
  if (r.bubble === undefined && found.dew !== undefined) {
    for (const line of columns([['saturated', ...cellsOf(found.dew), 'no glide: dew and bubble are one']])) terminal.line(line);
    return EXIT.fine;
  }
  const rows = USES.filter(([key]) => key !== 'inlet' || asked.q !== 'temperature').map(([key, name, use]) => {
    const si = found[key];
    const cells = si === undefined ? (asked.q === 'temperature' ? ['-', '', ''] : ['-', '']) : cellsOf(si);
    return [name, ...cells, si === undefined ? 'outside the curve' : use];
  });
  for (const line of columns(rows)) terminal.line(line);
  return EXIT.fine;
};
