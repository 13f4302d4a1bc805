/**
 * A store as it is known in the week for which is planned: a signature or a find of a later day is none yet, an appointment or a slip of the pen.
 */
import { warning, type Finding } from '../base/finding.js';
import { dayOfIso, isoOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';

/** The last of the seven days from the first one on. */
export const lastOfWeek = (first: string): string => isoOf((dayOfIso(first) as DayNumber) + 6);

/** @param on the first day of the week */
export const asOf = (read: ReadStore, on: string): { readonly read: ReadStore; readonly findings: readonly Finding[] } => {
  const last = lastOfWeek(on);
  const findings: Finding[] = [];
  const known = (one: ReadUnit): ReadUnit => {
    const { set_by: signed, ...unit } = one.unit;
    const at = (...path: string[]) => read.originOf('units', one.id, ...path).at;
    if (unit.found && unit.found.when > last)
      findings.push(warning('found-later', at('found', 'when'), { when: unit.found.when }));
    if (!signed || signed.when <= last) return one;
    findings.push(warning('signed-later', at('set_by', 'when'), { when: signed.when }));
    return { ...one, unit };
  };
  return { read: { ...read, units: read.units.map(known) }, findings };
};
