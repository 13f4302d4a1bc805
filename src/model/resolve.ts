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

/** Later layers win, map by map; lists and single values are replaced whole. Every layer that holds a path can tell of it. */
export const lay = (layers: readonly Layer[]): Laid => {
  const merge = (under: unknown, over: unknown): unknown => {
    if (over === undefined) return under;
    if (!isMap(under) || !isMap(over)) return over;
    const merged: Record<string, unknown> = { ...under };
    for (const [key, value] of Object.entries(over)) merged[key] = merge(under[key], value);
    return merged;
  };
  const holds = (value: unknown, path: Path): boolean => {
    let here = value;
    for (const step of path) {
      if (typeof here !== 'object' || here === null || !Object.hasOwn(here, step)) return false;
      here = (here as Record<string | number, unknown>)[step];
    }
    return here !== undefined;
  };
  const top = layers.at(-1);
  if (!top) throw new Error('lay needs a layer');
  const originOf = (path: Path): Origin => {
    for (let length = path.length; length > 0; length--) {
      const part = path.slice(0, length);
      const layer = [...layers].reverse().find((l) => holds(l.value, part));
      if (layer) return { at: layer.placeOf?.(part) ?? within(layer.at, ...part), assumed: layer.assumed === true };
    }
    return { at: top.placeOf?.(path) ?? within(top.at, ...path), assumed: false };
  };
  return { value: layers.map((l) => l.value).reduce(merge), originOf };
};
