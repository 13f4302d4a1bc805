/**
 * `nightrail press`: what a print shop gets, from the papers of the last build.
 */
import { join, relative } from 'node:path';
import { anyError, error, warning } from '../base/finding.js';
import { place } from '../base/place.js';
import { openBrand } from '../fleet/brand.js';
import { csvText } from '../fleet/csv-text.js';
import { FolderFault } from '../fleet/outside.js';
import { notMade, pressJob, pressJobs, separatorPage, type PackingLine, type PressShop } from '../fleet/press.js';
import { officeWords } from '../fleet/workshop.js';
import { namesOf, readFaces, readInside, removeFile, writeWhole } from '../host/disk.js';
import { openOutside } from '../host/out-folder.js';
import { openSink } from '../host/sink.js';
import { printPdf } from '../print/print-pdf.js';
import { unknownStore } from '../read/stores.js';
import { counted } from '../base/counted.js';
import { EXIT } from './shared/exit.js';
import { ledgerAt } from './shared/ledger-file.js';
import { openSession, type CommonOptions } from './shared/session.js';
import { table } from './shared/table.js';

export interface PressOptions extends CommonOptions {
  readonly out: string;
  readonly only?: readonly string[];
  /** An earlier ledger, or its folder: what is the same since then stays out. */
  readonly since?: string;
}

/** Files of an order, by the names that `pressJobs` gives them. */
const OF_ORDER = /^[a-z0-9-]+-(laminated|plain)-[a-z0-9]+\.pdf$/;

const earlierOrders = (folder: string, now: ReadonlySet<string>): readonly string[] =>
  namesOf(folder).filter((name) => OF_ORDER.test(name) && !now.has(name));

/** Names at most. */
const SHOWN = 5;
const listed = (names: readonly string[]): string =>
  [...names.slice(0, SHOWN), ...(names.length > SHOWN ? ['…'] : [])].join(', ');

const COLUMNS = ['file', 'region', 'store', 'name', 'paper', 'finish', 'sheet', 'documents', 'sheets'] as const;

/** @param chosen stores by id; all of them where none is named */
export const press = async (chosen: readonly string[], options: PressOptions): Promise<number> => {
  const session = openSession(options);
  const { terminal } = session;
  const { workshop } = session.opened;
  const packed: PackingLine[] = [];
  let lacking: readonly string[] = [];
  const conclude = (): number => {
    if (options.json) terminal.line(JSON.stringify({ packed, not_made: lacking, findings: session.spoken() }, null, 2));
    else session.conclude();
    return session.exitCode();
  };
  if (!workshop) return conclude();
  const ledger = ledgerAt(options.out);
  const before = options.since === undefined ? undefined : ledgerAt(options.since);
  if (!ledger) session.add([error('no-ledger', place(options.out), {})]);
  if (options.since !== undefined && !before) session.add([error('no-ledger', place(options.since), {})]);
  const { brand, findings } = openBrand(workshop, {
    read: (path, most) => readInside(session.folder, path, most),
    faces: readFaces(),
  });
  session.add(findings);
  const { shelf } = workshop;
  if (!shelf.chain.approved) session.add([warning('press-draft', shelf.chainAt, {})]);
  const words = officeWords(workshop);
  // What a store's file has wrong is no matter of the papers that are there.
  if (!ledger || (options.since !== undefined && !before) || !brand || !words || anyError(findings)) return conclude();
  const strange = chosen.filter((id) => !ledger.stores.has(id));
  session.add(strange.map((id) => unknownStore(id, [...ledger.stores.keys()])));
  if (strange.length > 0) return conclude();
  const which = { only: options.only, stores: chosen.length > 0 ? chosen : undefined };
  lacking = notMade(ledger, which);
  const word = (code: string): string => words.get(code) ?? code;
  const folder = join(options.out, 'press');
  const shop: PressShop = {
    outside: openOutside(options.out),
    open: (name) => openSink(folder, name),
    separator: async (job, store, documents) => {
      const page = separatorPage(job, store, documents, {
        chain: shelf.chain.name,
        lang: words.lang,
        sheetOf: word('foot.sheet-of'),
        levels: {
          danger: word('levels.danger'),
          warning: word('levels.warning'),
          caution: word('levels.caution'),
          notice: word('levels.notice'),
        },
        paper: word(`${job.paper}.name`),
        finish: word(`press.${job.finish}`),
        sheets: word('press.sheets'),
        brand: brand.look,
      });
      return (await printPdf(page, brand.faces)).bytes;
    },
  };
  try {
    for (const job of pressJobs(ledger, before, which)) {
      terminal.progress(job.name);
      const { lines, findings: unfit } = await pressJob(job, shop);
      packed.push(...lines);
      session.add(unfit);
    }
  } catch (fault) {
    if (!(fault instanceof FolderFault)) throw fault;
    terminal.problem(fault.message);
    return EXIT.findings;
  }
  // What an earlier order left would go to print with this one.
  for (const name of earlierOrders(folder, new Set(packed.map((line) => line.file)))) removeFile(join(folder, name));
  writeWhole(
    join(folder, 'packing-list.csv'),
    csvText([[...COLUMNS], ...packed.map((line) => COLUMNS.map((column) => String(line[column])))]),
  );
  if (!options.json) {
    const files = [...new Set(packed.map((line) => line.file))];
    const rows = files.map((file) => {
      const some = packed.filter((line) => line.file === file);
      return [
        file,
        String(some.length),
        String(some.reduce((sum, line) => sum + line.documents, 0)),
        String(some.reduce((sum, line) => sum + line.sheets, 0)),
        String(some.length),
      ];
    });
    for (const line of table(['file', 'stores', 'documents', 'sheets', 'and before each store'], rows)) terminal.line(line);
    const lost = ledger.head.lost?.length ?? 0;
    const none = lost + [...ledger.stores.values()].filter(({ documents }) => !documents.some((d) => d.made)).length;
    const all = counted(lost + ledger.stores.size, 'store');
    if (none > 0) terminal.line(`no papers for ${none} of ${all}; nightrail report says why`);
    if (lacking.length > 0)
      terminal.line(`papers that could not be made: ${lacking.length} (${listed(lacking)}); nightrail report says why`);
    terminal.line(`in ${relative('.', folder) || '.'}, with packing-list.csv`);
  }
  return conclude();
};
