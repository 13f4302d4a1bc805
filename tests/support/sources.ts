/** The program's own source files, for tests of what holds in all of them. */
import { readdirSync, readFileSync } from 'node:fs';

/** Texts by path, `src/plan/unit.ts`. */
export const sources = (): ReadonlyMap<string, string> =>
  new Map(
    readdirSync('src', { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => `src/${name.replaceAll('\\', '/')}`)
      .sort()
      .map((file) => [file, readFileSync(file, 'utf8')]),
  );
