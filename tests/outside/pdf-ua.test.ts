/**
 * Every PDF of the demo, of all stores and languages, by outside readers: veraPDF finds no fault against PDF/UA-1 (ISO 14289-1), and qpdf none in the
 * syntax of one store's.
 */
import { execFile, execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';

const run = promisify(execFile);
let out: string;
const files: string[] = [];

beforeAll(() => {
  out = mkdtempSync(join(tmpdir(), 'nightrail-ua-'));
  execFileSync(process.execPath, [resolve('dist/cli.js'), 'build', '--format', 'pdf', '--week', '2026-W49', '--out', out], {
    stdio: 'pipe',
  });
  for (const entry of readdirSync(out, { recursive: true, withFileTypes: true }))
    if (entry.name.endsWith('.pdf')) files.push(join(entry.parentPath, entry.name));
}, 240_000);
afterAll(() => rmSync(out, { recursive: true, force: true }));

it('is there, for every store', () => {
  expect(new Set(files.map((f) => f.slice(out.length + 1).split('/')[0])).size).toBe(
    readdirSync('sites').filter((f) => f.endsWith('.yaml')).length,
  );
  expect(files.length).toBeGreaterThan(200);
});

it('passes veraPDF for PDF/UA-1', async () => {
  // The script exits 0 only when every file passes; a validator that could not be had is a failure too.
  const { stdout } = await run('scripts/verapdf', files, { maxBuffer: 64 << 20 });
  expect(stdout.split('\n').filter((line) => line.startsWith('PASS '))).toHaveLength(files.length);
}, 300_000);

it('is clean to qpdf', async () => {
  const some = files.filter((file) => file.includes('/copper-ferry/'));
  expect(some.length).toBeGreaterThan(5);
  for (const file of some) {
    const { stdout } = await run('qpdf', ['--check', file]);
    expect(stdout, file).toContain('No syntax or stream encoding errors found');
  }
}, 60_000);
