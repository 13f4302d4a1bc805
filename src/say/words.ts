/**
 * Word lists: every sentence and label by its code, in one language. A text may name values (`{limit}`) and mark strong words (`**never**`).
 */
import type { Place } from '../base/place.js';
import type { Run } from '../base/run.js';

export interface Words {
  readonly lang: string;
  /** The sentence under a code, or undefined. */
  readonly get: (code: string) => string | undefined;
  /** None of its sentences ships: nobody but the chain has read what it tells people to do. */
  readonly isOwn: boolean;
  /** Every code, for comparing languages. */
  readonly codes: readonly string[];
  /** Where the sentence under a code is written. */
  readonly at: (code: string) => Place | undefined;
  /** What English says and this language doesn't, by code: no page that says one of these is made in it. */
  readonly lacks: ReadonlyMap<string, string>;
  /** Codes whose texts are the English ones, letter for letter: they don't count as written. */
  readonly copied: ReadonlySet<string>;
  /** Codes that ship, under which a chain has written something else. */
  readonly replaced: ReadonlySet<string>;
  /** Codes, and files as a whole, that a person wrote and that could not be taken: told where they stand. */
  readonly refused: ReadonlySet<string>;
}

/** Whether a sentence is not there because what was written could not be taken: the cause is told where it stands. */
export const isRefused = ({ refused }: Words, code: string): boolean =>
  refused.has(code) || refused.has(code.slice(0, code.indexOf('.')));

/** A list that holds nothing, for when there is none to be had. */
export const noWords = (lang: string): Words => ({
  lang,
  get: () => undefined,
  isOwn: false,
  codes: [],
  at: () => undefined,
  lacks: new Map(),
  copied: new Set(),
  replaced: new Set(),
  refused: new Set(),
});

const PART = /\{([a-z_]+)\}|\*\*/g;

/**
 * A sentence to runs: each `{name}` becomes what `fill` gives for it, each `**...**` is strong.
 * @throws when the sentence names a value that `fill` does not know: a fault of the word list or of our own
 */
export const toRuns = (sentence: string, fill: (name: string) => readonly Run[] | undefined): readonly Run[] => {
  const runs: Run[] = [];
  let strong = false;
  let from = 0;
  const plain = (text: string): void => void (text && runs.push({ text, ...(strong ? { strong: true as const } : {}) }));
  for (const part of sentence.matchAll(PART)) {
    plain(sentence.slice(from, part.index));
    from = part.index + part[0].length;
    if (part[1] === undefined) strong = !strong;
    else {
      const filled = fill(part[1]);
      if (!filled) throw new Error(`no value called {${part[1]}} for: ${sentence}`);
      runs.push(...filled.map((run) => (strong ? { ...run, strong: true as const } : run)));
    }
  }
  plain(sentence.slice(from));
  return runs;
};

/** Names that a sentence asks for. */
export const asksFor = (sentence: string): readonly string[] =>
  [...sentence.matchAll(PART)].flatMap((part) => (part[1] ? [part[1]] : []));
