/**
 * Answers of a file by the facts that they are of: `phones.emergency: '911'` and `phones: { emergency: '911' }` are the same.
 */
import type { z } from 'zod';
import { error, type Finding } from '../../base/finding.js';
import { suggestion } from '../../base/spelling.js';
import { within, type Place } from '../../base/place.js';
import { covers } from '../../model/origins.js';
import { faultsAt, nameOf, type Question } from './question.js';
import { at, changed, leaves, type Path } from './tree.js';

export interface Given {
  /** Undefined where nothing is said. */
  readonly at: (path: Path) => unknown;
  /** Where it is written, or the answers as a whole. */
  readonly place: (path: Path) => Place;
  /** The answers as they were written. */
  readonly wrote: Answers;
  /** Every fact that has an answer. */
  readonly facts: readonly Path[];
}

type Answers = Readonly<Record<string, unknown>>;

const isNested = (value: unknown): value is Answers | readonly unknown[] => typeof value === 'object' && value !== null;

/** Steps in the file to a fact, whose name may be cut into keys anywhere. */
const stepsTo = (tree: unknown, path: Path): Path | undefined => {
  if (path.length === 0) return [];
  if (!isNested(tree)) return undefined;
  for (let n = path.length; n > 0; n--) {
    const key = nameOf(path.slice(0, n));
    if (!Object.hasOwn(tree, key)) continue;
    const rest = stepsTo((tree as Answers)[key], path.slice(n));
    if (rest) return [Array.isArray(tree) ? Number(key) : key, ...rest];
  }
  return undefined;
};

/** @param file the file of answers */
export const given = (answers: Answers, file: Place): Given => {
  const tree = leaves(answers)
    .filter((path) => path.length > 0)
    .reduce<unknown>((all, path) => changed(all, nameOf(path).split('.'), at(answers, path)), {});
  return {
    // A clock's settings on one line, and beside them what it showed, are both told by names of which one holds the other.
    at: (path) => (Object.hasOwn(answers, nameOf(path)) ? answers[nameOf(path)] : at(tree, path)),
    place: (path) => within(file, 'answers', ...(stepsTo(answers, path) ?? [])),
    wrote: answers,
    facts: leaves(tree).filter((path) => path.length > 0),
  };
};

/**
 * Answers to keep of an interview that was broken off: with those of the file from which it went on, as far as it had not come to them yet.
 * @param answers by the names of the facts
 */
export const withNotReached = (answers: Answers, before: Given | undefined): Answers => {
  const reached = (steps: readonly string[]): boolean =>
    steps.some((_, i) => {
      const name = nameOf(steps.slice(0, i + 1));
      return Object.hasOwn(answers, name) && (i === steps.length - 1 || isNested(answers[name]));
    });
  const others = before === undefined ? [] : leaves(before.wrote).map((path) => [nameOf(path), at(before.wrote, path)] as const);
  return { ...answers, ...Object.fromEntries(others.filter(([name]) => !reached(name.split('.')))) };
};

const covered = (names: readonly string[], path: Path): boolean => names.some((name) => covers(name, nameOf(path)));

/** What the program itself writes into the file. */
const KEPT = ['origins', 'not_known'];

/** Facts that nobody is asked for and that the file has all the same: who writes answers may tell them too. */
const toldBesides = (answers: Given, asked: readonly Question[], draft: unknown, schema: z.ZodType): readonly Question[] =>
  answers.facts
    .filter((path) => !covered([...asked.map((q) => nameOf(q.path)), ...KEPT], path))
    .filter((path) => {
      const faults = faultsAt(schema, changed(draft, path, answers.at(path)), path.slice(0, -1), answers.place);
      return !faults.some((f) => f.code === 'unknown-key');
    })
    .map((path) => ({ path, code: '', form: 'text', example: '', choices: [], now: undefined, needed: false, quiet: true }));

/** What is wrong with a file that was not written, told at the answers it was made from. Its notes say nothing without it. */
export const toldAtAnswers = (findings: readonly Finding[], doc: string, answers: Given): readonly Finding[] => {
  const there = (at: Place): Place => (at.doc === doc ? answers.place(at.path) : at);
  return findings
    .filter((f) => f.severity !== 'note')
    .map((f) => ({ ...f, at: there(f.at), ...(f.also ? { also: f.also.map(there) } : {}) }));
};

/** Names that are asked for nothing. @param names of what is asked */
const unasked = (answers: Given, names: readonly string[]): readonly Finding[] => {
  const walk = (tree: Answers | readonly unknown[], before: readonly string[]): readonly Finding[] =>
    Object.entries(tree).flatMap(([key, value]): readonly Finding[] => {
      const keys = [...before, key];
      const name = keys.join('.');
      if (covered(names, keys)) return [];
      if (isNested(value) && names.some((one) => one.startsWith(`${name}.`))) return walk(value, keys);
      return [error('answer-unknown', { ...answers.place(keys), key: true }, { wrote: name, ...suggestion(name, names) })];
    });
  return walk(answers.wrote, []);
};

/** A file of answers held against what is asked: the facts that it tells besides, and a finding for each name that is neither. */
export const matched = (answers: Given, asked: readonly Question[], draft: unknown, schema: z.ZodType) => {
  const besides = toldBesides(answers, asked, draft, schema);
  const names = [...asked, ...besides].map((q) => nameOf(q.path));
  return { besides, strange: unasked(answers, names) };
};
