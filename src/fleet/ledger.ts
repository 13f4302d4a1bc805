/**
 * The ledger: what lies in the folder of outputs and why, a line an entry, in one order. It holds nothing of when, where or in what order it was made,
 * so that the same stores give the same ledger on any machine.
 */
import type { Finding } from '../base/finding.js';

export interface LedgerHead {
  readonly ledger: 1;
  readonly nightrail: string;
  /** What made the documents: code, dependencies, Node. */
  readonly engine: string;
  readonly chain: string;
  /** Everything that all stores share, and what was ordered: equal in all parts of one build. */
  readonly shared: string;
  /** How many stores the chain has, and a hash of their ids. */
  readonly stores: number;
  readonly ids: string;
  /** Only in a part: `3/16`. */
  readonly shard?: string;
}

export interface StoreEntry {
  readonly store: string;
  /** The file that it is written in. */
  readonly doc: string;
  /** Hash of all that it was made from and of what was ordered: while it stays, nothing needs to be done. */
  readonly inputs: string;
  /** Profiles that its units name; absent where it could not be read. */
  readonly profiles?: readonly string[];
  readonly name?: string;
  readonly region?: string;
  /** What the plan says; a document's own stand with it. */
  readonly findings: readonly Finding[];
  /** Times of the crew by day, in minutes of the business day, and the rules they come from: for `diff`. */
  readonly times?: Times;
  readonly facts?: Facts;
  readonly because?: Because;
}

/** By name and weekday: minutes of the business day. */
export type Times = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** What times come from, by plan path, each as a short text that changes when it does. */
export type Facts = Readonly<Record<string, string>>;

/** Of each time, the plan paths that it comes from, down to what a person wrote. */
export type Because = Readonly<Record<string, readonly string[]>>;

export interface UnitEntry {
  readonly unit: string;
  readonly store: string;
  readonly profile: string;
  readonly nickname: string;
  /** Whether it has a schedule; absent for a unit that needs none. */
  readonly solved?: boolean;
  readonly times: Times;
  readonly facts: Facts;
  readonly because: Because;
}

export interface DocumentEntry {
  /** Below the folder of outputs. */
  readonly document: string;
  readonly store: string;
  readonly unit?: string;
  readonly paper: string;
  readonly language: string;
  readonly format: string;
  readonly finish: string;
  readonly sheet: string;
  /** Whether each page hangs by itself: then none is printed on another's back. */
  readonly single: boolean;
  /** The date from which it holds. */
  readonly from: string;
  readonly key: string;
  /** Absent where it could not be made; its findings say why. */
  readonly made?: { readonly pages: number; readonly bytes: number; readonly hash: string };
  readonly findings: readonly Finding[];
  /** Paths of texts that are printed in another language than the document's. */
  readonly untranslated: readonly string[];
}

/** A file that an earlier build made and this one did not ask for. */
export interface LeftOver {
  readonly left: string;
  readonly store: string;
  readonly why: 'store-gone' | 'store-has-errors' | 'not-made';
  /** What we wrote; absent where a build died and nobody knows. */
  readonly made?: { readonly bytes: number; readonly hash: string };
}

export interface StoreRecord {
  readonly store: StoreEntry;
  readonly units: readonly UnitEntry[];
  readonly documents: readonly DocumentEntry[];
}

export interface Ledger {
  readonly head: LedgerHead;
  /** By id, in order. */
  readonly stores: ReadonlyMap<string, StoreRecord>;
  readonly left: readonly LeftOver[];
}

export const LEDGER = 'ledger.jsonl';

const by =
  <T>(key: (entry: T) => string) =>
  (a: T, b: T): number =>
    key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0;

/** The lines of one store: itself, its units, its documents. */
export const recordLines = ({ store, units, documents }: StoreRecord): string =>
  [store, ...[...units].sort(by((u) => u.unit)), ...[...documents].sort(by((d) => d.document))]
    .map((entry) => `${JSON.stringify(entry)}\n`)
    .join('');

export const ledgerText = ({ head, stores, left }: Ledger): string =>
  [
    `${JSON.stringify(head)}\n`,
    ...[...stores.values()].sort(by((r) => r.store.store)).map(recordLines),
    ...[...left].sort(by((l) => l.left)).map((l) => `${JSON.stringify(l)}\n`),
  ].join('');

type Line = LedgerHead | StoreEntry | UnitEntry | DocumentEntry | LeftOver;

/** Entries of a ledger's or a journal's text. What is no whole line of JSON at the end was torn by a death and is left out. */
export const parseLines = (text: string): readonly Line[] | undefined => {
  const lines = text.split('\n');
  lines.pop();
  try {
    return lines.map((line) => JSON.parse(line) as Line);
  } catch {
    return undefined;
  }
};

/** Groups entries into records: a store's line comes before those of its units and documents. */
export const recordsOf = (lines: readonly Line[]): ReadonlyMap<string, StoreRecord> => {
  const stores = new Map<string, { store: StoreEntry; units: UnitEntry[]; documents: DocumentEntry[] }>();
  for (const line of lines) {
    if ('document' in line) stores.get(line.store)?.documents.push(line);
    else if ('unit' in line) stores.get(line.store)?.units.push(line);
    else if ('inputs' in line) stores.set(line.store, { store: line, units: [], documents: [] });
  }
  return stores;
};

/** @returns undefined where the text is no ledger of ours */
export const parseLedger = (text: string): Ledger | undefined => {
  const lines = parseLines(text);
  const head = lines?.[0];
  if (!lines || !head || !('ledger' in head) || (head as { ledger: unknown }).ledger !== 1) return undefined;
  return { head, stores: recordsOf(lines), left: lines.filter((line): line is LeftOver => 'left' in line) };
};

export const ledgerFrom = (bytes: Uint8Array | undefined): Ledger | undefined =>
  bytes && parseLedger(new TextDecoder().decode(bytes));
