/**
 * A profile from a similar one and answers: at a terminal, or from a file.
 */
import { anyError, note, type Finding } from '../../base/finding.js';
import { place, within, type Place } from '../../base/place.js';
import { ID } from '../../model/fields.js';
import { profileSchema } from '../../model/profile.js';
import { lay } from '../../model/resolve.js';
import { readStarters } from '../../host/disk.js';
import type { Prompts } from '../../host/prompts.js';
import type { Files, Shelf } from '../../read/shelf.js';
import { readYaml, type Source } from '../../read/yaml.js';
import type { Words } from '../../say/words.js';
import type { Session } from '../session.js';
import { fromFile, type equipmentAnswers } from './answers.js';
import { profileOf, start, type Draft } from './draft.js';
import { begun, equipmentQuestions, pressuresHold, withoutForeign, withoutOtherPullDown, withoutOwn } from './equipment.js';
import { fileText, isThere } from './finish.js';
import { given, toldAtAnswers, toldBesides, unasked } from './given.js';
import { nameOf, UNKNOWN, type Question } from './question.js';
import { askAll, say } from './terminal.js';
import { at as valueAt, changed, inOrderOf, leaves } from './tree.js';
import { tryProfile } from './trial.js';
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
  const own = withoutOtherPullDown(withoutForeign(draft, similar));
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
  // The refrigerants are answered first: they decide what the similar unit can tell.
  const plates = questionsFor(draft)
    .map(({ path }) => path)
    .filter((path) => path.at(-1) === 'refrigerant' && all.at(path) !== undefined);
  const value = plates.reduce<unknown>((so, path) => changed(so, path, all.at(path)), draft.value);
  const notKnown = plates.filter((path) => all.at(path) === UNKNOWN).map(nameOf);
  const common = questionsFor({ ...draft, value, notKnown });
  const questions = [...common, ...toldBesides(all, common, draft.value, profileSchema)];
  const strange = unasked(
    answers.answers,
    questions.map((q) => nameOf(q.path)),
    at,
  );
  const read = fromFile(draft, questions, all, profileSchema, answers.like);
  const names = questions.map((q) => nameOf(q.path));
  const neverAsked = leaves(withoutOtherPullDown(read.draft).value)
    .map(nameOf)
    .filter((name) => !names.some((one) => one === name || one.startsWith(`${name}.`) || name.startsWith(`${one}.`)))
    .filter((name) => !name.startsWith('control.pressure.'));
  const also = note('never-asked-taken-over', within(at, 'answers'), { facts: neverAsked, from: answers.like });
  const gaps = [...strange, ...read.findings, also];
  const made = finished(context, answers.id, answers.like, read.draft, answers);
  const about = anyError(made.findings) ? toldAtAnswers(made.findings, made.doc, all) : made.findings;
  // A file with gaps has faults of its own, all from the same gaps.
  const findings = anyError(gaps) ? gaps : [...gaps, ...about];
  return { ...made, findings, write: !anyError(findings), replace: false };
};

export const equipmentAtTerminal = async (
  context: EquipmentContext,
  prompts: Prompts,
  day: string,
  replace: boolean,
): Promise<MadeFile | undefined> => {
  const { session, words, starts } = context;
  const asking = { prompts, words, wordsOf: session.wordsOf };
  const like = await prompts.choose(
    say(words, 'like'),
    [...starts].map(([value, profile]) => ({ value, label: `${value}: ${controlOf(session, profile)}` })),
    undefined,
  );
  if (like === undefined) return undefined;
  const id = await askId(prompts, words);
  if (id === undefined) return undefined;
  const there = isThere(session.folder, `equipment/${id}.yaml`).length > 0;
  if (there && !replace && !(await prompts.yes(say(words, 'replace', { file: `equipment/${id}.yaml` })))) return undefined;
  const who = await askLine(prompts, words, 'who');
  const how = who === undefined ? undefined : await askLine(prompts, words, 'how');
  if (who === undefined || how === undefined) return undefined;
  const { draft, questions } = asked(context, starts.get(like));
  const end = await askAll(draft, questions, profileSchema, asking);
  if (!end) return undefined;
  // What was answered is kept, also where the whole has a fault that no single answer shows.
  return { ...finished(context, id, like, end, { who, when: day, how }), write: true, replace: there };
};

export const askId = (prompts: Prompts, words: Words): Promise<string | undefined> =>
  prompts.line(say(words, 'id'), say(words, 'example', { example: 'prep-table-48' }), (given) =>
    ID.test(given.trim()) ? undefined : say(words, 'id'),
  );

/** What tells two units of a sort apart before anything else: how they are controlled. */
const controlOf = ({ opened }: Session, profile: unknown): string => {
  const strategy = String(valueAt(profile, ['control', 'strategy']));
  return opened.words.get('en')?.get(`terms.${strategy}`) ?? strategy;
};

const askLine = (prompts: Prompts, words: Words, code: 'who' | 'how'): Promise<string | undefined> =>
  prompts.line(say(words, code), '', (given) => (given.trim() === '' ? say(words, code) : undefined));
