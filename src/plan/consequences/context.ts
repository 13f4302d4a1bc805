/**
 * What every scene of a unit needs: the machines that fit it, its kitchen, its law, and the leaves from which its figures come.
 */
import { amount, type Amount } from '../../base/amount.js';
import type { Known, Rounding } from '../../base/basis.js';
import type { Place } from '../../base/place.js';
import { phrase, type Phrase, type Value } from '../../base/value.js';
import type { Law } from '../../model/law.js';
import type { StoreFacts } from '../facts.js';
import { computed, practice } from '../known.js';
import type { Climate } from '../physics/climate.js';
import type { PhysicsTree } from '../physics/index.js';
import type { Machine } from '../physics/unit-facts.js';
import type { Rested } from './usual-night.js';

export interface SceneContext {
  /** Of a static rail that a clock or a hand rests. */
  readonly rest: Rested | undefined;
  readonly facts: StoreFacts;
  readonly law: Law;
  readonly lawAt: Place;
  readonly physics: PhysicsTree;
  readonly climate: Climate;
  readonly rail: Machine | undefined;
  readonly box: Machine | undefined;
}

type Temperature = Known<Amount<'temperature'>>;

/** A sentence about a scene. */
export const says = (code: string, values: Readonly<Record<string, Known<Value>>>): Known<Phrase> =>
  practice(phrase(`scenes.${code}`, values), `scene-${code}`);

/** Makes figures of a scene, each from the unit's model and its usual or hottest kitchen. */
export const figuresOf = (
  { physics }: Pick<SceneContext, 'physics'>,
  kitchen: 'usual' | 'hottest',
  more: readonly Known<unknown>[] = [],
) => {
  const from = [
    physics[kitchen],
    physics.humidity,
    physics.altitude,
    physics.kitchen,
    physics.cooling,
    physics.counted_as,
    ...more,
  ];
  return {
    temperature: (si: number, rule: string, rounded: Rounding): Temperature =>
      computed(amount('temperature', si), rule, from, rounded),
    duration: (si: number, rule: string, rounded: Rounding): Known<Amount<'duration'>> =>
      computed(amount('duration', si), rule, from, rounded),
    from,
  };
};

const QUARTER = 900;
const HALF = 1800;
/** To whole quarters of an hour: longer. */
export const quartersUp = (seconds: number): number => Math.ceil(seconds / QUARTER - 1e-6) * QUARTER;
/** A prediction is told to half an hour: more than that no model of a kitchen knows. */
export const halvesUp = (seconds: number): number => Math.ceil(seconds / HALF - 1e-6) * HALF;
export const halvesDown = (seconds: number): number => Math.floor(seconds / HALF + 1e-6) * HALF;
