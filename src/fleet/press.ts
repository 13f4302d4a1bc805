/**
 * What a print shop gets: one PDF for each paper, finish and size of sheet, stores by region and name with a sheet before each, every document on a front.
 * Documents pass through one by one; a packing list says what lies where.
 */
import { error, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import type { Page, SheetSize } from '../compose/block.js';
import { joinPdfs } from '../print/pdf-join.js';
import { PdfFault } from '../print/pdf-objects.js';
import type { DocumentEntry, Ledger, StoreEntry } from './ledger.js';
import type { Outside } from './outside.js';

/** A file that is written from front to end. */
export interface Sink {
  readonly write: (bytes: Uint8Array) => void;
  /** Gives it its name: only now is it there. */
  readonly finish: () => void;
  /** Takes it away again. */
  readonly abandon: () => void;
}

/** One file of a print shop's order. */
export interface PressJob {
  /** `poster-laminated-letter`. */
  readonly name: string;
  readonly paper: string;
  readonly finish: string;
  readonly sheet: SheetSize;
  readonly stores: readonly { readonly store: StoreEntry; readonly documents: readonly DocumentEntry[] }[];
}

interface Held {
  readonly store: StoreEntry;
  readonly documents: DocumentEntry[];
}

const order = (a: readonly string[], b: readonly string[]): number => {
  const differing = a.findIndex((text, i) => text !== b[i]);
  return differing < 0 ? 0 : (a[differing] as string) < (b[differing] as string) ? -1 : 1;
};

/** Which documents are printed: of some papers alone, of some stores alone. */
export interface Chosen {
  readonly only?: readonly string[] | undefined;
  readonly stores?: readonly string[] | undefined;
}

/** @param before a ledger of what the stores have already: documents that are the same stay out */
export const pressJobs = (ledger: Ledger, before?: Ledger, { only, stores: some }: Chosen = {}): readonly PressJob[] => {
  const had = new Set(
    [...(before?.stores.values() ?? [])].flatMap((r) => r.documents.map((d) => `${d.document} ${d.made?.hash}`)),
  );
  const jobs = new Map<string, { paper: string; finish: string; sheet: SheetSize; stores: Map<string, Held> }>();
  for (const { store, documents } of ledger.stores.values()) {
    if (some && !some.includes(store.store)) continue;
    for (const d of documents) {
      if (d.format !== 'pdf' || !d.made || had.has(`${d.document} ${d.made.hash}`) || (only && !only.includes(d.paper))) continue;
      const name = `${d.paper}-${d.finish}-${d.sheet}`;
      const job = jobs.get(name) ?? {
        paper: d.paper,
        finish: d.finish,
        sheet: d.sheet as SheetSize,
        stores: new Map<string, Held>(),
      };
      const held: Held = job.stores.get(store.store) ?? { store, documents: [] };
      held.documents.push(d);
      job.stores.set(store.store, held);
      jobs.set(name, job);
    }
  }
  const place = ({ store }: { store: StoreEntry }): readonly string[] => [store.region ?? '', store.name ?? '', store.store];
  return [...jobs]
    .map(([name, { stores, ...job }]): PressJob => ({
      name,
      ...job,
      stores: [...stores.values()]
        .map(({ store, documents }) => ({ store, documents: documents.sort((a, b) => order([a.document], [b.document])) }))
        .sort((a, b) => order(place(a), place(b))),
    }))
    .sort((a, b) => order([a.name], [b.name]));
};

/** Papers that could not be made of stores that have others: `Elm: line-1 poster (es)`. */
export const notMade = ({ stores }: Ledger, { only, stores: some }: Chosen = {}): readonly string[] =>
  [...stores.values()]
    .filter(({ store, documents }) => (!some || some.includes(store.store)) && documents.some(({ made }) => made))
    .flatMap(({ store, documents }) =>
      documents
        .filter(({ format, made, paper }) => format === 'pdf' && !made && (!only || only.includes(paper)))
        .map(({ unit, paper, language }) => `${store.name ?? store.store}: ${unit ? `${unit} ` : ''}${paper} (${language})`),
    );

export interface PackingLine {
  readonly file: string;
  readonly region: string;
  readonly store: string;
  readonly name: string;
  readonly paper: string;
  readonly finish: string;
  readonly sheet: string;
  readonly documents: number;
  /** Sheets of paper, without separators. */
  readonly sheets: number;
}

export interface PressShop {
  readonly outside: Outside;
  readonly open: (name: string) => Sink;
  /** The sheet that stands before a store's documents; undefined where what it says can't be set. */
  readonly separator: (job: PressJob, store: StoreEntry, documents: readonly DocumentEntry[]) => Promise<Uint8Array | undefined>;
}

/** Sheets of paper of a document printed on both sides; a page that hangs by itself has a sheet of its own. */
const sheetsOf = (pages: number, single: boolean): number => (single ? pages : Math.ceil(pages / 2));

/** Writes one job. A document that isn't as the ledger says stops it: nothing old goes to print. */
export const pressJob = async (
  job: PressJob,
  shop: PressShop,
): Promise<{ lines: readonly PackingLine[]; findings: readonly Finding[] }> => {
  const file = `${job.name}.pdf`;
  const sink = shop.open(file);
  const { out, hash } = shop.outside;
  const joining = joinPdfs(job.name, sink.write, hash);
  const lines: PackingLine[] = [];
  const stopped = (finding: Finding) => {
    sink.abandon();
    return { lines: [], findings: [finding] };
  };
  for (const { store, documents } of job.stores) {
    const separator = await shop.separator(job, store, documents);
    if (!separator)
      return stopped(error('press-no-separator', place(store.doc), { names: [store.name ?? store.store, store.region ?? ''] }));
    joining.add(separator, false);
    let sheets = 0;
    for (const { document, made, single } of documents) {
      const bytes = out.read(document);
      try {
        if (!bytes || hash(bytes) !== made?.hash) throw new PdfFault('it is not as the last build left it');
        sheets += sheetsOf(joining.add(bytes, single), single);
      } catch (fault) {
        if (fault instanceof PdfFault) return stopped(error('press-unfit', place(document), { why: fault.message }));
        sink.abandon();
        throw fault;
      }
    }
    const { region = '', name = store.store } = store;
    const { paper, finish, sheet } = job;
    lines.push({ file, region, store: store.store, name, paper, finish, sheet, documents: documents.length, sheets });
  }
  joining.finish();
  sink.finish();
  return { lines, findings: [] };
};

export interface SeparatorWords {
  readonly chain: string;
  readonly lang: string;
  readonly sheetOf: string;
  readonly levels: Page['words']['levels'];
  readonly paper: string;
  readonly finish: string;
  readonly sheets: string;
  readonly brand: Page['brand'];
}

/** The page of a sheet that parts one store from another: large enough to find in a stack. */
export const separatorPage = (
  job: PressJob,
  store: StoreEntry,
  documents: readonly DocumentEntry[],
  words: SeparatorWords,
): Page => {
  const runs = (text: string) => [{ text }];
  const total = documents.reduce((sum, d) => sum + sheetsOf(d.made?.pages ?? 0, d.single), 0);
  return {
    title: store.name ?? store.store,
    lang: words.lang,
    sheet: job.sheet,
    orientation: 'portrait',
    length: 'flow',
    finish: 'plain',
    distance: 'unit',
    head: runs(words.chain),
    foot: [],
    body: [
      { block: 'heading', level: 1, line: 0, text: runs(store.name ?? store.store) },
      { block: 'paragraph', role: 'body', line: 0, text: runs([store.region, store.store].filter(Boolean).join(' · ')) },
      {
        block: 'paragraph',
        role: 'body',
        line: 0,
        text: runs(`${words.paper}, ${words.finish}, ${job.sheet} · ${words.sheets}: ${total}`),
      },
      {
        block: 'list',
        mark: 'tick',
        line: 0,
        items: documents.map((d) => [
          { block: 'paragraph', role: 'body', line: 0, text: runs(d.document.slice(d.document.indexOf('/') + 1)) },
        ]),
      },
    ],
    brand: words.brand,
    words: { sheetOf: words.sheetOf, levels: words.levels },
  };
};
