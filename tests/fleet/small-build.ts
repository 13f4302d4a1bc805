/**
 * A whole build in this process against a folder in memory that can die at any operation, as the power may.
 */
import { createHash } from 'node:crypto';
import { planBuild, tellingOf, type BuildFacts } from '../../src/fleet/build.js';
import { openBrand } from '../../src/fleet/brand.js';
import { finish, type Finished } from '../../src/fleet/finish.js';
import { openJournal } from '../../src/fleet/journal.js';
import type { StoreRecord } from '../../src/fleet/ledger.js';
import { makeStore, type Bench } from '../../src/fleet/make-store.js';
import { FolderFault, type Content, type OutFolder, type Outside } from '../../src/fleet/outside.js';
import { readPast } from '../../src/fleet/past.js';
import { shardLabel, WHOLE, type Shard } from '../../src/fleet/shard.js';
import type { Order } from '../../src/fleet/store-papers.js';
import { openWorkshop, type Workshop } from '../../src/fleet/workshop.js';
import type { Finding } from '../../src/base/finding.js';
import { readFaces } from '../../src/host/disk.js';
import { weekOfIso } from '../../src/plan/week-dates.js';
import { storeSources } from '../../src/read/stores.js';
import { CHAIN, shippedFiles, STORE, TABLE } from '../support/chain.js';

const text = (content: string): Uint8Array => new TextEncoder().encode(content);

/** Three stores with one table each; the second in two languages. With changes laid over it: undefined takes a file away. */
export const threeStores = (changes: Readonly<Record<string, string | undefined>> = {}): ReadonlyMap<string, Uint8Array> => {
  const files = shippedFiles();
  const own: Readonly<Record<string, string | undefined>> = {
    'nightrail.yaml': CHAIN,
    'equipment/table.yaml': TABLE,
    'sites/alder.yaml': STORE.replace('Test Street', 'Alder'),
    'sites/birch.yaml': `${STORE.replace('Test Street', 'Birch')}languages: [en, es]\n`,
    'sites/cedar.yaml': STORE.replace('Test Street', 'Cedar'),
    ...changes,
  };
  for (const [doc, content] of Object.entries(own)) {
    if (content === undefined) files.delete(doc);
    else files.set(doc, text(content));
  }
  return files;
};

const bytesOf = (content: Content): Uint8Array =>
  typeof content === 'string'
    ? new TextEncoder().encode(content)
    : content instanceof Uint8Array
      ? content
      : new Uint8Array(Buffer.concat(content));

export const hash = (content: Content): string => createHash('sha256').update(bytesOf(content)).digest('hex');

export class Died extends FolderFault {}

/** @param dieAt the operation, counted from 1, around which it dies; @param how before it, halfway through it, or after it */
export const memoryFolder = (files: Map<string, Uint8Array>, dieAt = Infinity, how: 'before' | 'half' | 'after' = 'before') => {
  let count = 0;
  let writes = 0;
  const around = (act: () => void, half: () => void): void => {
    count++;
    if (count !== dieAt) return void act();
    if (how === 'half') half();
    if (how === 'after') act();
    throw new Died('died');
  };
  const nothing = (): void => undefined;
  const out: OutFolder = {
    read: (path) => files.get(path),
    size: (path) => files.get(path)?.length,
    names: () => [...files.keys()].filter((name) => !name.includes('/')).sort(),
    put: (path, bytes) => {
      writes++;
      const whole = bytesOf(bytes);
      around(
        () => void files.set(path, whole),
        () => void files.set(path, whole.slice(0, whole.length >> 1)),
      );
    },
    append: (path, text) => {
      writes++;
      const more = bytesOf(text);
      const add = (some: Uint8Array): void => void files.set(path, new Uint8Array([...(files.get(path) ?? []), ...some]));
      around(
        () => add(more),
        () => add(more.slice(0, more.length >> 1)),
      );
    },
    move: (from, to) => {
      const bytes = files.get(from);
      if (!bytes) throw new Error(`nothing to move at ${from}`);
      around(() => {
        files.set(to, bytes);
        files.delete(from);
      }, nothing);
    },
    drop: (path) => around(() => void files.delete(path), nothing),
  };
  return { out, operations: () => count, writes: () => writes };
};

/** A chain's workshop, read once. */
export const openedOf = (files: ReadonlyMap<string, Uint8Array>): Workshop => {
  const known = opened.get(files) ?? open(files);
  opened.set(files, known);
  return known.workshop;
};

export interface SmallBuild {
  readonly findings: readonly Finding[];
  readonly finished: Finished;
  readonly written: number;
  readonly jobs: readonly string[];
}

export interface SmallOptions {
  readonly week?: string;
  readonly weeks?: number;
  readonly formats?: readonly string[];
  readonly only?: readonly string[];
  readonly languages?: readonly string[];
  readonly chosen?: readonly string[];
  readonly shard?: Shard;
  readonly prune?: boolean;
  readonly verify?: boolean;
  readonly engine?: string;
}

const faces = readFaces();

/** Reading a chain takes longer than building it: each is read once. */
const opened = new WeakMap<ReadonlyMap<string, Uint8Array>, ReturnType<typeof open>>();

const open = (files: ReadonlyMap<string, Uint8Array>) => {
  const { workshop, findings } = openWorkshop(files);
  if (!workshop) throw new Error('no workshop');
  const { brand } = openBrand(workshop, { read: () => ({ fault: 'file-missing' }), faces });
  if (!brand) throw new Error('no brand');
  return { workshop, findings, brand };
};

export const smallBuild = async (
  files: ReadonlyMap<string, Uint8Array>,
  out: OutFolder,
  options: SmallOptions = {},
): Promise<SmallBuild> => {
  const known = opened.get(files) ?? open(files);
  opened.set(files, known);
  const { workshop, brand } = known;
  const outside: Outside = { out, hash };
  const { first } = weekOfIso(options.week ?? '2026-W49', workshop.shelf.chain.week_starts) as { first: number };
  const weeks = Array.from({ length: options.weeks ?? 1 }, (_, n) => ({ first: first + 7 * n }));
  const order: Order = {
    weeks,
    formats: options.formats ?? ['html'],
    ...(options.only ? { only: options.only } : {}),
    ...(options.languages ? { languages: options.languages } : {}),
  };
  const shard = options.shard ?? WHOLE;
  const engine = options.engine ?? 'engine';
  const brandKey = '';
  const read = storeSources(files);
  const facts: BuildFacts = {
    files,
    workshop,
    stores: read.stores,
    lost: read.lost,
    findings: known.findings,
    ...(options.chosen ? { chosen: options.chosen } : {}),
    order,
    shard,
    engine,
    verify: options.verify ?? false,
    brandKey,
    nightrail: 'test',
  };
  const past = readPast(outside, shardLabel(shard));
  const plan = planBuild(facts, past, outside);
  const bench: Bench = {
    workshop,
    faces: brand.faces,
    look: brand.look,
    brandKey,
    order,
    engine,
    verify: facts.verify,
    inputs: plan.inputs,
    papers: plan.papers,
    outside,
    journal: openJournal(out, shardLabel(shard), 0),
  };
  const records = new Map<string, StoreRecord>();
  let written = 0;
  for (const job of plan.jobs) {
    const made = await makeStore(bench, job);
    records.set(job.id, made.record);
    written += made.written;
  }
  const finished = finish(facts, past, plan, records, outside, options.prune ?? false);
  const findings = [...plan.settled.values(), ...records.values()]
    .sort((a, b) => (a.store.store < b.store.store ? -1 : 1))
    .flatMap((record) => tellingOf(record, order).findings);
  return { findings, finished, written, jobs: plan.jobs.map((j) => j.id) };
};
