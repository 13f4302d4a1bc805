/**
 * Folders one by one: where one can't be made (`/proc/x`), Node's own recursive way tries for ever.
 */
import { existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';

/** @throws what the disk says of the first folder that can't be made */
export const makeFolder = (path: string): void => {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  // Another process may have made it meanwhile.
  if (!existsSync(path)) mkdirSync(path);
};
