/**
 * What a trainer needs beside the lesson's sentences: how long each part takes, and the questions in several orders, the same on every machine.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { shuffled } from '../base/shuffle.js';
import { count, phrase, verbatim, type Phrase, type Value, type Verbatim } from '../base/value.js';
import { computed, practice } from './known.js';
import type { Question } from './lesson.js';
import type { UnitTraits } from './unit-traits.js';

/** As many as one trainer sees at work, and one probe after another reaches. Common practice, no source. */
const GROUP = 4;
/** For one person to show one thing. */
const SHOWS = 2;
/**
 * Minutes of each part of the lesson, with a group of that size: said aloud, its words alone take three. Common practice, no source.
 */
const WITH_TOP = { why: 1, how: 3, times: 2, night: 4, morning: 2, load: 2, show: GROUP * SHOWS, ask: 2 } as const;
const WITHOUT_TOP = { why: 1, how: 2, load: 2, show: GROUP * SHOWS, ask: 2 } as const;

const LETTERS = 'ABCDEFGH';
/** Enough to meet every order of a few questions. */
const TRIES = 200;

export interface Part {
  readonly title: Known<Phrase>;
  readonly text: Known<Phrase>;
  readonly takes: Known<Amount<'duration'>>;
  readonly [key: string]: Known<Value>;
}

export interface Version {
  readonly letter: Known<Verbatim>;
  readonly questions: readonly Question[];
}

interface KitFacts {
  /** When the top is empty, where there is one and a time is known. */
  readonly emptyBy: Known<Value> | undefined;
  /** What an empty top reads before it is loaded. */
  readonly ready: Known<Value>;
  readonly traits: UnitTraits;
  readonly questions: readonly Question[];
  readonly showMe: readonly Known<Phrase>[];
  readonly unit: string;
  /** Of the store's `training`, or what stands in for it. */
  readonly training: { readonly seed: string; readonly versions: number } | undefined;
}

const minutes = (n: number): Amount<'duration'> => amount('duration', n * 60);
const NO_SEED = { seed: 'nightrail', versions: 3 };

/** Different orders of the questions, as many as are asked for and as there are. */
const orders = (questions: readonly Question[], most: number, seed: string): readonly (readonly Question[])[] => {
  const found = new Map<string, readonly Question[]>();
  for (let i = 0; found.size < most && i < TRIES; i++) {
    const order = shuffled(questions, `${seed} ${i}`);
    const key = order.map((q) => questions.indexOf(q)).join(' ');
    if (!found.has(key)) found.set(key, order);
  }
  return [...found.values()];
};

/** What goes wrong on purpose is safe on every unit of the kind, and so is what is said of food. */
const wording = (part: string, { rail, holds }: UnitTraits): string => {
  if (part === 'why') return holds === 'sealed' ? 'text-sealed' : 'text';
  return part !== 'load' || rail ? 'text' : holds === 'sealed' ? 'text-sealed' : 'text-box';
};

export const kit = ({ emptyBy, ready, traits, questions, showMe, unit, training = NO_SEED }: KitFacts) => {
  const all = emptyBy ? { empty_by: emptyBy, ready } : {};
  const parts = Object.entries(emptyBy ? WITH_TOP : WITHOUT_TOP).map(([code, takes]): Part => {
    const say = (what: string): Known<Phrase> => practice(phrase(`kit-lesson.parts.${code}.${what}`, all), `lesson-${code}`);
    return {
      title: say('title'),
      text: say(wording(code, traits)),
      takes: practice(minutes(takes), 'lesson-timing'),
    };
  });
  const takes = parts.map((part) => part.takes);
  return {
    parts,
    /** How many people at a time, at most. */
    group: practice(count(GROUP), 'lesson-group'),
    takes: computed(minutes(takes.reduce((sum, t) => sum + t.value.si, 0) / 60), 'sum-of-parts', takes),
    /** What each person shows, with the few words that head its column on the sign-off. */
    show_me: showMe.map((text) => ({
      text,
      short: practice(phrase(`kit-sign-off.short.${text.value.code.split('.').at(-1) ?? ''}`), 'show-me'),
    })),
    versions: orders(questions, training.versions, `${training.seed} ${unit}`).map((order, i): Version => ({
      letter: practice(verbatim(LETTERS[i] as string), 'version-letter'),
      questions: order,
    })),
  };
};
