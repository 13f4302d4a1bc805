/**
 * The disk: the chain's folder in, finished files out. Links are not followed, and nothing outside the chain's folder, nightrail's own and the output is touched.
 */
import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fstatSync,
  lstatSync,
  opendirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  writeFileSync,
  type Stats,
} from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { FolderFault } from '../fleet/outside.js';
import { fileURLToPath } from 'node:url';
import type { ReadFile } from '../fleet/brand.js';
import { FOLDERS, type Entry } from '../fleet/unread-folders.js';
import type { Files } from '../read/shelf.js';
import { makeFolder } from './make-folder.js';

/** nightrail's own folder: the one above dist/. */
export const PACKAGE = fileURLToPath(new URL('../..', import.meta.url));

/** What those of a chain's folders may hold for us; everything else is left alone. */
const WANTED = /\.(ya?ml|hbs|csv)$/;

/** What somebody may take for one of these: a name in capitals, a spreadsheet as its program keeps it. */
const MEANT = /\.(ya?ml|hbs|csv|tsv|xlsx?|ods)$/i;

/** The nearest folder upward that holds nightrail.yaml; without one, the folder itself. */
export const findChain = (from: string): string => {
  if (!existsSync(resolve(from))) throw new FolderFault(`there is no folder ${from}`);
  for (let folder = resolve(from); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'nightrail.yaml')) || existsSync(join(folder, 'nightrail.yml'))) return folder;
    if (dirname(folder) === folder) return resolve(from);
  }
};

/** More than any of our files may hold (read/yaml, read/csv): what is larger is read so far, and refused by them. */
const MOST_BYTES = 20_000_001;

/** A file from its start, as far as anybody would read it. */
const readStart = (path: string): Uint8Array => {
  const file = openSync(path, 'r');
  try {
    const bytes = new Uint8Array(Math.min(fstatSync(file).size, MOST_BYTES));
    let read = 0;
    for (let more = 1; more > 0 && read < bytes.length; read += more)
      more = readSync(file, bytes, read, bytes.length - read, null);
    return bytes.subarray(0, read);
  } finally {
    closeSync(file);
  }
};

/** What stands in a name for bytes that are no text: no path leads to such a file, and it is known by that name alone, which is no id. */
const NO_TEXT = '\ufffd';

const walk = (root: string, folder: string, prefix: string, into: Map<string, Uint8Array>): void => {
  const path = join(root, folder);
  if (!existsSync(path) || !lstatSync(path).isDirectory()) return;
  for (const entry of readdirSync(path, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const below = `${folder}/${entry.name}`;
    if (entry.isDirectory()) walk(root, below, prefix, into);
    else if (entry.isFile() && WANTED.test(entry.name))
      into.set(prefix + below, entry.name.includes(NO_TEXT) ? new Uint8Array() : readStart(join(root, below)));
    // What nobody reads there is known by its name alone, so that it can be told.
    else if (entry.isFile() && (below.startsWith('templates/') || MEANT.test(entry.name)) && prefix === '')
      into.set(below, new Uint8Array());
  }
};

/** Reads a chain's files, and under them those that ship with nightrail. */
export const readFiles = (chain: string, shippedPrefix: string): Files => {
  const files = new Map<string, Uint8Array>();
  if (resolve(chain) !== resolve(PACKAGE))
    for (const folder of ['equipment/tables', 'templates', 'words']) walk(PACKAGE, folder, shippedPrefix, files);
  for (const folder of FOLDERS) walk(chain, folder, '', files);
  for (const name of ['nightrail.yaml', 'nightrail.yml']) {
    const path = join(chain, name);
    if (existsSync(path) && lstatSync(path).isFile()) files.set(name, readStart(path));
  }
  return files;
};

/** Of the chain's own folders and files, what is no folder and no file: a link, which is not followed, or a pipe. By path, in order. */
export const linksIn = (chain: string): readonly string[] => {
  const look = (below: string): readonly string[] => {
    const found = lookAt(join(chain, below));
    if (!found || found.isFile()) return [];
    if (!found.isDirectory()) return [below];
    return readdirSync(join(chain, below), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() || (!entry.isFile() && (entry.isSymbolicLink() || MEANT.test(entry.name))))
      .map(({ name }) => name)
      .sort()
      .flatMap((name) => look(`${below}/${name}`));
  };
  return [...FOLDERS, 'nightrail.yaml', 'nightrail.yml'].flatMap(look);
};

/** So much is looked at of folders that aren't ours. */
const MOST = { folders: 100, names: 100 };

/** Some of the names in a folder; none where it can't be opened. */
const namesIn = (path: string): readonly Entry[] => {
  const found: Entry[] = [];
  try {
    const folder = opendirSync(path);
    for (let entry = folder.readSync(); entry && found.length < MOST.names; entry = folder.readSync())
      found.push({ name: entry.name, folder: entry.isDirectory() });
    folder.closeSync();
  } catch {
    return [];
  }
  return found;
};

/** Other folders of the chain, by name, and names of what they hold: nothing in them is opened, and none that is hidden, a package's, another chain or the papers'. */
export const otherFolders = (chain: string, out?: string): ReadonlyMap<string, readonly Entry[]> =>
  new Map(
    (existsSync(chain) ? readdirSync(chain, { withFileTypes: true }) : [])
      .filter((entry) => entry.isDirectory() && !/^(\.|node_modules$)/.test(entry.name))
      .map(({ name }) => name)
      .filter(
        (name) => !(FOLDERS as readonly string[]).includes(name) && (out === undefined || resolve(out) !== resolve(chain, name)),
      )
      .sort()
      .slice(0, MOST.folders)
      .map((name) => [name, namesIn(join(chain, name))] as const)
      .filter(([, entries]) => !entries.some(({ name }) => /^nightrail\.ya?ml$/.test(name))),
  );

/** Names of the files in a folder; none where it is not there. */
export const namesOf = (folder: string): readonly string[] =>
  existsSync(folder)
    ? readdirSync(folder, { withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map(({ name }) => name)
        .sort()
    : [];

export const removeFile = (path: string): void => rmSync(path, { force: true });

/** Profiles that ship with nightrail, to begin a new one from: they are no part of any chain. */
export const readStarters = (): Files => {
  const files = new Map<string, Uint8Array>();
  const folder = join(PACKAGE, 'equipment');
  const names = existsSync(folder) ? readdirSync(folder).sort() : [];
  for (const name of names) if (/\.ya?ml$/.test(name)) files.set(`equipment/${name}`, readFileSync(join(folder, name)));
  return files;
};

/** A file that a person names on the command line; undefined where there is none. */
export const readGiven = (path: string): Uint8Array | undefined =>
  lstatSync(path, { throwIfNoEntry: false })?.isFile() ? readFileSync(path) : undefined;

/** What lies at a path; undefined for nothing, and for a path that can be none: too long a name, or one below a file. */
const lookAt = (path: string): Stats | undefined => {
  try {
    return lstatSync(path, { throwIfNoEntry: false });
  } catch (fault) {
    if (['ENAMETOOLONG', 'ENOTDIR', 'ELOOP', 'EACCES'].includes((fault as NodeJS.ErrnoException).code ?? '')) return undefined;
    throw fault;
  }
};

/** A file in the chain's folder, of at most so many bytes. No link is followed, also not one on the way to it. */
export const readInside = (chain: string, path: string, most: number): ReadFile => {
  const full = resolve(chain, path);
  if (!full.startsWith(resolve(chain) + sep)) return { fault: 'file-outside' };
  let here = resolve(chain);
  for (const part of relative(here, full).split(sep)) {
    here = join(here, part);
    const found = lookAt(here);
    if (!found) return { fault: 'file-missing' };
    if (found.isSymbolicLink()) return { fault: 'file-linked' };
  }
  const found = lookAt(full);
  if (!found?.isFile()) return { fault: 'file-missing' };
  if (found.size > most) return { large: found.size };
  try {
    return { bytes: readFileSync(full) };
  } catch {
    return { fault: 'file-no-access' };
  }
};

/** Writes a file whole: beside its place under another name, then renamed. A crash leaves the old file or the new one, never half of one. */
export const writeWhole = (path: string, bytes: Uint8Array | string): void => {
  makeFolder(dirname(path));
  const part = join(dirname(path), `.${randomBytes(6).toString('hex')}.part`);
  try {
    writeFileSync(part, bytes);
    renameSync(part, path);
  } finally {
    rmSync(part, { force: true });
  }
};

/** The typeface of the pages (SIL Open Font License 1.1). */
export const readFaces = (): { regular: Uint8Array; strong: Uint8Array; heavy: Uint8Array } => {
  const require = createRequire(import.meta.url);
  const folder = dirname(require.resolve('@expo-google-fonts/atkinson-hyperlegible-next/package.json'));
  const face = (name: string): Uint8Array => readFileSync(join(folder, name, `AtkinsonHyperlegibleNext_${name}.ttf`));
  return { regular: face('400Regular'), strong: face('700Bold'), heavy: face('800ExtraBold') };
};

export const readVersion = (): string =>
  (JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8')) as { version: string }).version;
