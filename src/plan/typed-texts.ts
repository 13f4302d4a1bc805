/**
 * Clock times and temperatures that somebody typed into a text of a profile or a store, which staff then read: nothing computes or checks them, and they
 * stay as they are when the store's hours or its law change.
 */
import { warning, type Finding } from '../base/finding.js';
import { within, type Place } from '../base/place.js';
import { typedIn } from '../base/typed.js';
import { leaves, type Tree } from './known.js';

/** What technicians alone read, in whose texts readings belong. */
const TECHNICAL =
  /\.(means|step|note|who|how|what|when|shows)$|\.(notes|origins|found|maker|nameplate|sensor|not_known|physics|scenes)(\.|$)/;

/** A text by language, each at its own key. */
const inEach = (text: Readonly<Record<string, string>>, at: Place): readonly { readonly text: string; readonly at: Place }[] =>
  Object.entries(text).map(([lang, one]) => ({ text: one, at: within(at, lang) }));

/** Each once, by the place where it was written. */
export const typedTexts = (tree: Tree): readonly Finding[] => {
  const once = new Map<string, Finding>();
  for (const [path, { value, basis }] of leaves(tree)) {
    if (value.q !== 'told' || basis.how !== 'written' || TECHNICAL.test(path)) continue;
    const texts = typeof value.text === 'string' ? [{ text: value.text, at: basis.at }] : inEach(value.text, basis.at);
    for (const { text, at } of texts)
      for (const { figure } of typedIn(text)) once.set(JSON.stringify([at, figure]), warning('figure-in-text', at, { figure }));
  }
  return [...once.values()];
};
