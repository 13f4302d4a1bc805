/**
 * A unit whose top is emptied must say where its food goes at night.
 */
import { error, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Profile } from '../model/profile.js';
import { isRail, ZONE_KINDS } from '../trade/zones.js';

/** In a sheet, the columns that would say it. */
const columnsFor = ({ cell }: Place, unit: string): { columns?: readonly string[] } => {
  if (cell === undefined) return {};
  const of = cell.startsWith('units.') ? `units.${unit}` : 'unit';
  return { columns: ['zone', 'free_shelf', 'height'].map((fact) => `${of}.food_goes_to.${fact}`) };
};

/** @param at of the unit */
export const noPlaceForFood = (unit: string, at: Place): Finding =>
  error('no-place-for-food', at, { unit, ...columnsFor(at, unit) });

export const hasRail = ({ zones }: Pick<Profile, 'zones'>): boolean =>
  Object.values(zones).some(({ kind }) => isRail(ZONE_KINDS[kind]));
