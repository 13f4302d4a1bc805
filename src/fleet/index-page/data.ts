/**
 * What the page of all stores shows, small: texts that many stores share stand once in a table and are named by their number.
 */
import type { Finding } from '../../base/finding.js';
import type { Ledger, StoreRecord } from '../ledger.js';

export interface IndexData {
  /** Texts by number. */
  readonly texts: readonly string[];
  readonly stores: readonly IndexStore[];
  /** Paths of files that nobody needs any more. */
  readonly left: readonly string[];
}

export interface IndexStore {
  readonly id: string;
  readonly name: string;
  readonly region: string;
  /** Nicknames of its units, for the search. */
  readonly units: readonly number[];
  /** Name of a document without language and format; what to call it; then what there is of it: `en.pdf`. */
  readonly documents: readonly (readonly [base: number, called: number, ...files: number[]])[];
  /** Severity and code, `error no-rest-rest-too-short`; and the sentence. */
  readonly findings: readonly (readonly [code: number, says: number])[];
}

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

export const indexData = ({ stores, left }: Ledger, words: IndexWords): IndexData => {
  const { number, texts } = numbering();
  const storeOf = ({ store, units, documents }: StoreRecord): IndexStore => {
    const bases = new Map<string, number[]>();
    for (const { document, paper, unit, from, made } of [...documents].sort((a, b) => (a.document < b.document ? -1 : 1))) {
      const [, base = '', rest = ''] = /^[^/]*\/([^.]+)\.(.+)$/.exec(document) ?? [];
      const nickname = units.find((u) => u.unit === unit)?.nickname;
      // Of sheets for several weeks, each has its first day in its name.
      const day = base.endsWith(`-${from}`) ? ` ${from}` : '';
      const called = `${words.paperName(paper)}${nickname === undefined ? '' : ` ${nickname}`}${day}`;
      const found = bases.get(base) ?? [number(base), number(made ? called : `${called}: ${words.notMade}`)];
      if (made) found.push(number(rest));
      bases.set(base, found);
    }
    const told = new Map<string, readonly [number, number]>();
    for (const finding of [...store.findings, ...documents.flatMap((d) => d.findings)]) {
      if (finding.severity === 'note') continue;
      const says = words.says(finding);
      told.set(`${finding.code} ${says}`, [number(`${finding.severity} ${finding.code}`), number(says)]);
    }
    return {
      id: store.store,
      name: store.name ?? store.store,
      region: store.region ?? '',
      units: units.map((u) => number(u.nickname)),
      documents: [...bases.values()] as unknown as IndexStore['documents'],
      findings: [...told.values()],
    };
  };
  const all = [...stores.values()].sort((a, b) => (a.store.store < b.store.store ? -1 : 1)).map(storeOf);
  return { texts: texts(), stores: all, left: left.map((l) => l.left).sort() };
};
