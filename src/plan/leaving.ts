/**
 * Rails whose food leaves at night without a clock: out before the crew leaves.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { moment } from '../base/moment.js';
import type { ByDay } from '../base/value.js';
import { byDay, type BusinessDay } from './business-days.js';
import { computed } from './known.js';

export const emptiedByLeaving = (days: readonly BusinessDay[], empty: Known<Amount<'duration'>>, leaves: Known<ByDay>) => {
  const minutes = Math.ceil(empty.value.si / 60);
  const emptyBy = computed(
    byDay(days, (d) => moment(Math.floor(d.leaves.min / 5) * 5)),
    'empty-before-leaving',
    [leaves],
    'earlier',
  );
  const start = computed(
    byDay(days, (d) => moment(Math.floor((d.leaves.min - minutes) / 5) * 5)),
    'start-to-be-empty',
    [emptyBy, empty],
    'earlier',
  );
  return { start, emptyBy };
};
