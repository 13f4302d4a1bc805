/**
 * Files of one language to its words.
 */
import { anyError, error, warning, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { keepApart } from './kept-apart.js';
import { keepTogether, type Sentence } from './questions.js';
import { faultsOf, fileOf, isCopy, isOfPaper, keyOf, ownWords } from './sentence.js';
import type { Words } from './words.js';

/** One file of a language: `findings` for words/en/findings.yaml, and its value; undefined where it could not be read. */
export interface WordFile {
  readonly name: string;
  readonly doc: string;
  readonly value: unknown;
  /** It comes with nightrail, whose tests hold it to the rules: it isn't held to them again. */
  readonly shipped?: boolean;
}

export interface GatheredWords {
  /** Those of the files; what they lack of English is not yet told. */
  readonly words: Words;
  readonly findings: readonly Finding[];
}

/** No language ends a line before these signs, so a plain space that a person typed there holds: French sets one before : ; ? ! and inside « ». */
const held = (text: string): string => text.replace(/ (?=[:;?!»])|(?<=«) /g, '\u00a0');

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Words that this language writes as English does: the one entry that is no sentence and may be a list. */
const SAME = 'language.same';
const sameWords = (files: readonly WordFile[]): ReadonlySet<string> =>
  new Set(
    files
      .flatMap(({ name, value }) => (name === 'language' && isMap(value) ? [value['same']].flat() : []))
      .flatMap((word) => (typeof word === 'string' ? ownWords(word) : [])),
  );

/** What people act on, or are warned by, on any paper: no program can tell whether other words still say it. Questions have rules of their own (say/questions). */
const guards = (code: string): boolean => isOfPaper(code) && !/^language\.|\.name$|^foot\.own$|^lesson\.questions\./.test(code);

/** Those that a chain says in its own words, file by file, beside what ships of the first. */
const reworded = (
  codes: readonly string[],
  shipped: ReadonlyMap<string, Sentence>,
  all: ReadonlyMap<string, Sentence>,
): readonly Finding[] => {
  const byFile = new Map<string, string[]>();
  for (const code of codes.filter(guards)) byFile.set(fileOf(code), [...(byFile.get(fileOf(code)) ?? []), code]);
  return [...byFile.values()].map((some) => {
    const [first = ''] = some;
    return warning('caution-reworded', (all.get(first) as Sentence).at, {
      keys: some.map(keyOf),
      ships: shipped.get(first)?.text ?? '',
    });
  });
};

/**
 * Later files of the same name win code by code: a chain overrides single sentences.
 * A text with an error is left out, and an earlier one under its code stays.
 * @param english what English says, first as it comes with nightrail: a text is held to it. None for English as it comes
 */
export const gatherWords = (lang: string, files: readonly WordFile[], english: readonly Words[] = []): GatheredWords => {
  const all = new Map<string, Sentence>();
  const shipped = new Map<string, Sentence>();
  const copied = new Set<string>();
  const refused = new Set(files.filter(({ value }) => value === undefined).map(({ name }) => name));
  const findings: Finding[] = [];
  const same = sameWords(files);
  const take = (value: unknown, path: readonly string[], file: WordFile): void => {
    const at = place(file.doc, ...path.slice(1));
    const code = path.join('.');
    if (code === SAME) return;
    if (typeof value === 'string') {
      const text = held(value.trim());
      if (file.shipped) {
        const sentence = { text, at };
        shipped.set(code, sentence);
        return void all.set(code, sentence);
      }
      const models = english.map((words) => words.get(code));
      if (lang !== 'en' && isCopy(code, text, models, same)) return void copied.add(code);
      const faults = faultsOf(
        lang,
        code,
        text,
        models.find((model) => model !== undefined),
        models[0],
        at,
      );
      findings.push(...faults);
      if (anyError(faults)) refused.add(code);
      else all.set(code, { text, at });
    } else if (isMap(value)) for (const [key, inner] of Object.entries(value)) take(inner, [...path, key], file);
    else {
      findings.push(error('words-not-text', at, { code, key: path.at(-1) ?? '' }));
      refused.add(code);
    }
  };
  for (const file of files) if (file.value !== undefined) take(file.value, [file.name], file);
  findings.push(...keepTogether(all, shipped, refused), ...keepApart(all, shipped, refused));
  const codes = [...all.keys()];
  const replaced = new Set(codes.filter((code) => shipped.has(code) && shipped.get(code)?.text !== all.get(code)?.text));
  findings.push(...reworded([...replaced], shipped, all));
  const words = {
    lang,
    isOwn: english.length > 0 && !files.some((file) => file.shipped),
    codes,
    get: (code: string) => all.get(code)?.text,
    at: (code: string) => all.get(code)?.at,
  };
  return { words: { ...words, lacks: new Map(), copied, replaced, refused }, findings };
};
