/**
 * Pans by nominal size: the outside that a lidded pan takes on a shelf.
 * GN: outside plan dimensions of EN 631-1. US sizes: over the rim, from memory; makers differ by about a tenth.
 */
export interface PanSize {
  /** Metres. */
  readonly length: number;
  readonly width: number;
}

/** From memory. */
const inches = (length: number, width: number): PanSize => ({ length: length * 0.0254, width: width * 0.0254 });
/** EN 631-1. */
const gn = (length: number, width: number): PanSize => ({ length: length / 1000, width: width / 1000 });

const sizes = {
  full: inches(20.75, 12.75),
  'two-third': inches(13.875, 12.75),
  half: inches(12.75, 10.375),
  third: inches(12.75, 6.875),
  quarter: inches(10.375, 6.375),
  sixth: inches(6.875, 6.25),
  ninth: inches(6.875, 4.25),
  'gn-1-1': gn(530, 325),
  'gn-2-3': gn(354, 325),
  'gn-1-2': gn(325, 265),
  'gn-1-3': gn(325, 176),
  'gn-1-4': gn(265, 162),
  'gn-1-6': gn(176, 162),
  'gn-1-9': gn(176, 108),
} as const satisfies Record<string, PanSize>;

export type PanSizeName = keyof typeof sizes;
export const PAN_SIZES: Readonly<Record<PanSizeName, PanSize>> = sizes;
export const panSizeNames = Object.keys(sizes) as [PanSizeName, ...PanSizeName[]];

/** A rail holds pans to about this depth from front to back, metres (common practice, no source): two rows of sixths, one of thirds. */
const REACH = 0.35;

/** Openings of each row, the front row first. */
export const panRows = (size: PanSizeName, count: number): readonly number[] => {
  const rows = Math.min(count, Math.max(1, Math.round(REACH / PAN_SIZES[size].length)));
  return Array.from({ length: rows }, (_, i) => Math.ceil((count - i) / rows));
};
