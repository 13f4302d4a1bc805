/**
 * A file in the making: the facts so far, who said which; and what nobody knows yet.
 */
import { covers, factOf, touches } from '../../model/origins.js';
import { nameOf, type Answer, type Question } from './question.js';
import { changed, facts as factsIn } from './tree.js';

export interface Draft {
  readonly value: unknown;
  /** Names of facts, in the order in which they were asked. */
  readonly told: readonly string[];
  readonly notKnown: readonly string[];
}

export const start = (value: unknown): Draft => ({ value, told: [], notKnown: [] });

/** The draft with one answer. What nobody knows is left out where it can be; else what stands there stays, marked as not known. */
export const answered = (draft: Draft, question: Question, answer: Extract<Answer, { ok: true }>): Draft => {
  const name = nameOf(question.path);
  const value = changed(draft.value, question.path, answer.as);
  if (!answer.known) return { ...draft, value, notKnown: [...draft.notKnown, name] };
  return answer.as === undefined || answer.kept ? { ...draft, value } : { ...draft, value, told: [...draft.told, name] };
};

/** The shortest key that covers a fact and none of the others: `maker` for `maker.name` where all of the maker was told. */
const covering = (name: string, others: readonly string[]): string => {
  const steps = name.split('.');
  const keys = steps.map((_, i) => steps.slice(0, i + 1).join('.'));
  return keys.find((key) => !others.some((other) => covers(key, other))) ?? name;
};

/** Facts as people name them in `origins`: without numbers of lists, and together where one key covers them. */
const facts = (names: readonly string[], others: readonly string[]): readonly string[] => {
  const plain = (some: readonly string[]): readonly string[] => some.map((name) => factOf(name.split('.')));
  return [...new Set(plain(names).map((name) => covering(name, plain(others))))];
};

/** Who told a fact, when, and how they knew. */
export interface Telling {
  readonly who: string;
  readonly when: string;
  readonly how: string;
}

export interface Told extends Telling {
  /** Where it is otherwise: by the facts that it is said of; a text is another `how`. */
  readonly how_of?: Readonly<Record<string, OtherTelling>> | undefined;
}

export type OtherTelling =
  string | { readonly how: string; readonly who?: string | undefined; readonly when?: string | undefined };

/** The same whatever the numbers of lists. */
const tellsOf = (key: string, name: string): boolean => covers(factOf(key.split('.')), factOf(name.split('.')));

/** Another source whole: what it leaves out is as for all. */
export const sourceOf = ({ who, when, how }: Telling, other: OtherTelling = how): Telling =>
  typeof other === 'string' ? { who, when, how: other } : { who: other.who ?? who, when: other.when ?? when, how: other.how };

/** The source of a fact: as its closest key says, else as all of them. */
const sourceFor = (by: Told, name: string): Telling => {
  const closest = Object.entries(by.how_of ?? {})
    .filter(([key]) => tellsOf(key, name))
    .sort(([a], [b]) => b.length - a.length)[0];
  return sourceOf(by, closest?.[1]);
};

/** Keys of `how_of` under which nothing was answered, not even that nobody knows. */
export const howOfNothing = ({ how_of: of = {} }: Told, answered: readonly string[]): readonly string[] =>
  Object.keys(of).filter((key) => !answered.some((name) => tellsOf(key, name)));

/** The finished profile: with what is not known, and where each fact is from. What nobody told was taken over from the similar one. @param takenOver says so, in the chain's languages */
export const profileOf = ({ value, told, notKnown }: Draft, by: Told, similar: string, takenOver: unknown): unknown => {
  const over = factsIn(value)
    .map(nameOf)
    .filter((name) => ![...told, ...notKnown].some((other) => touches(other, name)));
  const untold = facts(over, [...told, ...notKnown]);
  const origins = [
    ...[...new Set(told.map((name) => JSON.stringify(sourceFor(by, name))))].map((source) => {
      const mine = told.filter((name) => JSON.stringify(sourceFor(by, name)) === source);
      const others = told.filter((name) => !mine.includes(name));
      // Of a list, what was told of one item is not known of the others.
      const keys = facts(mine, [...over, ...notKnown, ...others]).filter((fact) => !untold.includes(fact));
      return { facts: keys, ...(JSON.parse(source) as Telling) };
    }),
    {
      facts: untold,
      who: similar,
      when: by.when,
      how: takenOver,
      confirmed: false,
    },
  ].filter((origin) => origin.facts.length > 0);
  return {
    ...(value as object),
    ...(notKnown.length > 0 ? { not_known: notKnown } : {}),
    ...(origins.length > 0 ? { origins } : {}),
  };
};

export const storeOf = ({ value, notKnown }: Draft): unknown => {
  const { units, ...rest } = value as { readonly units?: unknown };
  return { ...rest, ...(notKnown.length > 0 ? { not_known: notKnown } : {}), ...(units === undefined ? {} : { units }) };
};
