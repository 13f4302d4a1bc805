/**
 * A build: which stores need anything at all, what came out of them, and the ledger of it all. Who makes the stores, here or in workers, is the caller's choice.
 */
import { canonical } from '../base/canonical.js';
import type { Finding } from '../base/finding.js';
import { WEEKDAYS } from '../base/moment.js';
import { dayOfIso } from '../model/hours/index.js';
import { idsKey } from './gather.js';
import { untranslatedOn } from './untranslated.js';
import { commonKey, inputsKey, paperKeys, profileKeys, sharedKey, tablesKey, type InputKeys } from './keys.js';
import type { Ledger, LedgerHead, LeftOver, StoreRecord } from './ledger.js';
import { isKept, leftOf } from './left-over.js';
import { lies, isOrdered, type StoreJob } from './make-store.js';
import type { Outside } from './outside.js';
import type { Past } from './past.js';
import { inShard, shardName, type Shard } from './shard.js';
import type { Order } from './store-papers.js';
import type { Workshop } from './workshop.js';
import { lengthOf } from '../plan/week-dates.js';
import type { Files } from '../read/shelf.js';
import type { LostStore } from '../read/spreadsheet.js';
import type { StoreSource } from '../read/stores.js';

export interface BuildPlan {
  /** Stores that need something. */
  readonly jobs: readonly StoreJob[];
  /** Stores of the build that need nothing. */
  readonly settled: ReadonlyMap<string, StoreRecord>;
  /** What they tell. */
  readonly told: ReadonlyMap<string, Telling>;
  /** Stores that nobody asked for: they stay as they are. */
  readonly aside: ReadonlyMap<string, StoreRecord>;
  readonly inputs: InputKeys;
  /** Keys of the papers by paper and language: `poster.en`. */
  readonly papers: ReadonlyMap<string, string>;
}

export interface BuildFacts {
  readonly files: Files;
  readonly workshop: Workshop;
  readonly stores: readonly StoreSource[];
  readonly lost: readonly LostStore[];
  /** Of the chain's files; what is wrong with a store is told of the store. */
  readonly findings: readonly Finding[];
  /** Ids to build; undefined for all. */
  readonly chosen?: readonly string[];
  readonly order: Order;
  readonly shard: Shard;
  readonly engine: string;
  /** Hash files again instead of trusting their size. */
  readonly verify: boolean;
  readonly brandKey: string;
  readonly nightrail: string;
}

export const planBuild = (facts: BuildFacts, past: Past, outside: Outside): BuildPlan => {
  const { files, workshop, order, engine, brandKey, verify } = facts;
  const papers = paperKeys(workshop, outside.hash);
  const inputs = {
    common: commonKey({ files, order, engine, brandKey, papers }, outside.hash),
    tables: tablesKey(files, outside.hash),
    profiles: profileKeys(workshop.shelf, files, outside.hash),
  };
  const jobs: StoreJob[] = [];
  const settled = new Map<string, StoreRecord>();
  const told = new Map<string, Telling>();
  const aside = new Map<string, StoreRecord>();
  for (const source of facts.stores) {
    if (!inShard(source.id, facts.shard, outside.hash)) continue;
    const old = past.records.get(source.id);
    if (facts.chosen && !facts.chosen.includes(source.id)) {
      if (old) aside.set(source.id, old);
      continue;
    }
    const content = outside.hash(source.bytes);
    const made = old?.store.inputs === inputsKey(inputs, source.doc, content, old?.store.profiles, outside.hash);
    const documents = made ? old.documents : [];
    if (made && documents.every((entry) => !isOrdered(order, entry) || lies(outside, entry, verify))) {
      settled.set(source.id, old);
      told.set(source.id, tellingOf({ store: old.store, documents }, order));
    } else jobs.push({ ...source, content, ...(old ? { old } : {}) });
  }
  return { jobs, settled, told, aside, inputs, papers };
};

/** What earlier builds made and nothing in the new records is. */
const leftOver = (
  past: Past,
  records: ReadonlyMap<string, StoreRecord>,
  facts: BuildFacts,
  outside: Outside,
): readonly LeftOver[] => {
  const ids = new Set([...facts.stores, ...facts.lost].map((s) => s.id));
  const were = new Map<string, LeftOver>(past.left);
  for (const [id, record] of past.records) {
    // What nobody touched left nothing over.
    if (records.get(id) === record) continue;
    for (const entry of record.documents) if (entry.made) were.set(entry.document, leftOf(entry));
  }
  const papers = new Map<string, ReadonlySet<string>>();
  /** Asked for this time, and not made: whatever week its old file is of, it is the one that would lie here. */
  const isUnmade = ({ store, left }: LeftOver): boolean =>
    records.get(store)?.documents.some(({ document, made }) => document === left && !made) === true;
  const isNow = ({ store, left }: LeftOver): boolean => {
    // One that could not be made this time leaves its old file over: what that says no longer holds.
    const known =
      papers.get(store) ?? new Set(records.get(store)?.documents.flatMap(({ document, made }) => (made ? [document] : [])));
    papers.set(store, known);
    return known.has(left);
  };
  return [...were.values()]
    .filter((l) => inShard(l.store, facts.shard, outside.hash) && !isNow(l) && outside.out.size(l.left) !== undefined)
    .map((l): LeftOver => {
      const why = !ids.has(l.store)
        ? 'store-gone'
        : (records.get(l.store)?.units.length ?? 0) === 0
          ? 'store-has-errors'
          : !isUnmade(l) && isOfOtherWeek(l, facts)
            ? 'other-week'
            : 'not-made';
      return { ...l, why };
    });
};

/** A dated sheet of another week than those that were built, and not over on the first day built: made early, or the one that hangs. */
const isOfOtherWeek = ({ left, store, from }: LeftOver, { workshop, order: { weeks } }: BuildFacts): boolean => {
  const first = weeks[0]?.first ?? 0;
  const [, paper = '', named] =
    /^([a-z0-9-]+?)(?:-(\d{4}-\d{2}-\d{2}))?\.[a-z]{2}\.[a-z]+$/.exec(left.slice(store.length + 1)) ?? [];
  const iso = named ?? from;
  const day = iso === undefined ? undefined : dayOfIso(iso);
  const dated = workshop.papers.some(({ id, spec }) => id === paper && spec.when === 'week');
  // Of a week that was built and is cut elsewhere now, since its hours change in it or no longer do.
  const again = day !== undefined && weeks.some((week) => week.first <= day && day < week.first + lengthOf(week));
  return dated && !again && (day === undefined || day + WEEKDAYS.length > first);
};

/** Errors of the chain's files without those that a lost store tells. */
const errorsOf = ({ findings, lost }: BuildFacts): readonly Finding[] => {
  const told = new Set(lost.map(({ finding }) => canonical(finding)));
  return findings.filter((f) => f.severity === 'error' && !told.has(canonical(f)));
};

/** The ledger of a part, from all its records. */
export const partOfBuild = (
  facts: BuildFacts,
  past: Past,
  plan: BuildPlan,
  made: ReadonlyMap<string, StoreRecord>,
  outside: Outside,
): Ledger => {
  const stores = new Map([...plan.aside, ...plan.settled, ...made]);
  const ids = facts.stores.map((s) => s.id);
  const lost = facts.lost.map(({ id, ...row }) => ({ store: id, ...row }));
  const errors = errorsOf(facts);
  const head: LedgerHead = {
    ledger: 1,
    nightrail: facts.nightrail,
    engine: facts.engine,
    chain: facts.workshop.shelf.chain.name,
    shared: outside.hash(canonical([sharedKey(facts.files, outside.hash), facts.order])),
    stores: ids.length,
    ids: idsKey(ids, outside.hash),
    ...(lost.length > 0 ? { lost } : {}),
    ...(errors.length > 0 ? { errors } : {}),
    shard: shardName(facts.shard),
  };
  return { head, stores, left: leftOver(past, stores, facts, outside) };
};

/** What a build tells of a store: the same whether it was made now or long ago. */
export interface Telling {
  readonly findings: readonly Finding[];
  readonly documents: readonly { readonly path: string; readonly sheets: number; readonly bytes: number }[];
}

export const tellingOf = ({ store, documents }: Pick<StoreRecord, 'store' | 'documents'>, order: Order): Telling => {
  const entries = documents.filter((entry) => isOrdered(order, entry));
  const untranslated = new Map<string, Set<string>>();
  for (const { language, untranslated: paths } of entries)
    for (const path of paths) untranslated.set(language, (untranslated.get(language) ?? new Set()).add(path));
  const findings = [
    ...store.findings,
    ...entries.flatMap((entry) => entry.findings),
    ...untranslatedOn(untranslated, store.untranslated ?? {}, store.doc),
  ];
  return {
    findings,
    documents: entries.flatMap(({ document, made }) => (made ? [{ path: document, sheets: made.pages, bytes: made.bytes }] : [])),
  };
};

/** Removes what is left over: only files that are as an earlier build wrote them, and none of a store that could not be read. @returns what could not be removed so */
export const prune = (
  ledger: Ledger,
  outside: Outside,
): { readonly ledger: Ledger; readonly removed: readonly string[]; readonly changed: readonly LeftOver[] } => {
  const removed: string[] = [];
  const changed: LeftOver[] = [];
  for (const l of ledger.left.filter((l) => !isKept(l))) {
    const bytes = outside.out.read(l.left);
    if (bytes && l.made && outside.hash(bytes) !== l.made.hash) changed.push(l);
    else {
      outside.out.drop(l.left);
      removed.push(l.left);
    }
  }
  return { ledger: { ...ledger, left: [...ledger.left.filter(isKept), ...changed] }, removed, changed };
};
