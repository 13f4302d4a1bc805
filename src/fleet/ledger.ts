/**
 * The ledger: what lies in the folder of outputs and why, a line an entry, in one order. It holds nothing of when, where or in what order it was made,
 * so that the same stores give the same ledger on any machine.
 */
import type { Amount } from '../base/amount.js';
import type { Finding } from '../base/finding.js';
import type { Weekday } from '../base/moment.js';
import type { Place } from '../base/place.js';
import type { Texts } from './untranslated.js';

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
  /** Stores that were written and that none could be made of: they have no record. Absent where there are none. */
  readonly lost?: readonly Lost[];
  /** Errors of the chain's files that are no store's own. Absent where there are none. */
  readonly errors?: readonly Finding[];
  /** Only in a part: `3/16`. */
  readonly shard?: string;
}

export interface Lost {
  /** Its id, empty where it has none. */
  readonly store: string;
  readonly name?: string;
  readonly region?: string;
  readonly at: Place;
  readonly finding: Finding;
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
  /** Texts that its pages show in another language than theirs, by plan path, and where each is written; absent where there are none. */
  readonly untranslated?: Texts;
  /** By key, what is assumed of facts that matter (fleet/assumed); absent where somebody wrote them all. */
  readonly assumed?: Readonly<Record<string, string>>;
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

/** Of each time, the facts that it comes from, down to what a person wrote: their places in `facts`, from 0. Paths would be half of a large chain's ledger. */
export type Because = Readonly<Record<string, readonly number[]>>;

/** What is predicted of a rail's food in the store's hottest kitchen, means with the covers open all day and shut, and what the law allows. */
export interface HottestDay {
  readonly kitchen: Amount<'temperature'>;
  readonly limit: Amount<'temperature'>;
  readonly open: Amount<'temperature'>;
  readonly shut: Amount<'temperature'>;
  /** Nobody wrote how warm this kitchen gets. */
  readonly assumed?: true;
}

/** Minutes of the day. */
export interface ClockSet {
  readonly days: readonly Weekday[];
  readonly off: number;
  readonly on: number;
}

export interface UnitEntry {
  readonly unit: string;
  readonly store: string;
  readonly profile: string;
  readonly nickname: string;
  /** Whether it has a schedule; absent for a unit that needs none. */
  readonly solved?: boolean;
  /** What its clock is set to, by the days of the calendar on which it goes off; absent where it has none, or a hand switches. */
  readonly clock?: readonly ClockSet[];
  /** Nobody has signed that its clock is set so. */
  readonly unsigned?: true;
  /** Of a schedule that works, the shortest rest of its week, and what it needs at least. */
  readonly rest?: { readonly shortest: Amount<'duration'>; readonly least: Amount<'duration'> };
  /** Absent for a unit without a rail that is modelled. */
  readonly hottest?: HottestDay;
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
  /** The date from which it holds; a draft holds from none. */
  readonly from?: string;
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
  readonly why: 'store-gone' | 'store-has-errors' | 'not-made' | 'other-week';
  /** The date from which it holds, as far as a ledger told it. */
  readonly from?: string;
  /** What we wrote; absent where a build died and nobody knows. */
  readonly made?: { readonly bytes: number; readonly hash: string };
}

export interface StoreRecord {
  readonly store: StoreEntry;
  readonly units: readonly UnitEntry[];
  readonly documents: readonly DocumentEntry[];
}

/** The last line: a hash of all before it, so that a ledger that was cut or changed is none; and the page that was made from it. */
export interface End {
  readonly end: string;
  readonly index?: { readonly bytes: number; readonly hash: string };
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

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const decode = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

const NEW_LINE = 10;

/** What an entry is, by the first letter of its first key: store, unit, document, left over, the end. */
type Kind = 's' | 'u' | 'd' | 'l' | 'e';

const kindAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(bytes[at + 2] ?? 0);

/** @returns where the line after this one begins */
const nextLine = (bytes: Uint8Array, at: number): number => {
  const end = bytes.indexOf(NEW_LINE, at);
  return end < 0 ? bytes.length : end + 1;
};

const entriesIn = (lines: Uint8Array): readonly unknown[] =>
  JSON.parse(`[${decode(lines).trimEnd().replaceAll('\n', ',')}]`) as readonly unknown[];

/** A store's lines as they stand in a ledger: thousands of them take little room, and each is read when somebody asks. */
class HeldRecord implements StoreRecord {
  #store: StoreEntry | undefined;

  constructor(readonly lines: () => Uint8Array) {}

  #entries(kind: Kind): readonly unknown[] {
    const lines = this.lines();
    let from = 0;
    while (from < lines.length && kindAt(lines, from) !== kind) from = nextLine(lines, from);
    let to = from;
    while (to < lines.length && kindAt(lines, to) === kind) to = nextLine(lines, to);
    return entriesIn(lines.subarray(from, to));
  }

  get store(): StoreEntry {
    return (this.#store ??= this.#entries('s')[0] as StoreEntry);
  }

  get units(): readonly UnitEntry[] {
    return this.#entries('u') as readonly UnitEntry[];
  }

  get documents(): readonly DocumentEntry[] {
    return this.#entries('d') as readonly DocumentEntry[];
  }
}

/** A record from its lines, and a record as its lines: so it passes from one worker to another. @param lines or where they are had from when asked */
export const recordFrom = (lines: Uint8Array | (() => Uint8Array)): StoreRecord =>
  new HeldRecord(typeof lines === 'function' ? lines : () => lines);
export const recordBytes = (record: StoreRecord): Uint8Array =>
  record instanceof HeldRecord ? record.lines() : encode(recordLines(record));

/** The lines of a ledger without its last, in pieces. */
export const ledgerLines = ({ head, stores, left }: Ledger): readonly Uint8Array[] => [
  encode(`${JSON.stringify(head)}\n`),
  ...[...stores].sort(by(([id]) => id)).map(([, record]) => recordBytes(record)),
  ...[...left].sort(by((l) => l.left)).map((l) => encode(`${JSON.stringify(l)}\n`)),
];

export const endLine = (end: End): Uint8Array => encode(`${JSON.stringify(end)}\n`);

type Line = LedgerHead | StoreEntry | UnitEntry | DocumentEntry | LeftOver;

/** Entries of a journal's text. What is no whole line of JSON at the end was torn by a death and is left out. */
export const parseLines = (text: string): readonly Line[] | undefined => {
  const lines = text.split('\n');
  lines.pop();
  try {
    return lines.map((line) => JSON.parse(line) as Line);
  } catch {
    return undefined;
  }
};

export interface ReadLedger extends Ledger {
  readonly end: End;
}

const sealed = (bytes: Uint8Array | undefined, hash: (content: Uint8Array) => string): ReadLedger | undefined => {
  if (!bytes || bytes.at(-1) !== NEW_LINE) return undefined;
  const last = bytes.lastIndexOf(NEW_LINE, bytes.length - 2) + 1;
  if (last === 0 || kindAt(bytes, last) !== 'e') return undefined;
  const [end] = entriesIn(bytes.subarray(last)) as readonly End[];
  if (hash(bytes.subarray(0, last)) !== end?.end) return undefined;
  const stores = new Map<string, StoreRecord>();
  let at = nextLine(bytes, 0);
  const [head] = entriesIn(bytes.subarray(0, at)) as readonly LedgerHead[];
  if (head?.ledger !== 1) return undefined;
  while (kindAt(bytes, at) === 's') {
    const from = at;
    do at = nextLine(bytes, at);
    while ('ud'.includes(kindAt(bytes, at)));
    const record = recordFrom(bytes.subarray(from, at));
    stores.set(record.store.store, record);
  }
  return { head, stores, left: entriesIn(bytes.subarray(at, last)) as readonly LeftOver[], end };
};

/** @returns undefined where the bytes are no whole ledger of ours */
export const ledgerFrom = (bytes: Uint8Array | undefined, hash: (content: Uint8Array) => string): ReadLedger | undefined => {
  try {
    return sealed(bytes, hash);
  } catch (fault) {
    // A damaged line is no JSON: as if there were no ledger, everything is looked at again.
    if (fault instanceof SyntaxError) return undefined;
    throw fault;
  }
};
