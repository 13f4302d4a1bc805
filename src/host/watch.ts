/**
 * Watches a chain's folder for saves. Each folder has a watcher of its own, looked for again after every change: new ones are heard, and those that went
 * are let go.
 */
import { existsSync, readdirSync, watch, type FSWatcher } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';

export interface Watching {
  /** What was saved since the last time, by its path below the folder; waits for something. Undefined once it was stopped. */
  readonly next: () => Promise<readonly string[] | undefined>;
  readonly stop: () => void;
}

/** What pages are made of. An editor's own files beside them have other names. */
const OURS = /^(nightrail\.ya?ml|(equipment|sites|templates|words)\/.*\.(ya?ml|hbs|csv)|.*\.(svg|png|jpe?g|ttf|otf))$/i;

/** One save is several events, and some programs save several files at once: so many milliseconds of quiet end it. */
const QUIET = 120;

/** What a folder holds; nothing, where it has just gone. */
const entriesIn = (folder: string) => (existsSync(folder) ? readdirSync(folder, { withFileTypes: true }) : []);

/** The folder and every folder below it that may be ours: none that is hidden, none of packages, none that we write into. */
const foldersIn = (folder: string, out: string): readonly string[] => [
  folder,
  ...entriesIn(folder)
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules')
    .map((entry) => join(folder, entry.name))
    .filter((path) => path !== out)
    .flatMap((path) => foldersIn(path, out)),
];

/** @param out the folder of papers, which is not watched */
export const watchFolder = (folder: string, out: string): Watching => {
  const root = resolve(folder);
  const watchers = new Map<string, FSWatcher>();
  const saved = new Set<string>();
  let timer: NodeJS.Timeout | undefined;
  let stopped = false;
  let wake: (() => void) | undefined;

  const leave = (path: string): void => {
    watchers.get(path)?.close();
    watchers.delete(path);
  };
  const heard = (path: string): void => {
    const below = relative(root, path).split(sep).join('/');
    if (OURS.test(below)) saved.add(below);
    clearTimeout(timer);
    timer = setTimeout(() => {
      look();
      if (saved.size > 0) wake?.();
    }, QUIET);
  };
  /** A folder that came with files in it tells of none of them: what is in it counts as saved. */
  const enter = (path: string, fresh: boolean): void => {
    const watcher = watch(path, (_, name) => heard(name === null ? path : join(path, name)));
    watcher.on('error', () => leave(path));
    watchers.set(path, watcher);
    if (fresh) for (const { name } of entriesIn(path)) heard(join(path, name));
  };
  const look = (fresh = true): void => {
    if (stopped) return;
    const there = new Set(foldersIn(root, resolve(out)));
    for (const path of watchers.keys()) if (!there.has(path)) leave(path);
    for (const path of there) if (!watchers.has(path)) enter(path, fresh);
  };
  look(false);

  return {
    next: async () => {
      if (saved.size === 0 && !stopped) await new Promise<void>((go) => (wake = go));
      if (stopped) return undefined;
      const all = [...saved].sort();
      saved.clear();
      return all;
    },
    stop: () => {
      stopped = true;
      clearTimeout(timer);
      for (const path of [...watchers.keys()]) leave(path);
      wake?.();
    },
  };
};
