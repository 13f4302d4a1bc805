/**
 * `build --watch` as people run it: a line for each save, going on after a mistake, and a clean end with Ctrl-C.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CHAIN, STORE, TABLE } from '../support/chain.js';

/** Where clocks never change: what is told is the same on each day on which this runs. */
const STREET = STORE.replace('America/Chicago', 'America/Phoenix');

let chain: string;
let child: ChildProcess;
let said = '';

beforeAll(() => {
  chain = mkdtempSync(join(tmpdir(), 'nightrail-watch-'));
  for (const folder of ['sites', 'equipment']) mkdirSync(join(chain, folder));
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  writeFileSync(join(chain, 'sites/street.yaml'), STREET);
  const args = [resolve('dist/cli.js'), 'build', '--watch', '--only', 'week', '--format', 'html', '--week', '2026-W49'];
  child = spawn(process.execPath, args, { cwd: chain, stdio: ['ignore', 'pipe', 'pipe'] });
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (data: Buffer) => (said += data.toString()));
});
afterAll(() => {
  child.kill('SIGKILL');
  rmSync(chain, { recursive: true, force: true });
});

/** What is said until a line of the kind given, which is then taken as heard. */
const until = async (line: RegExp): Promise<string> => {
  for (let i = 0; i < 600 && !line.test(said); i++) await new Promise((r) => setTimeout(r, 50));
  expect(said).toMatch(line);
  const heard = said;
  said = '';
  return heard;
};

const page = (): string => readFileSync(join(chain, 'out/street/week.en.html'), 'utf8');

it('builds, says what each save changed, waits out a mistake and ends when it is asked', async () => {
  await until(/1 file written.*\n.*Watching for saves/);

  // A store, saved as many editors do: beside its place, then renamed.
  writeFileSync(join(chain, 'sites/.street.yaml.tmp'), STREET.replace('Test Street', 'Other Street'));
  renameSync(join(chain, 'sites/.street.yaml.tmp'), join(chain, 'sites/street.yaml'));
  const store = await until(/0 errors.*\n/);
  expect(store).toMatch(/^sites\/street\.yaml: 1 file written, 0 as they were, in out: 0 errors, .*\n$/);
  expect(page()).toContain('Other Street');

  // Two saves at once are one build.
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN.replace('Test Kitchens', 'Other Kitchens'));
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE.replace('Test table', 'Other table'));
  expect(await until(/0 errors.*\n/)).toMatch(/^equipment\/table\.yaml and 1 more: 1 file written/);
  expect(page()).toContain('Other Kitchens');

  writeFileSync(join(chain, 'sites/street.yaml'), STREET.replace('hours: Mo-Su', 'hours: Mo-Zu'));
  const mistake = await until(/1 error, .*\n/);
  expect(mistake).toContain('sites/street.yaml:3:');
  expect(page()).toContain('Other Kitchens');
  writeFileSync(join(chain, 'sites/street.yaml'), STREET);
  expect(await until(/0 errors.*\n/)).toMatch(/^sites\/street\.yaml: /);

  // A folder that did not exist before, of words and of a template.
  mkdirSync(join(chain, 'words/en'), { recursive: true });
  writeFileSync(join(chain, 'words/en/week.yaml'), 'checked-by: Looked at\n');
  expect(await until(/0 errors.*\n/)).toMatch(/^words\/en\/week\.yaml: 1 file written/m);
  expect(page()).toContain('Looked at');
  mkdirSync(join(chain, 'templates/week'), { recursive: true });
  writeFileSync(join(chain, 'templates/week/page.md.hbs'), '# Hello\n\n{{store.nmae}}\n');
  expect(await until(/1 error, .*\n/)).toContain('template-unknown-value');
  rmSync(join(chain, 'templates'), { recursive: true });
  await until(/0 errors.*\n/);

  // What is no part of a chain is no save.
  writeFileSync(join(chain, 'notes.txt'), 'x');
  await new Promise((r) => setTimeout(r, 500));
  expect(said).toBe('');

  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  child.kill('SIGINT');
  expect(await ended).toBe(0);
  expect(said).toBe('');
});
