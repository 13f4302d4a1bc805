/**
 * What the dial of a pressure control can be set to: whole pounds in US measure, steps of 0.05 bar in SI. Common practice, no source.
 */
import { amount, PSI, type Amount, type Measure, type UnitName } from '../base/amount.js';
import type { InUnit } from '../base/finding.js';

/** Nearer than this no dial is set, in Pa. */
const DIVISION = { us: PSI, si: 5000 } as const;

/** @param si Pa above the dial's zero */
export const dialled = (si: number, measure: Measure): Amount<'gauge'> =>
  amount('gauge', Math.round(si / DIVISION[measure]) * DIVISION[measure]);

/** The highest setting of a dial that is under a pressure, in the unit of a figure that somebody wrote of it. */
export const dialledUnder = (si: number, like: Amount<'gauge'>): InUnit => {
  const unit = (Object.keys(like.printed ?? {})[0] ?? 'psig') as UnitName;
  const step = DIVISION[unit === 'psig' || unit === 'inHg' ? 'us' : 'si'];
  return { ...amount('gauge', (Math.ceil(si / step - 1e-6) - 1) * step), unit };
};

/** What a dial that stands at a figure is to be set to for another: left alone where it is no step away. */
export const redialled = (stands: Amount<'gauge'>, wanted: number, measure: Measure): Amount<'gauge'> =>
  Math.abs(wanted - stands.si) <= DIVISION[measure] ? stands : dialled(wanted, measure);
