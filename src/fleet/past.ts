/**
 * What earlier builds left in the folder: their ledger, parts not yet gathered, and the journal of one that died. What nobody can be sure of is made again.
 */
import { readJournals, sweep } from './journal.js';
import { INDEX } from './index-page/index.js';
import { leftOf } from './left-over.js';
import { LEDGER, ledgerFrom, type LeftOver, type ReadLedger, type StoreRecord } from './ledger.js';
import type { OutFolder, Outside } from './outside.js';

export interface Past {
  readonly records: ReadonlyMap<string, StoreRecord>;
  /** Files that were ours and that no record holds any more, by path. */
  readonly left: ReadonlyMap<string, LeftOver>;
  /** The ledgers that lie there, by name. */
  readonly ledgers: ReadonlyMap<string, ReadLedger>;
}

const PART = /^ledger\.\d+-of-\d+\.jsonl$/;

export const partLedgers = (out: OutFolder): readonly string[] => out.names().filter((name) => PART.test(name));

/** The record without its documents of doubt; nothing about it may be skipped. */
const doubting = (record: StoreRecord, doubtful: ReadonlySet<string>): StoreRecord => ({
  store: { ...record.store, inputs: '' },
  units: record.units,
  documents: record.documents.filter((d) => !doubtful.has(d.document)),
});

/** @param label of the build that asks: its own journals are read, those of other parts are theirs */
export const readPast = ({ out, hash }: Outside, label: string): Past => {
  const ledgers = new Map<string, ReadLedger>();
  const open = (name: string) => {
    const read = ledgerFrom(out.read(name), hash);
    if (read) ledgers.set(name, read);
    return read;
  };
  const ledger = open(LEDGER);
  const records = new Map<string, StoreRecord>(ledger?.stores);
  const left = new Map((ledger?.left ?? []).map((l) => [l.left, l] as const));
  // A part is younger than the ledger: gathering takes the parts away. Of two parts that tell of one store nobody knows which is the younger.
  const told = new Set<string>();
  for (const name of partLedgers(out)) {
    const part = open(name);
    for (const [id, record] of part?.stores ?? []) {
      records.set(id, told.has(id) ? doubting(record, new Set(record.documents.map((d) => d.document))) : record);
      told.add(id);
    }
    for (const l of part?.left ?? []) left.set(l.left, l);
  }
  const unfinished = readJournals(out, label);
  for (const [id, record] of unfinished.records) {
    const before = records.get(id);
    const stays = new Set(record.documents.map((d) => d.document));
    for (const d of before?.documents ?? []) if (d.made && !stays.has(d.document)) left.set(d.document, leftOf(d));
    records.set(id, record);
  }
  const doubtful = new Set(unfinished.doubtful.keys());
  for (const [path, store] of unfinished.doubtful) {
    const record = records.get(store);
    if (record) records.set(store, doubting(record, doubtful));
    left.set(path, { left: path, store, why: 'not-made' });
  }
  sweep(out, [...doubtful, LEDGER, ...partLedgers(out), INDEX]);
  return { records, left, ledgers };
};
