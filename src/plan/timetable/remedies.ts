/**
 * The smallest changes after which a rail has a schedule, each tried by solving again: single ones, and where none is enough, pairs.
 */
import { apply, leversOf, type Change, type Lever, type Offers } from './levers.js';
import { isWhole } from './outcome.js';
import type { Problem } from './problem.js';
import { solve } from './solve.js';

/** Changes that together give the rail a schedule. */
export type Remedy = readonly Change[];

export const applyRemedy = (problem: Problem, rail: number, remedy: Remedy, offers: Offers = {}): Problem =>
  remedy.reduce((changed, change) => apply(changed, rail, change, offers), problem);

/** The least units for which it holds: more is never worse, but for the far end (so early that food would be out before it is in), which is halved. */
const least = (most: number, holds: (units: number) => boolean): number | undefined => {
  let yes = most;
  while (yes > 0 && !holds(yes)) yes = Math.floor(yes / 2);
  if (yes === 0) return undefined;
  let no = 0;
  while (yes - no > 1) {
    const middle = Math.floor((no + yes) / 2);
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
};

/**
 * @param rail index of a rail without a schedule; the crew's other rails are not judged
 * @returns single remedies in the order of the levers; where there is none, pairs; where no pair is enough, none
 */
export const remediesFor = (problem: Problem, rail: number, offers: Offers = {}): readonly Remedy[] => {
  const levers = leversOf(problem, rail, offers);
  const made = offers.made ?? ((remedy: Remedy): Problem => applyRemedy(problem, rail, remedy, offers));
  const works = (remedy: Remedy): boolean => {
    const changed = made(remedy);
    return changed !== undefined && isWhole(solve(changed)[rail]);
  };
  const alone = (lever: Lever, beside: Remedy): Change | undefined => {
    const units = least(lever.most, (n) => works([...beside, lever.change(n)]));
    return units === undefined ? undefined : lever.change(units);
  };
  const singles = levers.flatMap((lever) => {
    const change = alone(lever, []);
    return change ? [[change]] : [];
  });
  if (singles.length > 0) return singles;
  return levers.flatMap((a, i) =>
    levers.slice(i + 1).flatMap((b) => {
      const first = alone(a, [b.change(b.most)]);
      const second = first && alone(b, [first]);
      return second ? [[first, second]] : [];
    }),
  );
};
