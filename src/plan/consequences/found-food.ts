/**
 * How warm the food gets in a rail that its clock, as it was found, stops with food in it. Told only where it condemns, as predicted; no figure clears food.
 */
import type { Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import type { Phrase } from '../../base/value.js';
import type { FoundTold } from '../found-clock.js';
import { figuresOf, halvesUp, quartersUp, says, type SceneContext } from './context.js';
import { nightOf } from './nights.js';

type Temperature = Known<Amount<'temperature'>>;

export interface FoundFood {
  /** How long the rail is off with food in it. */
  readonly stopped: Known<Amount<'duration'>>;
  readonly start: Temperature;
  /** When it comes on again. */
  readonly coldest: Temperature;
  readonly mean: Temperature;
  readonly warmest: Temperature;
  /** For how long the food's mean is over the limit, until the rail has cooled it again or so long as it is looked at. */
  readonly over: Known<Amount<'duration'>>;
  readonly says: Known<Phrase>;
  readonly [key: string]: Temperature | Known<Amount<'duration'>> | Known<Phrase>;
}

/** Stops of more lengths than these nobody reads; the longest count. */
const MOST = 3;
/** After it comes on, the food is followed for so long: s. */
const AFTER = 4 * 3600;
/** A stop of no length, s, beside which another one is held. */
const MOMENT = 60;
/** By so much a stop warms the food's mean before it is told, K. Common practice, no source. */
const RISE = 1;

const lengthsOf = (did: readonly FoundTold[]): readonly Known<Amount<'duration'>>[] => {
  const lengths = did.flatMap(({ text, figures }) =>
    text.value.code === 'found.off-with-food' && figures.length?.value.q === 'duration'
      ? [figures.length as Known<Amount<'duration'>>]
      : [],
  );
  const distinct = [...new Map(lengths.map((known) => [quartersUp(known.value.si), known])).values()];
  return distinct.sort((a, b) => b.value.si - a.value.si).slice(0, MOST);
};

/** @param found what the clock did as it was found; @returns one for each length of a stop after which some of the food is predicted over the limit */
export const foundFood = (
  context: Pick<SceneContext, 'rail' | 'climate' | 'facts' | 'physics'>,
  found: readonly FoundTold[],
): readonly FoundFood[] => {
  const { rail, climate, facts, physics } = context;
  const { aim, limit } = facts.law;
  if (rail?.box === undefined) return [];
  return lengthsOf(found).flatMap((stopped): readonly FoundFood[] => {
    const on = quartersUp(stopped.value.si);
    const after = (off: number) =>
      nightOf({
        machine: rail,
        kitchen: climate.usual,
        times: { off, on, loaded: on + AFTER },
        probed: aim.value.si,
        limit: limit.value.si,
      });
    const [scene, hardly] = [after(0), after(on - MOMENT)];
    if (!scene || !hardly || !(scene.atOn.warmest > limit.value.si)) return [];
    // What a stop did not warm is not said to be warm by it.
    if (scene.atOn.mean - hardly.atOn.mean < RISE) return [];
    const { temperature, duration } = figuresOf(context, 'usual', [aim, stopped]);
    const coldest = temperature(scene.atOn.coldest, 'left-food-coldest', 'up');
    const mean = temperature(scene.atOn.mean, 'left-food-mean', 'up');
    const warmest = temperature(scene.atOn.warmest, 'left-food-warmest', 'up');
    const over = duration(halvesUp(scene.over), 'left-food-over', 'up');
    const code = scene.over > 0 ? 'found-food-over' : 'found-food';
    return [
      {
        stopped,
        start: aim,
        coldest,
        mean,
        warmest,
        over,
        says: says(code, { stopped, start: aim, kitchen: physics.usual, coldest, mean, warmest, over, limit }),
      },
    ];
  });
};
