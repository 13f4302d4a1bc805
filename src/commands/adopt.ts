/**
 * `nightrail adopt stores.csv`: how a spreadsheet's columns and hours are understood, before anything is built; and a copy whose columns are named as keys.
 */
import { basename, join, relative } from 'node:path';
import { error, warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { readGiven, readInside, writeWhole } from '../host/disk.js';
import { asId } from '../model/fields.js';
import { lay } from '../model/resolve.js';
import { doubtedHours } from '../read/shelf.js';
import { faultData, parseHours } from '../model/hours/index.js';
import { checkZone } from '../plan/checks-of-hours.js';
import { columnsOf, type Column } from '../read/columns.js';
import { readCsv, type Csv } from '../read/csv.js';
import { blanksIn, missingColumns } from '../read/needed.js';
import { idOf, inFolder } from '../read/reader.js';
import { rowHours } from '../read/row-hours.js';
import { fileOf, readRows, readSheet } from '../read/spreadsheet.js';
import { counted } from '../base/counted.js';
import { EXIT } from './exit.js';
import { openSession, type CommonOptions, type Session } from './session.js';
import { table } from './table.js';

/** Bytes; no sheet of stores has so many. */
const LARGEST = 100_000_000;

export interface AdoptOptions extends CommonOptions {
  /** Write the copy to sites/. */
  readonly write?: boolean;
  /** Also over a file that is there and says something else. */
  readonly replace?: boolean;
}

interface Understood {
  readonly column: string;
  readonly means: string;
  readonly key?: string;
  readonly example: string;
}

const exampleOf = (csv: Csv, i: number): string => csv.rows.map((row) => row.cells[i] ?? '').find((cell) => cell !== '') ?? '';

const understood = ({ name, means }: Column, example: string): Understood => {
  switch (means.is) {
    case 'id':
      return { column: name, key: 'id', means: "the store's id: a name for its folder", example };
    case 'unit':
      return { column: name, key: 'unit', means: "the unit's id, where a row is a unit", example };
    case 'hours':
      return { column: name, key: name, means: 'opening hours, where the column hours is empty', example };
    case 'left-out':
      return { column: name, means: 'left out', example };
    case 'key':
      return {
        column: name,
        key: name,
        means: `${means.of === 'unit' ? "the unit's" : "the store's"} ${means.path.join('.')}`,
        example,
      };
    case 'unknown':
      return means.suggestion === undefined
        ? { column: name, means: 'nothing that nightrail knows; it would be left out', example }
        : { column: name, key: means.suggestion, means: `perhaps ${means.suggestion}`, example };
  }
};

/** A key is given once, and to the column that is called so before one that may mean it. */
const eachOnce = (columns: readonly Understood[]): readonly Understood[] =>
  columns.map((one, i) => {
    const { column, key, example } = one;
    const other = columns.find((c, j) =>
      c.key === key && (c.column === key) !== (column === key) ? c.column === key : c.key === key && j < i,
    );
    return key === undefined || !other
      ? one
      : { column, means: `perhaps ${key} too, as ${other.column} is; it would be left out`, example };
  });

/** A column most of whose cells name profiles is the units' profile, whatever it is called. */
const byItsCells =
  (csv: Csv, profiles: ReadonlySet<string>) =>
  (one: Understood, i: number): Understood => {
    const cells = csv.rows.map((row) => row.cells[i] ?? '').filter((cell) => cell !== '');
    const known = cells.filter((cell) => profiles.has(asId(cell))).length;
    if (one.key !== undefined || one.column.startsWith('#') || known * 2 <= cells.length) return one;
    return { ...one, key: 'unit.profile', means: 'perhaps unit.profile: its cells name profiles' };
  };

/** The header's row with keys for names: what is not known gets a # in front. */
const renamed = (columns: readonly Understood[], delimiter: string): string =>
  columns
    .map(({ column, key }) => {
      const name = key ?? (column.startsWith('#') || column === '' ? column : `# ${column}`);
      return /["\n;,\t]/.test(name) ? `"${name.replace(/"/g, '""')}"` : name;
    })
    .join(delimiter);

interface HoursSeen {
  readonly wrote: string;
  readonly stores: number;
  readonly read?: string;
  readonly fault?: string;
}

/** What is wrong with a cell and what to write instead, on one line. */
const faultOf = (finding: Finding, { wordsOf }: Session): string => {
  const { says, hint } = wordsOf(finding);
  return hint ? `${says}; ${hint}` : says;
};

/** What a column holds, and in how many rows. */
const countsIn = (
  csv: Csv,
  columns: readonly Understood[],
  of: (cell: (key: string) => string) => string,
): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const row of csv.rows) {
    const wrote = of((key) => row.cells[columns.findIndex((c) => c.key === key)] ?? '');
    if (wrote !== '') counts.set(wrote, (counts.get(wrote) ?? 0) + 1);
  }
  return counts;
};

/** Time zones that are none. */
const zonesIn = (csv: Csv, columns: readonly Understood[], doc: string, session: Session): readonly HoursSeen[] =>
  [...countsIn(csv, columns, (cell) => cell('timezone'))].flatMap(([wrote, stores]) =>
    checkZone(wrote, place(doc)).map((finding) => ({ wrote, stores, fault: faultOf(finding, session) })),
  );

/** Every way of writing hours, with how it is read. */
const hoursIn = (csv: Csv, columns: readonly Understood[], doc: string, session: Session): readonly HoursSeen[] =>
  [
    ...countsIn(csv, columns, (cell) => {
      const keys = columns.flatMap(({ key }) => key ?? []);
      return rowHours(cell, keys).text ?? cell('hours');
    }),
  ].map(([wrote, stores]) => {
    const parsed = parseHours(wrote);
    if (parsed.ok) {
      const [doubt] = doubtedHours({ ...parsed, wrote }, place(doc));
      return { wrote, stores, read: parsed.readAs, ...(doubt ? { fault: faultOf(doubt, session) } : {}) };
    }
    const finding = error(`hours-${parsed.fault}`, place(doc), faultData(parsed));
    return { wrote, stores, fault: faultOf(finding, session) };
  });

/** Columns that all stores need and the sheet has not, and cells of such columns that are empty. */
const gapsIn = (doc: string, rows: Csv['rows'], header: readonly string[], { opened }: Session): readonly Finding[] => {
  const named = columnsOf(header);
  const defaults = lay(opened.workshop?.shelf.under ?? []).value;
  // Of units without a column for their names, that is told by itself.
  const missing = missingColumns(named, defaults).filter(
    (key) => key !== 'unit' || !header.some((name) => name.startsWith('unit.')),
  );
  const at = (line: number, cell: string) => ({ ...place(doc), line, column: 1, cell });
  return [
    ...(missing.length > 0 ? [error('csv-columns-missing', at(1, ''), { columns: missing })] : []),
    ...blanksIn(named, rows, defaults).map(({ column, without, of, line }) =>
      warning('csv-blanks', at(line, column), { column, without, of }),
    ),
  ];
};

/** How many rows end in a text: a line break in quotes ends none. */
const rowsIn = (text: string): number => text.replace(/"[^"]*("|$)/g, '').split('\n').length - 1;

/** Why the copy may not be written: something else lies there. The first row in which they differ is told. */
const inTheWay = (folder: string, target: string, text: string): readonly Finding[] => {
  const there = readInside(folder, target, LARGEST);
  if ('fault' in there) return there.fault === 'file-missing' ? [] : [error(there.fault, place(target), { wrote: target })];
  const [ours, theirs] = [text, 'bytes' in there ? new TextDecoder().decode(there.bytes) : ''].map((all) => all.split('\n'));
  const line = (ours ?? []).findIndex((one, i) => one !== theirs?.[i]);
  if (line < 0 && ours?.length === theirs?.length) return [];
  const same = (ours ?? []).slice(0, line < 0 ? undefined : line).map((one) => `${one}\n`);
  return [error('copy-differs', place(target), { file: target, row: rowsIn(same.join('')) + 1 })];
};

export const adopt = (path: string, options: AdoptOptions): number => {
  const copy = `sites/${basename(path).replace(/[^a-z0-9.-]+/gi, '-')}`;
  // What is wrong in a copy that is written anew says nothing of the spreadsheet.
  const session = openSession(options, [copy]);
  const { terminal } = session;
  const bytes = readGiven(path);
  if (!bytes) {
    terminal.problem(`error: there is no file ${path}`);
    return EXIT.usage;
  }
  const doc = `sites/${basename(path)}`;
  /** Told of the file that is mended: the copy, once it is written. */
  const tell = (findings: readonly Finding[], written = false): void => {
    const named = (at: Place): Place => (fileOf(at.doc) === doc ? { ...at, doc: written ? copy : path } : at);
    session.add(findings.map((f) => ({ ...f, at: named(f.at), ...(f.also ? { also: f.also.map(named) } : {}) })));
  };
  const { csv, findings } = readCsv(doc, bytes);
  if (!csv) tell(findings);
  if (!csv)
    return options.json
      ? (terminal.line(JSON.stringify({ findings: session.spoken() }, null, 2)), EXIT.findings)
      : session.conclude();
  const profiles = new Set(inFolder(session.files, 'equipment').map(idOf));
  const columns = eachOnce(
    columnsOf(csv.header)
      .map((column, i) => understood(column, exampleOf(csv, i)))
      .map(byItsCells(csv, profiles)),
  );
  const text = `${renamed(columns, csv.delimiter)}\n${csv.rest}`;
  const sheet = readSheet(doc, new TextEncoder().encode(text));
  const stores = sheet.stores.length + sheet.lost.length;
  const ofRows = sheet.stores.flatMap((store) => readRows(store.doc, store.bytes).findings);
  const total = sheet.findings.find(({ code }) => code === 'csv-total-row')?.at.line;
  const rows = csv.rows.filter(({ line }) => line !== total);
  const header = columns.map(({ column, key }) => key ?? `# ${column}`);
  const told = [
    ...findings,
    ...sheet.findings,
    ...ofRows.filter(({ code }) => code !== 'csv-has-errors'),
    ...gapsIn(doc, rows, header, session),
  ];
  const zones = zonesIn(csv, columns, doc, session);
  const hours = hoursIn(csv, columns, doc, session);
  const target = join(session.folder, copy);
  const obstacles = options.write ? inTheWay(session.folder, copy, text) : [];
  const mayReplace = obstacles.every((f) => f.code === 'copy-differs' && options.replace === true);
  if (!mayReplace) session.add(obstacles);
  const written = options.write === true && mayReplace;
  if (written) writeWhole(target, text);
  tell(told, written);
  if (options.json) {
    terminal.line(JSON.stringify({ stores, columns, hours, zones, findings: session.spoken() }, null, 2));
    return session.exitCode();
  }
  for (const line of table(
    ['column', 'key', 'what it means', 'for example'],
    columns.map((c) => [c.column, c.key ?? '', c.means, c.example.slice(0, 40)]),
  ))
    terminal.line(line);
  terminal.line();
  for (const line of table(
    ['hours', 'stores', 'read as'],
    hours.map((h) => [
      h.wrote,
      String(h.stores),
      h.read === undefined ? `not read: ${h.fault ?? ''}` : [h.read, ...(h.fault === undefined ? [] : [h.fault])].join('; '),
    ]),
  ))
    terminal.line(line);
  terminal.line();
  for (const line of table(
    ['time zone', 'stores', 'read as'],
    zones.map((z) => [z.wrote, String(z.stores), `not read: ${z.fault ?? ''}`]),
  ))
    terminal.line(line);
  if (zones.length > 0) terminal.line();
  const code = session.conclude();
  const where = relative('.', target);
  terminal.line(
    written
      ? `${counted(stores, 'store')} in ${where}; now run nightrail check`
      : options.write
        ? `Nothing is written: ${where} stays as it is.`
        : `${counted(stores, 'store')}. With --write, a copy whose columns are named as keys goes to ${where}.`,
  );
  return code;
};
