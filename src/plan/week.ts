/**
 * A dated week of a store: its business days with their dates, each unit's own times on each, and what is told about some of them.
 */
import type { Known } from '../base/basis.js';
import { warning, type Finding } from '../base/finding.js';
import type { Moment } from '../base/moment.js';
import { flag, phrase, type CalendarDate, type Phrase } from '../base/value.js';
import type { DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { nightFindings } from './date-findings.js';
import type { WeekNote } from './date-notes.js';
import { nightsOn } from './dates.js';
import type { StorePlan } from './index.js';
import { practice, settle } from './known.js';
import type { Step } from './steps.js';
import type { UnitPlan } from './unit.js';
import { lengthOf, type WeekDates } from './week-dates.js';
import { daysOf, type WeekDay } from './week-days.js';
import { unturnedOf, weekNotes, type WeekChanges } from './week-notes.js';

/** A sentence for each unit; once for units of which the same is said at the same limit. */
const saidOnce = (units: readonly UnitPlan[], say: (unit: UnitPlan) => Known<Phrase> | undefined): readonly Known<Phrase>[] => [
  ...new Map(
    units.flatMap((unit) => {
      const said = say(unit);
      return said ? [[`${said.value.code} ${unit.limit.value.si}`, said] as const] : [];
    }),
  ).values(),
];

export const planWeek = (read: ReadStore, plan: StorePlan, dates: WeekDates, changes: WeekChanges = {}) => {
  const { store } = read;
  const { week } = plan.solved.holds;
  const last = dates.first + lengthOf(dates) - 1;
  const dated = nightsOn(store, week, dates.first, last, {
    into: changes.into !== undefined,
    outOf: changes.outOf !== undefined,
  }) ?? {
    nights: [],
    afternoons: [],
    other: new Set<DayNumber>(),
  };
  const units = Object.values(plan.units);
  const days = daysOf(read, plan, { first: dates.first, length: lengthOf(dates) }, dated);
  const { notes, errors, coming } = weekNotes(read, plan, dates, { dated, days }, changes);
  const tree = {
    from: days[0]?.date as Known<CalendarDate>,
    to: days.at(-1)?.date as Known<CalendarDate>,
    /** Until when people write into the column of the day before, in a store that never closes. */
    all_night: dated.nights.some(({ night }) => night.attended) ? plan.crew.comes : undefined,
    /** The store does business on one of the days. */
    open: practice(flag(days.some(({ open }) => open)), 'trait'),
    days: days.map((d) => ({
      date: d.date,
      open: practice(flag(d.open), 'trait'),
      hours: d.hours,
      openings: d.openings,
      different: d.different,
      marks: d.marks,
      units: d.units,
      rounds: d.rounds.map(({ at }) => ({ at })),
    })),
    /** Where food goes that is still cold, out of a box that is not: once for units of which the same is said. */
    keep: saidOnce(units, ({ call }) => call.keep),
    /** What to do after a power cut with what has no top, said once too. One with a top has a row of its own. */
    after_cut: saidOnce(units, ({ is, limit }) => {
      if (is.rail.value.is) return undefined;
      const code = is.sealed.value.is ? 'sealed' : is.frozen.value.is ? 'frozen' : 'cold';
      return practice(phrase(`week.power-cut-${code}`, { limit }), 'after-cut');
    }),
    /** Where clocks stand that nobody has turned since the clocks changed. */
    unturned: units.flatMap((unit) => unturnedOf(read, plan, unit, dates.first)),
    /** Of each room that people walk into: its inside release is tried. */
    release: units
      .filter(({ is }) => is.room.value.is)
      .map((unit) => practice(phrase('week.release', { unit: unit.nickname }), 'inside-release')),
    notes,
    errors,
  };
  settle({ week: tree });
  const findingOf = (code: string, { date: on, unit }: WeekNote): readonly Finding[] => {
    const id = units.find(({ nickname }) => nickname === unit)?.id.value.text;
    return id === undefined ? [] : [warning(code, read.originOf('units', id).at, { date: on.value.iso, unit: id })];
  };
  const ordered = [...tree.notes, ...coming].flatMap((note) =>
    note.hand && note.who.value.code === 'technician' ? findingOf('date-technician', note) : [],
  );
  const asked = tree.notes
    .filter(({ text }) => /^notes\.since-(technician|manager)$/.test(text.value.code))
    .flatMap((note) => findingOf('clock-since-change', note));
  return {
    days,
    tree,
    findings: [...dated.nights.flatMap((night) => nightFindings(read, night)), ...asked, ...ordered],
  };
};

export type Week = ReturnType<typeof planWeek>;

/** A step's time on a day of the week; undefined where it has none. */
export const timeOn = (step: Step, unit: UnitPlan, day: WeekDay): Known<Moment> | undefined =>
  step.when === undefined ? undefined : day.units[unit.id.value.text]?.[step.when];
