/**
 * Each weekday's business: when it opens and closes, when the crew comes and leaves, and when the first pan goes in.
 * A business day is the day on which it opens; its closing may lie past midnight.
 */
import { DAY, moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import type { WhenByDay } from '../model/fields.js';
import { isOneRule, readDays, type When } from '../model/fields.js';
import { weekOf, type Span } from '../model/hours/index.js';
import type { Store } from '../model/store.js';

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
const ruleFor = (rules: WhenByDay, day: Weekday): When | undefined => {
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

/** Opening and closing by weekday; a store that never closes has its quiet window for a night. */
const openings = (store: Store): readonly (Span & { day: Weekday; attended: boolean })[] => {
  const week = weekOf(store.hours.hours);
  const neverCloses = week.length === 1 && (week[0] as Span).to - (week[0] as Span).from >= 7 * DAY;
  if (neverCloses) {
    const quiet = store.quiet_window;
    if (!quiet) return [];
    // The business day runs from one quiet window's end to the next one's start.
    return WEEKDAYS.map((day) => ({
      day,
      from: quiet.to,
      to: quiet.from <= quiet.to ? quiet.from + DAY : quiet.from,
      attended: true,
    }));
  }
  const byDay = new Map<number, Span[]>();
  for (const stretch of week) {
    const day = Math.floor(stretch.from / DAY) % 7;
    byDay.set(day, [...(byDay.get(day) ?? []), { from: stretch.from - day * DAY, to: stretch.to - day * DAY }]);
  }
  return [...byDay]
    .sort(([a], [b]) => a - b)
    .map(([day, spans]) => ({
      day: WEEKDAYS[day] as Weekday,
      from: Math.min(...spans.map((s) => s.from)),
      to: Math.max(...spans.map((s) => s.to)),
      attended: false,
    }));
};

export const businessDays = (store: Store): readonly BusinessDay[] =>
  openings(store).map(({ day, from, to, attended }) => {
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
