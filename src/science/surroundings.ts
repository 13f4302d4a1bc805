/**
 * The films that stand between food, its box and the kitchen, where a technician can measure nothing: stated here once, for all rooms.
 */

/** What open food and the kitchen radiate to each other, W/(m² K): emissivity 0.95 at about 290 K. */
export const RADIATION_TOP = 5.2;
/** Open food under the kitchen: that, and still air over a cold plate, about 2 W/(m² K). */
export const OPEN_TOP = 7;
/** The same under a cover: the air gap, and what cover and food radiate to each other, in series; between a metal and a plastic cover. */
export const COVERED_TOP = 2.5;
/** A lidded pan on a shelf in moving air. Common practice, no source. */
export const IN_MOVING_AIR = { top: 5, bottom: 8, walls: 10 } as const;
/** Foam and gasket of a cabinet as one, W a m² of outside and K. Common practice, no source. */
export const CABINET_WALL = 0.5;
