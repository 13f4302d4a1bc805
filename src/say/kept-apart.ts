/**
 * Short words that tell one thing from another, and say nothing where two of them read alike, in any language: signal words say how badly somebody
 * may be hurt, and units how much a figure is.
 */
import { error, type Finding } from '../base/finding.js';
import { LEVELS } from '../base/level.js';
import type { Sentence } from './questions.js';

interface Family {
  readonly file: string;
  readonly names: readonly string[];
  /** Its finding. */
  readonly alike: string;
  /** What reads so in every language already. */
  readonly taken: readonly string[];
}

const FAMILIES: readonly Family[] = [
  { file: 'levels', names: LEVELS, alike: 'levels-alike', taken: [] },
  {
    file: 'units',
    names: ['s', 'min', 'h', 'days', 'weeks', 'months', 'in', 'ft', 'sq-ft', 'cu-ft'],
    alike: 'units-alike',
    taken: ['mm', 'cm', 'm', 'km', 'm²', 'm³', 'l', 'g', 'kg', 'oz', 'lb', '°c', '°f', 'k', 'psi', 'bar', 'kpa'],
  },
];

/** What is put in by one form or by two, each with the name of what it is for. */
const formsOf = ({ file, names }: Family): readonly (readonly [string, string])[] =>
  names.flatMap((name) => ['', '.one', '.other'].map((form) => [name, `${file}.${name}${form}`] as const));

/**
 * Those of a chain's own that read as another does stand no more: what ships is put back, or nothing, and no page that says one is made.
 * @param all sentences by code, those that the chain didn't write the very ones of `shipped`
 */
export const keepApart = (
  all: Map<string, Sentence>,
  shipped: ReadonlyMap<string, Sentence>,
  refused: Set<string>,
): readonly Finding[] =>
  FAMILIES.flatMap((family) => {
    const said = formsOf(family).flatMap(([name, code]) => {
      const sentence = all.get(code);
      const own = sentence !== shipped.get(code);
      return sentence ? [{ name, code, ...sentence, own, reads: sentence.text.toLowerCase() }] : [];
    });
    return said.flatMap(({ name, code, text, at, own, reads }) => {
      const others = said.flatMap((other) => (other.name !== name && other.reads === reads ? [other.name] : []));
      const taken = family.taken.filter((sign) => sign === reads);
      if (!own || others.length + taken.length === 0) return [];
      const before = shipped.get(code);
      refused.add(code);
      if (before) all.set(code, before);
      else all.delete(code);
      return [error(family.alike, at, { wrote: text, name, others: [...others, ...taken] })];
    });
  });
