/**
 * One store in a build: what of its documents is still as it should be stays, the rest is made and written. The unit of work of a worker.
 */
import { canonical } from '../base/canonical.js';
import { error, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import type { Page } from '../compose/block.js';
import { isoOf } from '../model/hours/index.js';
import type { Faces } from '../print/faces.js';
import type { Journal } from './journal.js';
import { inputsKey, subjectKeys, writtenKey, type InputKeys } from './keys.js';
import type { DocumentEntry, StoreEntry, StoreRecord } from './ledger.js';
import { writeWhole, type Outside } from './outside.js';
import { slim, storeFacts, unitEntry } from './record.js';
import { documentsOf, mayBuild, planOf, readerOf, type Order, type PlannedStore, type Wanted } from './store-papers.js';
import { weeksOf } from './store-weeks.js';
import { textsShown } from './untranslated.js';
import type { Tree } from '../plan/known.js';
import type { Workshop } from './workshop.js';

/** A store to make: its file, and what an earlier build left of it. */
export interface StoreJob {
  readonly id: string;
  readonly doc: string;
  readonly bytes: Uint8Array;
  /** Hash of its bytes. */
  readonly content: string;
  readonly old?: StoreRecord;
}

/** What all stores of a build are made with. */
export interface Bench {
  readonly workshop: Workshop;
  readonly faces: Faces;
  readonly look: Page['brand'];
  /** Of the files that pages take from: logo and fonts. */
  readonly brandKey: string;
  readonly order: Order;
  readonly engine: string;
  readonly verify: boolean;
  readonly inputs: InputKeys;
  /** By paper and language: `poster.en`. */
  readonly papers: ReadonlyMap<string, string>;
  readonly outside: Outside;
  readonly journal: Journal;
}

/** Whether a document lies there as the ledger says: by its size, or by its bytes. */
export const lies = ({ out, hash }: Outside, { made, document: path }: DocumentEntry, verify: boolean): boolean => {
  if (made === undefined) return true;
  if (out.size(path) !== made.bytes) return false;
  return !verify || hash(out.read(path) ?? '') === made.hash;
};

/** Whether an order speaks of a document at all; those it doesn't stay as they are. */
export const isOrdered = (order: Order, entry: Pick<DocumentEntry, 'paper' | 'format' | 'language'>): boolean =>
  order.formats.includes(entry.format) &&
  (!order.only || order.only.includes(entry.paper)) &&
  (!order.languages || order.languages.includes(entry.language));

const entryOf = (wanted: Wanted, store: string, key: string): Omit<DocumentEntry, 'findings' | 'untranslated'> => ({
  document: wanted.path,
  store,
  ...(wanted.unit === undefined ? {} : { unit: wanted.unit }),
  paper: wanted.paper.id,
  language: wanted.language,
  format: wanted.format,
  finish: wanted.paper.spec.finish,
  sheet: wanted.sheet,
  single: wanted.paper.spec.length === 'one',
  ...(wanted.from === undefined ? {} : { from: wanted.from }),
  key,
});

const document = async (
  bench: Bench,
  wanted: Wanted,
  store: string,
  key: string,
  old: DocumentEntry | undefined,
): Promise<{ entry: DocumentEntry; written: number }> => {
  const { outside, faces, journal, verify } = bench;
  if (old?.key === key && lies(outside, old, verify)) return { entry: old, written: 0 };
  const { bytes, sheets, findings, untranslated } = await wanted.make(faces);
  const entry = { ...entryOf(wanted, store, key), findings, untranslated };
  if (!bytes) return { entry, written: 0 };
  const made = { pages: sheets, bytes: bytes.length, hash: outside.hash(bytes) };
  const there = old?.made?.hash === made.hash && lies(outside, old, verify);
  if (!there) {
    journal.writing(store, wanted.path);
    writeWhole(outside.out, wanted.path, bytes);
  }
  return { entry: { ...entry, made }, written: there ? 0 : 1 };
};

type Called = Pick<StoreEntry, 'name' | 'region'>;

const calledOf = ({ name, region }: { readonly [key in keyof Called]: Called[key] | undefined }): Called => ({
  ...(name === undefined ? {} : { name }),
  ...(region === undefined ? {} : { region }),
});

/** A store without papers, and why: its file has errors, or making it failed. */
const barren = (
  { id, doc }: Pick<StoreJob, 'id' | 'doc'>,
  called: Called,
  inputs: string,
  findings: readonly Finding[],
): StoreRecord => ({
  store: { store: id, doc, inputs, ...called, findings },
  units: [],
  documents: [],
});

/** A store that took too long, took too much memory, or ended its worker. It is tried again by the next build. */
export const failed = (job: Pick<StoreJob, 'id' | 'doc' | 'old'>, code: string, data: Finding['data'] = {}): StoreRecord =>
  barren(job, calledOf(job.old?.store ?? {}), '', [error(code, place(job.doc), { store: job.id, ...data })]);

/** The same thing is told once, whichever week and season tells it. */
const once = (findings: readonly Finding[]): readonly Finding[] => [...new Map(findings.map((f) => [canonical(f), f])).values()];

export interface MadeStore {
  readonly record: StoreRecord;
  /** How many files were written. */
  readonly written: number;
}

export const makeStore = async (bench: Bench, job: StoreJob): Promise<MadeStore> => {
  const { workshop, order, outside } = bench;
  const [dates] = order.weeks;
  if (!dates) throw new Error('an order is of at least one week');
  const on = (iso: string, week = iso): PlannedStore => planOf(workshop, job.doc, job.bytes, iso, week);
  const first = on(isoOf(dates.first));
  const { read, plan } = first;
  const weeks = read && plan ? weeksOf({ ...first, read, plan }, on, order.weeks) : [];
  const findings = once(slim([...first.findings, ...weeks.flatMap((w) => w.findings)]));
  const english = workshop.words.get('en');
  const profiles = read && [...new Set(read.units.map((u) => u.unit.profile))].sort();
  const inputs = inputsKey(bench.inputs, job.doc, job.content, profiles, outside.hash);
  if (!read || !plan || !profiles || !english || !mayBuild(findings)) {
    const record = barren(job, calledOf(read?.store ?? first.glimpse ?? {}), inputs, findings);
    return { record: profiles ? { ...record, store: { ...record.store, profiles } } : record, written: 0 };
  }

  const written = writtenKey(bench.inputs, job.content, profiles, outside.hash);
  const subjectOf = subjectKeys(workshop.shelf, read, bench.brandKey, written, outside.hash);
  const old = new Map(job.old?.documents.map((d) => [d.document, d] as const));
  const documents: DocumentEntry[] = [...old.values()].filter((entry) => !isOrdered(order, entry));
  let files = 0;
  for (const wanted of documentsOf(workshop, read, weeks, order, bench.look)) {
    const { paper, language, format, from, sheet } = wanted;
    const subject = subjectOf(wanted.dated);
    const key = outside.hash(
      canonical({
        engine: bench.engine,
        paper: bench.papers.get(`${paper.id}.${language}`),
        subject: [paper.spec.when === 'week' ? subject.dated : subject.standing, paper.spec.scenes ? subject.scenes : ''],
        edition: { paper: paper.id, unit: wanted.unit, language, format, from, sheet },
      }),
    );
    const done = await document(bench, wanted, job.id, key, old.get(wanted.path));
    documents.push(done.entry);
    files += done.written;
  }
  const speaker = readerOf(english, read, workshop.shelf);
  const untranslated = textsShown(
    [plan, ...weeks.map(({ week }) => week.tree)] as unknown as readonly Tree[],
    documents.flatMap((d) => d.untranslated),
  );
  const store: StoreEntry = {
    store: job.id,
    doc: job.doc,
    inputs,
    profiles,
    ...storeFacts(read, plan, speaker),
    ...(Object.keys(untranslated).length === 0 ? {} : { untranslated }),
    findings: once([...findings, ...weeks.flatMap((w) => w.week.findings)]),
  };
  const record = { store, units: Object.values(plan.units).map((unit) => unitEntry(read, plan, unit, speaker)), documents };
  bench.journal.done(record);
  return { record, written: files };
};
