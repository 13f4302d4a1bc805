/**
 * Of what a document is made, as hashes: the engine, the paper, the store's plan and the edition. While its key stays, a document stays.
 * A plan stands for all that it was worked out from (profiles, law, defaults): two ways of writing the same thing give the same papers.
 */
import { canonical } from '../base/canonical.js';
import type { Paper } from '../compose/paper.js';
import { calledFrom, type TemplateFile } from '../compose/template.js';
import type { StorePlan } from '../plan/index.js';
import { Beside, isKnown } from '../plan/known.js';
import { SHIPPED, type Files, type ReadStore, type Shelf } from '../read/shelf.js';
import { isOfPaper } from '../say/sentence.js';
import type { Words } from '../say/words.js';
import type { Outside } from './outside.js';
import type { Dated, Order } from './store-papers.js';
import type { Workshop } from './workshop.js';

type Hash = Outside['hash'];

/**
 * A plan as pages see it, as one text: of each leaf what it is, how it was rounded, where the plan holds it; not where it was written.
 * A leaf that stands in several places is written out once and named by its number after that.
 */
const textOfPlan = (plan: unknown): string => {
  const leaves = new Map<unknown, number>();
  const textOf = (node: unknown): string => {
    if (node === undefined || node instanceof Beside) return '';
    if (typeof node !== 'object' || node === null) return JSON.stringify(node);
    if (Array.isArray(node)) return `[${node.map(textOf).join(',')}]`;
    if (!isKnown(node)) {
      let text = '{';
      for (const [key, inner] of Object.entries(node))
        if (inner !== undefined) text += `${JSON.stringify(key)}:${textOf(inner)},`;
      return `${text}}`;
    }
    const known = leaves.get(node);
    if (known !== undefined) return `#${known}`;
    leaves.set(node, leaves.size);
    const { value, basis, path } = node;
    return `<${JSON.stringify(path)} ${basis.how} ${(basis.how === 'computed' && basis.rounded) || ''} ${textOf(value)}>`;
  };
  return textOf(plan);
};

/** Partials that a paper's page calls, in order. */
const reachable = ({ main, partials }: Paper['template']): readonly TemplateFile[] =>
  [...calledFrom(main, partials)].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, file]) => file);

/** A paper in one language: its folder's files, the partials it may call, and every word that a page can say. */
const paperKey = (paper: Paper, words: Words, hash: Hash): string =>
  hash(
    canonical({
      spec: paper.spec,
      main: paper.template.main,
      partials: reachable(paper.template),
      words: words.codes
        .filter(isOfPaper)
        .sort()
        .map((code) => [code, words.get(code)]),
      // What was written and not taken is told where it stands, what was never written is told of the paper.
      refused: [...words.refused].sort(),
    }),
  );

export interface SubjectKeys {
  readonly standing: string;
  readonly dated: string;
  /** For papers with scenes: these are computed from facts that no leaf of the plan need hold. */
  readonly scenes: string;
}

/**
 * What a store's papers say in a week, whoever asks; `dated` holds the week itself too.
 * @param written hash of all that was written of the store
 */
export const subjectKeys = (
  shelf: Shelf,
  read: ReadStore,
  brandKey: string,
  written: string,
  hash: Hash,
): ((dated: Dated) => SubjectKeys) => {
  const { sheet, measure, clock_shows: clock } = read.store;
  const { brand, week_starts: starts, approved } = shelf.chain;
  const about = canonical({ id: read.id, sheet, measure, clock, brand, starts, approved, brandKey });
  const plans = new Map<StorePlan, string>();
  const weeks = new Map<Dated, SubjectKeys>();
  return (dated) => {
    const { plan, week } = dated;
    const standing = plans.get(plan) ?? hash(`${about}${textOfPlan(plan)}`);
    plans.set(plan, standing);
    const keys = weeks.get(dated) ?? {
      standing,
      dated: hash(`${standing}${textOfPlan(week)}`),
      scenes: hash(`${standing}${written}`),
    };
    weeks.set(dated, keys);
    return keys;
  };
};

/** Bytes of everything that plans of all stores rest on: the chain's file and the tables. */
export const tablesKey = (files: Files, hash: Hash): string =>
  hash(
    canonical(
      [...files.keys()]
        .filter((doc) => /^(nightrail\.ya?ml|equipment\/tables\/)/.test(doc.replace(SHIPPED, '')))
        .sort()
        .map((doc) => [doc, hash(files.get(doc) as Uint8Array)]),
    ),
  );

/** Bytes of all that is not a store's own: equal wherever parts of one build are made. */
export const sharedKey = (files: Files, hash: Hash): string =>
  hash(
    canonical(
      [...files.keys()]
        .filter((doc) => !doc.startsWith('sites/'))
        .sort()
        .map((doc) => [doc, hash(files.get(doc) as Uint8Array)]),
    ),
  );

/** Bytes of each profile, by its id. */
export const profileKeys = (shelf: Shelf, files: Files, hash: Hash): ReadonlyMap<string, string> =>
  new Map([...shelf.profiles].map(([id, { at }]) => [id, hash(canonical([at.doc, hash(files.get(at.doc) ?? '')]))]));

/** The keys of every paper in every language: `poster.en`. */
export const paperKeys = ({ papers, words }: Workshop, hash: Hash): ReadonlyMap<string, string> =>
  new Map(
    papers.flatMap((paper) => [...words.values()].map((one) => [`${paper.id}.${one.lang}`, paperKey(paper, one, hash)] as const)),
  );

export interface CommonFacts {
  readonly files: Files;
  readonly order: Order;
  readonly engine: string;
  readonly brandKey: string;
  /** Of every paper in every language. */
  readonly papers: ReadonlyMap<string, string>;
}

/** All that every store of a build is made from, and what was ordered. */
export const commonKey = ({ files, order, engine, brandKey, papers }: CommonFacts, hash: Hash): string =>
  hash(canonical({ engine, order, brandKey, tables: tablesKey(files, hash), papers: [...papers] }));

export interface InputKeys {
  readonly common: string;
  /** Of what plans of all stores rest on; the order is no part of it. */
  readonly tables: string;
  readonly profiles: ReadonlyMap<string, string>;
}

const namedProfiles = ({ profiles: all }: InputKeys, named: readonly string[] | undefined): unknown =>
  named ? named.map((id) => [id, all.get(id)]) : [...all];

/** All that people wrote of a store: its own bytes, its profiles, the chain's file and the tables. */
export const writtenKey = (keys: InputKeys, content: string, profiles: readonly string[], hash: Hash): string =>
  hash(canonical([keys.tables, content, namedProfiles(keys, profiles)]));

/**
 * All that a store is made from, before anything is parsed: its own bytes, what is common to all, and the profiles that it turned out to name.
 * @param profiles undefined where the store could not be read: then every profile may matter
 */
export const inputsKey = (
  keys: InputKeys,
  doc: string,
  content: string,
  profiles: readonly string[] | undefined,
  hash: Hash,
): string => {
  return hash(canonical({ common: keys.common, doc, content, named: namedProfiles(keys, profiles) }));
};
