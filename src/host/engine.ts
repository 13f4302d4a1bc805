/**
 * What makes the documents, as one hash: nightrail's code, the packages it rests on, the typeface, and of Node all that can change a byte.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { PACKAGE } from './disk.js';
import { sha256 } from './out-folder.js';

interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

const manifestOf = (folder: string): Manifest => JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;

/** A package as a file in `from` would find it: the nearest node_modules upward that holds it. */
const find = (name: string, from: string): string | undefined => {
  for (let folder = from; ; folder = dirname(folder)) {
    const path = join(folder, 'node_modules', name);
    if (existsSync(join(path, 'package.json'))) return path;
    if (dirname(folder) === folder) return undefined;
  }
};

/** Every package that nightrail rests on, with its version. */
const packages = (): readonly string[] => {
  const found = new Map<string, string>();
  const visit = (folder: string): void => {
    for (const name of Object.keys(manifestOf(folder).dependencies ?? {})) {
      const path = find(name, folder);
      if (path === undefined || found.has(path)) continue;
      found.set(path, `${name}@${manifestOf(path).version}`);
      visit(path);
    }
  };
  visit(PACKAGE);
  return [...new Set(found.values())].sort();
};

const codeIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.js'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => `${path.slice(folder.length)} ${sha256(readFileSync(path))}`);

export const engineKey = (): string => {
  const { node, zlib, icu, tz, unicode } = process.versions;
  return sha256(JSON.stringify([codeIn(join(PACKAGE, 'dist')), packages(), node, zlib, icu, tz, unicode, process.arch]));
};
