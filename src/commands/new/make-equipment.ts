/**
 * A profile from a similar one and answers: at a terminal, or from a file.
 */
import { anyError, error, note, type Finding } from '../../base/finding.js';
import { nearest } from '../../base/spelling.js';
import { place, within, type Place } from '../../base/place.js';
import { isId } from '../../model/fields.js';
import { touches } from '../../model/origins.js';
import { profileSchema } from '../../model/profile.js';
import { lay } from '../../model/resolve.js';
import { isRail, ZONE_KINDS, type ZoneKindName } from '../../trade/zones.js';
import { readStarters } from '../../host/disk.js';
import type { Prompts } from '../../host/prompts.js';
import type { Files, Shelf } from '../../read/shelf.js';
import { readYaml, type Source } from '../../read/yaml.js';
import type { Words } from '../../say/words.js';
import type { Session } from '../shared/session.js';
import { fromFile, type equipmentAnswers, type equipmentBroken } from './answers.js';
import { dateOf } from './date.js';
import { howOfNothing, profileOf, sourceOf, start, type Draft, type OtherTelling, type Telling } from './draft.js';
import type { BrokenOff } from './broken-off.js';
import {
  begun,
  equipmentQuestions,
  groupOf,
  GROUPS,
  pressuresHold,
  withoutForeign,
  withoutOtherClock,
  withoutOtherPullDown,
  withoutOwn,
  type Group,
} from './equipment.js';
import { fileText, isThere } from './finish.js';
import { given, matched, toldAtAnswers, withNotReached } from './given.js';
import { nameOf, UNKNOWN, type Question } from './question.js';
import { askUntilSound } from './terminal.js';
import { say } from '../shared/say.js';
import { at as valueAt, changed, inOrderOf, leaves, meeting } from './tree.js';
import { tryProfile, tryUnit } from './trial.js';
import type { z } from 'zod';

export interface MadeFile {
  readonly id: string;
  readonly doc: string;
  readonly text: string;
  readonly source: Source;
  readonly findings: readonly Finding[];
  /** Facts that nobody knows yet. */
  readonly open: number;
  readonly write: boolean;
  /** A person said that it may be written over. */
  readonly replace: boolean;
}

export interface EquipmentContext {
  readonly session: Session;
  readonly shelf: Shelf;
  readonly words: Words;
  readonly starts: ReadonlyMap<string, unknown>;
}

/** Profiles to start from: the chain's own, and under them the ones that ship. */
export const startsOf = (files: Files): ReadonlyMap<string, unknown> => {
  const own = [...files].filter(([doc]) => /^equipment\/[^/]+\.ya?ml$/.test(doc));
  return new Map(
    [...readStarters(), ...own].flatMap(([doc, bytes]): (readonly [string, unknown])[] => {
      const { value } = readYaml(doc, bytes);
      const id = doc.slice(doc.lastIndexOf('/') + 1).replace(/\.ya?ml$/, '');
      return value !== undefined && profileSchema.safeParse(value).success ? [[id, value]] : [];
    }),
  );
};

const names = ({ shelf }: EquipmentContext) => ({
  refrigerants: [...shelf.refrigerants.keys()],
  sensors: [...shelf.sensors.keys()],
});

/** What is asked: with what the similar one says there. What only this unit can say is empty. */
const asked = (
  context: EquipmentContext,
  similar: unknown,
): { readonly draft: Draft; readonly questions: (so: Draft) => readonly Question[] } => {
  const whole = begun(similar);
  return { draft: start(withoutOwn(whole)), questions: (so) => equipmentQuestions(whole, names(context), so) };
};

/** The card prints it, so it is written in each language that the chain's stores have by default. */
const takenOver = ({ opened }: Session, { under, lang }: Shelf): unknown => {
  const { languages } = lay(under).value as { readonly languages?: unknown };
  const asked = Array.isArray(languages) ? languages.map(String) : [lang];
  return Object.fromEntries(
    asked.flatMap((code): readonly (readonly [string, string])[] => {
      const says = opened.words.get(code)?.get('card.taken-over');
      return says === undefined ? [] : [[code, says]];
    }),
  );
};

const finished = (
  { session, shelf, words, starts }: EquipmentContext,
  id: string,
  like: string,
  draft: Draft,
  by: Parameters<typeof profileOf>[1],
): Omit<MadeFile, 'write' | 'replace'> => {
  const similar = starts.get(like);
  const own = withoutOtherClock(withoutOtherPullDown(withoutForeign(draft, similar)));
  const value = inOrderOf(profileOf(own, by, like, takenOver(session, shelf)), similar);
  const doc = `equipment/${id}.yaml`;
  const text = fileText(value, 'equipment', `Begun from ${like}: ${by.who}, ${by.when}.`, words);
  const { source } = readYaml(doc, new TextEncoder().encode(text));
  const names = ['control.pressure.cut_in', 'control.pressure.cut_out'];
  const untold = names.some((name) => !draft.told.includes(name) && !draft.notKnown.includes(name));
  const left = valueAt(similar, ['control', 'pressure']) !== undefined && !pressuresHold(draft, similar) && untold;
  const findings = [
    ...(left ? [note('pressures-not-taken-over', place(doc, 'control'), { from: like })] : []),
    ...tryProfile(session.files, doc, id, text, value),
  ];
  return { id, doc, text, source, open: draft.notKnown.length, findings };
};

export const equipmentFromFile = (
  context: EquipmentContext,
  answers: z.output<typeof equipmentAnswers>,
  at: Place,
  similar: unknown,
): MadeFile => {
  const { draft, questions: questionsFor } = asked(context, similar);
  const all = given(answers.answers, at);
  // The refrigerants and the clocks are answered first: they decide what the similar unit can tell, and what is asked.
  const first = questionsFor(draft)
    .map(({ path }) => path)
    .filter((path) => ['refrigerant', 'kind'].includes(String(path.at(-1))) && all.at(path) !== undefined);
  const value = first.reduce<unknown>((so, path) => changed(so, path, all.at(path)), draft.value);
  const notKnown = first.filter((path) => all.at(path) === UNKNOWN).map(nameOf);
  const common = questionsFor({ ...draft, value, notKnown });
  const { besides, strange } = matched(all, common, draft.value, profileSchema);
  const questions = [...common, ...besides];
  const read = fromFile(draft, questions, all, profileSchema, answers.like);
  const names = questions.map((q) => nameOf(q.path));
  const neverAsked = leaves(withoutOtherClock(withoutOtherPullDown(read.draft)).value)
    .map(nameOf)
    .filter((name) => !names.some((one) => touches(one, name)))
    .filter((name) => !name.startsWith('control.pressure.'));
  const also = note('never-asked-taken-over', within(at, 'answers'), { facts: neverAsked, from: answers.like });
  const nothing = howOfNothing(answers, all.facts.map(nameOf)).map((key) => {
    const near = nearest(key, read.draft.told);
    return error(
      'how-of-nothing',
      { ...within(at, 'how_of', key), key: true },
      { wrote: key, ...(near ? { nearest: near } : {}) },
    );
  });
  const gaps = [...strange, ...nothing, ...read.findings, also];
  const made = finished(context, answers.id, answers.like, read.draft, answers);
  const about = anyError(made.findings) ? toldAtAnswers(made.findings, made.doc, all) : made.findings;
  // A file with gaps has faults of its own, all from the same gaps.
  const findings = anyError(gaps) ? gaps : [...gaps, ...about];
  return { ...made, findings, write: !anyError(findings), replace: false };
};

type Head = Omit<z.output<typeof equipmentBroken>, 'answers'>;

/**
 * What is asked before any fact, as far as it was not answered before.
 * @returns the head as far as it went; `whole` false where a person broke off
 */
const askHead = async (
  context: EquipmentContext,
  prompts: Prompts,
  day: string,
  replace: boolean,
  before: Partial<Head>,
): Promise<{ readonly head: Partial<Head>; readonly whole: boolean }> => {
  const { session, words, starts } = context;
  const steps: readonly (readonly [key: 'like' | 'id' | 'who' | 'when' | 'how', ask: () => Promise<string | undefined>])[] = [
    [
      'like',
      () =>
        prompts.choose(
          say(words, 'like'),
          [...starts].map(([value, profile]) => ({ value, label: `${value}: ${looksOf(session, profile)}` })),
          undefined,
          say(words, 'none-of-these'),
        ),
    ],
    [
      'id',
      async () => {
        const id = await askId(prompts, words);
        return id !== undefined && (await mayWrite(session, `equipment/${id}.yaml`, prompts, words, replace)) ? id : undefined;
      },
    ],
    ['who', () => askLine(prompts, words, 'who')],
    ['when', () => askWhen(prompts, words, 'when', day, say(words, 'enter-today', { day }), day)],
    ['how', () => askHow(prompts, words, 'how')],
  ];
  let head = before;
  for (const [key, ask] of steps) {
    if (head[key] !== undefined) continue;
    const said = await ask();
    if (said === undefined) return { head, whole: false };
    head = { ...head, [key]: said.trim() };
  }
  return { head, whole: true };
};

/** A file that is there already is written over only if a person says so. */
export const mayWrite = async (
  { folder }: Session,
  doc: string,
  prompts: Prompts,
  words: Words,
  replace: boolean,
): Promise<boolean> =>
  replace || isThere(folder, doc).length === 0 || (await prompts.yes(say(words, 'replace', { file: doc }))) === true;

/** Where an interview was broken off: what stands in its file of answers, and the file. */
export interface GoOn<T> {
  readonly file: T;
  readonly at: Place;
}

/** @param goOn what was answered before: its facts are not asked again */
export const equipmentAtTerminal = async (
  context: EquipmentContext,
  prompts: Prompts,
  day: string,
  replace: boolean,
  goOn?: GoOn<z.output<typeof equipmentBroken>>,
): Promise<MadeFile | BrokenOff> => {
  const { session, words, starts } = context;
  if (goOn && !(await mayWrite(session, `equipment/${goOn.file.id}.yaml`, prompts, words, replace))) return {};
  const { answers: _, ...first } = goOn?.file ?? { answers: {} };
  const { head, whole } = await askHead(context, prompts, day, replace, first);
  const { id, like, who, when, how } = head;
  if (id === undefined || like === undefined) return {};
  if (!whole || who === undefined || when === undefined || how === undefined)
    return { kept: { id, answers: { ...head, answers: goOn?.file.answers ?? {} } } };
  const { draft, questions } = asked(context, starts.get(like));
  const before = goOn && given(goOn.file.answers, goOn.at);
  const { besides, strange } = before
    ? matched(before, questions(draft), draft.value, profileSchema)
    : { besides: [], strange: [] };
  if (anyError(strange)) {
    session.add(strange);
    return {};
  }
  const of: Record<string, OtherTelling> = { ...head.how_of };
  const all = { who, when, how };
  let last: Telling = all;
  const done = new Set<Group>();
  const told = () => ({ who, when, how, ...(Object.keys(of).length > 0 ? { how_of: of } : {}) });
  const similar = begun(starts.get(like));
  const {
    given: answers,
    made,
    wrong,
  } = await askUntilSound(
    draft,
    (so) => [...questions(so), ...besides],
    profileSchema,
    { prompts, words, wordsOf: session.wordsOf, tried: (so) => tryUnit(context.shelf, similar, so) },
    {
      ...(before ? { before: ({ path }) => before.at(path) } : {}),
      // A group of facts that is often known another way is asked about once, ahead of its first question.
      ahead: async ({ path }) => {
        const group = groupOf(nameOf(path));
        if (group === undefined || done.has(group)) return 'ask';
        done.add(group);
        const earlier = GROUPS[group].map((key) => of[key]).find((one) => one !== undefined);
        const source = earlier === undefined ? await askSource(prompts, words, group, last, day) : sourceOf(all, earlier);
        if (source === undefined) return 'stop';
        last = source;
        const same = source.who === who && source.when === when;
        if (earlier === undefined && !(same && source.how === how))
          for (const key of GROUPS[group]) of[key] = same ? source.how : source;
        return 'ask';
      },
    },
    (so) => finished(context, id, like, so, told()),
  );
  if (made) return { ...made, write: true, replace: true };
  return {
    kept: { id, answers: { id, like, ...told(), answers: withNotReached(answers, before) } },
    wrong,
  };
};

export const askId = (prompts: Prompts, words: Words, example = 'prep-table-48'): Promise<string | undefined> =>
  prompts.line(say(words, 'id'), say(words, 'example', { example }), (given) =>
    isId(given.trim()) ? undefined : say(words, 'id-like', { near: nearId(given) || example }),
  );

/** `Alder 67-P` as an id: alder-67-p. */
const nearId = (wrote: string): string =>
  wrote
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 40);

/** What tells two units of a sort apart before anything else: how they are controlled, their rail, their refrigerants, their clock. */
const looksOf = ({ opened }: Session, profile: unknown): string => {
  const term = (code: string): string => opened.words.get('en')?.get(`terms.${code}`) ?? code;
  const under = (...pattern: string[]): readonly string[] =>
    meeting(profile, pattern).flatMap((path) => {
      const value = valueAt(profile, path);
      return typeof value === 'string' ? [value] : [];
    });
  const rails = under('zones', '*', 'kind').filter((kind) => isRail(ZONE_KINDS[kind as ZoneKindName]));
  const parts = [
    ...under('control', 'strategy').map(term),
    ...rails.map(term),
    ...under('nameplate', 'circuits', '*', 'refrigerant'),
    ...under('zones', '*', 'rest', 'clock', 'kind').map(term),
  ];
  return [...new Set(parts)].join(', ');
};

const askLine = (prompts: Prompts, words: Words, code: 'who'): Promise<string | undefined> =>
  prompts.line(say(words, code), '', (given) => (given.trim() === '' ? say(words, code) : undefined));

/** @param now what Enter says, which the hint tells */
const askWhen = async (
  prompts: Prompts,
  words: Words,
  code: 'when' | 'when-of',
  now: string,
  hint: string,
  day: string,
): Promise<string | undefined> => {
  const given = await prompts.line(
    say(words, code),
    hint,
    (wrote) => (wrote.trim() === '' || dateOf(wrote, day) !== undefined ? undefined : say(words, 'when-like', { day })),
    now,
  );
  return given === undefined ? undefined : (dateOf(given, day) ?? now);
};

/** A slip of one word (`nine`) is no way of knowing, but for a few. @param last what Enter says again */
const askHow = async (
  prompts: Prompts,
  words: Words,
  code: 'how' | 'how-pressures' | 'how-zones',
  last?: Telling,
): Promise<string | undefined> => {
  const now = last?.how;
  const single = say(words, 'how-single');
  const isHow = (wrote: string): boolean => /\S\s+\S/.test(wrote) || single.split(', ').includes(wrote.toLowerCase());
  const hint = last === undefined ? '' : say(words, 'enter-same-how', { ...last });
  const given = await prompts.line(
    say(words, code),
    hint,
    (wrote) => {
      const text = wrote.trim();
      return (text === '' && now !== undefined) || isHow(text) ? undefined : say(words, 'how-like', { single });
    },
    now,
  );
  return given === undefined ? undefined : given.trim() || now;
};

/** How a group of facts is known and, where it is another way than before, who told it and when. */
const askSource = async (
  prompts: Prompts,
  words: Words,
  group: Group,
  last: Telling,
  day: string,
): Promise<Telling | undefined> => {
  const how = await askHow(prompts, words, `how-${group}`, last);
  if (how === undefined || how === last.how) return how === undefined ? undefined : last;
  const who = await prompts.line(say(words, 'who-of'), say(words, 'enter-keeps', { now: last.who }), () => undefined, last.who);
  if (who === undefined) return undefined;
  const hint = say(words, 'enter-keeps', { now: last.when });
  const when = await askWhen(prompts, words, 'when-of', last.when, hint, day);
  return when === undefined ? undefined : { who: who.trim() || last.who, when, how };
};
