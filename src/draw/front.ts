/**
 * A part of the picture of a unit: its marks, where it ends below, and the spots that labels name.
 */
import type { Mark } from './drawing.js';

export type Spot = 'covers' | 'pans' | 'railLine' | 'railProbe' | 'railControl' | 'box' | 'boxLine' | 'boxProbe' | 'boxControl';

export interface Front {
  readonly marks: readonly Mark[];
  readonly bottom: number;
  readonly spots: Readonly<Partial<Record<Spot, readonly [number, number]>>>;
}
