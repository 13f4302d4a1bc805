/**
 * Nothing outside of the chain's folder and --out is read or written, workers included: Node itself refuses everything else. And a hostile store wastes its own time only.
 */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FolderFault } from '../../src/fleet/outside.js';
import { openOut } from '../../src/host/out-folder.js';
import { runPool } from '../../src/host/workers.js';
import { CHAIN, STORE, TABLE } from '../support/chain.js';

const CLI = resolve('dist/cli.js');
let work: string;
let chain: string;

/** Node may read nightrail, its packages and the chain, and write (and read) the folder of papers: nothing else. */
const caged = (out: string, ...args: string[]) => {
  const read = [resolve('.'), realpathSync('node_modules'), chain, out].map((path) => `--allow-fs-read=${path}/*`);
  const may = ['--experimental-permission', '--allow-worker', ...read, `--allow-fs-write=${out}/*`];
  return spawnSync(process.execPath, [...may, CLI, ...args, '--chain', chain, '--out', out], { cwd: chain, encoding: 'utf8' });
};

beforeAll(() => {
  work = realpathSync(mkdtempSync(join(tmpdir(), 'nightrail-safety-')));
  chain = join(work, 'chain');
  for (const folder of ['chain/equipment', 'chain/sites', 'chain/stores', 'elsewhere'])
    mkdirSync(join(work, folder), { recursive: true });
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  writeFileSync(join(chain, 'stores/larch.yaml'), STORE);
  for (let i = 1; i <= 4; i++) writeFileSync(join(chain, `sites/store-${i}.yaml`), STORE.replace('Test Street', `Store ${i}`));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

describe('in a cage of Node', () => {
  it.each(['0', '2'])('a build needs nothing but the chain and --out (workers: %s)', (workers) => {
    const out = join(work, `out-${workers}`);
    mkdirSync(out);
    const done = caged(out, 'build', '--week', '2026-W49', '--workers', workers);
    expect(done.status, done.stdout + done.stderr).toBe(0);
    expect(done.stdout).toContain('folder-unread');
    expect(readdirSync(join(out, 'store-1')).length).toBeGreaterThan(0);
  });
  it('so do report and press', () => {
    const out = join(work, 'out-0');
    for (const command of ['report', 'press']) expect(caged(out, command).status, command).toBe(0);
    expect(existsSync(join(out, 'press/packing-list.csv'))).toBe(true);
  });
  it('holds: a build to another folder is refused', () => {
    const out = join(work, 'out-3');
    mkdirSync(out);
    const read = [resolve('.'), realpathSync('node_modules'), chain, out].map((path) => `--allow-fs-read=${path}/*`);
    const args = [
      '--experimental-permission',
      '--allow-worker',
      ...read,
      `--allow-fs-write=${out}/*`,
      CLI,
      'build',
      '--chain',
      chain,
      '--out',
      join(work, 'elsewhere'),
      '--workers',
      '0',
    ];
    const done = spawnSync(process.execPath, args, { cwd: chain, encoding: 'utf8' });
    expect([done.status, done.stdout + done.stderr]).toEqual([1, expect.stringMatching(/permission|access/i)]);
    expect(readdirSync(join(work, 'elsewhere'))).toEqual([]);
  });
});

describe('the folder of papers', () => {
  it.each(['../out', '/etc/passwd', 'a/../../b', '..'])('takes no path out of itself: %s', (path) => {
    const out = openOut(join(work, 'folder'));
    expect(() => out.put(path, 'x')).toThrow(FolderFault);
    expect(() => out.read(path)).toThrow(FolderFault);
    expect(() => out.drop(path)).toThrow(FolderFault);
  });
  it('says what to do about a file where a folder is needed, and a folder where a file is', () => {
    const [file, folder] = [join(work, 'taken'), join(work, 'room')];
    writeFileSync(file, '');
    mkdirSync(join(folder, 'store', 'week.pdf'), { recursive: true });
    expect(() => openOut(file).put('store/week.pdf', 'x')).toThrow(/take it away/);
    expect(() => openOut(folder).put('store/week.pdf', 'x')).toThrow(/take it away/);
  });
  it('writes and removes nothing through a link', () => {
    const folder = join(work, 'linked');
    mkdirSync(folder);
    writeFileSync(join(work, 'elsewhere/file'), 'mine');
    symlinkSync(join(work, 'elsewhere'), join(folder, 'store'));
    symlinkSync(join(work, 'elsewhere/file'), join(folder, 'file'));
    const out = openOut(folder);
    expect(() => out.put('store/file', 'x')).toThrow(FolderFault);
    expect(() => out.drop('store/file')).toThrow(FolderFault);
    expect(out.read('file')).toBeUndefined();
    out.put('file', 'x');
    out.drop('file');
    expect(readFileSync(join(work, 'elsewhere/file'), 'utf8')).toBe('mine');
  });
});

/** A worker that answers, or does what its job says. */
const WORKER = `
import { parentPort } from 'node:worker_threads';
parentPort.on('message', (job) => {
  if (job === 'loop') for (;;);
  if (job === 'exit') process.exit(3);
  if (job === 'throw') throw new Error('thrown');
  if (job === 'memory') { const all = []; for (;;) all.push(new Array(1e6).fill(all.length)); }
  parentPort.postMessage({ result: job.toUpperCase() });
});
parentPort.postMessage({ ready: true });
`;

describe('a worker', () => {
  it.each([
    ['loop', 'time'],
    ['exit', 'died'],
    ['throw', 'died'],
    ['memory', 'memory'],
  ])(
    'that meets %s loses what it was at and is replaced',
    async (bad, why) => {
      const told: string[] = [];
      await runPool<string, string>({
        entry: new URL(`data:text/javascript,${encodeURIComponent(WORKER)}`),
        size: 2,
        data: {},
        jobs: ['a', bad, 'b', 'c', 'd'],
        budget: bad === 'loop' ? 1000 : 30_000,
        memory: { old: 64, young: 24 },
        done: (job, result) => void told.push(`${job} ${result}`),
        failed: (job, reason) => void told.push(`${job} failed: ${reason}`),
        stopped: () => false,
      });
      expect(told.sort()).toEqual(['a A', 'b B', 'c C', 'd D', `${bad} failed: ${why}`].sort());
    },
    60_000,
  );
  it('is given one thing at a time', async () => {
    let given = 0;
    let done = 0;
    let most = 0;
    const jobs = (function* () {
      for (let i = 0; i < 50; i++) {
        most = Math.max(most, ++given - done);
        yield 'x';
      }
    })();
    await runPool<string, string>({
      entry: new URL(`data:text/javascript,${encodeURIComponent(WORKER)}`),
      size: 2,
      data: {},
      jobs,
      budget: 30_000,
      memory: { old: 64, young: 24 },
      done: () => void done++,
      failed: () => undefined,
      stopped: () => false,
    });
    expect([done, most <= 3]).toEqual([50, true]);
  });
});
