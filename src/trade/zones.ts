/**
 * Kinds of zone as records of traits. Rooms switch on a trait, never on a kind's name, so that a new kind is one entry here (and its words).
 */

/** How the cold reaches the food. */
export type Cooled =
  | 'static' // a cold wall or floor, no fan: it frosts, and must rest
  | 'shared-air' // the air of the base's coil and fan: it has no rest of its own
  | 'fan-rail' // its own coil with a fan
  | 'boxed'; // a closed cabinet with a coil and a fan

/** What its coil needs to shed its frost. */
export type Rests =
  | 'emptied' // hours at night, food out
  | 'as-maker' // its controller's own rest, as its maker says
  | 'off-cycle' // short stops with the food in
  | 'heated' // electric defrost
  | 'with-base'; // none of its own: its cold is the base's

/** Which limit of the food law rules it. */
export type Holds = 'cold' | 'frozen' | 'sealed';

export interface ZoneKind {
  readonly cooled: Cooled;
  readonly rests: Rests;
  readonly holds: Holds;
  /** Food stands in it open to the kitchen while people work. */
  readonly open: boolean;
  /** Emptied at the close of the day. */
  readonly emptied: boolean;
  /** May take the food of a rail at night. */
  readonly stores: boolean;
  /** How food lies in it, for rules and pictures. */
  readonly carries: 'pans' | 'shelves' | 'drawers' | 'room';
}

const kinds = {
  'static-rail': { cooled: 'static', rests: 'emptied', holds: 'cold', open: true, emptied: true, stores: false, carries: 'pans' },
  'forced-air-rail': {
    cooled: 'shared-air',
    rests: 'with-base',
    holds: 'cold',
    open: true,
    emptied: true,
    stores: false,
    carries: 'pans',
  },
  'fan-coil-rail': {
    cooled: 'fan-rail',
    rests: 'as-maker',
    holds: 'cold',
    open: true,
    emptied: true,
    stores: false,
    carries: 'pans',
  },
  'refrigerated-base': {
    cooled: 'boxed',
    rests: 'off-cycle',
    holds: 'cold',
    open: false,
    emptied: false,
    stores: true,
    carries: 'shelves',
  },
  drawers: { cooled: 'boxed', rests: 'off-cycle', holds: 'cold', open: false, emptied: false, stores: false, carries: 'drawers' },
  'reach-in': {
    cooled: 'boxed',
    rests: 'off-cycle',
    holds: 'cold',
    open: false,
    emptied: false,
    stores: true,
    carries: 'shelves',
  },
  freezer: { cooled: 'boxed', rests: 'heated', holds: 'frozen', open: false, emptied: false, stores: false, carries: 'shelves' },
  'walk-in': { cooled: 'boxed', rests: 'off-cycle', holds: 'cold', open: false, emptied: false, stores: true, carries: 'room' },
  merchandiser: {
    cooled: 'boxed',
    rests: 'off-cycle',
    holds: 'sealed',
    open: false,
    emptied: false,
    stores: false,
    carries: 'shelves',
  },
} as const satisfies Record<string, ZoneKind>;

export type ZoneKindName = keyof typeof kinds;
export const ZONE_KINDS: Readonly<Record<ZoneKindName, ZoneKind>> = kinds;
export const zoneKindNames = Object.keys(kinds) as [ZoneKindName, ...ZoneKindName[]];

/** A rail is the open top of a table: pans that people work from. */
export const isRail = (kind: ZoneKind): boolean => kind.open && kind.carries === 'pans';
