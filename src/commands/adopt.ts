/**
 * `nightrail adopt stores.csv`: how a spreadsheet's columns and hours are understood, before anything is built; and a copy whose columns are named as keys.
 */
import { basename, join, relative } from 'node:path';
import { error, warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { readGiven, readInside, writeWhole } from '../host/disk.js';
import { lay } from '../model/resolve.js';
import { doubtedHours } from '../read/shelf.js';
import { faultData, parseHours } from '../model/hours/index.js';
import { checkZone } from '../plan/checks-of-hours.js';
import { columnsOf } from '../read/columns.js';
import { readCsv, type Csv } from '../read/csv.js';
import { blanksIn, missingColumns } from '../read/needed.js';
import { idOf, inFolder } from '../read/reader.js';
import { rowHours } from '../read/row-hours.js';
import { fileOf, readSheet } from '../read/spreadsheet.js';
import { counted } from '../base/counted.js';
import { assumedInRows } from './adopt/assumed.js';
import { renamed, understand, type Understood } from './adopt/columns.js';
import { tryStores } from './adopt/trial.js';
import { showAssumed } from './shared/assumed.js';
import { EXIT } from './shared/exit.js';
import { openSession, type CommonOptions, type Session } from './shared/session.js';
import { table } from './shared/table.js';

/** Bytes; no sheet of stores has so many. */
const LARGEST = 100_000_000;

export interface AdoptOptions extends CommonOptions {
  /** Write the copy to sites/. */
  readonly write?: boolean;
  /** Also over a file that is there and says something else. */
  readonly replace?: boolean;
}

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
  if (!/\.csv$/i.test(doc)) {
    session.add([error('not-a-sheet', place(path), {})]);
    return session.conclude();
  }
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
  const columns = understand(csv, profiles);
  const text = `${renamed(columns, csv.delimiter)}\n${csv.rest}`;
  const sheet = readSheet(doc, new TextEncoder().encode(text));
  const stores = sheet.stores.length + sheet.lost.length;
  const totals = sheet.findings.flatMap(({ code, at }) => (code === 'csv-total-row' ? [at.line] : []));
  const rows = csv.rows.filter(({ line }) => !totals.includes(line));
  const header = columns.map(({ column, key }) => key ?? `# ${column}`);
  // Of a sheet whose head stands elsewhere, nothing else can be said.
  const headless = sheet.findings.some(({ code }) => code === 'csv-head-below');
  const told = [
    ...findings,
    ...sheet.findings,
    ...(headless ? [] : [...tryStores(sheet.stores, session.opened.workshop), ...gapsIn(doc, rows, header, session)]),
  ];
  const assumed = headless ? [] : assumedInRows(rows, header, session);
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
    terminal.line(JSON.stringify({ stores, columns, hours, zones, assumed, findings: session.spoken() }, null, 2));
    return session.exitCode();
  }
  if (headless) return session.conclude();
  for (const line of table(
    ['column', 'key', 'what it means', 'for example'],
    columns.map((c) => [c.column, c.key ?? '', c.means, c.example]),
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
  showAssumed(assumed, stores, session);
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
