/**
 * Each weekday's business: when it opens and closes, when the crew comes and leaves, and when the first pan goes in.
 * A business day is the day on which it opens; its closing may lie past midnight.
 */
import { DAY, moment, WEEK, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay, OpenHours } from '../base/value.js';
import type { WhenByDay } from '../model/fields.js';
import { isOneRule, readDays, type When } from '../model/fields.js';
import { weekOf, type Span } from '../model/hours/index.js';
import type { Store } from '../model/store.js';
import type { Shift } from './timetable/index.js';

export interface BusinessDay {
  readonly day: Weekday;
  readonly opens: Moment;
  readonly closes: Moment;
  readonly comes: Moment;
  readonly leaves: Moment;
  readonly firstPan: Moment;
  /** Somebody is there through the night that follows: a store that never closes. */
  readonly attended: boolean;
}

/** The rule that a store wrote for a weekday; undefined where it wrote by day and left this one out. */
export const ruleFor = (rules: WhenByDay, day: Weekday): When | undefined => {
  if (isOneRule(rules)) return rules;
  const found = Object.entries(rules).filter(([days]) => readDays(days).includes(day));
  return found.at(-1)?.[1];
};

const timeOf = (rule: When, opens: number, closes: number): number => {
  if (rule.from === 'opening') return opens + rule.minutes;
  if (rule.from === 'closing') return closes + rule.minutes;
  return rule.minutes;
};

/** A clock time for leaving that lies before the opening is meant for the small hours after closing. */
const afterOpening = (minutes: number, opens: number): number => (minutes < opens ? minutes + DAY : minutes);

/** When a business day opens and closes, in minutes from its own 00:00. */
interface Opening extends Span {
  readonly day: Weekday;
  readonly attended: boolean;
}

/** The business day of a store that never closes runs from one quiet window's end to the next one's start. */
const betweenQuiet = ({ from, to }: Span): Span => ({ from: to, to: from <= to ? from + DAY : from });

/** The spans of each weekday on which a store opens, in order of the week, in minutes from its own 00:00; or it never closes. */
export type OpenWeek = readonly (readonly [Weekday, readonly Span[]])[] | 'always';

/** The ordinary week. @param on a date that tells the season; without it only hours that hold all year count */
export const openWeek = (store: Pick<Store, 'hours'>, on?: string): OpenWeek => {
  const week = weekOf(store.hours.hours, on);
  if (week.some(({ from, to }) => to - from >= WEEK)) return 'always';
  const byDay = new Map<number, Span[]>();
  for (const stretch of week) {
    const day = Math.floor(stretch.from / DAY) % 7;
    byDay.set(day, [...(byDay.get(day) ?? []), { from: stretch.from - day * DAY, to: stretch.to - day * DAY }]);
  }
  return [...byDay].sort(([a], [b]) => a - b).map(([day, spans]) => [WEEKDAYS[day] as Weekday, spans]);
};

/** As the reader is told them. */
export const openHours = (week: OpenWeek): OpenHours => ({
  q: 'open-hours',
  at:
    week === 'always'
      ? week
      : Object.fromEntries(
          week.map(([day, spans]) => [day, spans.map(({ from, to }) => ({ from: moment(from), to: moment(to) }))]),
        ),
});

/** Opening and closing by weekday; a store that never closes has its quiet window for a night. */
const openings = ({ quiet_window: quiet }: Store, week: OpenWeek): readonly Opening[] => {
  if (week === 'always') return quiet ? WEEKDAYS.map((day) => ({ day, ...betweenQuiet(quiet), attended: true })) : [];
  return week.map(([day, spans]) => ({ day, ...around(spans), attended: false }));
};

/** From the first opening to the last closing. */
const around = (spans: readonly Span[]): Span => ({
  from: Math.min(...spans.map((s) => s.from)),
  to: Math.max(...spans.map((s) => s.to)),
});

/** The crew's rules for a weekday, applied to an opening and a closing. */
const businessDay = (store: Store, { day, from, to, attended }: Opening): BusinessDay => {
  const at = (rules: WhenByDay, fallback: number): number => {
    const rule = ruleFor(rules, day);
    return rule ? timeOf(rule, from, to) : fallback;
  };
  return {
    day,
    opens: moment(from),
    closes: moment(to),
    comes: moment(at(store.crew.comes, from)),
    leaves: moment(afterOpening(at(store.crew.leaves, to), from)),
    firstPan: moment(at(store.crew.first_pan, from)),
    attended,
  };
};

export const businessDays = (store: Store, week: OpenWeek): readonly BusinessDay[] =>
  openings(store, week).map((opening) => businessDay(store, opening));

/**
 * One date's business by the spans in which it is open; undefined where it does none.
 * A store that never closes has a night of its own then, after which nobody may be there.
 */
export const businessOf = (store: Store, day: Weekday, spans: readonly Span[], always: boolean): BusinessDay | undefined => {
  if (spans.length === 0) return undefined;
  const { from, to } = around(spans);
  const usual = always && store.quiet_window ? betweenQuiet(store.quiet_window) : { from, to };
  const opening = { day, from: Math.max(from, usual.from), to: Math.min(to, usual.to), attended: false };
  return opening.from < opening.to ? businessDay(store, opening) : undefined;
};

/** A business day as the solver takes it. */
export const shiftOf = ({ crew }: Store, d: BusinessDay): Shift => ({
  day: WEEKDAYS.indexOf(d.day),
  opens: d.opens.min,
  closes: d.closes.min,
  comes: d.comes.min,
  leaves: d.leaves.min,
  firstPan: d.firstPan.min,
  closers: crew.closers,
  openers: crew.openers,
  ...(d.attended ? { attended: true as const } : {}),
});

export const byDay = (days: readonly BusinessDay[], pick: (day: BusinessDay) => Moment | undefined): ByDay => ({
  q: 'by-day',
  at: Object.fromEntries(
    days.flatMap((d) => {
      const m = pick(d);
      return m ? [[d.day, m]] : [];
    }),
  ),
});
