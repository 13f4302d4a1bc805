/**
 * Folders beside nightrail.yaml that nothing reads and that hold what one of ours should: a store in `stores/`, a partial in `partials/`; and files that do.
 */
import { error, warning, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { nearest } from '../base/spelling.js';
import type { Files } from '../read/shelf.js';

/** What stands in a folder, by name alone. */
export interface Entry {
  readonly name: string;
  readonly folder: boolean;
}

/** The chain's folders. */
export const FOLDERS = ['equipment', 'sites', 'templates', 'words'] as const;
const PARTIALS = 'templates/partials';
type Meant = (typeof FOLDERS)[number] | typeof PARTIALS;

/** Other names of the same thing (common practice, no source). */
const CALLED: Readonly<Record<Meant, readonly string[]>> = {
  equipment: ['profiles', 'profile', 'units', 'machines'],
  sites: ['stores', 'store', 'shops', 'locations', 'restaurants', 'kitchens'],
  templates: ['papers', 'pages'],
  words: ['languages', 'sentences', 'translations', 'locales'],
  [PARTIALS]: ['partials', 'partial'],
};

/** What each of ours holds; of templates a folder of partials, or of a paper that nightrail has. */
const holds = (meant: Meant, { name, folder }: Entry, papers: readonly string[]): boolean => {
  if (meant === 'words') return folder && /^[a-z]{2}$/.test(name);
  if (folder) return meant === 'templates' && (name === 'partials' || papers.includes(name));
  return (meant === 'equipment' || meant === 'sites' ? /\.(ya?ml|csv)$/ : /\.hbs$/).test(name);
};

/** The folder that a person meant: by its name, or by what lies in it. */
const meantBy = (name: string, entries: readonly Entry[]): Meant | undefined => {
  const other = (Object.keys(CALLED) as Meant[]).find((meant) => CALLED[meant].includes(name.toLowerCase()));
  const near = other ?? (nearest(name, FOLDERS, 1) as Meant | undefined);
  return near ?? (entries.some((entry) => entry.name.endsWith('.md.hbs')) ? PARTIALS : undefined);
};

/** Files in our folders that hold what one of ours should, under an ending that nobody reads. */
const unreadFiles = (files: Files): readonly Finding[] =>
  [...files.keys()]
    .filter((doc) => /^(equipment|sites|words)\//.test(doc) && !/\.(ya?ml|hbs|csv)$/.test(doc))
    .map((doc) => {
      const [, name = doc, ending = ''] = /([^/]*)\.([^./]*)$/.exec(doc) ?? [];
      const meant = ending.toLowerCase();
      const known = ['yaml', 'yml', 'csv', 'hbs'].includes(meant);
      return error('file-unread', place(doc), known ? { suggestion: `${name}.${meant}` } : {});
    });

/** How many names are shown. */
const SHOWN = 3;

/** @param files that are read, those that ship among them, and names of those that are not @param folders that aren't ours */
export const unreadFolders = (files: Files, folders: ReadonlyMap<string, readonly Entry[]>): readonly Finding[] => {
  const papers = [...files.keys()].flatMap((doc) => /(?:^|:)templates\/([^/]+)\/paper\.yaml$/.exec(doc)?.[1] ?? []);
  const inOthers = [...folders].flatMap(([name, entries]) => {
    const meant = meantBy(name, entries);
    const held = meant ? entries.filter((entry) => holds(meant, entry, papers)).map((entry) => entry.name) : [];
    if (!meant || held.length === 0) return [];
    return [warning('folder-unread', place(name), { wrote: name, holds: held.sort().slice(0, SHOWN), nearest: meant })];
  });
  return [...unreadFiles(files), ...inOthers];
};
