/**
 * What a template may name: the plan itself, every leaf said in the reader's words. Nobody writes a view by hand.
 */
import { restsOnUnconfirmed, type Known } from '../base/basis.js';
import type { Value } from '../base/value.js';
import type { Speaker } from '../say/speaker.js';
import { Beside, isKnown, type Tree } from '../plan/known.js';
import { Leaf, type Payload, type Pot } from './leaf.js';

export type View = Leaf | boolean | undefined | readonly View[] | { readonly [key: string]: View };

/** Whether a value, or one that its sentence names, was taken over from a similar unit and nobody has checked it on this one, or is worked out from such. */
const isTakenOver = (known: Known<Value>): boolean =>
  restsOnUnconfirmed(known) || (known.value.q === 'phrase' && Object.values(known.value.with).some(isTakenOver));

/** Beside what nobody confirmed; `card.not-confirmed` says what it means. */
const MARK = '*';

const saidOf = (known: Known<Value>, speaker: Speaker, marks: boolean): Payload => {
  const { runs } = speaker.say(known);
  return { runs: marks && isTakenOver(known) ? [...runs, { text: MARK }] : runs };
};

/**
 * Flags become plain yes or no for `#if`; all else becomes a leaf. A key that the plan holds without a value stays, undefined.
 * @param marks what nobody confirmed
 */
export const viewOf = (tree: Tree | undefined, speaker: Speaker, pot: Pot, marks = false): View => {
  if (tree === undefined || typeof tree === 'string' || tree instanceof Beside) return undefined;
  if (isKnown(tree)) return tree.value.q === 'flag' ? tree.value.is : new Leaf(pot, () => saidOf(tree, speaker, marks));
  if (Array.isArray(tree)) return tree.map((node: Tree) => viewOf(node, speaker, pot, marks));
  return Object.fromEntries(Object.entries(tree).map(([key, node]) => [key, viewOf(node, speaker, pot, marks)]));
};

/** A view whose parts are made when a template asks for them: most pages ask for few. */
export const late = (parts: Readonly<Record<string, () => View>>): View => {
  const view = {};
  const put = (key: string, how: PropertyDescriptor): void =>
    void Object.defineProperty(view, key, { enumerable: true, configurable: true, ...how });
  for (const [key, make] of Object.entries(parts))
    put(key, {
      get: () => {
        const value = make();
        put(key, { value });
        return value;
      },
    });
  return view;
};
