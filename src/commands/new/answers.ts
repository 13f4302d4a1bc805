/**
 * Answers from a file instead of a terminal: each by the name of its fact. What is wrong or missing is a finding with its place in that file.
 */
import { z } from 'zod';
import { error, note, type Finding } from '../../base/finding.js';
import { place, within, type Place } from '../../base/place.js';
import { id, isoDate } from '../../model/fields.js';
import { findingsOf } from '../../read/issues.js';
import { readYaml, type Source } from '../../read/yaml.js';
import { answered, type Draft } from './draft.js';
import type { Given } from './given.js';
import { leaves } from './tree.js';
import { keptOf, nameOf, read, type Question } from './question.js';

const who = z.string().min(1).max(60);
const how = z.string().min(1).max(200);

const shared = { id, answers: z.record(z.string(), z.unknown()) };

export const equipmentAnswers = z.strictObject({
  ...shared,
  like: id,
  who,
  when: isoDate,
  how,
  /** Where it is otherwise: by the facts that it is said of. */
  how_of: z
    .record(z.string().min(1), z.union([how, z.strictObject({ how, who: who.optional(), when: isoDate.optional() })]))
    .optional(),
});

/** Of an interview that was broken off early, the head too may have gaps. */
export const equipmentBroken = equipmentAnswers.partial({ who: true, when: true, how: true });

export const storeAnswers = z.strictObject({
  ...shared,
  /** Units by their ids, each with its profile. */
  units: z.record(id, id),
});

export const storeBroken = storeAnswers.partial({ units: true });

export interface AnswersFile<T> {
  readonly value?: T;
  readonly at: Place;
  readonly source: Source;
  readonly findings: readonly Finding[];
}

export const readAnswers = <S extends z.ZodType>(schema: S, doc: string, bytes: Uint8Array): AnswersFile<z.output<S>> => {
  const read = readYaml(doc, bytes);
  const here = place(doc);
  if (read.value === undefined) return { at: here, source: read.source, findings: read.findings };
  const parsed = schema.safeParse(read.value, { reportInput: true });
  if (parsed.success) {
    const odd = oddKeys((parsed.data as { readonly answers?: unknown }).answers, within(here, 'answers'));
    const findings = [...read.findings, ...odd];
    return { ...(odd.length > 0 ? {} : { value: parsed.data }), at: here, source: read.source, findings };
  }
  const wrong = findingsOf(parsed.error, schema, (path) => within(here, ...path));
  return { at: here, source: read.source, findings: [...read.findings, ...wrong] };
};

/** No list of a profile or a store is longer. */
const LONGEST_LIST = 200;

/** A fact that is answered twice, by itself and within a map, and a part of a list that none has. */
const oddKeys = (answers: unknown, at: Place): readonly Finding[] => {
  const seen = new Map<string, string>();
  return Object.entries((answers ?? {}) as Readonly<Record<string, unknown>>).flatMap(([key, answer]): readonly Finding[] => {
    const here = within(at, key);
    // Parts of a list; a unit and a zone may have a number for a name.
    const steps = key.split('.').filter((_, i, all) => !/^(units|zones)$/.test(all[i - 1] ?? ''));
    if (steps.some((step) => /^-?\d+$/.test(step) && !(Number(step) >= 0 && Number(step) < LONGEST_LIST)))
      return [error('answer-part', here, { key })];
    return leaves(answer).flatMap((path) => {
      const name = [key, ...path].join('.');
      const first = seen.get(name);
      seen.set(name, key);
      return first === undefined ? [] : [error('answer-twice', here, { key: name }, [within(at, first)])];
    });
  });
};

/** Each question answered from the file. @param similar whose facts are taken over where the file says nothing */
export const fromFile = (
  draft: Draft,
  questions: readonly Question[],
  answers: Given,
  schema: z.ZodType,
  similar: string | undefined,
): { readonly draft: Draft; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const silent: string[] = [];
  const end = questions.reduce((so, question): Draft => {
    const name = nameOf(question.path);
    const given = answers.at(question.path);
    if (given === undefined && keptOf(question) !== undefined && similar !== undefined) {
      silent.push(name);
      return so;
    }
    const answer = read(question, given, so.value, schema, (path) => answers.place([...question.path, ...path]));
    if (answer.ok) return answered(so, question, answer);
    findings.push(...answer.findings);
    return so;
  }, draft);
  if (similar !== undefined && silent.length > 0)
    findings.push(note('answer-taken-over', answers.place([]), { questions: silent, from: similar }));
  return { draft: end, findings };
};
