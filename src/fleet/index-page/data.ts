/**
 * What the page of all stores shows, small: texts that many stores share stand once in a table and are named by their number.
 */
import type { Finding } from '../../base/finding.js';
import type { Ledger, Lost, StoreRecord } from '../ledger.js';
import { isKept } from '../left-over.js';

export interface IndexData {
  /** Texts by number. */
  readonly texts: readonly string[];
  readonly stores: readonly IndexStore[];
  /** Paths of files that nobody needs any more. */
  readonly left: readonly string[];
}

/** @typeParam T a text, or the number that it stands under in the table */
export interface StoreIn<T> {
  readonly id: string;
  readonly name: string;
  readonly region: string;
  /** Nicknames of its units, for the search. */
  readonly units: readonly T[];
  /** Name of a document without language and format; what to call it; then what there is of it: `en.pdf`. */
  readonly documents: readonly (readonly [base: T, called: T, ...files: T[]])[];
  /** Severity and code, `error no-rest-rest-too-short`; and the sentence. */
  readonly findings: readonly (readonly [code: T, says: T])[];
}

export type IndexStore = StoreIn<number>;

export interface IndexWords {
  readonly says: (finding: Finding) => string;
  readonly paperName: (paper: string) => string;
  readonly notMade: string;
}

/** Numbers for texts, in the order in which they are first met. */
const numbering = () => {
  const numbers = new Map<string, number>();
  const number = (text: string): number => {
    const known = numbers.get(text);
    if (known !== undefined) return known;
    numbers.set(text, numbers.size);
    return numbers.size - 1;
  };
  return { number, texts: () => [...numbers.keys()] };
};

const withTexts = <A, B>({ id, name, region, units, documents, findings }: StoreIn<A>, text: (a: A) => B): StoreIn<B> => {
  const papers = documents.map(([base, called, ...files]) => [text(base), text(called), ...files.map(text)] as const);
  const told = findings.map(([code, says]) => [text(code), text(says)] as const);
  return { id, name, region, units: units.map(text), documents: papers, findings: told };
};

const storeOf = ({ store, units, documents }: StoreRecord, words: IndexWords): StoreIn<string> => {
  const nicknames = new Map(units.map((u) => [u.unit, u.nickname]));
  const bases = new Map<string, [string, string, ...string[]]>();
  for (const { document, paper, unit, from, made } of [...documents].sort((a, b) => (a.document < b.document ? -1 : 1))) {
    const [, base = '', rest = ''] = /^[^/]*\/([^.]+)\.(.+)$/.exec(document) ?? [];
    const nickname = nicknames.get(unit ?? '');
    // Of sheets for several weeks, each has its first day in its name.
    const day = from !== undefined && base.endsWith(`-${from}`) ? ` ${from}` : '';
    const called = `${words.paperName(paper)}${nickname === undefined ? '' : ` ${nickname}`}${day}`;
    const found = bases.get(base) ?? [base, made ? called : `${called}: ${words.notMade}`];
    if (made) found.push(rest);
    bases.set(base, found);
  }
  const told = new Map<string, readonly [string, string]>();
  for (const finding of [...store.findings, ...documents.flatMap((d) => d.findings)]) {
    if (finding.severity === 'note') continue;
    const says = words.says(finding);
    told.set(`${finding.code} ${says}`, [`${finding.severity} ${finding.code}`, says]);
  }
  const { store: id, name = id, region = '' } = store;
  return { id, name, region, units: [...nicknames.values()], documents: [...bases.values()], findings: [...told.values()] };
};

/** A store that was written and that none could be made of: what is wrong, and where where nothing else names it. */
const lostOf = ({ store, name, region = '', at, finding }: Lost, words: IndexWords): StoreIn<string> => {
  const where = at.line === undefined ? at.doc : `${at.doc} row ${at.line}`;
  const told = [[`${finding.severity} ${finding.code}`, words.says(finding)]] as const;
  return { id: store, name: name ?? (store || where), region, units: [], documents: [], findings: told };
};

/** What an earlier page shows, by store's id. */
export const shownBy = ({ texts, stores }: IndexData): ReadonlyMap<string, StoreIn<string>> =>
  new Map(stores.map((store) => [store.id, withTexts(store, (number) => texts[number] as string)]));

/** @param known stores that an earlier page shows as they still are: their records are not read */
export const indexData = (
  { head, stores, left }: Ledger,
  words: IndexWords,
  known: ReadonlyMap<string, StoreIn<string>> = new Map(),
): IndexData => {
  const { number, texts } = numbering();
  const all = [...stores]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([id, record]) => withTexts(known.get(id) ?? storeOf(record, words), number));
  const lost = (head.lost ?? []).map((one) => withTexts(lostOf(one, words), number));
  return {
    texts: texts(),
    stores: [...all, ...lost],
    left: left
      .filter((l) => !isKept(l))
      .map((l) => l.left)
      .sort(),
  };
};
