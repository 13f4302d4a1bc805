/**
 * Signal words say how badly somebody may be hurt: two that read alike say nothing, in any language.
 */
import { error, type Finding } from '../base/finding.js';
import { LEVELS } from '../base/level.js';
import type { Sentence } from './questions.js';

/**
 * Those of a chain's own that read as another does stand no more: what ships is put back, or nothing, and no page that says one is made.
 * @param all sentences by code, those that the chain didn't write the very ones of `shipped`
 */
export const keepLevelsApart = (
  all: Map<string, Sentence>,
  shipped: ReadonlyMap<string, Sentence>,
  refused: Set<string>,
): readonly Finding[] => {
  const codes = LEVELS.map((level) => `levels.${level}`).filter((code) => all.has(code));
  const read = (code: string): string => (all.get(code)?.text ?? '').toLowerCase();
  const found = codes
    .filter((code) => all.get(code) !== shipped.get(code))
    .map((code) => ({ code, twins: codes.filter((other) => other !== code && read(other) === read(code)) }))
    .filter(({ twins }) => twins.length > 0)
    .map(({ code, twins }) => ({ code, twins, ...(all.get(code) as Sentence) }));
  for (const { code } of found) {
    const before = shipped.get(code);
    refused.add(code);
    if (before) all.set(code, before);
    else all.delete(code);
  }
  const nameOf = (code: string): string => code.slice('levels.'.length);
  return found.map(({ code, twins, text, at }) =>
    error('levels-alike', at, { wrote: text, level: nameOf(code), others: twins.map(nameOf) }),
  );
};
