/**
 * Afternoon closings: the gap between two opening times of one business day, with the crew that shuts before it and opens after it.
 * A rail may rest in them where no night is long enough; most are too short.
 */
import type { Known } from '../base/basis.js';
import { moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import type { Span } from '../model/hours/index.js';
import type { Store } from '../model/store.js';
import { ruleFor, type OpenWeek } from './business-days.js';
import { computed } from './known.js';
import type { Night } from './timetable/index.js';

export interface AfternoonCrew {
  readonly leaves: Moment;
  readonly comes: Moment;
  readonly firstPan: Moment;
}

/** In minutes from 00:00 of its business day. */
export interface Afternoon {
  readonly day: Weekday;
  readonly closes: Moment;
  readonly opens: Moment;
  /** Undefined where a rule of the crew is a time of the clock: it says nothing of the afternoon, and nobody may be there. */
  readonly crew: AfternoonCrew | undefined;
}

/** The longest gap of a day's spans; undefined where it is open throughout. */
export const afternoonOf = (store: Store, day: Weekday, spans: readonly Span[]): Afternoon | undefined => {
  const sorted = [...spans].sort((a, b) => a.from - b.from);
  const gaps = sorted.slice(1).map((next, i) => ({ from: (sorted[i] as Span).to, to: next.from }));
  const [longest] = gaps.filter((gap) => gap.to > gap.from).sort((a, b) => b.to - b.from - (a.to - a.from));
  if (!longest) return undefined;
  const { comes, leaves, first_pan: firstPan } = store.crew;
  const after = ruleFor(leaves, day);
  const [before, pan] = [ruleFor(comes, day), ruleFor(firstPan, day)];
  const crew =
    after?.from === 'closing' && before?.from === 'opening' && pan?.from === 'opening'
      ? {
          leaves: moment(longest.from + after.minutes),
          comes: moment(longest.to + before.minutes),
          firstPan: moment(longest.to + pan.minutes),
        }
      : undefined;
  return { day, closes: moment(longest.from), opens: moment(longest.to), crew };
};

/** Those of the ordinary week. */
export const afternoonsOf = (store: Store, week: OpenWeek): readonly Afternoon[] =>
  week === 'always' ? [] : week.flatMap(([day, spans]) => afternoonOf(store, day, spans) ?? []);

/** As the timetable takes it: a gap between a closing and the next opening, like a night. Undefined where the crew's times are not known. */
export const gapOf = ({ crew: people }: Store, { day, closes, opens, crew }: Afternoon): Night | undefined =>
  crew && {
    day: WEEKDAYS.indexOf(day),
    closes: closes.min,
    leaves: crew.leaves.min,
    comes: crew.comes.min,
    firstPan: crew.firstPan.min,
    opens: opens.min,
    closers: people.closers,
    openers: people.openers,
  };

/** When the crew shuts before an afternoon closing and opens after it, by day. */
export const afternoonTimes = (afternoons: readonly Afternoon[], from: readonly Known<unknown>[]) => {
  const known = afternoons.filter((a) => a.crew);
  const times = (pick: (a: Afternoon) => Moment | undefined): Known<ByDay> =>
    computed(
      { q: 'by-day', at: Object.fromEntries(known.flatMap((a) => (pick(a) ? [[a.day, pick(a)]] : []))) },
      'around-the-afternoon',
      from,
    );
  return known.length === 0
    ? undefined
    : {
        closes: times((a) => a.closes),
        leaves: times((a) => a.crew?.leaves),
        comes: times((a) => a.crew?.comes),
        first_pan: times((a) => a.crew?.firstPan),
        opens: times((a) => a.opens),
      };
};

export type AfternoonTimes = NonNullable<ReturnType<typeof afternoonTimes>>;
