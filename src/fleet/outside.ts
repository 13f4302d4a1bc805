/**
 * What a build asks of the machine: a folder for its outputs and a hash. Small, so that a test can take its place and die at every step.
 */

/** Bytes, text, or bytes in pieces. */
export type Content = Uint8Array | string | readonly Uint8Array[];

/** The folder of outputs. Paths lie below it, with forward slashes. Links are never followed. */
export interface OutFolder {
  /** Bytes of a file; undefined where there is none. */
  readonly read: (path: string) => Uint8Array | undefined;
  readonly size: (path: string) => number | undefined;
  /** Names of the files at the folder's top. */
  readonly names: () => readonly string[];
  /** Writes a file, making its folders. A death may leave half of it. */
  readonly put: (path: string, content: Content) => void;
  /** Adds to a file's end, making it where it isn't. A death may leave a torn last line. */
  readonly append: (path: string, text: string) => void;
  /** Gives a file another name, in place of what had it: wholly or not at all. */
  readonly move: (from: string, to: string) => void;
  /** Takes a file away, and its folder when that is empty. */
  readonly drop: (path: string) => void;
}

export interface Outside {
  readonly out: OutFolder;
  /** SHA-256 in hexadecimal. */
  readonly hash: (content: Content) => string;
}

/** The name beside a file under which it is written. */
export const partOf = (path: string): string => path.replace(/([^/]*)$/, '.$1.part');

/** A file whole: under another name first, then renamed. */
export const writeWhole = (out: OutFolder, path: string, content: Content): void => {
  out.put(partOf(path), content);
  out.move(partOf(path), path);
};

const same = (a: Uint8Array, b: Uint8Array): boolean => a.length === b.length && a.every((byte, i) => byte === b[i]);

/** The same, where the file isn't so already. */
export const writeIfNew = (out: OutFolder, path: string, bytes: Uint8Array): void => {
  const old = out.read(path);
  if (!old || !same(old, bytes)) writeWhole(out, path, bytes);
};

/** The folder can't be read or written: the build stops, whatever store it was at. */
export class FolderFault extends Error {}
