/**
 * The people of a store, for its sign-offs: names that stand twice, and lists so long that somebody probably meant more than one store.
 */
import { note, warning, type Finding } from '../base/finding.js';
import type { ReadStore } from '../read/shelf.js';

/** More people than work in one kitchen. Common practice, no source. */
const MANY = 60;

export const checkPeople = (read: ReadStore): readonly Finding[] => {
  const people = read.store.people ?? [];
  const at = (...path: number[]) => read.originOf('people', ...path).at;
  const twice = people.flatMap((name, i) =>
    people.indexOf(name) < i ? [warning('person-twice', at(i), { name }, [at(people.indexOf(name))])] : [],
  );
  return [...twice, ...(people.length > MANY ? [note('long-roster', at(), { people: people.length })] : [])];
};
