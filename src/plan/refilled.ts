/**
 * What a unit was built as, where its circuit holds another refrigerant than its profile says: a change of refrigerant is where a unit differs from
 * its profile in what is in it.
 */
import type { Place } from '../base/place.js';
import { profileSchema, type Profile } from '../model/profile.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';

/** @returns the profile without what differs at the unit, and its file; undefined where the circuit is filled as it says */
export const builtAs = (
  shelf: Shelf,
  unit: ReadUnit,
  circuit: number,
): { readonly made: Profile; readonly refrigerant: string; readonly at: Place } | undefined => {
  const file = shelf.profiles.get(unit.unit.profile);
  if (!file || unit.originOf('nameplate', 'circuits', circuit, 'refrigerant').at.doc === file.at.doc) return undefined;
  const made = profileSchema.safeParse(file.raw).data;
  const refrigerant = made?.nameplate.circuits[circuit]?.refrigerant;
  return made && refrigerant !== undefined ? { made, refrigerant, at: file.at } : undefined;
};
