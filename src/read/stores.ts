/**
 * Where a chain's stores are written: a YAML file each, or rows of sheets; each store with its id, in order. Two of one id are both left out.
 */
import { error, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { suggestion } from '../base/spelling.js';
import { idOf, inFolder, type Files } from './reader.js';
import { readSheet, type LostStore, type SheetStore } from './spreadsheet.js';

export interface StoreSource {
  readonly id: string;
  /** The file, or the file with the store's id behind it. */
  readonly doc: string;
  readonly bytes: Uint8Array;
}

export interface StoreSources {
  readonly stores: readonly StoreSource[];
  /** Those of which none can be made, each at its own place. */
  readonly lost: readonly LostStore[];
  readonly findings: readonly Finding[];
}

const lostBy = ({ doc: _doc, bytes: _bytes, ...row }: SheetStore, finding: Finding): LostStore => ({ ...row, finding });

const SHEET = /^sites\/[^/]+\.csv$/;

export const storeSources = (files: Files): StoreSources => {
  const findings: Finding[] = [];
  const lost: LostStore[] = [];
  const found = new Map<string, SheetStore[]>();
  const add = (store: SheetStore): void => void found.set(store.id, [...(found.get(store.id) ?? []), store]);
  for (const doc of inFolder(files, 'sites')) add({ id: idOf(doc), doc, bytes: files.get(doc) as Uint8Array, at: place(doc) });
  for (const doc of [...files.keys()].filter((name) => SHEET.test(name)).sort()) {
    const sheet = readSheet(doc, files.get(doc) as Uint8Array);
    findings.push(...sheet.findings);
    lost.push(...sheet.lost);
    for (const store of sheet.stores) add(store);
  }
  const pairs = new Map<string, { readonly id: string; readonly first: Place; readonly other: Place }[]>();
  for (const [id, [first, ...more]] of found)
    for (const other of more) {
      const docs = JSON.stringify([first?.at.doc, other.at.doc]);
      const alike = pairs.get(docs) ?? [];
      if (first) alike.push({ id, first: first.at, other: other.at });
      pairs.set(docs, alike);
    }
  for (const alike of pairs.values()) {
    const [{ id, first, other }] = alike as [(typeof alike)[number]];
    // Two sheets with the same stores are one matter.
    const ids = alike.slice(0, 3).map((one) => one.id);
    const finding =
      alike.length > 1
        ? error('sheet-twice', place(other.doc), { other: first.doc, stores: alike.length, ids })
        : error('duplicate-id', other, { id, other: first.doc }, [first]);
    findings.push(finding);
    const places = new Set(alike.flatMap((one) => [one.first, one.other]));
    for (const store of alike.flatMap(({ id }) => found.get(id) ?? []))
      if (places.has(store.at)) lost.push(lostBy(store, finding));
  }
  // An id that two rows of another sheet have is no one's either.
  const blocked = new Map(lost.map(({ id, finding }) => [id, finding]));
  const stores = [...found.values()].flatMap((some): readonly StoreSource[] => {
    const [only, other] = some;
    if (!only || other) return [];
    const { id, doc, bytes } = only;
    const finding = blocked.get(id);
    if (finding) lost.push(lostBy(only, finding));
    return finding ? [] : [{ id, doc, bytes }];
  });
  return { stores: stores.sort((a, b) => (a.id < b.id ? -1 : 1)), lost, findings };
};

/** Said where a person names a store that isn't there. */
export const unknownStore = (store: string, ids: readonly string[]): Finding =>
  error('no-store', place('sites'), { store, ...suggestion(store, ids) });

/** Said where a chain's stores are asked for and nobody has written one: nothing was planned, and nothing is made. */
export const noStoresYet = (files: Files, { stores, findings }: StoreSources): readonly Finding[] => {
  if (stores.length > 0 || findings.length > 0) return [];
  const strange = [...files.keys()].filter((doc) => doc.startsWith('sites/'));
  return [error('no-stores-yet', place('sites'), strange.length > 0 ? { names: strange.slice(0, 5) } : {})];
};
