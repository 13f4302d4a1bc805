/**
 * Of a store with an afternoon closing: that a rail rests in it, or why it can't serve where no night does.
 */
import { amount } from '../base/amount.js';
import { note, type Finding } from '../base/finding.js';
import { WEEKDAYS, type Weekday } from '../base/moment.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import type { Afternoon } from './afternoons.js';
import type { Outcome } from './timetable/index.js';

export interface AfternoonQuestion {
  /** Business days of the store. */
  readonly days: readonly Weekday[];
  readonly afternoons: readonly Afternoon[];
  readonly rests: 'night' | 'afternoon' | 'nowhere';
  /** The afternoons as they were solved; undefined where they weren't. */
  readonly outcome: Outcome | undefined;
}

const dayOf = (index: number): Weekday => WEEKDAYS[index] as Weekday;

export const afternoonFindings = (
  read: ReadStore,
  unit: ReadUnit,
  { days, afternoons, rests, outcome }: AfternoonQuestion,
): readonly Finding[] => {
  if (afternoons.length === 0 || rests === 'night') return [];
  const at = read.originOf('hours').at;
  const data = { unit: unit.id, days: afternoons.map((a) => a.day) };
  if (rests === 'afternoon') return [note('rests-in-afternoon', at, data)];
  const without = days.filter((day) => !afternoons.some((a) => a.day === day));
  const unknown = afternoons.filter((a) => !a.crew).map((a) => a.day);
  const reasons = outcome?.ok === false ? outcome.reasons : [];
  const short = reasons.flatMap((r) => (r.code === 'rest-too-short' ? [r] : []));
  const offered = short.toSorted((a, b) => a.offered - b.offered)[0];
  return [
    ...(without.length > 0 ? [note('afternoon-some-days', at, { ...data, days: without })] : []),
    ...(unknown.length > 0 ? [note('afternoon-crew-unknown', read.originOf('crew').at, { ...data, days: unknown })] : []),
    ...(offered
      ? [
          note('afternoon-too-short', at, {
            ...data,
            days: [...new Set(short.map((r) => dayOf(r.day)))],
            offered: amount('duration', offered.offered * 60),
            least: amount('duration', offered.least * 60),
          }),
        ]
      : []),
    ...(without.length + unknown.length === 0 && !offered ? [note('afternoon-cannot-serve', at, data)] : []),
  ];
};
