/**
 * The folder of outputs on the disk. Links in it are not followed, and no path leads out of it.
 */
import { createHash, hash } from 'node:crypto';
import {
  appendFileSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import { FolderFault, type Content, type OutFolder, type Outside } from '../fleet/outside.js';
import { makeFolder } from './make-folder.js';
import { systemSays } from './system-says.js';

const piecesOf = (content: Content): readonly (Uint8Array | string)[] =>
  typeof content === 'string' || content instanceof Uint8Array ? [content] : content;

export const sha256 = (content: Content): string => {
  if (typeof content === 'string' || content instanceof Uint8Array) return hash('sha256', content);
  const sum = createHash('sha256');
  for (const piece of content) sum.update(piece);
  return sum.digest('hex');
};

/** Down to the disk. Node's permission model forbids asking for that; then the file is as safe as any other. */
export const toDisk = (file: number): void => {
  try {
    fsyncSync(file);
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code !== 'ERR_ACCESS_DENIED') throw fault;
  }
};

/** Makes the names in a folder last; Windows has no such thing, and needs none. */
export const keepNames = (folder: string): void => {
  if (process.platform === 'win32') return;
  const names = openSync(folder, 'r');
  try {
    toDisk(names);
  } finally {
    closeSync(names);
  }
};

export const openOut = (folder: string): OutFolder => {
  const root = resolve(folder);
  /** Folders already known to be real ones. */
  const real = new Set<string>();
  const isReal = (path: string): boolean => {
    if (path === root || real.has(path)) return true;
    if (!existsSync(path)) return true;
    if (!isReal(dirname(path)) || lstatSync(path).isSymbolicLink()) return false;
    real.add(path);
    return true;
  };
  const inside = (path: string): string => {
    const full = resolve(root, path);
    if (!full.startsWith(root + sep)) throw new FolderFault(`${path} lies outside of ${folder}`);
    if (!isReal(dirname(full))) throw new FolderFault(`${path} would be written through a link`);
    return full;
  };
  const attempt = <T>(path: string, act: (full: string) => T): T => {
    try {
      return act(inside(path));
    } catch (fault) {
      if (fault instanceof FolderFault) throw fault;
      throw new FolderFault(`${join(folder, path)}: ${systemSays(fault)}`);
    }
  };
  /** Files at the top (the ledger, the page of all stores) outlive a loss of power once they have their names; documents are known by the ledger and made again. */
  const isKept = (full: string): boolean => dirname(full) === root;
  /** Below a file, where a folder was meant, there is none. */
  const isFile = (full: string): boolean => {
    try {
      return lstatSync(full, { throwIfNoEntry: false })?.isFile() === true;
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code === 'ENOTDIR') return false;
      throw fault;
    }
  };
  const made = (full: string): void => {
    makeFolder(dirname(full));
  };
  return {
    read: (path) => attempt(path, (full) => (isFile(full) ? readFileSync(full) : undefined)),
    size: (path) =>
      attempt(path, (full) => {
        const found = lstatSync(full, { throwIfNoEntry: false });
        return found?.isFile() ? found.size : undefined;
      }),
    names: () =>
      existsSync(root)
        ? readdirSync(root, { withFileTypes: true })
            .filter((entry) => entry.isFile())
            .map((entry) => entry.name)
            .sort()
        : [],
    put: (path, content) =>
      attempt(path, (full) => {
        made(full);
        // Not through a link that somebody laid there.
        if (lstatSync(full, { throwIfNoEntry: false })?.isSymbolicLink()) rmSync(full);
        const file = openSync(full, 'w');
        try {
          for (const piece of piecesOf(content)) writeFileSync(file, piece);
          if (isKept(full)) toDisk(file);
        } finally {
          closeSync(file);
        }
      }),
    append: (path, text) =>
      attempt(path, (full) => {
        made(full);
        // A link may lead anywhere: nothing is written through one.
        const file = openSync(full, constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | constants.O_NOFOLLOW);
        try {
          appendFileSync(file, text);
        } finally {
          closeSync(file);
        }
      }),
    move: (from, to) =>
      attempt(to, (full) => {
        renameSync(inside(from), full);
        if (isKept(full)) keepNames(root);
      }),
    drop: (path) =>
      attempt(path, (full) => {
        rmSync(full, { force: true });
        const folderOf = dirname(full);
        if (folderOf !== root && existsSync(folderOf) && readdirSync(folderOf).length === 0) rmdirSync(folderOf);
      }),
  };
};

export const openOutside = (folder: string): Outside => ({ out: openOut(folder), hash: sha256 });
