/**
 * An interview that a person broke off, or whose file would have an error: what was answered so far becomes a file of answers, whole or not at all, from which the same command goes on.
 */
import { existsSync } from 'node:fs';
import { join, relative } from 'node:path';
import { writeWhole } from '../../host/disk.js';
import type { Words } from '../../say/words.js';
import { asYaml } from './as-yaml.js';
import { say } from '../shared/say.js';

export interface BrokenOff {
  /** The head of a file of answers and what was answered; none where nothing was answered yet. */
  readonly kept?: { readonly id: string; readonly answers: Readonly<Record<string, unknown>> };
  /** There, where the answers make a file with an error: what is wrong with it, as far as it was not told yet. */
  readonly wrong?: string | undefined;
}

/** The first name that no other file has. */
const freeName = (folder: string, id: string): string => {
  for (let n = 1; ; n++) {
    const name = `${id}${n === 1 ? '' : `-${n}`}.answers.yaml`;
    if (!existsSync(join(folder, name))) return join(folder, name);
  }
};

/** @param from the file that it went on from, which then holds the answers of both @returns where it is, as a person would type it */
export const keep = (
  folder: string,
  { id, answers }: NonNullable<BrokenOff['kept']>,
  from: string | undefined,
  words: Words,
): string => {
  const path = from ?? freeName(folder, id);
  writeWhole(
    path,
    asYaml(answers, { head: [say(words, 'about-answers')], above: {}, beside: () => undefined, open: ['answers'] }),
  );
  return from ?? relative('.', path);
};
