/**
 * The parts of a unit that papers tell of: its open top and its closed box, the first of each (checks: `second-part`).
 */
import type { Profile, Zone } from '../model/profile.js';
import { isBox, isRail, ZONE_KINDS, type BoxKind, type RailKind } from '../trade/zones.js';

export interface Part<Kind> {
  readonly id: string;
  readonly zone: Zone;
  readonly kind: Kind;
}

export const partsOf = ({ zones }: Pick<Profile, 'zones'>): { readonly top?: Part<RailKind>; readonly box?: Part<BoxKind> } => {
  const all = Object.entries(zones).map(([id, zone]) => ({ id, zone, kind: ZONE_KINDS[zone.kind] }));
  const [top] = all.flatMap((part) => (isRail(part.kind) ? [{ ...part, kind: part.kind }] : []));
  const [box] = all.flatMap((part) => (isBox(part.kind) ? [{ ...part, kind: part.kind }] : []));
  return { ...(top ? { top } : {}), ...(box ? { box } : {}) };
};
