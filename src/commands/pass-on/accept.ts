/**
 * Facts of a colleague's profile set into ours: the text stays as somebody wrote it, but for those facts and who told them.
 */
import { isScalar, isSeq, parseDocument, type Document } from 'yaml';
import { textOfYaml } from '../new/as-yaml.js';
import type { Difference, Told } from './facts.js';

/** Short maps and lists on one line, as the rest of the file has them. */
const node = (doc: Document, value: unknown) => doc.createNode(value, { flow: typeof value === 'object' && value !== null });

/** A single value keeps its place and the comment beside it. */
const set = (doc: Document, path: readonly (string | number)[], value: unknown): void => {
  const there = doc.getIn(path, true);
  if (isScalar(there) && (typeof value !== 'object' || value === null)) there.value = value;
  else doc.setIn(path, node(doc, value));
};

interface Origin extends Told {
  readonly facts: readonly string[];
}

/** @param from who passed it on, for facts of which nobody is named as the source */
export const accepted = (text: string, chosen: readonly Difference[], from: string, day: string): string => {
  const doc = parseDocument(text);
  for (const { path, theirs } of chosen) {
    if (theirs === undefined) doc.deleteIn(path);
    else set(doc, path, theirs);
  }
  const byOrigin = new Map<string, Origin>();
  for (const { fact, theirOrigin } of chosen) {
    const told: Told = theirOrigin ?? { who: from, when: day, how: 'Passed on without a source' };
    const key = JSON.stringify(told);
    byOrigin.set(key, { facts: [...(byOrigin.get(key)?.facts ?? []), fact], ...told });
  }
  const origins = doc.get('origins');
  if (isSeq(origins)) for (const origin of byOrigin.values()) origins.add(doc.createNode(origin));
  else doc.set('origins', [...byOrigin.values()]);
  return textOfYaml(doc);
};
