/**
 * `nightrail new equipment` and `nightrail new store`: a file made by answering questions, at a terminal or from a file of answers.
 */
import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { error, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import { place, within, type Place } from '../base/place.js';
import { today } from '../host/clock.js';
import { readGiven, writeWhole } from '../host/disk.js';
import { isAsking, makePrompts, type Prompts } from '../host/prompts.js';
import type { Words } from '../say/words.js';
import { EXIT } from './shared/exit.js';
import { keep, type BrokenOff } from './new/broken-off.js';
import { equipmentAnswers, equipmentBroken, readAnswers, storeAnswers, storeBroken, type AnswersFile } from './new/answers.js';
import { equipmentFromFile, equipmentAtTerminal, startsOf, type MadeFile } from './new/make-equipment.js';
import { storeFromFile, storeAtTerminal } from './new/make-store.js';
import { isThere } from './new/finish.js';
import { say } from './shared/say.js';
import { openSession, type CommonOptions, type Session } from './shared/session.js';

export interface NewOptions extends CommonOptions {
  readonly answers?: string;
  /** A file of answers that was kept when an interview was broken off: only what it doesn't answer is asked. */
  readonly goOn?: string;
  readonly replace?: boolean;
}

/** Writes what was made, if it may, and says what is still open. */
const conclude = (session: Session, made: MadeFile, words: Words, next: string, options: NewOptions): number => {
  session.add(made.findings);
  const write = made.write && (options.replace === true || made.replace || isThere(session.folder, made.doc).length === 0);
  if (made.write && !write) session.add(isThere(session.folder, made.doc));
  // A file that stays as it was has other lines than the one that was made.
  if (write || !made.write) session.sources.set(made.doc, made.source);
  if (write) writeWhole(join(session.folder, made.doc), made.text);
  if (options.json) {
    session.terminal.line(JSON.stringify({ ...(write ? { written: made.doc } : {}), findings: session.spoken() }, null, 2));
    return session.exitCode();
  }
  const code = session.conclude();
  if (!write) {
    session.terminal.line(say(words, 'not-written', { file: made.doc }));
    return code;
  }
  session.terminal.line(say(words, 'written', { file: made.doc }));
  if (made.open > 0) session.terminal.line(say(words, 'open-count', { count: String(made.open) }));
  session.terminal.line(say(words, next, { id: made.id }));
  if (!existsSync(join(session.folder, 'schema'))) session.terminal.line(say(words, 'no-schema'));
  return code;
};

const answersFile = <T>(
  path: string,
  session: Session,
  read: (bytes: Uint8Array) => AnswersFile<T>,
): AnswersFile<T> | undefined => {
  const bytes = readGiven(path);
  if (!bytes) {
    session.add([error('no-answers-file', place(path), { file: path })]);
    return undefined;
  }
  const file = read(bytes);
  session.sources.set(path, file.source);
  session.add(file.findings);
  return file;
};

const noSimilar = (wrote: string, names: readonly string[], at: Finding['at']): Finding =>
  error('no-such-similar', at, { wrote, ...suggestion(wrote, names) });

/** @param prompts for tests; a terminal's own otherwise */
export const newEquipment = async (options: NewOptions, prompts?: Prompts): Promise<number> => {
  const session = openSession({ ...options, notes: options.notes ?? true });
  const { workshop, words: all } = session.opened;
  const words = all.get('en');
  if (!workshop || !words) return session.conclude();
  const starts = startsOf(session.files);
  const context = { session, shelf: workshop.shelf, words, starts };
  const known = (at: Place, like: string): boolean => {
    if (starts.has(like)) return true;
    session.add([noSimilar(like, [...starts.keys()], within(at, 'like'))]);
    return false;
  };
  const { answers, goOn: path } = options;
  if (answers !== undefined) {
    const { value, at } = answersFile(answers, session, (bytes) => readAnswers(equipmentAnswers, answers, bytes)) ?? {};
    if (!value || !at || !known(at, value.like)) return refused(session, options);
    const made = equipmentFromFile(context, value, at, starts.get(value.like));
    return conclude(session, made, words, 'next-equipment', options);
  }
  const file = path === undefined ? undefined : answersFile(path, session, (bytes) => readAnswers(equipmentBroken, path, bytes));
  if (path !== undefined && (!file?.value || !known(file.at, file.value.like))) return refused(session, options);
  if (!prompts && !isAsking()) return noTerminal(session, words);
  const goOn = file?.value && { file: file.value, at: file.at };
  const made = await equipmentAtTerminal(context, prompts ?? makePrompts(), today(), options.replace === true, goOn);
  return asked(session, made, words, 'equipment', options);
};

export const newStore = async (options: NewOptions, prompts?: Prompts): Promise<number> => {
  const session = openSession({ ...options, notes: options.notes ?? true });
  const { workshop, words: all } = session.opened;
  const words = all.get('en');
  if (!workshop || !words) return session.conclude();
  const context = { session, workshop, words };
  const { answers, goOn: path } = options;
  if (answers !== undefined) {
    const { value, at } = answersFile(answers, session, (bytes) => readAnswers(storeAnswers, answers, bytes)) ?? {};
    if (!value || !at) return refused(session, options);
    return conclude(session, storeFromFile(context, value, at), words, 'next-store', options);
  }
  const file = path === undefined ? undefined : answersFile(path, session, (bytes) => readAnswers(storeBroken, path, bytes));
  if (path !== undefined && !file?.value) return refused(session, options);
  if (!prompts && !isAsking()) return noTerminal(session, words);
  const goOn = file?.value && { file: file.value, at: file.at };
  const made = await storeAtTerminal(context, prompts ?? makePrompts(), options.replace === true, goOn);
  return asked(session, made, words, 'store', options);
};

const refused = (session: Session, options: NewOptions): number => (options.json ? endJson(session) : session.conclude());

const endJson = (session: Session): number => {
  session.terminal.line(JSON.stringify({ findings: session.spoken() }, null, 2));
  return session.exitCode();
};

const noTerminal = ({ terminal }: Session, words: Words): number => {
  terminal.problem(say(words, 'no-terminal'));
  return EXIT.usage;
};

/** After an interview: the file is written, or what was answered is kept, or nothing is. */
const asked = (
  session: Session,
  made: MadeFile | BrokenOff,
  words: Words,
  what: 'equipment' | 'store',
  options: NewOptions,
): number => {
  const { terminal } = session;
  if ('doc' in made) {
    const code = conclude(session, made, words, `next-${what}`, options);
    // All of it is in the file now: two that say the same would soon differ.
    if (options.goOn !== undefined) rmSync(options.goOn);
    if (options.goOn !== undefined && !options.json) terminal.line(say(words, 'answers-done', { file: options.goOn }));
    return code;
  }
  if (session.exitCode() !== EXIT.fine) return refused(session, options);
  if (made.wrong) terminal.problem(made.wrong);
  if (made.kept) {
    const file = keep(session.folder, made.kept, options.goOn, words);
    terminal.problem(say(words, 'broken-off-kept', { file, what }));
  } else terminal.problem(say(words, 'broken-off'));
  return made.wrong === undefined ? EXIT.usage : EXIT.findings;
};
