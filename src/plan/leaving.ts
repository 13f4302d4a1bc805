/**
 * Tops whose food leaves at night without a clock: out before the crew leaves. Each pair of a crew empties one top after another, those that a clock stops too.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { error, warning, type Finding } from '../base/finding.js';
import { DAY, moment, WEEKDAYS, type Weekday } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import type { ReadUnit } from '../read/shelf.js';
import { byDay } from './business-days.js';
import type { StoreContext } from './context.js';
import { computed } from './known.js';
import type { Rests } from './rests.js';
import { onOnGrid } from './timetable/grid.js';
import { pairsOf } from './timetable/index.js';

/** Minutes of a business day from which on, and by which, a top is being emptied. */
export interface Emptying {
  readonly start: number;
  readonly emptyBy: number;
}

/** People are told fives, and never later than they must. */
const downToFive = (minutes: number): number => onOnGrid(minutes, 5);

/**
 * When to empty each of some tops, as late as the crew's leaving and its other tops allow; the first of them first, where no gap between others is too short for it.
 * @param leaves minute at which the crew leaves
 * @param empty s that emptying each takes
 * @param taken when the crew empties others
 * @param pairs how many tops are emptied at the same time
 */
export const beforeLeaving = (
  leaves: number,
  empty: readonly number[],
  taken: readonly Emptying[],
  pairs: number,
): readonly Emptying[] => {
  const placed: Emptying[] = [];
  for (const seconds of empty.toReversed()) {
    let emptyBy = downToFive(leaves);
    for (;;) {
      const start = downToFive(emptyBy - seconds / 60);
      const others = [...taken, ...placed].filter((other) => start < other.emptyBy && other.start < emptyBy);
      if (others.length < pairs) {
        placed.unshift({ start, emptyBy });
        break;
      }
      emptyBy = downToFive(Math.max(...others.map((other) => other.start)));
    }
  }
  return placed;
};

export interface Leaving {
  readonly start: Known<ByDay>;
  readonly emptyBy: Known<ByDay>;
}

/** Whether nothing but the crew's leaving says when a top is empty at night. */
const byLeaving = (rests: Rests, unit: ReadUnit): boolean => {
  const rest = rests.byUnit.get(unit.id);
  return !rest || rest.afternoon;
};

/** Tops that would be loaded again before they are empty: where a store is open nearly all day, or its first pans go in too early. */
const loadedBefore = (
  { read, days }: Pick<StoreContext, 'read' | 'days'>,
  leavings: ReadonlyMap<string, Leaving>,
): readonly Finding[] =>
  [...leavings].flatMap(([unit, { emptyBy }]) => {
    const late = days.flatMap((d, i) => {
      const next = days[(i + 1) % days.length];
      const empty = emptyBy.value.at[d.day];
      if (!next || !empty) return [];
      const apart = ((WEEKDAYS.indexOf(next.day) - WEEKDAYS.indexOf(d.day) + WEEKDAYS.length - 1) % WEEKDAYS.length) + 1;
      return next.firstPan.min + apart * DAY < empty.min ? [{ day: d.day, pan: next.firstPan, empty }] : [];
    });
    const [first] = late;
    const at = read.originOf(read.store.quiet_window ? 'quiet_window' : 'hours').at;
    return first
      ? [
          error('loaded-before-empty', at, {
            unit,
            days: late.map(({ day }) => day),
            first_pan: first.pan,
            empty_by: first.empty,
          }),
        ]
      : [];
  });

/** When the tops that no clock stops at night are emptied; `crew-too-few` where the crew would have to begin before it may. */
export const leavingsOf = (
  { read, facts, days, crew, moves }: StoreContext,
  rests: Rests,
): { readonly leavings: ReadonlyMap<string, Leaving>; readonly findings: readonly Finding[] } => {
  const tops = read.units.flatMap((unit) => {
    const move = moves.get(unit.id);
    return move && byLeaving(rests, unit) ? [{ unit, move }] : [];
  });
  const timed = [...rests.byUnit.values()].flatMap(({ times, afternoon }) => (times && !afternoon ? [times] : []));
  const empty = tops.map(({ move }) => move.empty.value.si);
  const placed = new Map<Weekday, readonly Emptying[]>(
    days.map((d) => {
      const taken = timed.flatMap(({ start, emptyBy }): readonly Emptying[] => {
        const [from, to] = [start.value.at[d.day], emptyBy.value.at[d.day]];
        return from && to ? [{ start: from.min, emptyBy: to.min }] : [];
      });
      return [d.day, beforeLeaving(d.leaves.min, empty, taken, pairsOf(read.store.crew.closers))];
    }),
  );
  const all: Known<Amount<'duration'>>[] = tops.map(({ move }) => move.empty);
  const leavings = new Map(
    tops.map(({ unit, move }, i): readonly [string, Leaving] => {
      const at = (key: keyof Emptying): ByDay => byDay(days, (d) => moment(placed.get(d.day)?.[i]?.[key] ?? 0));
      const others = [...all.filter((one) => one !== move.empty), ...timed.map(({ start }) => start)];
      const emptyBy = computed(at('emptyBy'), 'empty-before-leaving', [crew.leaves, ...others], 'earlier');
      return [unit.id, { emptyBy, start: computed(at('start'), 'start-to-be-empty', [emptyBy, move.empty], 'earlier') }];
    }),
  );
  const earliest = facts.crew.start_before_closing.value.si / 60;
  const early = days.filter((d) => (placed.get(d.day) ?? []).some(({ start }) => start < d.closes.min - earliest));
  const findings =
    early.length > 0
      ? [
          warning('crew-too-few', read.originOf('crew', 'closers').at, {
            days: early.map((d) => d.day),
            units: tops.map(({ unit }) => unit.id),
          }),
        ]
      : [];
  return { leavings, findings: [...findings, ...loadedBefore({ read, days }, leavings)] };
};
