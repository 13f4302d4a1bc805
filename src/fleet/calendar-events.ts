/**
 * What a store's people have to do on real dates, as entries of a calendar: emptying, loading, a hand on the clock, deep cleaning.
 */
import { DAY, WEEK, WEEKDAYS, type Moment } from '../base/moment.js';
import type { Known } from '../base/basis.js';
import { textOf, type Run } from '../base/run.js';
import type { Value } from '../base/value.js';
import { dayOfIso, isoOf, type DayNumber } from '../model/hours/index.js';
import type { WeekNote } from '../plan/date-notes.js';
import type { When } from '../plan/steps.js';
import type { UnitPlan } from '../plan/unit.js';
import type { WeekDay } from '../plan/week-days.js';
import type { ReadStore } from '../read/shelf.js';
import type { Speaker } from '../say/speaker.js';
import type { Dated } from './store-papers.js';

/** An entry in minutes of the wall from 00:00 of its date, or for the whole day. */
export interface Entry {
  /** The same for the same thing, whenever the calendar is written. */
  readonly key: string;
  readonly date: DayNumber;
  readonly time: { readonly from: number; readonly to: number } | undefined;
  readonly summary: string;
  readonly description: string | undefined;
  /** Minutes before its start at which it rings; after it where negative. */
  readonly rings: readonly number[];
}

/** Time to put things down and wash hands. */
const BEFORE_EMPTYING = 10;
const BEFORE_LOADING = 5;
/** So early that a technician can still be ordered, and once more on the day. */
const BEFORE_THE_CLOCK = [2 * DAY, 60];
/** What lasts all day rings at nine. */
const AT_NINE = -9 * 60;

export interface Told {
  readonly read: ReadStore;
  /** The chain's own weeks, as its sheets are printed: those that hold the calendar's days. */
  readonly weeks: readonly Dated[];
  readonly speaker: Speaker;
}

type Values = Readonly<Record<string, Known<Value> | readonly Run[]>>;

const say = ({ speaker }: Told, code: string, values: Values): string => textOf(speaker.phrase(`calendar.${code}`, values));

const unitEntries = (told: Told, unit: UnitPlan, day: WeekDay): readonly Entry[] => {
  const id = unit.id.value.text;
  const date = dayOfIso(day.date.value.iso) as DayNumber;
  const at = (when: When): number | undefined => day.units[id]?.[when]?.value.min;
  const nickname = unit.nickname;
  const span = (
    what: string,
    from: number | undefined,
    to: number | undefined,
    rings: number,
    description?: string,
  ): readonly Entry[] =>
    from === undefined || to === undefined
      ? []
      : [
          {
            key: `${isoOf(date)}-${id}-${what}`,
            date,
            // In the hour that comes twice it may end at a time that the wall showed before: a calendar knows that time's first alone.
            time: { from, to: Math.max(from, to) },
            summary: say(told, what, { unit: nickname }),
            description,
            rings: [rings],
          },
        ];
  const byHand = unit.rest?.by_hand.value.is === true;
  const how = unit.destination ? say(told, 'empty-how', { destination: unit.destination }) : undefined;
  const nightHow = unit.destination ? say(told, 'night-empty-how', { destination: unit.destination }) : undefined;
  return [
    ...span('load', at('cold_by'), at('first_pan'), BEFORE_LOADING, say(told, 'load-how', { ready: unit.ready })),
    ...span('empty', at('start'), at('empty_by'), BEFORE_EMPTYING, how),
    ...span('night-empty', at('night_start'), at('night_empty_by'), BEFORE_EMPTYING, nightHow),
    ...span('morning-load', at('morning_first_pan'), at('morning_first_pan'), BEFORE_LOADING),
    ...(byHand ? [...span('switch-off', at('off'), at('off'), 0), ...span('switch-on', at('on'), at('on'), 0)] : []),
  ];
};

const isMoment = (known: Known<Value> | undefined): known is Known<Moment> => known?.value.q === 'moment';

/** A task for a hand on the clock; other notes are for the sheet alone. */
const noteEntries = (told: Told, { date, unit, hand, lead, text, otherwise, who, figures }: WeekNote): readonly Entry[] => {
  const at = figures.at ?? figures.from;
  if (!hand || !unit || !isMoment(at)) return [];
  const { speaker } = told;
  const words = [text, ...(otherwise ? [otherwise] : [])].map((known) => textOf(speaker.say(known).runs)).join(' ');
  return [
    {
      key: `${date.value.iso}-${unit.path}-${lead ? 'season' : text.value.code}`,
      date: dayOfIso(date.value.iso) as DayNumber,
      time: { from: at.value.min, to: at.value.min },
      summary: say(told, 'clock', { unit, who }),
      description: words,
      // A technician can still come on a day of the week before.
      rings: [...(lead ? [WEEK] : []), ...BEFORE_THE_CLOCK],
    },
  ];
};

const errorEntries = (told: Told, { date, unit, text }: WeekNote): readonly Entry[] =>
  unit
    ? [
        {
          key: `${date.value.iso}-${unit.path}-no-rest`,
          date: dayOfIso(date.value.iso) as DayNumber,
          time: undefined,
          summary: say(told, 'no-rest', { unit }),
          description: textOf(told.speaker.say(text).runs),
          rings: [AT_NINE],
        },
      ]
    : [];

/** Dates that a task falls on are counted from one Monday for all, so that a calendar written later holds the same ones. */
const A_MONDAY = dayOfIso('1970-01-05') as DayNumber;

/** On the last open day up to the date that it is due, so that it is never late; where none of seven is open, on that date. */
const cleaningEntries = (told: Told, unit: UnitPlan, days: readonly WeekDay[]): readonly Entry[] =>
  unit.cleaning.flatMap(({ task, every, by }) => {
    // The top is wiped when it is emptied, and that has its own entry.
    if (task.value.code === 'cleaning.rail-and-board') return [];
    const apart = Math.max(1, Math.floor(every.value.si / 86400));
    const step = apart < WEEKDAYS.length ? apart : Math.floor(apart / WEEKDAYS.length) * WEEKDAYS.length;
    return days
      .filter((day) => ((dayOfIso(day.date.value.iso) as DayNumber) - A_MONDAY) % step === 0)
      .map((due): Entry => {
        const open = days.filter((day) => day.open && day.date.value.iso <= due.date.value.iso).at(-1) ?? due;
        return {
          key: `${due.date.value.iso}-${unit.id.value.text}-${task.value.code}`,
          date: dayOfIso(open.date.value.iso) as DayNumber,
          time: undefined,
          summary: say(told, 'clean', { unit: unit.nickname, task, who: by }),
          description: undefined,
          rings: [AT_NINE],
        };
      });
  });

/** @param first the calendar's first day, and its last one; @returns entries by date and time, each key once */
export const entriesOf = (told: Told, first: DayNumber, last: DayNumber): readonly Entry[] => {
  const { weeks } = told;
  const days = weeks.flatMap(({ week }) => week.days);
  const all = [
    ...weeks.flatMap(({ plan, week }) =>
      week.days.flatMap((day) => Object.values(plan.units).flatMap((unit) => unitEntries(told, unit, day))),
    ),
    ...weeks.flatMap(({ week }) => week.tree.notes.flatMap((note) => noteEntries(told, note))),
    ...weeks.flatMap(({ week }) => week.tree.errors.flatMap((note) => errorEntries(told, note))),
    ...Object.values(weeks[0]?.plan.units ?? {}).flatMap((unit) => cleaningEntries(told, unit, days)),
  ].filter((entry) => first <= entry.date && entry.date <= last);
  const start = ({ date, time }: Entry): number => date * DAY + (time?.from ?? 0);
  return [...new Map(all.map((entry) => [entry.key, entry])).values()].sort(
    (a, b) => start(a) - start(b) || (a.key < b.key ? -1 : 1),
  );
};
