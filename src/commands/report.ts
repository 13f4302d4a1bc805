/**
 * `nightrail report`: what head office has to do, from the last build's ledger, as a table, as CSV or as JSON.
 */
import { error } from '../base/finding.js';
import { place } from '../base/place.js';
import { reportCsv, reportOf, TOPICS, type ReportRow } from '../fleet/report.js';
import { EXIT } from './exit.js';
import { ledgerAt } from './ledger-file.js';
import { openSession, type CommonOptions } from './session.js';
import { table } from './table.js';

export interface ReportOptions extends CommonOptions {
  readonly out: string;
  readonly csv?: boolean;
}

export const report = (options: ReportOptions): number => {
  const session = openSession(options);
  const { terminal, opened } = session;
  const ledger = ledgerAt(options.out);
  if (!ledger) {
    session.add([error('no-ledger', place(options.out), {})]);
    return session.conclude();
  }
  const rows = reportOf(ledger, session.wordsOf);
  if (options.json) terminal.line(JSON.stringify({ rows }, null, 2));
  else if (options.csv) terminal.raw(reportCsv(rows));
  else {
    const word = (name: string): string => opened.workshop?.words.get('en')?.get(`report.${name}`) ?? name;
    for (const topic of TOPICS) {
      const some = rows.filter((row) => row.topic === topic);
      if (some.length === 0) continue;
      terminal.line(terminal.strong(`${word(topic)} (${some.length})`));
      const change = (row: ReportRow): string => (topic === 'take-down' ? word(row.change) : row.change);
      const where = ({ file, row, key }: ReportRow): string => `${file}${row && ` row ${row}`}${key && `, ${key}`}`;
      const placed = topic === 'broken';
      const cells = some.map((row) => [
        row.name,
        row.region,
        row.unit,
        ...(placed ? [where(row)] : []),
        row.change === '' ? row.says : `${row.says} -> ${change(row)}`,
      ]);
      for (const line of table(['store', 'region', 'unit', ...(placed ? ['where'] : []), 'what -> what would mend it'], cells))
        terminal.line(line);
      terminal.line();
    }
    if (rows.length === 0) terminal.line(word('nothing'));
  }
  return EXIT.fine;
};
