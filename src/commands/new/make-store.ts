/**
 * A store from answers: at a terminal, or from a file. What it doesn't say comes from its chain.
 */
import type { z } from 'zod';
import { anyError, error, type Finding } from '../../base/finding.js';
import { suggestion } from '../../base/spelling.js';
import { within, type Place } from '../../base/place.js';
import { planOf } from '../../fleet/store-papers.js';
import type { Workshop } from '../../fleet/workshop.js';
import type { Prompts } from '../../host/prompts.js';
import { isId } from '../../model/fields.js';
import { lay } from '../../model/resolve.js';
import { storeSchema } from '../../model/store.js';
import { readYaml } from '../../read/yaml.js';
import type { Words } from '../../say/words.js';
import type { Session } from '../shared/session.js';
import { fromFile, type storeAnswers, type storeBroken } from './answers.js';
import { start, storeOf, type Draft } from './draft.js';
import { fileText } from './finish.js';
import { given, matched, toldAtAnswers, withNotReached, type Given } from './given.js';
import type { BrokenOff } from './broken-off.js';
import { askId, mayWrite, type GoOn, type MadeFile } from './make-equipment.js';
import { nameOf, type Question } from './question.js';
import { hoursReadBack } from './read-back.js';
import { storeQuestions, unitQuestions } from './store.js';
import { askUntilSound, shown } from './terminal.js';
import { say } from '../shared/say.js';
import { tryStore } from './trial.js';
import { at as valueAt, leaves } from './tree.js';

export interface StoreContext {
  readonly session: Session;
  readonly workshop: Workshop;
  readonly words: Words;
}

type Units = Readonly<Record<string, string>>;

/** @param so the answers so far */
const questionsOf = ({ workshop }: StoreContext, units: Units, so: unknown): readonly Question[] => {
  const { shelf } = workshop;
  const under = lay(shelf.under).value;
  // What a store must say is asked of one that says nothing; its units are there with their profiles.
  const bare = Object.fromEntries(Object.entries(units).map(([id, profile]) => [id, { profile }]));
  const whole = { ...(under as object), units: bare };
  const profiles = new Map(Object.entries(units).map(([id, profile]) => [id, shelf.profiles.get(profile)?.raw]));
  return [
    ...storeQuestions(under, whole, so),
    ...Object.keys(units).flatMap((id) => unitQuestions(id, profiles, under, whole, so)),
  ];
};

const withUnits = (units: Units): Draft =>
  start({ units: Object.fromEntries(Object.entries(units).map(([id, profile]) => [id, { profile }])) });

const finished = ({ session, workshop, words }: StoreContext, id: string, draft: Draft): Omit<MadeFile, 'write' | 'replace'> => {
  const doc = `sites/${id}.yaml`;
  const text = fileText(storeOf(draft), 'store', shown(valueAt(draft.value, ['name'])) || id, words);
  const bytes = new TextEncoder().encode(text);
  const { source } = readYaml(doc, bytes);
  session.sources.set(doc, source);
  return { id, doc, text, source, open: draft.notKnown.length, findings: planOf(workshop, doc, bytes).findings };
};

const noProfiles = (units: Units, { shelf }: Workshop, at: Place): readonly Finding[] => {
  const names = [...shelf.profiles.keys()];
  return Object.entries(units)
    .filter(([, profile]) => !names.includes(profile))
    .map(([id, profile]) => error('no-profile', within(at, 'units', id), { profile, ...suggestion(profile, names) }));
};

export const storeFromFile = (context: StoreContext, answers: z.output<typeof storeAnswers>, at: Place): MadeFile => {
  const missing = noProfiles(answers.units, context.workshop, at);
  const all = given(answers.answers, at);
  const draft = withUnits(answers.units);
  const common = questionsOf(context, answers.units, { hours: all.at(['hours']), units: all.at(['units']) });
  const { besides, strange } = matched(all, common, draft.value, storeSchema);
  const read = fromFile(draft, [...common, ...besides], all, storeSchema, undefined);
  const gaps = [...missing, ...strange, ...read.findings];
  const made = finished(context, answers.id, read.draft);
  const about = anyError(made.findings) ? toldAtAnswers(made.findings, made.doc, all) : made.findings;
  const findings = anyError(gaps) ? gaps : [...gaps, ...about];
  return { ...made, findings, write: !anyError(findings), replace: false };
};

const EXAMPLE = 'line-1 prep-table-60, freezer reach-in-freezer';

/** `line-1 prep-table-60, freezer reach-in-freezer`: ids with their profiles. */
const readUnits = (given: string): Units | undefined => {
  const pairs = given.split(',').map((part) => part.trim().split(/[\s:=]+/));
  return pairs.every(([id, profile, ...more]) => id !== undefined && profile !== undefined && more.length === 0 && isId(id))
    ? (Object.fromEntries(pairs) as Units)
    : undefined;
};

type Head = Partial<Omit<z.output<typeof storeBroken>, 'answers'>>;

/** What is asked before any fact, as far as it was not answered before. @returns as far as a person went */
const askHead = async (
  { session, words, workshop }: StoreContext,
  prompts: Prompts,
  replace: boolean,
  before: Head,
): Promise<Head> => {
  const id = before.id ?? (await askId(prompts, words, 'copper-ferry'));
  if (id === undefined) return {};
  if (before.id === undefined && !(await mayWrite(session, `sites/${id}.yaml`, prompts, words, replace))) return {};
  if (before.units) return { id, units: before.units };
  const wanted = await prompts.line(say(words, 'units'), say(words, 'example', { example: EXAMPLE }), (wrote) => {
    const units = readUnits(wrote);
    if (!units) return say(words, 'example', { example: EXAMPLE });
    const [wrong] = noProfiles(units, workshop, { doc: 'answer', path: [] });
    if (!wrong) return undefined;
    const { says, hint } = session.wordsOf(wrong);
    return `${says}${hint === undefined ? '' : `. ${hint}`}`;
  });
  const units = wanted === undefined ? undefined : readUnits(wanted);
  return units ? { id, units } : { id };
};

/** Whether something was found otherwise on a unit by the answers that an interview goes on from. */
const foundBefore = (before: Given | undefined, unit: string): boolean =>
  ['pressure', 'control', 'notes'].some((key) => {
    const found = before?.at(['units', unit, 'found', key]);
    return found !== undefined && leaves(found).some((path) => valueAt(found, path) !== '');
  });

/** @param goOn what was answered before: its facts are not asked again */
export const storeAtTerminal = async (
  context: StoreContext,
  prompts: Prompts,
  replace: boolean,
  goOn?: GoOn<z.output<typeof storeBroken>>,
): Promise<MadeFile | BrokenOff> => {
  const { session, words, workshop } = context;
  if (goOn && !(await mayWrite(session, `sites/${goOn.file.id}.yaml`, prompts, words, replace))) return {};
  const { id, units } = await askHead(context, prompts, replace, goOn?.file ?? {});
  if (id === undefined) return {};
  if (!units) return { kept: { id, answers: { id, answers: goOn?.file.answers ?? {} } } };
  const questions = (so: unknown): readonly Question[] => questionsOf(context, units, so);
  const draft = withUnits(units);
  const before = goOn && given(goOn.file.answers, goOn.at);
  const { besides, strange } = before
    ? matched(before, questions({ hours: before.at(['hours']), units: before.at(['units']) }), draft.value, storeSchema)
    : { besides: [], strange: [] };
  const faults = [...(goOn ? noProfiles(units, workshop, goOn.at) : []), ...strange];
  if (anyError(faults)) {
    session.add(faults);
    return {};
  }
  const otherwise = new Map<string, boolean>();
  const {
    given: answers,
    made,
    wrong,
  } = await askUntilSound(
    draft,
    (so) => [...questions(so.value), ...besides],
    storeSchema,
    {
      prompts,
      words,
      wordsOf: session.wordsOf,
      tried: (so) => tryStore(workshop.shelf, so),
      readBack: ({ path }, wrote) =>
        session.speaker && nameOf(path) === 'hours' ? hoursReadBack(wrote, session.speaker, words) : undefined,
    },
    {
      ...(before ? { before: ({ path }) => before.at(path) } : {}),
      // Asked once a unit: mostly nothing was, and then nobody is asked dial by dial.
      ahead: async ({ path, ifOtherwise }) => {
        if (!ifOtherwise) return 'ask';
        const unit = String(path[1]);
        const told =
          otherwise.get(unit) ?? (foundBefore(before, unit) || (await prompts.yes(`${unit}: ${say(words, 'found-otherwise')}`)));
        if (told === undefined) return 'stop';
        otherwise.set(unit, told);
        return told ? 'ask' : 'leave';
      },
    },
    (so) => finished(context, id, so),
  );
  if (made) return { ...made, write: true, replace: true };
  return { kept: { id, answers: { id, units, answers: withNotReached(answers, before) } }, wrong };
};
