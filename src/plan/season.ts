/**
 * The season of a date, where a store's hours change by season.
 */
import { dayOfIso, isoOf, seasonsOf, type DayNumber, type Season } from '../model/hours/index.js';
import type { Store } from '../model/store.js';

/** Further than any season of a year reaches. */
const YEAR = 370;

/** @returns undefined where the hours are the same all year */
export const seasonOn = ({ hours: { hours } }: Store, on: string): Season | undefined => {
  if (hours.rules.every((rule) => rule.dates === null)) return undefined;
  const day = dayOfIso(on) as DayNumber;
  const seasons = seasonsOf(hours, isoOf(day - YEAR), isoOf(day + YEAR));
  return seasons.length < 2 ? undefined : seasons.find((season) => season.from <= on && on <= season.to);
};
