/**
 * A store as it is known in the week for which is planned: a signature of a later day is none yet, an appointment or a slip of the pen. A find of one is kept,
 * as the safer side, and told.
 */
import { warning, type Finding } from '../base/finding.js';
import { dayOfIso, isoOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';

/** The last of the seven days from the first one on. */
export const lastOfWeek = (first: string): string => isoOf((dayOfIso(first) as DayNumber) + 6);

/** The first of the seven days up to one: what is signed for a later day than that one is signed later. */
export const weekEndingOn = (day: string): string => isoOf((dayOfIso(day) as DayNumber) - 6);

export interface AsOf {
  readonly read: ReadStore;
  readonly findings: readonly Finding[];
  /** Days of what is not known yet. */
  readonly later: readonly string[];
}

/** @param first the first day of the week */
export const asOf = (read: ReadStore, first: string): AsOf => {
  const last = lastOfWeek(first);
  const findings: Finding[] = [];
  const later: string[] = [];
  const known = (one: ReadUnit): ReadUnit => {
    const { set_by: signed, ...unit } = one.unit;
    const at = (...path: string[]) => read.originOf('units', one.id, ...path).at;
    if (unit.found && unit.found.when > last)
      findings.push(warning('found-later', at('found', 'when'), { when: unit.found.when }));
    if (!signed || signed.when <= last) return one;
    findings.push(warning('signed-later', at('set_by', 'when'), { when: signed.when }));
    later.push(signed.when);
    return { ...one, unit };
  };
  const units = read.units.map(known);
  return { read: { ...read, units }, findings, later };
};
