/**
 * The questions at a terminal: each with an example and what Enter does; a wrong answer is told at once, in the words of `check`.
 */
import type { z } from 'zod';
import type { Finding } from '../../base/finding.js';
import type { Prompts } from '../../host/prompts.js';
import type { FindingWords } from '../../say/findings.js';
import type { Words } from '../../say/words.js';
import { covers } from '../../model/origins.js';
import { say } from '../shared/say.js';
import { answered, type Draft } from './draft.js';
import { at, type Path } from './tree.js';
import { keptOf, nameOf, NONE, read, starts, UNKNOWN, type Answer, type Question } from './question.js';

export interface Asking {
  readonly prompts: Prompts;
  readonly words: Words;
  readonly wordsOf: (finding: Finding) => FindingWords;
  /** What is wrong with the answers so far, by rules that need more than one of them. */
  readonly tried?: (draft: Draft) => readonly Finding[];
  /** What is said to who gave an answer, where it may have been read otherwise than it was meant. */
  readonly readBack?: (question: Question, wrote: string) => string | undefined;
}

/** What an answer comes to, also beside the answers before it. */
const hold = (question: Question, given: unknown, draft: Draft, schema: z.ZodType, tried: Asking['tried']): Answer => {
  const answer = read(question, given, draft.value, schema);
  if (!answer.ok || !answer.known || !tried) return answer;
  const findings = tried(answered(draft, question, answer)).filter(({ at }) => starts(at.path, question.path));
  return findings.length > 0 ? { ok: false, findings } : answer;
};

/** What stands there, as a person would type it. */
export const shown = (now: unknown): string => {
  if (typeof now === 'boolean') return now ? 'yes' : 'no';
  if (typeof now === 'object' && now !== null) return shown(Object.values(now)[0]);
  return typeof now === 'string' || typeof now === 'number' ? String(now) : '';
};

/** Of several circuits or zones, which one: the steps that no other question of the kind has; of a circuit, the zones that it serves. */
const whose = ({ path }: Question, draft: unknown): string => {
  const [first, second, , set, zone] = path;
  if (first === 'units' && set === 'control') return `${String(second)}, ${String(zone)}: `;
  if (first === 'zones' || first === 'units') return `${String(second)}: `;
  if (first !== 'nameplate' || second !== 'circuits') return '';
  const circuits = at(draft, path.slice(0, 2));
  const serves = at(draft, [...path.slice(0, 3), 'serves']);
  return Array.isArray(circuits) && circuits.length > 1 && Array.isArray(serves) ? `${serves.join(', ')}: ` : '';
};

/** What Enter does. */
const enter = (question: Question, words: Words): string => {
  if (question.earlier !== undefined) return say(words, 'enter-keeps', { now: question.earlier });
  const kept = keptOf(question);
  if (kept !== undefined) return say(words, question.similar ? 'enter-takes-over' : 'enter-keeps', { now: shown(kept) });
  return question.safe || question.needed ? '' : say(words, 'enter-leaves');
};

/** What Enter has said, once it was pressed. */
const shownAfter = (question: Question, words: Words): string => {
  const kept = keptOf(question);
  if (question.earlier !== undefined) return question.earlier;
  if (kept === undefined) return question.safe ? say(words, 'shown-unknown') : '';
  return question.similar ? say(words, 'shown-over', { now: shown(kept) }) : shown(kept);
};

/** What not knowing yet comes to; of some facts, Enter says it too. */
const unknown = (question: Question, words: Words): string => {
  const { safe } = question;
  const asEnter = safe && question.earlier === undefined && keptOf(question) === undefined;
  return [
    say(words, asEnter ? 'enter-or-unknown' : 'or-unknown'),
    ...(safe && safe.as !== undefined ? [say(words, 'then-safe', { safe: shown(safe.as) })] : []),
  ].join(': ');
};

/** Whether an answer that was given before may be taken back, so that nothing is said of the fact. */
const mayEmpty = ({ earlier }: Question, check: (given: string) => string | undefined): boolean =>
  earlier !== undefined && earlier !== UNKNOWN && check(NONE) === undefined;

const hintOf = (question: Question, words: Words, check: (given: string) => string | undefined): string =>
  [
    say(words, 'example', { example: question.example }),
    enter(question, words),
    ...(question.similar && question.earlier === undefined && keptOf(question) !== undefined ? [say(words, 'same')] : []),
    ...(mayEmpty(question, check) ? [say(words, 'dash-takes-out')] : []),
    ...(check(UNKNOWN) === undefined ? [unknown(question, words)] : []),
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

/** The choices, and where they may stand: leaving the fact out, and not knowing it yet. Enter at once takes the marked one, which says nothing that nobody has said. */
const optionsOf = (question: Question, words: Words, check: (given: string) => string | undefined) => {
  const kept = question.earlier !== undefined || keptOf(question) !== undefined;
  const nobody = { value: UNKNOWN, label: unknown(question, words) };
  const empty = { value: '', label: enter(question, words) };
  const choices = question.choices.map((value) => ({ value, label: value }));
  if (question.safe && !kept) return { of: [nobody, ...choices], marked: UNKNOWN };
  const of = kept ? [empty, ...choices] : [...choices, ...(question.needed ? [] : [empty])];
  const none = mayEmpty(question, check) ? [{ value: NONE, label: say(words, 'dash-takes-out') }] : [];
  return {
    of: [...of, ...none, ...(check(UNKNOWN) === undefined ? [nobody] : [])],
    marked: kept || !question.needed ? '' : undefined,
  };
};

/** Asks one question until its answer holds. @returns undefined where a person broke off */
const ask = async (
  question: Question,
  draft: Draft,
  schema: z.ZodType,
  { prompts, words, wordsOf, tried }: Asking,
): Promise<string | undefined> => {
  const message = `${whose(question, draft.value)}${words.get(`new.ask.${question.code}`) ?? nameOf(question.path)}`;
  const meant = (given: string): string => {
    const text = given.trim();
    return text === NONE && question.earlier !== undefined ? '' : text || (question.earlier ?? '');
  };
  const check = (given: string): string | undefined => {
    const answer = hold(question, meant(given), draft, schema, tried);
    return answer.ok ? undefined : tell(answer.findings, wordsOf);
  };
  const options = question.form === 'choice' ? optionsOf(question, words, check) : undefined;
  const given = options
    ? await prompts.choose(message, options.of, options.marked, say(words, 'none-of-these'))
    : await prompts.line(message, hintOf(question, words, check), check, shownAfter(question, words));
  return given === undefined ? undefined : meant(given);
};

/** An interview as far as it went. */
export interface Interview {
  readonly draft: Draft;
  /** What was answered, as it was given, by the names of the facts. */
  readonly given: Readonly<Record<string, unknown>>;
  /** False: a person broke off. */
  readonly whole: boolean;
}

/** What an interview goes on from, and what comes between its questions. */
export interface Between {
  /** What was answered before; of a fact that nothing was said of, undefined. */
  readonly before?: (question: Question) => unknown;
  /** What was answered before to a question that is asked again; Enter keeps it. */
  readonly earlier?: (question: Question) => unknown;
  /** Called ahead of each question that is asked: `leave` where it is answered by nothing, `stop` where a person broke off. */
  readonly ahead?: (question: Question) => Promise<'ask' | 'leave' | 'stop'>;
}

/** All of them, in order. @param all is asked anew after each answer, since one may bring others */
export const askAll = async (
  start: Draft,
  all: (draft: Draft) => readonly Question[],
  schema: z.ZodType,
  asking: Asking,
  { before = () => undefined, earlier: former = () => undefined, ahead = () => Promise.resolve('ask') }: Between = {},
): Promise<Interview> => {
  const given: Record<string, unknown> = {};
  let draft = start;
  for (;;) {
    const next = all(draft).find(
      (question) => !(nameOf(question.path) in given) && (!question.quiet || before(question) !== undefined),
    );
    if (!next) return { draft, given, whole: true };
    const earlier = before(next);
    const kept = earlier !== undefined && hold(next, earlier, draft, schema, asking.tried).ok;
    const first = kept ? 'kept' : await ahead(next);
    const again = former(next);
    const question = typeof again === 'string' && again !== '' ? { ...next, earlier: again } : next;
    const asked = first === 'ask' ? await ask(question, draft, schema, asking) : undefined;
    const wrote = first === 'kept' ? earlier : first === 'leave' ? '' : asked;
    if (wrote === undefined) return { draft, given, whole: false };
    const answer = read(next, wrote, draft.value, schema);
    if (!answer.ok) throw new Error(`${nameOf(next.path)}: an answer was let through that does not hold`);
    const readBack = asked === undefined ? undefined : asking.readBack?.(next, asked);
    if (readBack !== undefined) asking.prompts.tell(readBack);
    given[nameOf(next.path)] = wrote;
    draft = answered(draft, next, answer);
  }
};

/** What decides a night, of which no single fact is wrong. */
const OF_NIGHTS: readonly Path[] = [['hours'], ['quiet_window'], ['crew']];

/** Whether a finding is of the fact, of what holds it, or of a fact beside it, which it is held against; one that names what is missing is of that alone. */
const touches = ({ code, at, data: { missing } }: Finding, path: Path): boolean =>
  /^no-rest-/.test(code)
    ? OF_NIGHTS.some((one) => starts(path, one)) || path.at(-1) === 'drains'
    : Array.isArray(missing)
      ? [nameOf(at.path), ...missing.map(String)].some((key) => covers(key, nameOf(path)))
      : starts(path, at.path) ||
        starts(at.path, path) ||
        (path.length > 2 && path.length === at.path.length && starts(path, at.path.slice(0, -1)));

/** A finding that names keys, with the questions that ask for them instead, as far as they are asked: up to their first comma; of several facts, what they are of. */
const inWords = (finding: Finding, questions: readonly Question[], draft: unknown, words: Words): Finding => {
  const said = (key: string): string => {
    const question = questions.find(({ path }) => covers(key, nameOf(path)));
    const end = question && nameOf(question.path) === key ? /[,?]/ : /[:,?]/;
    const asks = question && `${whose(question, draft)}${words.get(`new.ask.${question.code}`) ?? key}`;
    return asks === undefined ? key : `"${asks.split(end)[0] ?? asks}"`;
  };
  const { key, missing } = finding.data;
  return {
    ...finding,
    data: {
      ...finding.data,
      ...(Array.isArray(missing) ? { missing: missing.map((one) => said(String(one))) } : {}),
      ...(typeof key === 'string' && questions.some(({ path }) => nameOf(path) === nameOf(finding.at.path))
        ? { key: said(nameOf(finding.at.path)) }
        : {}),
    },
  };
};

/**
 * Asks all, tries the whole as `check` would, and asks again what has an error, as often as a person wants to.
 * @param make the file that the answers make
 * @returns no file where a person broke off, nor where an error was left: `wrong`, with what nobody was told yet
 */
export const askUntilSound = async <Made extends { readonly findings: readonly Finding[] }>(
  begin: Draft,
  all: (draft: Draft) => readonly Question[],
  schema: z.ZodType,
  asking: Asking,
  between: Between,
  make: (draft: Draft) => Made,
): Promise<Interview & { readonly made?: Made; readonly wrong?: string }> => {
  const { prompts, words, wordsOf } = asking;
  let round = await askAll(begin, all, schema, asking, between);
  for (;;) {
    if (!round.whole) return round;
    const made = make(round.draft);
    const wrong = made.findings.filter(({ severity }) => severity === 'error');
    if (wrong.length === 0) return { ...round, made };
    const touched = all(round.draft).filter(({ path, quiet }) => !quiet && wrong.some((finding) => touches(finding, path)));
    const again = new Set(touched.map(({ path }) => nameOf(path)));
    const says = tell(
      wrong.map((finding) => inWords(finding, all(round.draft), round.draft.value, words)),
      wordsOf,
    );
    const ask = `${says}\n${say(words, 'ask-again', { count: String(again.size) })}`;
    if (again.size === 0) return { ...round, wrong: says };
    if ((await prompts.yes(ask)) !== true) return { ...round, wrong: '' };
    const { given } = round;
    const next = await askAll(begin, all, schema, asking, {
      ...between,
      before: (question) => (again.has(nameOf(question.path)) ? undefined : given[nameOf(question.path)]),
      earlier: (question) => given[nameOf(question.path)],
    });
    round = { ...next, given: { ...given, ...next.given } };
  }
};
