/**
 * Days that are read as a short morning beside days that close in the evening: on a 12-hour clock the same figures are a night, 10:30-12:30.
 */
import { NOON } from '../../base/moment.js';
import type { Doubt, Hours, Span } from './hours.js';
import { standingSpans } from './match.js';

const LONGEST = 180;
const EVENING = 1080;
/** Minutes that are too few for a day's opening. Common practice, no source. */
const NO_DAY = 90;

const isShort = ({ from, to }: Span): boolean => to >= NOON && to < NOON + 60 && to - from <= LONGEST;

/** @param figures spans whose closing was written as a figure, without am or pm */
export const shortMornings = (hours: Hours, figures: readonly Span[]): Doubt | undefined => {
  const doubted = figures.find(isShort);
  if (!doubted) return undefined;
  const week = [0, 1, 2, 3, 4, 5, 6].map((day) => standingSpans(hours, day));
  // Where no day closes in the evening, a short morning is what such a place has; but no place opens for an hour.
  if (doubted.to - doubted.from > NO_DAY && !week.some((spans) => spans.some(({ to }) => to >= EVENING))) return undefined;
  const days = [0, 1, 2, 3, 4, 5, 6].filter((day) => {
    const [only, ...more] = week[day] ?? [];
    return more.length === 0 && only?.from === doubted.from && only.to === doubted.to;
  });
  return days.length > 0 ? { span: doubted, days } : undefined;
};
