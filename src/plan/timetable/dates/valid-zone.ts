/**
 * Whether a name is a time zone of a place, and which one was meant where it is not: abbreviations and fixed offsets don't know when clocks change.
 */
import { nearest } from '../../../base/spelling.js';
import { zoneId } from './zone.js';
import { ABBREVIATIONS, WITHOUT_SUMMER_TIME, ZONE_NAMES } from './zone-names.js';

export type ZoneCheck =
  { readonly ok: true; readonly zone: string } | { readonly ok: false; readonly suggestion?: string; readonly fixed?: string };

const isPlace = (name: string): boolean => name.includes('/') && !/^etc\//i.test(name);

/** `Chicago` for `America/Chicago`. */
const placeOf = (zone: string): string => zone.slice(zone.lastIndexOf('/') + 1);

const suggest = (wrote: string): string | undefined => {
  const abbreviation = ABBREVIATIONS[wrote.toLowerCase().replace(/\s+time$/, '')];
  if (abbreviation) return abbreviation;
  const place = nearest(placeOf(wrote), ZONE_NAMES.map(placeOf));
  const zones = ZONE_NAMES.filter((zone) => placeOf(zone) === place);
  // A place that is none is near to no other because they share a continent.
  return zones.find((zone) => zone.startsWith(wrote.slice(0, wrote.indexOf('/') + 1))) ?? zones[0];
};

/** @returns the zone as the time-zone data spells it, or the nearest name */
export const validZone = (wrote: string): ZoneCheck => {
  const name = wrote.trim();
  const zone = isPlace(name) ? zoneId(name) : undefined;
  if (zone !== undefined) return { ok: true, zone };
  const suggestion = suggest(name);
  const fixed = WITHOUT_SUMMER_TIME[name.toLowerCase()];
  return { ok: false, ...(suggestion === undefined ? {} : { suggestion }), ...(fixed === undefined ? {} : { fixed }) };
};
