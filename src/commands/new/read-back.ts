/**
 * How opening hours were read, said at once to who typed them: a day that was read as closed is found here, or on the wall.
 */
import { WEEKDAYS } from '../../base/moment.js';
import { dayNumber, isoOf, openOn, parseHours, type Hours } from '../../model/hours/index.js';
import { openHours, openWeek } from '../../plan/business-days.js';
import type { Speaker } from '../../say/speaker.js';
import type { Words } from '../../say/words.js';
import { say } from '../shared/say.js';

/** Whether every rule is of each week; else the week alone doesn't tell all that was read. */
const isWeek = ({ rules }: Hours): boolean =>
  rules.every(({ dates, holidays, days }) => !dates && !holidays && !days?.some((d) => d.nth));

/** A Monday; of hours without dates, any week tells all. */
const MONDAY = dayNumber(2024, 1, 1);

/** @returns nothing for hours that say every day by themselves and as the grammar has it */
export const hoursReadBack = (wrote: unknown, { times }: Speaker, words: Words): string | undefined => {
  const parsed = typeof wrote === 'string' ? parseHours(wrote) : undefined;
  if (!parsed?.ok) return undefined;
  const { hours, plain, readAs } = parsed;
  if (!isWeek(hours)) return plain ? say(words, 'read-as', { hours: readAs }) : undefined;
  const { at } = openHours(openWeek({ hours: { wrote: String(wrote), hours, plain, readAs } }));
  if (at === 'always') return plain ? say(words, 'read-as', { hours: words.get('times.always') ?? readAs }) : undefined;
  const closed = WEEKDAYS.filter((_, i) => openOn(hours, isoOf(MONDAY + i)).length === 0);
  const unsaid = closed.some((day) => !hours.rules.some(({ days }) => days?.some((d) => WEEKDAYS[d.day] === day)));
  if (!plain && !unsaid) return undefined;
  return say(words, closed.length > 0 ? 'read-as-closed' : 'read-as', { hours: times.hours(at), closed: times.days(closed) });
};
