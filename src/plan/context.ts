/**
 * What every unit of a store is planned with: its ordinary week, its crew's times, its afternoon closings, what moving the food of each top takes.
 */
import type { ReadStore, Shelf } from '../read/shelf.js';
import { afternoonsOf, afternoonTimes } from './afternoons.js';
import { businessDays, byDay, openWeek } from './business-days.js';
import type { StoreFacts } from './facts.js';
import { computed } from './known.js';
import { moveNeeds, type Move } from './needs.js';
import { partsOf } from './parts.js';

/** @param on a date that tells the season; without it only hours that hold all year count */
export const storeContext = (shelf: Shelf, read: ReadStore, facts: StoreFacts, on: string | undefined) => {
  const week = openWeek(read.store, on);
  const days = businessDays(read.store, week);
  const hours = [facts.hours];
  const afternoons = afternoonsOf(read.store, week);
  const afternoon = afternoonTimes(afternoons, [...hours, facts.crew.leaves, facts.crew.comes, facts.crew.first_pan]);
  const crew = {
    opens: computed(
      byDay(days, (d) => d.opens),
      'opening-by-day',
      hours,
    ),
    closes: computed(
      byDay(days, (d) => d.closes),
      'closing-by-day',
      hours,
    ),
    comes: computed(
      byDay(days, (d) => d.comes),
      'crew-comes',
      [...hours, facts.crew.comes],
    ),
    leaves: computed(
      byDay(days, (d) => d.leaves),
      'crew-leaves',
      [...hours, facts.crew.leaves],
    ),
    first_pan: computed(
      byDay(days, (d) => d.firstPan),
      'first-pan-by-day',
      [...hours, facts.crew.first_pan],
    ),
  };
  const moves: ReadonlyMap<string, Move> = new Map(
    read.units.flatMap((unit): readonly (readonly [string, Move])[] => {
      const { top } = partsOf(unit.profile);
      return top ? [[unit.id, moveNeeds(unit, top.id, top.zone, facts)]] : [];
    }),
  );
  return { shelf, read, facts, week, days, crew, afternoons, afternoon, moves, on };
};

export type StoreContext = ReturnType<typeof storeContext>;
