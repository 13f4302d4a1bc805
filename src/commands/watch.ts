/**
 * `nightrail build --watch`: builds, then builds again what each save touches, with one line for each, until Ctrl-C. A mistake is told and waited out.
 */
import { findChain } from '../host/disk.js';
import { listenForStop } from '../host/stop.js';
import { makeTerminal } from '../host/terminal.js';
import { watchFolder } from '../host/watch.js';
import { build, type BuildOptions } from './build.js';
import { EXIT } from './shared/exit.js';

/** `sites/a.yaml and 2 more`. */
const named = ([first = '', ...more]: readonly string[]): string =>
  more.length === 0 ? first : `${first} and ${more.length} more`;

export const watchAndBuild = async (chosen: readonly string[], options: BuildOptions): Promise<number> => {
  const terminal = makeTerminal();
  const watching = watchFolder(findChain(options.chain ?? '.'), options.out);
  // Also while a build is under way, which then ends by itself.
  const stop = listenForStop(watching.stop);
  const told = new Set<string>();
  try {
    for (let saved: readonly string[] | undefined = []; saved; saved = await watching.next()) {
      const first = told.size === 0 && saved.length === 0;
      const code = await build(chosen, { ...options, watched: { told, saved: first ? '' : named(saved) } });
      if (code === EXIT.usage) return code;
      if (first && !stop.asked()) terminal.line('Watching for saves. Ctrl-C stops.');
    }
    return EXIT.fine;
  } finally {
    watching.stop();
    stop.off();
  }
};
