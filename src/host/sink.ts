/**
 * A large file, written from front to end under another name and given its own when it is whole.
 */
import { closeSync, lstatSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { systemSays } from './system-says.js';
import { FolderFault, partOf } from '../fleet/outside.js';
import type { Sink } from '../fleet/press.js';
import { keepNames, toDisk } from './out-folder.js';
import { makeFolder } from './make-folder.js';

/** Bytes are gathered to about so many before they are written. */
const BLOCK = 1 << 18;

export const openSink = (folder: string, name: string): Sink => {
  const attempt = <T>(act: () => T): T => {
    try {
      return act();
    } catch (fault) {
      throw new FolderFault(`${join(folder, name)}: ${systemSays(fault)}`);
    }
  };
  attempt(() => {
    if (basename(name) !== name) throw new Error('this is no name of a file in it');
  });
  const part = join(folder, partOf(name));
  const file = attempt(() => {
    if (lstatSync(folder, { throwIfNoEntry: false })?.isSymbolicLink()) throw new Error('this folder is a link');
    makeFolder(folder);
    rmSync(part, { force: true });
    return openSync(part, 'wx');
  });
  let waiting: Uint8Array[] = [];
  let size = 0;
  const flush = (): void => {
    const block = Buffer.concat(waiting);
    for (let at = 0; at < block.length;) at += writeSync(file, block, at);
    waiting = [];
    size = 0;
  };
  return {
    write: (bytes) => {
      waiting.push(bytes);
      size += bytes.length;
      if (size >= BLOCK) attempt(flush);
    },
    finish: () =>
      attempt(() => {
        flush();
        toDisk(file);
        closeSync(file);
        renameSync(part, join(folder, name));
        keepNames(folder);
      }),
    abandon: () =>
      attempt(() => {
        closeSync(file);
        rmSync(part, { force: true });
      }),
  };
};
