/**
 * What the dial of a pressure control can be set to: whole pounds in US measure, steps of 0.05 bar in SI. Common practice, no source.
 */
import { amount, PSI, type Amount } from '../base/amount.js';

/** Nearer than this no dial is set, in Pa. */
const DIVISION = { us: PSI, si: 5000 } as const;

/** @param si Pa above the dial's zero */
export const dialled = (si: number, measure: 'us' | 'si'): Amount<'gauge'> =>
  amount('gauge', Math.round(si / DIVISION[measure]) * DIVISION[measure]);

/** What a dial that stands at a figure is to be set to for another: left alone where it is no step away. */
export const redialled = (stands: Amount<'gauge'>, wanted: number, measure: 'us' | 'si'): Amount<'gauge'> =>
  Math.abs(wanted - stands.si) <= DIVISION[measure] ? stands : dialled(wanted, measure);
