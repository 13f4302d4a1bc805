/**
 * What a template may name: the plan itself, every leaf said in the reader's words. Nobody writes a view by hand.
 */
import type { Speaker } from '../say/speaker.js';
import { Beside, isKnown, type Tree } from '../plan/known.js';
import { Leaf, type Pot } from './leaf.js';

export type View = Leaf | boolean | undefined | readonly View[] | { readonly [key: string]: View };

/** Flags become plain yes or no for `#if`; all else becomes a leaf. A key that the plan holds without a value stays, undefined. */
export const viewOf = (tree: Tree | undefined, speaker: Speaker, pot: Pot): View => {
  if (tree === undefined || typeof tree === 'string' || tree instanceof Beside) return undefined;
  if (isKnown(tree)) return tree.value.q === 'flag' ? tree.value.is : new Leaf(pot, () => speaker.say(tree));
  if (Array.isArray(tree)) return tree.map((node: Tree) => viewOf(node, speaker, pot));
  return Object.fromEntries(Object.entries(tree).map(([key, node]) => [key, viewOf(node, speaker, pot)]));
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
