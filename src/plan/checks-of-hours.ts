/**
 * What is wrong with a store's time zone and with its quiet window.
 */
import { error, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { DAY, moment, WEEKDAYS } from '../base/moment.js';
import { weekOf, type Span } from '../model/hours/index.js';
import type { ReadStore } from '../read/shelf.js';
import { openWeek } from './business-days.js';
import { validZone } from './timetable/dates/index.js';

/** Whether a store is open throughout a window on each of its days. */
const isOpenIn = (week: readonly Span[], window: Span): boolean =>
  WEEKDAYS.every((_, day) => {
    const from = day * DAY + window.from;
    const to = day * DAY + window.to + (window.to <= window.from ? DAY : 0);
    return [0, 7 * DAY].some((turn) => week.some((s) => s.from <= from + turn && to + turn <= s.to));
  });

/** @returns `bad-zone` for a time zone that is none */
export const checkZone = (wrote: string, at: Place): readonly Finding[] => {
  const zone = validZone(wrote);
  if (zone.ok) return [];
  return [error('bad-zone', at, { wrote, ...(zone.suggestion === undefined ? {} : { nearest: zone.suggestion }) })];
};

export const checkHours = ({ store, originOf }: ReadStore): readonly Finding[] => {
  const quiet = store.quiet_window;
  const window = quiet && { from: moment(quiet.from), to: moment(quiet.to) };
  const at = originOf('quiet_window').at;
  return [
    ...checkZone(store.timezone, originOf('timezone').at),
    ...(quiet && window && quiet.from === quiet.to ? [error('quiet-window-empty', at, window)] : []),
    ...(quiet && window && openWeek(store) !== 'always'
      ? [warning(isOpenIn(weekOf(store.hours.hours), quiet) ? 'quiet-window-unused' : 'quiet-window-outside', at, window)]
      : []),
  ];
};
