/**
 * A sheet of stores (sites/*.csv): one row a store, or one row a unit with the same id in several rows. Each store becomes a document of its own,
 * `sites/stores.csv#larch-street`, that holds its rows; it is read like any other, and a finding names row and column.
 */
import { error, note, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { cellValue, columnsOf, type Column, type Kind } from './columns.js';
import { readCsv } from './csv.js';
import { rowHours } from './row-hours.js';

/** What a store's document of a sheet holds. */
interface StoreRows {
  /** False when the sheet as a whole can't be read, which is told once. */
  readonly sound: boolean;
  readonly header: readonly string[];
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
}

/** What a row says of its store, before anything else is read. */
interface RowOf {
  readonly id: string;
  readonly name?: string;
  readonly region?: string;
  readonly at: Place;
}

export interface SheetStore extends RowOf {
  readonly doc: string;
  readonly bytes: Uint8Array;
}

/** A store that somebody wrote and that none can be made of: it has no id, or another one's. */
export interface LostStore extends RowOf {
  readonly finding: Finding;
}

const IN_SHEET = /^(sites\/[^#]+\.csv)#(.*)$/;

export const isInSheet = (doc: string): boolean => IN_SHEET.test(doc);

/** The store of a sheet that a document is. */
export const storeOf = (doc: string): string | undefined => IN_SHEET.exec(doc)?.[2];

/** The file of a document. */
export const fileOf = (doc: string): string => IN_SHEET.exec(doc)?.[1] ?? doc;

const TOTAL = /^((grand\s+)?(total|totals|sum|count|subtotal)|totaux|somme|suma|summe|gesamt(summe)?|insgesamt|anzahl)\b/i;
const isFigure = (cell: string): boolean => /^[-\d.,\s%$€]+$/.test(cell);

/** A total: as the last row loosely, above it only as that one word with figures behind it. */
const isTotal = (id: string, [first = '', ...more]: readonly string[], last: boolean): boolean => {
  const alone = TOTAL.exec(first)?.[0].length === first.replace(/\s*:$/, '').length && more.every(isFigure);
  return alone || (last && (TOTAL.test(first) || (id === '' && [first, ...more].every(isFigure))));
};

const cellAt = (doc: string, line: number, cell: string): Place => ({ doc, path: [], line, column: 1, cell });

/** Rows above the head of a sheet, a title or totals, are few. */
const HEAD_WITHIN = 20;

/** How many columns have a name that is a key, or that people give to one. */
const named = (columns: readonly Column[]): number =>
  columns.filter(({ means }) => means.is !== 'left-out' && !(means.is === 'unknown' && means.suggestion === undefined)).length;

/** The row that names the columns, where it isn't the first: it names three at least, and more than any row above it. */
const headBelow = (columns: readonly Column[], rows: StoreRows['rows']): number | undefined => {
  const some = rows.slice(0, HEAD_WITHIN).map(({ line, cells }) => ({ line, names: named(columnsOf(cells)) }));
  const most = Math.max(2, named(columns), ...some.map(({ names }) => names));
  const head = some.find(({ names }) => names === most);
  return most > Math.max(2, named(columns)) ? head?.line : undefined;
};

const columnFindings = (doc: string, columns: readonly Column[], rows: StoreRows['rows']): readonly Finding[] => {
  const findings: Finding[] = [];
  columns.forEach(({ name, means }, i) => {
    const at = cellAt(doc, 1, name);
    if (columns.findIndex((other) => other.name === name) < i && name !== '')
      findings.push(error('csv-column-twice', at, { column: name }));
    if (means.is !== 'unknown') return;
    const { suggestion } = means;
    findings.push(
      error('csv-unknown-column', at, { column: name, ...(suggestion === undefined ? {} : { nearest: suggestion }) }),
    );
  });
  if (!columns.some((c) => c.means.is === 'id')) {
    const head = headBelow(columns, rows);
    findings.push(
      head === undefined
        ? error('csv-no-id', cellAt(doc, 1, ''), {})
        : error('csv-head-below', cellAt(doc, 1, ''), { row: head }),
    );
  }
  const ofUnits = columns.filter(({ means }) => means.is === 'key' && means.of === 'unit').map(({ name }) => name);
  if (ofUnits.length > 0 && !columns.some((c) => c.means.is === 'unit'))
    findings.push(error('csv-no-unit', cellAt(doc, 1, ''), { columns: ofUnits }));
  return findings;
};

/** Stores without a region where others have one: of cells that were merged, a file keeps the first alone. */
const withoutRegion = (doc: string, columns: readonly Column[], stores: Iterable<StoreRows['rows']>): readonly Finding[] => {
  const column = columns.findIndex(({ name }) => name === 'region');
  const all = column < 0 ? [] : [...stores];
  const without = all.filter((rows) => rows.every(({ cells }) => (cells[column] ?? '') === ''));
  const [first] = without[0] ?? [];
  if (!first || without.length === all.length) return [];
  return [warning('csv-no-region', cellAt(doc, first.line, 'region'), { without: without.length, of: all.length })];
};

/** Of stores with one id, each says it of itself. */
const namesakes = (stores: readonly RowOf[]): readonly LostStore[] => {
  const [first, ...others] = stores;
  if (!first) return [];
  const found = others.map((other): LostStore => {
    const both = { id: other.id, wrote: other.name ?? '', before: first.name ?? '' };
    return { ...other, finding: error('csv-id-twice', other.at, both, [first.at]) };
  });
  return found[0] ? [{ ...first, finding: found[0].finding }, ...found] : [];
};

export interface Sheet {
  readonly stores: readonly SheetStore[];
  readonly lost: readonly LostStore[];
  readonly findings: readonly Finding[];
}

/** Stores of a sheet, and what is wrong with the sheet as a whole. */
export const readSheet = (doc: string, bytes: Uint8Array): Sheet => {
  const { csv, findings: syntax } = readCsv(doc, bytes);
  if (!csv) return { stores: [], lost: [], findings: syntax };
  const columns = columnsOf(csv.header);
  const findings: Finding[] = [...syntax, ...columnFindings(doc, columns, csv.rows)];
  const sound = !findings.some((f) => f.severity === 'error');
  const idColumn = columns.findIndex((c) => c.means.is === 'id');
  const cellOf = (key: string, rows: StoreRows['rows']): string | undefined => {
    const column = columns.findIndex(({ name }) => name === key);
    return rows.map(({ cells }) => cells[column] ?? '').find((cell) => cell !== '');
  };
  const rowOf = (id: string, rows: StoreRows['rows']): RowOf => {
    const [name, region] = [cellOf('name', rows), cellOf('region', rows)];
    const called = { ...(name === undefined ? {} : { name }), ...(region === undefined ? {} : { region }) };
    return { id, ...called, at: cellAt(doc, rows[0]?.line ?? 1, 'id') };
  };
  /** Rows of one id by the stores that they name; one without a name goes on about its store. */
  const byName = (rows: StoreRows['rows']): readonly StoreRows['rows'][] => {
    const names = [...new Set(rows.flatMap((row) => cellOf('name', [row]) ?? []))];
    return names.length < 2 ? [rows] : names.map((name) => rows.filter((row) => cellOf('name', [row]) === name));
  };
  const lost: LostStore[] = [];
  const byId = new Map<string, StoreRows['rows'][number][]>();
  csv.rows.forEach((row, i) => {
    const id = row.cells[idColumn] ?? '';
    const said = row.cells.filter((cell) => cell !== '');
    if (isTotal(id, said, i === csv.rows.length - 1))
      findings.push(note('csv-total-row', cellAt(doc, row.line, ''), { row: said.join(' ') }));
    else if (id !== '') byId.set(id, [...(byId.get(id) ?? []), row]);
    else if (idColumn >= 0) {
      const mine = rowOf('', [row]);
      lost.push({ ...mine, finding: error('csv-row-without-id', mine.at, {}) });
    }
  });
  findings.push(...withoutRegion(doc, columns, [...byId.values()].flatMap(byName)));
  const stores = [...byId].flatMap(([id, rows]): readonly SheetStore[] => {
    const some = byName(rows);
    lost.push(...namesakes(some.map((own) => rowOf(id, own))));
    if (some.length > 1) return [];
    const held: StoreRows = { sound, header: csv.header, rows };
    return [{ ...rowOf(id, rows), doc: `${doc}#${id}`, bytes: new TextEncoder().encode(JSON.stringify(held)) }];
  });
  // Of two of one id, what is wrong is one matter.
  return { stores, lost, findings: [...findings, ...new Set(lost.map(({ finding }) => finding))] };
};

/** A store's rows for who only looks: the sheet's own errors aside, and units named where no column names any. */
export const forTrial = (bytes: Uint8Array): Uint8Array => {
  const { header, rows } = JSON.parse(new TextDecoder().decode(bytes)) as StoreRows;
  const named = header.includes('unit');
  const held: StoreRows = {
    sound: true,
    header: named ? header : [...header, 'unit'],
    rows: rows.map(({ line, cells }, i) => ({
      line,
      cells: named ? cells : [...header.map((_, c) => cells[c] ?? ''), `unit-${i + 1}`],
    })),
  };
  return new TextEncoder().encode(JSON.stringify(held));
};

type Plain = Record<string, unknown>;

/** Lays a value into nested maps (and lists, where a step is a number). @returns false where something else stands in the way */
const put = (into: Plain, path: readonly string[], value: unknown): boolean => {
  let here: Plain = into;
  for (const step of path.slice(0, -1)) {
    const next = Object.hasOwn(here, step) ? here[step] : (here[step] = {});
    if (typeof next !== 'object' || next === null) return false;
    here = next as Plain;
  }
  const last = path.at(-1) as string;
  if (Object.hasOwn(here, last)) return false;
  here[last] = value;
  return true;
};

/** Maps whose keys are 0, 1, 2 are lists. */
const listed = (value: unknown): unknown => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  const entries = Object.entries(value).map(([key, inner]) => [key, listed(inner)] as const);
  return entries.length > 0 && entries.every(([key], i) => key === String(i))
    ? entries.map(([, inner]) => inner)
    : Object.fromEntries(entries);
};

export interface ReadRows {
  /** Undefined when there are errors. */
  readonly value?: unknown;
  readonly placeOf: (path: readonly (string | number)[]) => Place;
  readonly findings: readonly Finding[];
  /** Of its hours, cell by cell; the rest of the value is read all the same. */
  readonly ofHours: readonly Finding[];
}

/** A store's rows to the value that its YAML would give, and the cell of each path. */
export const readRows = (doc: string, bytes: Uint8Array): ReadRows => {
  const { sound, header, rows } = JSON.parse(new TextDecoder().decode(bytes)) as StoreRows;
  const file = fileOf(doc);
  const columns = columnsOf(header);
  const cells = new Map<string, { readonly at: Place; readonly text: string }>();
  const first = cellAt(file, rows[0]?.line ?? 1, 'id');
  const findings: Finding[] = sound ? [] : [error('csv-has-errors', cellAt(file, 1, ''), { file })];
  const unitColumn = columns.findIndex((c) => c.means.is === 'unit');
  const ofHours: Finding[] = [];
  const unitRows = new Map<string, number>();
  const value: Plain = {};
  const keep = (at: Place, path: readonly string[], text: string, kinds: readonly Kind[]): void => {
    const key = path.join('.');
    const column = at.cell ?? key;
    const before = cells.get(key);
    if (before === undefined) {
      cells.set(key, { at, text });
      if (!put(value, path, cellValue(text, kinds))) findings.push(error('csv-in-the-way', at, { column }));
    } else if (before.text !== text)
      findings.push(error('csv-disagrees', at, { column, wrote: text, before: before.text }, [before.at]));
  };
  for (const { line, cells: texts } of rows) {
    const unit = texts[unitColumn] ?? '';
    if (texts.slice(header.length).some((cell) => cell !== ''))
      findings.push(error('csv-too-many-cells', cellAt(file, line, ''), { has: texts.length, columns: header.length }));
    const earlier = unit === '' ? undefined : unitRows.get(unit);
    if (earlier !== undefined) {
      findings.push(error('csv-unit-twice', cellAt(file, line, 'unit'), { unit }, [cellAt(file, earlier, 'unit')]));
      continue;
    }
    unitRows.set(unit, line);
    const hours = rowHours((column) => texts[header.indexOf(column)] ?? '', header);
    ofHours.push(...hours.faults.map(({ code, column, data }) => error(code, cellAt(file, line, column), data)));
    if (hours.text !== undefined) keep(cellAt(file, line, 'hours'), ['hours'], hours.text, ['text']);
    columns.forEach(({ name, means }, i) => {
      const text = texts[i] ?? '';
      if (means.is !== 'key' || name === 'hours' || text === '') return;
      const at = cellAt(file, line, name);
      if (means.of === 'unit' && unit === '')
        // Where no column is called unit, that is told of the sheet.
        return void (unitColumn < 0 || findings.push(error('csv-no-unit-here', at, { column: name })));
      const path = means.of === 'unit' ? ['units', unit, ...means.path] : means.path;
      keep(at, path, text, means.kinds);
    });
  }
  const placeOf = (path: readonly (string | number)[]): Place => {
    for (let length = path.length; length > 0; length--) {
      const key = path.slice(0, length).join('.');
      const found = cells.get(key) ?? [...cells].find(([other]) => other.startsWith(`${key}.`))?.[1];
      if (found) return { ...found.at, path };
    }
    return first;
  };
  return { ...(findings.length === 0 ? { value: listed(value) } : {}), placeOf, findings, ofHours };
};
