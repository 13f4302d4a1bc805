/**
 * Kinds of zone as records of traits. Rooms switch on a trait, never on a kind's name, so that a new kind is one entry here (and its words).
 * Traits that the program can't honour together don't compile: every trait that is written is one that a plan follows.
 */

/** An open top of a table: pans that people work from, emptied at the close of each day. */
export type RailKind = {
  readonly holds: 'cold';
  readonly carries: 'pans';
  readonly stores: false;
} & (
  | { readonly cooled: 'static'; readonly rests: 'emptied' } // a cold wall or floor, no fan: it frosts, and rests for hours
  | { readonly cooled: 'shared-air'; readonly rests: 'with-base' } // the air of the base's coil and fan: no rest of its own
  | { readonly cooled: 'fan-rail'; readonly rests: 'as-maker' } // its own coil and fan, which its controller rests as its maker says
);

/** A closed box: a coil and a fan, which rests by itself with the food in, in short stops or by a heater (a profile's `defrost`). */
export type BoxKind = {
  readonly cooled: 'boxed';
  readonly rests: 'by-itself';
  /** How food lies in it, for rules and pictures. */
  readonly carries: 'shelves' | 'drawers' | 'room';
} & (
  | { readonly holds: 'cold'; /** May take the food of a rail at night. */ readonly stores: boolean }
  | { readonly holds: 'frozen' | 'sealed'; readonly stores: false }
);

export type ZoneKind = RailKind | BoxKind;

/** How the cold reaches the food. */
export type Cooled = ZoneKind['cooled'];
/** Which limit of the food law rules it. */
export type Holds = ZoneKind['holds'];

const RAIL = { holds: 'cold', carries: 'pans', stores: false } as const;
const BOX = { cooled: 'boxed', rests: 'by-itself' } as const;

const kinds = {
  'static-rail': { ...RAIL, cooled: 'static', rests: 'emptied' },
  'forced-air-rail': { ...RAIL, cooled: 'shared-air', rests: 'with-base' },
  'fan-coil-rail': { ...RAIL, cooled: 'fan-rail', rests: 'as-maker' },
  'refrigerated-base': { ...BOX, holds: 'cold', carries: 'shelves', stores: true },
  drawers: { ...BOX, holds: 'cold', carries: 'drawers', stores: false },
  'reach-in': { ...BOX, holds: 'cold', carries: 'shelves', stores: true },
  freezer: { ...BOX, holds: 'frozen', carries: 'shelves', stores: false },
  'walk-in': { ...BOX, holds: 'cold', carries: 'room', stores: true },
  merchandiser: { ...BOX, holds: 'sealed', carries: 'shelves', stores: false },
} as const satisfies Record<string, ZoneKind>;

export type ZoneKindName = keyof typeof kinds;
export const ZONE_KINDS: Readonly<Record<ZoneKindName, ZoneKind>> = kinds;
export const zoneKindNames = Object.keys(kinds) as [ZoneKindName, ...ZoneKindName[]];

/** A rail is the open top of a table: pans that people work from. */
export const isRail = (kind: ZoneKind): kind is RailKind => kind.carries === 'pans';
export const isBox = (kind: ZoneKind): kind is BoxKind => !isRail(kind);
