/**
 * The questions at a terminal: each with an example and what Enter does; a wrong answer is told at once, in the words of `check`.
 */
import type { z } from 'zod';
import type { Finding } from '../../base/finding.js';
import { textOf } from '../../base/run.js';
import type { Prompts } from '../../host/prompts.js';
import type { FindingWords } from '../../say/findings.js';
import { toRuns, type Words } from '../../say/words.js';
import { answered, type Draft } from './draft.js';
import { nameOf, read, UNKNOWN, type Question } from './question.js';

export interface Asking {
  readonly prompts: Prompts;
  readonly words: Words;
  readonly wordsOf: (finding: Finding) => FindingWords;
}

/** A sentence of a word list of the terminal with its values. */
export const say = (words: Words, code: string, values: Readonly<Record<string, string>> = {}, list = 'new'): string =>
  textOf(toRuns(words.get(`${list}.${code}`) ?? code, (name) => [{ text: values[name] ?? '' }]));

/** What stands there, as a person would type it. */
export const shown = (now: unknown): string => {
  if (typeof now === 'boolean') return now ? 'yes' : 'no';
  if (typeof now === 'object' && now !== null) return shown(Object.values(now)[0]);
  return typeof now === 'string' || typeof now === 'number' ? String(now) : '';
};

/** Of several circuits or zones, which one: the steps that no other question of the kind has. */
const whose = ({ path }: Question): string => {
  const [first, second] = path;
  if (first === 'zones' || first === 'units') return `${String(second)}: `;
  return first === 'nameplate' && second === 'circuits' && Number(path[2]) > 0 ? `${Number(path[2]) + 1}. ` : '';
};

const hintOf = (question: Question, words: Words): string =>
  [
    say(words, 'example', { example: question.example }),
    question.now === undefined
      ? question.needed
        ? ''
        : say(words, 'enter-leaves')
      : say(words, 'enter-keeps', { now: shown(question.now) }),
    say(words, 'or-unknown'),
  ]
    .filter((part) => part !== '')
    .join('; ');

export const tell = (findings: readonly Finding[], wordsOf: Asking['wordsOf']): string =>
  findings
    .map((finding) => {
      const { says, hint } = wordsOf(finding);
      return hint === undefined ? says : `${says}. ${hint}`;
    })
    .join('\n');

/** The choices, and where they may stand: leaving the fact out, and not knowing it yet. */
const optionsOf = (question: Question, words: Words, check: (given: string) => string | undefined) =>
  [
    ...question.choices.map((value) => ({ value, label: value })),
    ...(question.now === undefined && !question.needed ? [{ value: '', label: say(words, 'enter-leaves') }] : []),
    { value: UNKNOWN, label: say(words, 'or-unknown') },
  ].filter(({ value }) => value !== UNKNOWN || check(UNKNOWN) === undefined);

/** Asks one question until its answer holds. @returns undefined where a person broke off */
const ask = async (
  question: Question,
  draft: Draft,
  schema: z.ZodType,
  { prompts, words, wordsOf }: Asking,
): Promise<Draft | undefined> => {
  const message = `${whose(question)}${say(words, `ask.${question.code}`)}`;
  const check = (given: string): string | undefined => {
    const answer = read(question, given.trim(), draft.value, schema);
    return answer.ok ? undefined : tell(answer.findings, wordsOf);
  };
  const given =
    question.form === 'choice'
      ? await prompts.choose(
          message,
          optionsOf(question, words, check),
          // Enter at a choice says nothing that nobody has said.
          question.now === undefined ? (question.needed ? undefined : '') : shown(question.now),
        )
      : await prompts.line(message, hintOf(question, words), check);
  if (given === undefined) return undefined;
  const answer = read(question, given.trim(), draft.value, schema);
  if (!answer.ok) throw new Error(`${nameOf(question.path)}: an answer was let through that does not hold`);
  return answered(draft, question, answer);
};

/** All of them, in order. @param all is asked anew after each answer, since one may bring others */
export const askAll = async (
  draft: Draft,
  all: (draft: Draft) => readonly Question[],
  schema: z.ZodType,
  asking: Asking,
): Promise<Draft | undefined> => {
  const done = new Set<string>();
  let so = draft;
  for (;;) {
    const next = all(so).find((question) => !question.quiet && !done.has(nameOf(question.path)));
    if (!next) return so;
    done.add(nameOf(next.path));
    const after = await ask(next, so, schema, asking);
    if (!after) return undefined;
    so = after;
  }
};
