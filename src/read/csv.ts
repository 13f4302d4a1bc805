/**
 * Bytes of a CSV file to rows of cells, each row with its number as a spreadsheet program counts it: a line break in quotes begins no row, an empty row is one. Comma, semicolon or tab; with or without a byte order mark; quoted line breaks.
 * The only file that knows the parser.
 */
import { CsvError, parse } from 'csv-parse/sync';
import { error, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { codeOf, decode, FORBIDDEN } from './yaml.js';

export interface CsvRow {
  /** Its number; the header is row 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Csv {
  readonly delimiter: ',' | ';' | '\t';
  readonly header: readonly string[];
  /** Rows with something in them. */
  readonly rows: readonly CsvRow[];
  /** The file's text after the header's row, letter by letter. */
  readonly rest: string;
}

const LARGEST = 20_000_000;
/** Columns: some ten times what a store and its units have keys. */
const WIDEST = 1000;
const DELIMITERS = [';', '\t', ','] as const;

const at = (doc: string, line = 1): Place => ({ doc, path: [], line, column: 1 });

/** The delimiter that parts the header most often. */
const delimiterOf = (text: string): Csv['delimiter'] => {
  const header = (text.split('\n')[0] ?? '').replace(/"[^"]*"/g, '');
  return [...DELIMITERS].sort((a, b) => header.split(b).length - header.split(a).length)[0] ?? ',';
};

/** A cell as a value: on one line, without spaces around it. */
const clean = (cell: string): string =>
  cell.includes('\n')
    ? cell
        .split('\n')
        .map((line) => line.trim())
        .filter(Boolean)
        .join(' ')
    : cell.trim();

interface Parsed {
  readonly record: readonly string[];
  readonly info: { readonly bytes: number };
}

export const readCsv = (doc: string, bytes: Uint8Array): { csv?: Csv; findings: readonly Finding[] } => {
  if (bytes.length > LARGEST) return { findings: [error('file-too-large', at(doc), { most: LARGEST })] };
  const decoded = decode(bytes);
  if (decoded === undefined) return { findings: [error('csv-not-utf-8', at(doc))] };
  const text = decoded.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  const delimiter = delimiterOf(text);
  let parsed: readonly Parsed[];
  try {
    parsed = parse(text, { delimiter, relax_column_count: true, info: true }) as unknown as readonly Parsed[];
  } catch (fault) {
    if (!(fault instanceof CsvError)) throw fault;
    return { findings: [error('csv-syntax', at(doc, Number(fault['lines'] ?? 1)), { says: fault.message })] };
  }
  const [head] = parsed;
  if (!head || head.record.every((cell) => cell.trim() === '')) return { findings: [error('empty-file', at(doc))] };
  const wide = head.record.length;
  if (wide > WIDEST) return { findings: [error('csv-too-many-columns', at(doc), { columns: wide, most: WIDEST })] };
  const findings: Finding[] = [];
  const rows = parsed.slice(1).flatMap(({ record }, i): readonly CsvRow[] => {
    const line = i + 2;
    const cells = record.map(clean);
    if (cells.every((cell) => cell === '')) return [];
    const bad = cells.findIndex((cell) => FORBIDDEN.test(cell));
    if (bad >= 0) {
      const character = codeOf(FORBIDDEN.exec(cells[bad] as string)?.[0] ?? '');
      findings.push(error('forbidden-character', { ...at(doc, line), cell: head.record[bad] ?? '' }, { character }));
    }
    return [{ line, cells }];
  });
  const rest = new TextDecoder().decode(new TextEncoder().encode(text).slice(head.info.bytes));
  return { csv: { delimiter, header: head.record.map(clean), rows, rest }, findings };
};
