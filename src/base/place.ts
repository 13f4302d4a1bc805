/**
 * Where a person wrote something: a document and the path of keys that leads to the value.
 * Line and column are looked up only when something is printed (read/locate).
 */
export interface Place {
  /** Path of the file relative to the chain's folder, with forward slashes; `nightrail:` in front for a file that ships with nightrail. */
  readonly doc: string;
  readonly path: readonly (string | number)[];
  /** Set when the place is a position in a text (a template, a broken file), not a value: both 1-based. */
  readonly line?: number;
  readonly column?: number;
  /** The column's name, when the place is a cell of a sheet; `line` is its row. */
  readonly cell?: string;
  /** True when the place is the key itself and not its value: a typo in a key. */
  readonly key?: true;
}

export const place = (doc: string, ...path: (string | number)[]): Place => ({ doc, path });

/** The same place, further in. */
export const within = (at: Place, ...path: (string | number)[]): Place => ({ ...at, path: [...at.path, ...path] });
