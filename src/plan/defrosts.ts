/**
 * When a box's defrosts start, where a clock starts them: away from the store's rush, and as evenly as that allows, with the food in.
 */
import type { Amount } from '../base/amount.js';
import { warning, type Finding } from '../base/finding.js';
import { DAY, moment, type Moment } from '../base/moment.js';
import type { Known } from '../base/basis.js';
import type { Value } from '../base/value.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import { computed } from './known.js';
import { spreadRests } from './timetable/index.js';
import type { StoreFacts } from './facts.js';
import { zoneName, type ZoneFacts } from './zone-facts.js';

export interface Defrosts {
  readonly zone: Known<Value>;
  readonly starts: readonly Known<Moment>[];
  readonly [key: string]: Known<Value> | readonly Known<Moment>[];
}

/**
 * Of each zone whose defrosts a clock starts, in a store that says when its rush is.
 * @param wait how long nothing is loaded after one, by its loading rule
 */
export const defrostsOf = (
  unit: Pick<ReadUnit, 'id'>,
  zones: ZoneFacts,
  { originOf }: ReadStore,
  { rush }: Pick<StoreFacts, 'rush'>,
  wait: Known<Amount> | undefined,
): { readonly defrosts: readonly Defrosts[]; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  if (!rush) return { defrosts: [], findings };
  const avoid = rush.map(({ from, to }) => ({ from: from.value.min, to: to.value.min }));
  const defrosts = Object.entries(zones).flatMap(([id, zone]): readonly Defrosts[] => {
    const { a_day, step, at_most, drip } = zone.defrost ?? {};
    if (!a_day || !step || !at_most) return [];
    const count = a_day.value.n;
    const lasts = [at_most, ...(drip ? [drip] : []), ...(wait ? [wait] : [])];
    const minutes = Math.ceil(lasts.reduce((sum, { value }) => sum + value.si, 0) / 60);
    const spread = spreadRests({ minutesPerDay: DAY, count, minutes, step: step.value.si / 60, avoid });
    if (!spread.ok) {
      const data = { unit: unit.id, zone: id, count, minutes, fits: spread.fits };
      findings.push(warning('defrosts-no-room', originOf('rush').at, data));
      return [];
    }
    const from = [a_day, step, ...lasts, ...rush.flatMap((one) => [one.from, one.to])];
    return [{ zone: zoneName(zone), starts: spread.starts.map((start) => computed(moment(start), 'defrosts-spread', from)) }];
  });
  return { defrosts, findings };
};
