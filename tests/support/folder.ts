/**
 * What lies in a folder: its files by their path below it, and what each holds, for comparing two builds.
 */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const filesIn = (folder: string): readonly string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((e) => e.isFile())
        .map((e) => join(e.parentPath, e.name).slice(folder.length + 1))
        .sort()
    : [];

export const hashesIn = (folder: string): readonly string[] =>
  filesIn(folder).map(
    (f) =>
      `${f} ${createHash('sha256')
        .update(readFileSync(join(folder, f)))
        .digest('hex')}`,
  );
