/**
 * Nights of a rail as pictures need them: each from its evening to the morning that follows, nights with the same times
 * on the clock together, the most usual first.
 */
import type { Known } from '../base/basis.js';
import { DAY, moment, onTheWall, weekdayAfter, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import { WHENS, type RailWhen } from '../plan/steps.js';
import type { UnitPlan } from '../plan/unit.js';

/** What happens; `wipe` only where melt water is wiped up by hand. */
export type Event = RailWhen;

const MORNING: ReadonlySet<Event> = new Set(['wipe', 'on', 'cold_by', 'first_pan']);

export interface Happening {
  readonly event: Event;
  /** From 00:00 of the business day that the night closes. */
  readonly at: Moment;
  /** Path of the plan's value. */
  readonly path: string;
}

export interface Night {
  /** Business days that these nights close. */
  readonly days: readonly Weekday[];
  readonly happenings: readonly Happening[];
}

type Rest = NonNullable<UnitPlan['rest']>;

/** Days from a business day to the next one: a closed day between makes two. */
const daysToNext = (mornings: ByDay, day: Weekday): number | undefined =>
  WEEKDAYS.map((_, i) => i + 1).find((later) => mornings.at[weekdayAfter(day, later)]);

const happeningsOf = (rest: Rest, day: Weekday): readonly Happening[] | undefined => {
  // An afternoon closing opens again on its own day.
  const later = rest.afternoon.value.is ? 0 : daysToNext(rest.first_pan.value, day);
  if (later === undefined) return undefined;
  const found = WHENS.flatMap((event): readonly Happening[] => {
    const known: Known<ByDay> | undefined = rest[event];
    const shift = MORNING.has(event) ? later : 0;
    const at = known?.value.at[weekdayAfter(day, shift)];
    return known && at ? [{ event, at: moment(at.min + shift * DAY), path: known.path }] : [];
  });
  const events = new Set(found.map((h) => h.event));
  return WHENS.every((event) => event === 'wipe' || events.has(event)) ? found : undefined;
};

/** @param first the reader's first day of the week */
export const nightsOf = (rest: Rest, first: Weekday): readonly Night[] => {
  const groups = new Map<string, { readonly days: Weekday[]; readonly happenings: readonly Happening[] }>();
  for (const day of WEEKDAYS.map((_, i) => weekdayAfter(first, i))) {
    const happenings = happeningsOf(rest, day);
    if (!happenings) continue;
    const key = happenings.map((h) => `${h.event} ${onTheWall(h.at)}`).join();
    const group = groups.get(key);
    if (group) group.days.push(day);
    else groups.set(key, { days: [day], happenings });
  }
  return [...groups.values()].sort((a, b) => b.days.length - a.days.length);
};
