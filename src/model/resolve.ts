/**
 * Lays what a store wrote over the chain's defaults and nightrail's own, once, and remembers for each leaf which document it came from,
 * so that a finding about an inherited value points to where it was written.
 */
import type { Place } from '../base/place.js';
import { within } from '../base/place.js';

type Path = readonly (string | number)[];

/** Plain data as it was read, before any schema, and where it stands. */
export interface Layer {
  readonly value: unknown;
  readonly at: Place;
  /** nightrail's own default: shown to readers as assumed. */
  readonly assumed?: true;
  /** Where the value at a path stands, when that is not below `at`: a cell of a sheet. */
  readonly placeOf?: (path: Path) => Place;
}

export interface Origin {
  readonly at: Place;
  readonly assumed: boolean;
  /** Taken over from a similar unit, and nobody has checked it on this one. */
  readonly confirmed?: false;
}

export interface Laid {
  readonly value: unknown;
  /** Where the value at a path was written; for one that nobody wrote, the nearest thing above it. */
  readonly originOf: (path: Path) => Origin;
}

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What a list says of dates, an entry a date. */
const byDate = (value: unknown): value is readonly { readonly date: string }[] =>
  Array.isArray(value) && value.every((item) => isMap(item) && typeof item['date'] === 'string');

/**
 * Later layers win, map by map; lists and single values are replaced whole, but a list of dates is laid date by date: a store's own days beside the
 * chain's. Every layer that holds a path can tell of it.
 */
export const lay = (layers: readonly Layer[]): Laid => {
  const merge = (under: unknown, over: unknown): unknown => {
    if (over === undefined) return under;
    if (byDate(under) && byDate(over)) return [...over, ...under.filter(({ date }) => !over.some((own) => own.date === date))];
    if (!isMap(under) || !isMap(over)) return over;
    const merged: Record<string, unknown> = { ...under };
    for (const [key, value] of Object.entries(over)) merged[key] = merge(under[key], value);
    return merged;
  };
  const merged = layers.map((l) => l.value).reduce(merge, undefined);
  const step = (value: unknown, key: string | number): unknown =>
    typeof value === 'object' && value !== null && Object.hasOwn(value, key)
      ? (value as Record<string | number, unknown>)[key]
      : undefined;
  /** A path of what was merged, as one layer has it, where it has it: an entry of a list that was laid date by date may stand elsewhere in its own. */
  const pathIn = (layer: unknown, path: Path): Path | undefined => {
    let [here, there]: [unknown, unknown] = [merged, layer];
    const found: (string | number)[] = [];
    for (const key of path) {
      here = step(here, key);
      const own = byDate(there) ? there.indexOf(here as { readonly date: string }) : key;
      there = step(there, own);
      if (there === undefined) return undefined;
      found.push(own);
    }
    return found;
  };
  const top = layers.at(-1);
  if (!top) throw new Error('lay needs a layer');
  const originOf = (path: Path): Origin => {
    for (let length = path.length; length > 0; length--) {
      const part = path.slice(0, length);
      for (const layer of layers.toReversed()) {
        const own = pathIn(layer.value, part);
        if (own) return { at: layer.placeOf?.(own) ?? within(layer.at, ...own), assumed: layer.assumed === true };
      }
    }
    return { at: top.placeOf?.(path) ?? within(top.at, ...path), assumed: false };
  };
  return { value: merged, originOf };
};
