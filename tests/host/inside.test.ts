/**
 * Files that a chain names: only those that lie in its folder as themselves are read, and none that is too large.
 */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readInside } from '../../src/host/disk.js';

let work: string;
let chain: string;

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-'));
  chain = join(work, 'chain');
  mkdirSync(join(chain, 'brand'), { recursive: true });
  writeFileSync(join(chain, 'brand', 'logo.svg'), 'abc');
  writeFileSync(join(work, 'secret'), 'x');
  symlinkSync(join(work, 'secret'), join(chain, 'linked'));
  symlinkSync(work, join(chain, 'folder'));
  writeFileSync(join(chain, 'large'), '');
  truncateSync(join(chain, 'large'), 50_000_000);
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

it.each([
  ['brand/logo.svg', { bytes: Buffer.from('abc') }],
  ['./brand/../brand/logo.svg', { bytes: Buffer.from('abc') }],
  ['../secret', { fault: 'file-outside' }],
  ['/etc/hostname', { fault: 'file-outside' }],
  ['.', { fault: 'file-outside' }],
  ['../chain-of-another/logo.svg', { fault: 'file-outside' }],
  ['linked', { fault: 'file-linked' }],
  ['folder/secret', { fault: 'file-linked' }],
  ['nothing.png', { fault: 'file-missing' }],
  ['brand', { fault: 'file-missing' }],
  ['large', { large: 50_000_000 }],
])('%s', (path, expected) => {
  expect(readInside(chain, path, 1000)).toEqual(expected);
});
