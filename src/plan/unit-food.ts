/**
 * Where a unit's food goes at night, when it may go back, and how often it is read by day.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { term, type Value } from '../base/value.js';
import type { ReadUnit } from '../read/shelf.js';
import type { StoreContext } from './context.js';
import { computed, practice, told, written } from './known.js';
import type { partsOf } from './parts.js';
import type { UnitPhysics } from './physics/index.js';
import type { UnitTraits } from './unit-traits.js';
import type { zoneFacts } from './zone-facts.js';

/**
 * Between two readings of food by day, s: of a loaded top, of drawers, of a box that holds cold food; closer where its food is predicted over the limit
 * on a usual day, and for a static top of which nothing is predicted. Common practice, no source; no longer than the four hours of US FDA Food Code
 * 2022, 3-501.19 (B).
 */
const READ_EVERY = { usual: 4 * 3600, warm: 2 * 3600 };

export interface UnitFood {
  /** What the air of an empty top reads before food goes in. */
  readonly ready: Known<Amount<'temperature'>>;
  /** What the air of a closed box reads before food goes in. */
  readonly air: Known<Amount>;
  /** Where a top's food goes. */
  readonly destination: Known<Value> | undefined;
  /** It goes into another unit. */
  readonly elsewhere: boolean;
  /** The top's food is predicted over the limit on a usual day. */
  readonly runsWarm: boolean;
  readonly readEvery: Known<Amount<'duration'>> | undefined;
}

interface FoodQuestion {
  readonly parts: ReturnType<typeof partsOf>;
  readonly holds: UnitTraits['holds'];
  readonly zonePlans: Readonly<Record<string, ReturnType<typeof zoneFacts>>>;
  readonly physics: UnitPhysics;
}

export const foodOf = ({ shelf, read, facts }: StoreContext, unit: ReadUnit, question: FoodQuestion): UnitFood => {
  const { parts, holds, zonePlans, physics } = question;
  const { top, box } = parts;
  const { law } = facts;
  const at = read.originOf('units', unit.id, 'food_goes_to');
  const railAir = top && zonePlans[top.id]?.air;
  // An empty rail is ready when its air is as cold as it should be; one of which nobody knows that, when its food would hold.
  const ready = railAir
    ? computed<Amount<'temperature'>>(
        amount('temperature', Math.min(railAir.value.span.high.si, law.aim.value.si)),
        'ready-when-air-is-cold',
        [railAir, law.aim],
        'colder',
      )
    : law.aim;
  // Air that is as warm as a limit can't hold food under it: before food goes in, a closed box is as cold as its air should be.
  const air: Known<Amount> = box?.zone.air ? written<Amount>(box.zone.air.high, unit.originOf('zones', box.id, 'air')) : law.aim;
  const goes = unit.unit.food_goes_to;
  const other = goes?.unit === undefined ? undefined : read.units.find((u) => u.id === goes.unit);
  // A rail without a place for its food is an error already; the plan still has to be whole.
  const nowhere: Known<Value> | undefined = top && practice<Value>(term('no-place'), 'no-place');
  const destination: Known<Value> | undefined = goes
    ? other
      ? written(told(other.unit.nickname, shelf.lang), at)
      : written<Value>(term('bottom'), at)
    : nowhere;
  const over = physics.tree?.usual_over;
  const readEvery =
    !top && holds !== 'cold'
      ? undefined
      : over
        ? computed<Amount<'duration'>>(amount('duration', READ_EVERY.warm), 'read-by-day-warm', [over, law.limit])
        : top?.kind.cooled === 'static' && !physics.tree
          ? practice<Amount<'duration'>>(amount('duration', READ_EVERY.warm), 'read-by-day-unpredicted')
          : practice<Amount<'duration'>>(amount('duration', READ_EVERY.usual), 'read-by-day');
  return { ready, air, destination, elsewhere: other !== undefined, runsWarm: over !== undefined, readEvery };
};
