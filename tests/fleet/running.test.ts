/**
 * The program itself, killed, stopped, run twice at once, with any number of workers, and with a store that takes too long.
 */
import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addressOf, askLock, takeLock } from '../../src/host/lock.js';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { filesIn, hashesIn } from '../support/folder.js';

const CLI = resolve('dist/cli.js');
const WEEK = ['--week', '2026-W49', '--only', 'week,card'];
let work: string;
let chain: string;
let goal: readonly string[];

const build = (out: string, ...more: string[]) => {
  const done = spawnSync(process.execPath, [CLI, 'build', '--out', join(work, out), ...WEEK, ...more], {
    cwd: chain,
    encoding: 'utf8',
  });
  return { code: done.status, out: done.stdout, problem: done.stderr };
};

const started = (out: string, ...more: string[]): ChildProcess =>
  spawn(process.execPath, [CLI, 'build', '--out', join(work, out), ...WEEK, ...more], {
    cwd: chain,
    stdio: ['ignore', 'pipe', 'pipe'],
  });

const ended = (child: ChildProcess): Promise<{ code: number | null; said: string }> =>
  new Promise((resolve) => {
    let said = '';
    child.stdout?.on('data', (d: Buffer) => (said += d.toString()));
    child.stderr?.on('data', (d: Buffer) => (said += d.toString()));
    child.on('close', (code) => resolve({ code, said }));
  });

/** Waits until some file is there. */
const until = async (there: () => boolean): Promise<void> => {
  for (let i = 0; i < 2000 && !there(); i++) await new Promise((r) => setTimeout(r, 5));
  expect(there()).toBe(true);
};

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-run-'));
  chain = join(work, 'chain');
  for (const folder of ['equipment', 'sites']) mkdirSync(join(chain, folder), { recursive: true });
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  for (let i = 1; i <= 14; i++) writeFileSync(join(chain, `sites/store-${i}.yaml`), STORE.replace('Test Street', `Store ${i}`));
  expect(build('goal', '--workers', '0').code).toBe(0);
  goal = hashesIn(join(work, 'goal'));
  expect(goal).toHaveLength(14 * 4 + 2);
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

describe('any number of workers', () => {
  it.each(['1', '2', '4'])('%s give the bytes that none gives', (workers) => {
    expect(build(`workers-${workers}`, '--workers', workers).code).toBe(0);
    expect(hashesIn(join(work, `workers-${workers}`))).toEqual(goal);
  });
});

describe('killed', () => {
  it.each(['0', '2'])('again and again with kill -9, it leaves whole documents and finishes (workers: %s)', async (workers) => {
    const out = `killed-${workers}`;
    const whole = new Set(goal);
    for (let i = 1; i <= 5; i++) {
      const child = started(out, '--workers', workers);
      const end = ended(child);
      const before = filesIn(join(work, out)).filter((f) => f.includes('/') && !f.includes('/.')).length;
      await until(() => filesIn(join(work, out)).length > before + 3 || child.exitCode !== null);
      child.kill('SIGKILL');
      await end;
      for (const line of hashesIn(join(work, out)).filter((l) => l.includes('/') && !l.includes('/.')))
        expect(whole.has(line), line).toBe(true);
    }
    expect(build(out, '--workers', workers).code).toBe(0);
    expect(hashesIn(join(work, out))).toEqual(goal);
  });
});

describe('Ctrl-C', () => {
  it.each(['0', '2'])('stops cleanly; what is done is kept (workers: %s)', async (workers) => {
    const out = `stopped-${workers}`;
    const child = started(out, '--workers', workers);
    const end = ended(child);
    await until(() => filesIn(join(work, out)).length > 3);
    child.kill('SIGINT');
    const { code, said } = await end;
    expect([code, said]).toEqual([130, expect.stringContaining('run it again to go on')]);
    expect(filesIn(join(work, out)).filter((f) => f.includes('.part'))).toEqual([]);
    const kept = filesIn(join(work, out)).filter((f) => /\.(pdf|html)$/.test(f)).length;
    const rest = JSON.parse(build(out, '--json').out) as { written: number };
    expect(rest.written).toBeLessThanOrEqual(14 * 4 - kept);
    expect(hashesIn(join(work, out))).toEqual(goal);
  });
});

describe('two at once', () => {
  it('in one folder: the second says who is at it', async () => {
    const child = started('twice', '--workers', '0');
    const end = ended(child);
    await until(() => filesIn(join(work, 'twice')).length > 1);
    const second = build('twice');
    expect(second.code).toBe(1);
    expect(second.out).toMatch(new RegExp(`error folder-in-use .*process ${child.pid}, (just begun|\\d+ of 14 stores done)`));
    expect((await end).code).toBe(0);
    expect(hashesIn(join(work, 'twice'))).toEqual(goal);
  });
  it('takes a lock that a dead one left as a file', async () => {
    const address = addressOf(work, 'x', 'darwin');
    const script = `import { createServer } from 'node:net'; createServer().listen(${JSON.stringify(address)}, () => process.kill(process.pid, 'SIGKILL'));`;
    spawnSync(process.execPath, ['--input-type=module', '-e', script]);
    expect(existsSync(address)).toBe(true);
    const lock = await takeLock(work, 'x', address);
    expect(lock).toHaveProperty('release');
    expect((await askLock(address))?.says).toContain(`process ${process.pid}`);
    if ('release' in lock) lock.release();
  });
});
