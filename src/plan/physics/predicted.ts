/**
 * What the physics says of a rail's needs: how fast it can pull down, and how long its ice takes to melt, each as a band with a safe end.
 */
import { amount, type Amount, type Span } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { computed } from '../known.js';
import { meltingOf, pullDownOf } from './fit.js';
import type { UnitPhysics } from './index.js';

type Duration = Known<Amount<'duration'>>;

const FIVE = 300;
/** Rounded to the safe side: longer, in whole fives. */
const inFives = (seconds: number): Amount<'duration'> => amount('duration', Math.ceil(seconds / FIVE - 1e-6) * FIVE);

const band = (low: number, high: number): Span<'duration'> => ({ low: inFives(low), high: inFives(high) });

export interface PredictedPullDown {
  /** A clean, dry rail with its full charge: none is faster. */
  readonly fastest: Duration;
  /** To plan with. */
  readonly planned: Duration;
}

/** @param ready air of the empty rail that is ready for food */
export const predictedPullDown = (
  { rail, climate, tree }: UnitPhysics,
  ready: Known<Amount<'temperature'>>,
): PredictedPullDown | undefined => {
  const found = rail && climate && pullDownOf({ machine: rail, kitchen: climate.hottest, ready: ready.value.si });
  if (!found || !tree) return undefined;
  const from = [ready, tree.hottest, tree.humidity, tree.altitude, tree.cooling];
  const fastest: Duration = computed(inFives(found.computed), 'pull-down-computed', from, 'up');
  const planned = computed(
    inFives(found.least),
    'pull-down-planned',
    [fastest, tree.hottest],
    'up',
    band(found.computed, found.least),
  );
  return { fastest, planned };
};

export interface PredictedMelting {
  /** The least and the most that published correlations and practice allow. */
  readonly least: Duration;
  readonly most: Duration;
  /** Of a rail whose covers are down at night, the most that it would take with them up. */
  readonly up: Duration | undefined;
}

/**
 * @param run the longest that the rail runs between two rests
 * @param covers of the empty rail at night
 */
export const predictedMelting = (
  { rail, climate, tree }: UnitPhysics,
  run: Duration,
  covers: 'up' | 'down',
): PredictedMelting | undefined => {
  if (rail?.rail === undefined || !climate || !tree) return undefined;
  const { facts, rail: index } = rail;
  const melting = (way: 'up' | 'down') =>
    meltingOf({
      facts,
      rail: index,
      kitchen: climate.usual,
      night: climate.night,
      running: run.value.si,
      covers: way,
    })?.melting;
  const found = melting(covers);
  const up = covers === 'down' ? melting('up') : undefined;
  if (!found) return undefined;
  const from = [run, tree.usual, tree.humidity, tree.night, tree.altitude];
  const edge = (seconds: number, rule: string, { low, high } = found): Duration =>
    computed(inFives(seconds), rule, from, 'up', band(low, high));
  return {
    least: edge(found.low, 'ice-melts-at-best'),
    most: edge(found.high, 'ice-melts-at-worst'),
    up: up && edge(up.high, 'ice-melts-covers-up', up),
  };
};
