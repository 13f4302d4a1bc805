/**
 * Where hours change by season, each season has its own setting of the clock: by when it is set from one to the other, in the order that is safe
 * for food, and what the old setting does under the new hours until then.
 *
 * Sheets hold the old setting up to the last day of the old hours, and the new one from the first day of the new hours on.
 */
import { amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { DAY, moment, onTheWall, WEEK, WEEKDAYS, type Weekday } from '../base/moment.js';
import { phrase, term, type Days, type Phrase, type Value } from '../base/value.js';
import { weekdayOf, type DayNumber } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { settingSays } from './clock-settings.js';
import type { WeekNote } from './date-notes.js';
import { calendarOf, nightsOn, openFrom } from './dates.js';
import { faultsOf, type FoundFault, type FoundRail } from './found-clock.js';
import type { StorePlan } from './index.js';
import { computed, practice } from './known.js';
import type { UnitRest } from './rests.js';
import { demandsOf, type Outcome, type Stop } from './timetable/index.js';
import type { UnitPlan } from './unit.js';

export interface SeasonChange {
  /** The plan of the last sheet of the old season, and of the first of the new one. */
  readonly before: StorePlan;
  readonly after: StorePlan;
  /** The first date of the new hours, and of the new sheets. */
  readonly first: DayNumber;
}

/** When the clock may be set, so that neither setting stops food or comes on late under the other's hours. */
type Order =
  /** The new setting is safe under the old hours: on any day before. */
  | 'before'
  /** The new setting is wrong for mornings of the old hours alone: on the last day, once the food is in. */
  | 'last-day'
  /** The old setting is right for the mornings of the new hours: on their first day. */
  | 'first-day'
  /** Neither is: between the last emptying and the first loading. */
  | 'between'
  /** The old setting is right under the new hours too. */
  | 'safe'
  /** No safe setting is known for the new hours, and the clock still holds the old one. */
  | 'none'
  /** None was known for the old hours. */
  | 'first-setting';

type Solved = Outcome & { readonly ok: true };

/** A rail in one season, and what its sheets say. */
interface Side {
  readonly unit: UnitPlan;
  readonly rest: UnitRest;
  readonly found: FoundRail;
  /** Undefined where there is no schedule. */
  readonly outcome: Solved | undefined;
}

const sideOf = (plan: StorePlan, id: string): Side | undefined => {
  const unit = plan.units[id];
  const rest = plan.solved.holds.byUnit.get(id);
  if (!unit || !rest) return undefined;
  const { outcome } = rest.judged;
  return { unit, rest, found: rest.judged, outcome: rest.times && outcome?.ok ? outcome : undefined };
};

const allowanceOf = ({ found }: Side): number => found.problem.rails[found.rail]?.clock?.allowance ?? 0;

/** What the clock does in an ordinary week, in minutes from Monday 00:00. */
const stopsOf = ({ outcome }: Side): readonly Stop[] =>
  (outcome?.nights ?? []).flatMap(({ day, stops }) =>
    stops.map(({ from, to }) => ({ from: day * DAY + from, to: day * DAY + to })),
  );

interface Evening {
  readonly start: number;
  readonly emptyBy: number;
}

/** When the old season's last sheet has each rail emptied, by date, in minutes from 00:00 of it: dates of other hours have times of their own. */
const lastEvenings = (read: ReadStore, { before, first }: SeasonChange, id: string): ReadonlyMap<DayNumber, Evening> => {
  const last = openFrom(read.store, first - 1, -1);
  const ends = { into: false, outOf: true };
  const dated = nightsOn(read.store, before.solved.holds.week, last + 1 - WEEKDAYS.length, first - 1, ends);
  return new Map(
    (dated?.nights ?? []).flatMap(({ date: on, night, rails }) => {
      const rail = rails.find((r) => r.rail === id);
      const leaving = { start: night.leaves, emptyBy: night.leaves };
      return rail ? [[on, rail.rest ? { start: rail.rest.startEmptying, emptyBy: rail.rest.emptyBy } : leaving] as const] : [];
    }),
  );
};

/** One season's setting under the other's sheets: people empty when their sheet says so, even if food could be out earlier. Both ends are widened by the clock's allowance. */
const under = (sheets: Side, setting: Side, evenings: ReadonlyMap<DayNumber, Evening> = new Map()): readonly FoundFault[] => {
  const { found, outcome } = sheets;
  const { problem, rail, rests } = found;
  const allowance = allowanceOf(sheets);
  const latest = (day: number): number =>
    Math.max(0, ...[...evenings].flatMap(([on, { emptyBy }]) => (weekdayOf(on) === day ? [emptyBy] : [])));
  const demands = demandsOf(problem).map((row, i) => {
    const night = problem.nights[i];
    const demand = row[rail];
    if (!night || !demand) return undefined;
    const emptyBy = outcome?.nights[rests.indexOf(night)]?.rest?.emptyBy ?? night.leaves;
    const out = Math.max(emptyBy, latest(night.day)) + allowance;
    return { ...demand, out, power: demand.power - allowance };
  });
  const faults = faultsOf(found, stopsOf(setting), demands);
  // Food that is loaded before the rail is back on is told as coming on late.
  const late = faults.filter((f) => f.code === 'on-late').map((f) => (f.day * DAY + f.at) % WEEK);
  return faults.filter((f) => f.code !== 'off-with-food' || !late.includes((f.day * DAY + f.at + f.minutes) % WEEK));
};

/** What touches food; ice in an empty top does not. */
const harms = (faults: readonly FoundFault[]): boolean => faults.some((f) => f.code === 'off-with-food' || f.code === 'on-late');

const sameSetting = (a: Side, b: Side): boolean => JSON.stringify(a.outcome?.patterns) === JSON.stringify(b.outcome?.patterns);

/** Values of a note: each is kept under a name of its own, so that it is a leaf of the plan. */
const keeper = () => {
  const figures: Record<string, Known<Value>> = {};
  const keep = <T extends Value>(name: string, known: Known<T>): Known<T> => {
    figures[name] = known;
    return known;
  };
  const say = (name: string, code: string, values: Phrase['with'] = {}): Known<Phrase> =>
    keep(name, practice(phrase(`notes.${code}`, values), `note-${code}`));
  /** One sentence after the other. */
  const join = (name: string, parts: readonly Known<Phrase>[], how: 'join' | 'and' = 'join'): Known<Phrase> =>
    parts.reduce((text, next, i) => say(`${name}_${i}`, `season-${how}`, { text, next }));
  return { figures, keep, say, join };
};

type Keeper = ReturnType<typeof keeper>;

/** A setting by the days of the calendar on which it goes off. */
const settingOf = ({ keep, join }: Keeper, name: string, { rest }: Side): Known<Phrase> =>
  join(
    name,
    rest.settings.map((setting, i) => keep(`${name}_set_${i}`, practice(settingSays(setting), 'found-set'))),
    'and',
  );

/** What the old setting does under the new sheets, faults of the same minute told once with their days. */
const faultsTold = ({ keep, say }: Keeper, old: Side, now: Side, faults: readonly FoundFault[]): readonly Known<Phrase>[] => {
  const groups = new Map<string, FoundFault[]>();
  for (const fault of faults) {
    const key = JSON.stringify([fault.code, fault.code === 'rests-too-short' ? 0 : onTheWall(moment(fault.at))]);
    groups.set(key, [...(groups.get(key) ?? []), fault]);
  }
  const { destination } = now.unit;
  const from = [old.rest.times?.off, old.rest.times?.on, now.rest.times?.emptyBy, now.rest.times?.coldBy].flatMap((k) => k ?? []);
  const known = <T extends Value>(value: T): Known<T> => computed(value, 'season-clock-walked', from);
  return [...groups.values()].map((group, i) => {
    const [{ code, at }] = group as [FoundFault];
    // A late clock harms the morning after its night; what happens by day harms the day itself.
    const daysLater = code === 'on-late' ? Math.floor(at / DAY) : 0;
    const of = group.map((fault) => WEEKDAYS[(fault.day + daysLater) % WEEKDAYS.length] as Weekday);
    const days = keep(
      `days_${i}`,
      known<Days>({
        q: 'days',
        days: WEEKDAYS.filter((day) => of.includes(day)),
        ...(at >= DAY && daysLater === 0 ? { nights: true as const } : {}),
      }),
    );
    if (code === 'rests-too-short') {
      const rest = keep(`rest_${i}`, known(amount('duration', Math.min(...group.map((f) => f.minutes)) * 60)));
      return say(`fault_${i}`, 'season-rests-too-short', { days, rest });
    }
    const early = code === 'on-late' ? -allowanceOf(old) : allowanceOf(old);
    const told = keep(`at_${i}`, known(moment(onTheWall(moment(at - early)))));
    return say(`fault_${i}`, `season-${code}`, { days, at: told, ...(destination ? { destination } : {}) });
  });
};

/** Whether a clock that is set on a date, once the food is in, leaves the top on until it is emptied that evening. */
const isSafeThatEvening = (on: DayNumber, evening: Evening | undefined, old: Side, now: Side): boolean => {
  if (!evening) return false;
  const weekday = weekdayOf(on);
  const loaded = old.rest.times?.coldBy.value.at[WEEKDAYS[weekday] as Weekday]?.min ?? 0;
  const [from, to] = [loaded, evening.emptyBy + allowanceOf(now)].map((minute) => weekday * DAY + minute) as [number, number];
  return stopsOf(now).every((stop) => [-WEEK, 0, WEEK].every((turn) => stop.from + turn < from || stop.from + turn >= to));
};

interface Task {
  readonly order: Order;
  /** The date on which it is done, at the latest. */
  readonly due: DayNumber;
  /** Before emptying begins then, or once it is empty; undefined where it does not matter. */
  readonly at: number | undefined;
  readonly faults: readonly FoundFault[];
}

const taskOf = (read: ReadStore, change: SeasonChange, id: string, old: Side, now: Side): Task => {
  const { first } = change;
  // What a clock holds without a setting of the papers', nobody knows; a top without one is not asked to rest.
  const faults = old.outcome
    ? under(now, old).filter((fault) => now.outcome !== undefined || fault.code !== 'rests-too-short')
    : [];
  const evenings = lastEvenings(read, change, id);
  const [last, opening] = [openFrom(read.store, first - 1, -1), openFrom(read.store, first, 1)];
  const start = now.rest.times?.start.value.at[WEEKDAYS[weekdayOf(opening)] as Weekday]?.min;
  const onOpening = (order: Order): Task => ({ order, due: opening, at: start, faults });
  const evening = evenings.get(last);
  if (!now.outcome) return { order: 'none', due: last, at: evening?.start, faults };
  if (!old.outcome) return onOpening('first-setting');
  if (faults.length === 0) return { order: 'safe', due: opening, at: undefined, faults };
  if (!harms(under(old, now, evenings))) return { order: 'before', due: last, at: evening?.start, faults };
  if (!harms(faults)) return onOpening('first-day');
  if (isSafeThatEvening(last, evening, old, now)) return { order: 'last-day', due: last, at: evening?.start, faults };
  if (!faults.some((fault) => fault.code === 'on-late')) return onOpening('first-day');
  return { order: 'between', due: last, at: evening?.emptyBy, faults };
};

/** Done on the new season's first day: its sheet orders it. */
const ON_THE_FIRST_DAY: readonly Order[] = ['first-day', 'first-setting'];

const unitNotes = (read: ReadStore, change: SeasonChange, id: string, side: 'before' | 'after'): readonly WeekNote[] => {
  const [old, now] = [sideOf(change.before, id), sideOf(change.after, id)];
  if (!old || !now || now.rest.clock.byHand || sameSetting(old, now)) return [];
  const { unit } = now;
  const { order, due, at, faults } = taskOf(read, change, id, old, now);
  const kept = keeper();
  const { keep, say, join, figures } = kept;
  const { phones, hours } = change.after.store;
  const opening = openFrom(read.store, change.first, 1);
  const times = ON_THE_FIRST_DAY.includes(order) ? now.rest.times : old.rest.times;
  const values = {
    from: keep('from_date', calendarOf(change.first)),
    ...(old.outcome ? { old: settingOf(kept, 'old', old) } : {}),
    ...(now.outcome ? { new: settingOf(kept, 'new', now) } : {}),
    first: keep('first_date', calendarOf(opening)),
    ready: unit.ready,
    service: phones.service,
    ...(at === undefined
      ? {}
      : {
          at: keep(
            'at',
            computed(moment(at, WEEKDAYS[weekdayOf(due)] as Weekday), 'of-that-date', [...(times ? [times.start] : []), hours]),
          ),
        }),
  };
  const noteOf = (day: DayNumber, text: Known<Phrase>, otherwise: Known<Phrase> | undefined, task: boolean): WeekNote => ({
    date: calendarOf(day),
    unit: unit.nickname,
    text,
    otherwise,
    who: practice(term('technician'), 'who-may-touch-the-clock'),
    hand: task ? 'hand' : undefined,
    lead: task ? 'week' : undefined,
    figures,
  });
  if (order === 'safe') return side === 'after' ? [noteOf(due, say('told', 'season-safe', values), undefined, false)] : [];
  const until = join('until', [
    say('until_lead', order === 'none' ? 'season-until-none' : 'season-until', values),
    ...faultsTold(kept, old, now, faults),
    ...(harms(faults) || !old.outcome ? [say('until_ready', 'season-ready', values)] : []),
  ]);
  // Once the new sheets hold, what should have been done before is asked for.
  if (side === 'after' && !ON_THE_FIRST_DAY.includes(order))
    return [noteOf(opening, say('told', order === 'none' ? 'season-none-check' : 'season-check', values), until, false)];
  const task = say('told', `season-${order}`, values);
  const text = join('text', [task, say('order', 'season-order', values)]);
  return [noteOf(due, text, until, true)];
};

/** What hangs on the walls is of one season too. */
const sheetsNote = (read: ReadStore, { first }: SeasonChange, side: 'before' | 'after'): WeekNote => {
  const { figures, keep, say } = keeper();
  const opening = openFrom(read.store, first, 1);
  const values = { from: keep('from_date', calendarOf(first)), first: keep('first_date', calendarOf(opening)) };
  return {
    date: calendarOf(side === 'after' ? opening : openFrom(read.store, first - 1, -1)),
    unit: undefined,
    text: say('text', `season-sheets-${side}`, values),
    otherwise: undefined,
    who: practice(term('manager'), 'role-manager'),
    hand: undefined,
    figures,
  };
};

/** @param side whether for the last sheet of the old season or the first of the new one */
export const seasonNotes = (read: ReadStore, change: SeasonChange, side: 'before' | 'after'): readonly WeekNote[] => [
  ...Object.keys(change.after.units).flatMap((id) => unitNotes(read, change, id, side)),
  sheetsNote(read, change, side),
];
