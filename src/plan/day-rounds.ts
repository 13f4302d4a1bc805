/**
 * When food is read on a date: from each loading of a top until its emptying begins, in boxes while people are there, and all night where a store never
 * closes.
 */
import type { Known } from '../base/basis.js';
import { DAY, type Moment } from '../base/moment.js';
import type { DayNumber } from '../model/hours/index.js';
import { changesIn } from './clock-changes.js';
import { roundsOf, type Round, type Stretch } from './rounds.js';
import type { When } from './steps.js';
import { shown, wallLegs, when, type DatedNight, type Leg } from './timetable/dates/index.js';
import type { UnitPlan } from './unit.js';

/** A unit's own times on a date. */
export type DatedTimes = Readonly<Partial<Record<When, Known<Moment>>>>;

/** The wall of a date, in minutes of it, through the changes of the clocks in the nights at its ends. */
const wallOf = ({ date, before, tonight }: Between): readonly Leg[] =>
  wallLegs(
    [before, tonight].flatMap((night) =>
      (night ? changesIn(night) : []).map(({ at, shift }) => ({ at: at + ((night?.date ?? date) - date) * DAY, shift })),
    ),
  );

/** What a round reads of a unit whose top is empty: its box alone. */
export const boxOf = (unit: string): string => `${unit}/box`;

/** When the crew of a day is there, in minutes of it. */
export interface Working {
  readonly comes: number;
  readonly firstPan: number;
  readonly leaves: number;
}

/**
 * From each loading of a top until its emptying begins; of what has neither, while the crew is there. A box, and the box under a top, was read when the
 * crew came: from then on.
 */
const stretchesOf = (times: DatedTimes, crew: Working, box: boolean): readonly Omit<Stretch, 'id' | 'every'>[] => {
  const starts = [times.start, times.night_start].flatMap((start) => start?.value.min ?? []);
  const loads = [times.first_pan, times.morning_first_pan].flatMap((load) => load?.value.min ?? []);
  const first = box ? crew.comes : crew.firstPan;
  if (starts.length === 0 && loads.length === 0) return [{ from: first, until: crew.leaves }];
  const earliest = Math.min(...loads, crew.firstPan);
  return (loads.length > 0 ? loads : [crew.firstPan]).map((load) => {
    const until = starts.filter((start) => start > load);
    return { from: load === earliest ? Math.min(first, load) : load, until: until.length > 0 ? Math.min(...until) : crew.leaves };
  });
};

/** A date between the night that ends in its morning and the one that begins in its evening. */
export interface Between {
  readonly date: DayNumber;
  readonly before: DatedNight | undefined;
  readonly tonight: DatedNight | undefined;
}

/** @param opens of a store that never closes, when it opens on this date @returns hours in order, with what is read on each: units, and boxes of those whose top is empty */
export const roundsOn = (
  units: readonly UnitPlan[],
  timesByUnit: Readonly<Record<string, DatedTimes>>,
  crew: Working,
  between: Between,
  opens: number | undefined,
): readonly Round[] => {
  const { before, tonight } = between;
  const wall = wallOf(between);
  // A store that never closes serves all night: from its boxes, while its tops are empty.
  const tillNext = tonight?.night.attended ? crew.comes + DAY : undefined;
  // Around a date of other hours it opens at midnight, before the end of its quiet window: nobody has read since the date before.
  const reopens = opens !== undefined && before && !before.night.attended && opens < crew.comes ? opens : undefined;
  /** What is read of a unit while its top is empty. */
  const boxes = new Map(
    units.flatMap(({ id: { value: id }, is }) =>
      is.box.value.is ? [[id.text, is.rail.value.is ? boxOf(id.text) : id.text] as const] : [],
    ),
  );
  const readings = units.flatMap(({ id: { value: id }, is, read_every: often }): readonly Stretch[] => {
    if (!often) return [];
    const every = often.value.si / 60;
    const times = timesByUnit[id.text] ?? {};
    const there = { ...crew, leaves: is.rail.value.is ? crew.leaves : (tillNext ?? crew.leaves) };
    const box = boxes.get(id.text);
    const night =
      tillNext !== undefined && is.rail.value.is && box !== undefined && times.start
        ? [{ from: times.start.value.min, until: tillNext, id: box, every }]
        : [];
    const early = reopens !== undefined && box !== undefined ? [{ from: reopens, until: crew.comes, id: box, every }] : [];
    const byDay = stretchesOf(times, there, box !== undefined).map((stretch) => ({ ...stretch, id: id.text, every }));
    return [...early, ...byDay, ...night];
  });
  // Food gets warm by the hours that pass, whatever the wall shows.
  const passing = readings.map((stretch) => ({
    ...stretch,
    from: when(wall, stretch.from, 'first'),
    until: when(wall, stretch.until, 'second'),
  }));
  // Where people are there before the crew comes, "first thing" is no hour: the first reading of a day has its own.
  const firsts = reopens !== undefined ? [reopens, crew.comes] : before?.night.attended ? [crew.comes] : [];
  const firstRounds = firsts.flatMap((at) => {
    const reads = readings.flatMap(({ id, from }) => (from === at ? [boxes.get(id) ?? id] : []));
    return reads.length > 0 ? [{ at, reads: [...new Set(reads)] }] : [];
  });
  return [...firstRounds.map(({ at, reads }) => ({ at: when(wall, at, 'first'), reads })), ...roundsOf(passing)]
    .toSorted((a, b) => a.at - b.at)
    .map(({ at, reads }) => ({ at: shown(wall, at), reads }));
};
