/**
 * Rails whose food leaves at night without a clock: out before the crew leaves.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { moment } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import { byDay, type BusinessDay } from './business-days.js';
import { computed } from './known.js';

/** Minutes on five, never later. */
const downToFive = (minutes: number): number => Math.floor(minutes / 5) * 5;

/**
 * When a rail is to be empty, and when to start so that it is.
 * @param leaves minute at which the crew leaves
 * @param empty s that emptying takes
 */
export const beforeLeaving = (leaves: number, empty: number): { readonly start: number; readonly emptyBy: number } => {
  const emptyBy = downToFive(leaves);
  return { start: downToFive(emptyBy - empty / 60), emptyBy };
};

export const emptiedByLeaving = (days: readonly BusinessDay[], empty: Known<Amount<'duration'>>, leaves: Known<ByDay>) => {
  const times = (d: BusinessDay) => beforeLeaving(d.leaves.min, empty.value.si);
  const emptyBy = computed(
    byDay(days, (d) => moment(times(d).emptyBy)),
    'empty-before-leaving',
    [leaves],
    'earlier',
  );
  const start = computed(
    byDay(days, (d) => moment(times(d).start)),
    'start-to-be-empty',
    [emptyBy, empty],
    'earlier',
  );
  return { start, emptyBy };
};
