/**
 * The stops of one rail in one dated night, in elapsed minutes: the clock's settings seen through its dial, or a hand's usual times.
 */
import { DAY } from '../../../base/moment.js';
import { weekdayOf, type DayNumber } from '../../../model/hours/index.js';
import type { Outcome } from '../outcome.js';
import type { Pattern, Stop } from '../problem.js';
import { spansShown, when, type Leg } from './wall.js';

export type Solved = Outcome & { readonly ok: true };

/** What the dial says of the days from `date` on, in minutes of the dial from 00:00 of the date. */
export const dialSpans = (patterns: readonly Pattern[], date: DayNumber, days: number): readonly Stop[] => {
  const spans: Stop[] = [];
  for (let k = 0; k <= days; k++) {
    const weekday = weekdayOf(date + k);
    const pattern = patterns.find((p) => p.days.includes(weekday));
    for (const { off, on } of pattern?.stretches ?? []) {
      const start = k * DAY;
      if (off < on) spans.push({ from: start + off, to: start + on });
      else spans.push({ from: start, to: start + on }, { from: start + off, to: start + DAY });
    }
  }
  return spans.filter((s) => s.from < s.to);
};

/** The clock's stops that begin between two elapsed minutes; what began before is the night before's. */
export const clockStops = (
  solved: Solved,
  date: DayNumber,
  days: number,
  dial: readonly Leg[],
  from: number,
  to: number,
): readonly Stop[] => spansShown(dial, dialSpans(solved.patterns, date, days)).filter((s) => s.from >= from && s.from < to);

/** A hand turns off when the food is out, at its usual time or later, and on at its usual time or when power is needed. */
export const handStops = (usual: Stop | undefined, wall: readonly Leg[], out: number, power: number): readonly Stop[] => {
  const from = Math.max(out, usual ? when(wall, usual.from, 'second') : out);
  const to = Math.min(power, usual ? when(wall, usual.to, 'first') : power);
  return from < to ? [{ from, to }] : [];
};
