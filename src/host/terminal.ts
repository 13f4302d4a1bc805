/**
 * The terminal: findings with the lines that they speak of, colour where it is wanted, progress where it is seen.
 */
import type { Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { locate, type Spot } from '../read/locate.js';
import { fileOf, storeOf } from '../read/spreadsheet.js';
import type { Source } from '../read/yaml.js';
import type { FindingWords } from '../say/findings.js';

export interface Terminal {
  readonly line: (text?: string) => void;
  /** As it is, for other programs. */
  readonly raw: (text: string) => void;
  readonly problem: (text: string) => void;
  /** Somebody watches: progress may overwrite itself. */
  readonly interactive: boolean;
  /** Overwrites itself on a terminal, says nothing elsewhere. */
  readonly progress: (text: string) => void;
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly severity: (severity: Finding['severity']) => string;
}

const CODES = { bold: 1, dim: 2, red: 31, yellow: 33, cyan: 36 };

/** A reader that closes the pipe (`| head`) has seen enough: the program ends quietly, whatever was writing. */
export const endWithReader = (): void => {
  process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
    if (fault.code !== 'EPIPE') throw fault;
    process.exit();
  });
};

/** Colour on a terminal unless NO_COLOR is set (no-color.org), or where FORCE_COLOR asks for it. */
export const makeTerminal = (): Terminal => {
  const colour = !process.env['NO_COLOR'] && (process.stdout.isTTY || Boolean(process.env['FORCE_COLOR']));
  const paint = (code: keyof typeof CODES) => (text: string) => (colour ? `\u001b[${CODES[code]}m${text}\u001b[0m` : text);
  let shown = false;
  const clear = (): void => {
    if (shown) process.stderr.write('\r\u001b[2K');
    shown = false;
  };
  return {
    raw: (text) => (clear(), void process.stdout.write(text)),
    line: (text = '') => (clear(), void process.stdout.write(`${text}\n`)),
    interactive: process.stderr.isTTY,
    problem: (text) => (clear(), void process.stderr.write(`${text}\n`)),
    progress: (text) => {
      if (!process.stderr.isTTY) return;
      process.stderr.write(`\r\u001b[2K${text}`);
      shown = true;
    },
    strong: paint('bold'),
    quiet: paint('dim'),
    severity: (severity) => ({ error: paint('red'), warning: paint('yellow'), note: paint('cyan') })[severity](severity),
  };
};

/** Text from files, safe to print: no control can move the cursor or colour the line, and no mark that is not seen turns its order or hides in it. */
export const harmless = (text: string): string =>
  text.replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ').replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/g, '');

export interface SpokenFinding {
  readonly code: string;
  readonly severity: Finding['severity'];
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  /** The column's name in a sheet. */
  readonly cell?: string;
  readonly says: string;
  readonly hint?: string;
  readonly data: Finding['data'];
}

/** A finding as JSON gives it: place, words and data. */
export const spoken = (finding: Finding, words: FindingWords, sources: ReadonlyMap<string, Source>): SpokenFinding => {
  const spot = locate(finding.at, sources.get(finding.at.doc));
  return {
    code: finding.code,
    severity: finding.severity,
    file: finding.at.doc,
    ...(spot ? { line: spot.line, column: spot.column } : {}),
    ...(finding.at.cell === undefined ? {} : { cell: finding.at.cell }),
    says: words.says,
    ...(words.hint ? { hint: words.hint } : {}),
    data: finding.data,
  };
};

/** `sites/a.yaml:3:5`, or in a sheet `sites/stores.csv row 3, column hours`. */
const whereOf = (at: Place, spot: Spot | undefined): string => {
  const store = storeOf(at.doc);
  if (at.cell === undefined)
    return harmless(
      store === undefined ? `${at.doc}${spot ? `:${spot.line}:${spot.column}` : ''}` : `${fileOf(at.doc)}, store ${store}`,
    );
  return `${harmless(at.doc)} row ${at.line ?? 1}${at.cell === '' ? '' : `, column ${harmless(at.cell)}`}`;
};

/** `rows 3-28, 30`: numbers in order, those that follow each other as a range. */
const ranges = (numbers: readonly number[]): string => {
  const found: [number, number][] = [];
  for (const n of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = found.at(-1);
    if (last && last[1] === n - 1) last[1] = n;
    else found.push([n, n]);
  }
  return found.map(([from, to]) => (from === to ? String(from) : `${from}-${to}`)).join(', ');
};

/** Where else in a sheet the same is said: rows, or stores. */
const elsewhere = (same: readonly Place[]): string => {
  const rows = same.flatMap(({ cell, line }) => (cell === undefined ? [] : [line ?? 1]));
  const stores = same.flatMap(({ cell, doc }) => (cell === undefined ? [storeOf(doc) ?? ''] : []));
  return rows.length > 0
    ? `row${rows.length > 1 ? 's' : ''} ${ranges(rows)}`
    : `store${stores.length > 1 ? 's' : ''} ${stores.join(', ')}`;
};

/**
 * A finding for people: what, where, the line with the place marked, and what to write instead.
 * @param same other places of the same sheet of which the same is said
 */
export const showFinding = (
  finding: Finding,
  words: FindingWords,
  sources: ReadonlyMap<string, Source>,
  t: Terminal,
  same: readonly Place[] = [],
): string => {
  const source = sources.get(finding.at.doc);
  const spot = locate(finding.at, source);
  const lines = [
    `${t.severity(finding.severity)} ${t.strong(finding.code)}  ${harmless(words.says)}`,
    `  ${whereOf(finding.at, spot)}`,
    ...(same.length > 0 ? [harmless(`  and the same in ${elsewhere(same)}`)] : []),
  ];
  const text = source?.text.split('\n')[(spot?.line ?? 0) - 1];
  if (spot && text !== undefined) {
    const gutter = String(spot.line);
    const from = Math.max(0, spot.column - 60);
    const shown = harmless(text).slice(from, from + 110);
    lines.push(t.quiet(`  ${gutter} | `) + shown);
    lines.push(
      t.quiet(`  ${' '.repeat(gutter.length)} | `) +
        ' '.repeat(spot.column - 1 - from) +
        '^'.repeat(Math.max(1, Math.min(spot.length, shown.length - (spot.column - 1 - from)))),
    );
  }
  for (const also of finding.also ?? []) {
    const other = locate(also, sources.get(also.doc));
    lines.push(t.quiet(`  see ${whereOf(also, other)}`));
  }
  if (words.hint) lines.push(`  hint: ${harmless(words.hint)}`);
  return lines.join('\n');
};
