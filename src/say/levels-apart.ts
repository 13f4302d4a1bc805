/**
 * Signal words say how badly somebody may be hurt: two that read alike say nothing, in any language.
 */
import { error, type Finding } from '../base/finding.js';
import { LEVELS, type Level } from '../base/level.js';
import type { Sentence } from './questions.js';

const codeOf = (level: Level): string => `levels.${level}`;

/**
 * Those of a chain's own that read as another does stand no more: what ships is put back, or nothing, and no page that says one is made.
 * @param all sentences by code, those that the chain didn't write the very ones of `shipped`
 */
export const keepLevelsApart = (
  all: Map<string, Sentence>,
  shipped: ReadonlyMap<string, Sentence>,
  refused: Set<string>,
): readonly Finding[] => {
  const said = LEVELS.flatMap((level) => {
    const sentence = all.get(codeOf(level));
    return sentence
      ? [{ level, ...sentence, own: sentence !== shipped.get(codeOf(level)), reads: sentence.text.toLowerCase() }]
      : [];
  });
  return said.flatMap(({ level, text, at, own, reads }) => {
    const others = said.flatMap((other) => (other.level !== level && other.reads === reads ? [other.level] : []));
    if (!own || others.length === 0) return [];
    const code = codeOf(level);
    const before = shipped.get(code);
    refused.add(code);
    if (before) all.set(code, before);
    else all.delete(code);
    return [error('levels-alike', at, { wrote: text, level, others })];
  });
};
