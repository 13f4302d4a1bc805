/**
 * Word lists: every sentence and label by its code, in one language. A text may name values (`{limit}`) and mark strong words (`**never**`).
 */
import { anyError, error, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import type { Run } from '../base/run.js';

export interface Words {
  readonly lang: string;
  /** The sentence under a code, or undefined. */
  readonly get: (code: string) => string | undefined;
  /** Every code, for comparing languages. */
  readonly codes: readonly string[];
  /** Where the sentence under a code is written. */
  readonly at: (code: string) => Place | undefined;
}

/** A list that holds nothing, for when there is none to be had. */
export const noWords = (lang: string): Words => ({ lang, get: () => undefined, codes: [], at: () => undefined });

/** One file of a language: `findings` for words/en/findings.yaml, and its value. */
export interface WordFile {
  readonly name: string;
  readonly doc: string;
  readonly value: unknown;
}

/** No language ends a line before these signs, so a plain space that a person typed there holds: French sets one before : ; ? ! and inside « ». */
const held = (text: string): string => text.replace(/ (?=[:;?!»])|(?<=«) /g, '\u00a0');

/** Later files of the same name win code by code: a chain overrides single sentences. */
export const gatherWords = (lang: string, files: readonly WordFile[]): { words: Words; findings: readonly Finding[] } => {
  const all = new Map<string, { readonly text: string; readonly at: Place }>();
  const findings: Finding[] = [];
  const take = (value: unknown, path: readonly string[], doc: string): void => {
    const at = place(doc, ...path.slice(1));
    if (typeof value === 'string') all.set(path.join('.'), { text: held(value.trim()), at });
    else if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) take(inner, [...path, key], doc);
    } else findings.push(error('words-not-text', at, { code: path.join('.') }));
  };
  for (const file of files) take(file.value, [file.name], file.doc);
  if (anyError(findings)) return { words: noWords(lang), findings };
  return {
    words: { lang, get: (code) => all.get(code)?.text, codes: [...all.keys()], at: (code) => all.get(code)?.at },
    findings,
  };
};

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
