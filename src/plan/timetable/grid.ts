/**
 * Rounding to what a clock can be set to, in minutes. It errs to the safe side: off later, so that the food is out; on earlier, so that it is cold.
 */

/** When a clock turns off that may not do so before: the next multiple of its step. */
export const offOnGrid = (minutes: number, step: number): number => Math.ceil(minutes / step) * step;

/** When a clock turns on that may not do so after: the multiple of its step before. */
export const onOnGrid = (minutes: number, step: number): number => Math.floor(minutes / step) * step;
