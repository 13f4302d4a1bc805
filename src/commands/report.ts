/**
 * `nightrail report`: what head office has to do, from the last build's ledger, as a table, as CSV or as JSON.
 */
import { error } from '../base/finding.js';
import { place } from '../base/place.js';
import { assumedIn } from '../fleet/assumed.js';
import { hasErrors, reportCsv, reportOf, storesIn, subjectsIn, TOPICS, type ReportRow, type Topic } from '../fleet/report.js';
import { counted } from '../base/counted.js';
import { showAssumed } from './shared/assumed.js';
import { asId } from '../model/fields.js';
import { EXIT } from './shared/exit.js';
import { ledgerAt } from './shared/ledger-file.js';
import { say } from './shared/say.js';
import { openSession, type CommonOptions } from './shared/session.js';
import { table } from './shared/table.js';

export interface ReportOptions extends CommonOptions {
  readonly out: string;
  readonly csv?: boolean;
}

interface Column {
  readonly head: string;
  readonly of: (row: ReportRow) => string;
}

/** What the terminal shows of a topic; a column that holds nothing is left out. */
const columnsOf = (topic: Topic, word: (name: string) => string): readonly Column[] => [
  {
    head: topic === 'unconfirmed' ? 'profile' : 'store',
    of: ({ name, store }) => (store === '' || asId(name) === store ? name : `${name} (${store})`),
  },
  { head: 'region', of: (row) => row.region },
  { head: 'unit', of: (row) => row.unit },
  {
    head: 'where',
    of: ({ file, row, key }) => (topic === 'broken' ? `${file}${row && ` row ${row}`}${key && `, ${key}`}` : ''),
  },
  {
    head: 'what -> what would mend it',
    of: ({ says, change }) => [says, ...(change === '' ? [] : [topic === 'take-down' ? word(change) : change])].join(' -> '),
  },
];

/** Rows one after another that say the same, more than so many of them, are told in one. */
const FEW = 3;

/** Rows in groups of those that say the same, in the order of each one's first. */
const alike = (
  rows: readonly ReportRow[],
  says: (row: ReportRow) => string,
): readonly (readonly [ReportRow, ...ReportRow[]])[] => {
  const groups = new Map<string, [ReportRow, ...ReportRow[]]>();
  for (const row of rows) {
    const key = says(row);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return [...groups.values()];
};

export const report = (options: ReportOptions): number => {
  const session = openSession(options);
  const { terminal, opened } = session;
  const ledger = ledgerAt(options.out);
  if (!ledger) {
    session.add([error('no-ledger', place(options.out), {})]);
    return session.conclude();
  }
  const rows = reportOf(ledger, session.wordsOf);
  const stores = storesIn(ledger);
  const assumed = assumedIn(ledger);
  if (options.json) terminal.line(JSON.stringify({ stores, rows, assumed }, null, 2));
  else if (options.csv) terminal.raw(reportCsv(rows));
  else {
    const words = opened.words.get('en');
    const word = (name: string, values = {}): string => (words ? say(words, name, values, 'report') : name);
    const counts = { all: counted(stores.all, 'store'), bare: `${stores.bare}`, unbuilt: `${stores.unbuilt}` };
    if (stores.bare > 0) terminal.line(terminal.strong(word('bare', counts)));
    if (stores.unbuilt > 0) terminal.line(terminal.strong(word('unbuilt', counts)));
    if (stores.bare + stores.unbuilt > 0) terminal.line();
    for (const topic of TOPICS) {
      const some = rows.filter((row) => row.topic === topic);
      if (some.length === 0) continue;
      const { of, count } = topic === 'broken' ? { of: 'stores', count: stores.bare } : subjectsIn(topic, some);
      terminal.line(
        terminal.strong(
          `${word(topic)} (${word(of)}: ${count}${count === some.length ? '' : `; ${word('rows')}: ${some.length}`})`,
        ),
      );
      const columns = columnsOf(topic, word).filter(({ of }) => some.some((row) => of(row) !== ''));
      const what = columns.length - 1;
      // What the row above says is not said again; of many that say the same, the others are named in one row.
      const cells = alike(some, (row) => columns[what]?.of(row) ?? '').flatMap(([first, ...others]) => {
        const line = (row: ReportRow, says?: string): readonly string[] =>
          columns.map(({ of }, c) => (c === what ? (says ?? of(row)) : of(row)));
        if (others.length <= FEW) return [line(first), ...others.map((row) => line(row, word('same')))];
        const names = others.map((row) => [row.name, row.unit].filter((part) => part !== '').join(' ')).join(', ');
        return [line(first), columns.map((_, c) => (c === what ? word('more', { count: `${others.length}`, names }) : ''))];
      });
      for (const line of table(
        columns.map(({ head }) => head),
        cells,
      ))
        terminal.line(line);
      terminal.line();
    }
    showAssumed(assumed, stores.all, session);
    if (rows.length === 0) terminal.line(word(stores.all === 0 ? 'no-stores' : 'nothing'));
  }
  return hasErrors(ledger) ? EXIT.findings : EXIT.fine;
};
