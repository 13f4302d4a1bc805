/**
 * A chain's own logo and fonts, as the program reads them from its folder.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { CHAIN, STORE, TABLE } from '../support/chain.js';

const LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><path fill="#123456" d="M0 0h2v1z"/></svg>';
const FONT = createRequire(import.meta.url).resolve(
  '@expo-google-fonts/atkinson-hyperlegible-next/500Medium/AtkinsonHyperlegibleNext_500Medium.ttf',
);

let chain: string;
beforeAll(() => {
  chain = mkdtempSync(join(tmpdir(), 'nightrail-'));
  for (const folder of ['sites', 'equipment', 'brand']) mkdirSync(join(chain, folder));
  writeFileSync(join(chain, 'sites/street.yaml'), STORE);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  writeFileSync(join(chain, 'brand/logo.svg'), LOGO);
  writeFileSync(join(chain, 'brand/unsafe.svg'), LOGO.replace('<path', '\n<script/><path'));
  copyFileSync(FONT, join(chain, 'brand/medium.ttf'));
  symlinkSync(join(chain, 'brand/logo.svg'), join(chain, 'brand/linked.svg'));
});
afterAll(() => rmSync(chain, { recursive: true, force: true }));

const run = (command: string, brand: string) => {
  writeFileSync(
    join(chain, 'nightrail.yaml'),
    CHAIN.replace("brand: { colour: '#1f4d3a' }", `brand: { colour: '#1f4d3a', ${brand} }`),
  );
  const only = command === 'build' ? ['--only', 'poster', '--week', '2026-W49', '--out', 'out'] : [];
  const done = spawnSync(process.execPath, [resolve('dist/cli.js'), command, ...only], { cwd: chain, encoding: 'utf8' });
  return { code: done.status, out: done.stdout + done.stderr };
};

const poster = (format: string): string => join(chain, `out/street/line-1-poster.en.${format}`);

it('stand on the pages', () => {
  const { code, out } = run(
    'build',
    'logo: brand/logo.svg, fonts: { regular: brand/medium.ttf, strong: brand/medium.ttf, heavy: brand/medium.ttf }',
  );
  expect(code, out).toBe(0);
  expect(readFileSync(poster('html'), 'utf8')).toContain('<path d="M 0 0 H 2 V 1 Z" fill="#123456"/>');
  expect(readFileSync(poster('pdf'), 'latin1')).toMatch(/\+AtkinsonHyperlegibleNext-Medium/);
  rmSync(join(chain, 'out'), { recursive: true });
});

it.each([
  ['logo: brand/unsafe.svg', /error logo-active {2}the logo holds script.*\n {2}brand\/unsafe\.svg:2:\d+/],
  ['logo: brand/linked.svg', /error file-linked .*\n {2}nightrail\.yaml:2:\d+/],
  ['logo: ../logo.svg', /error file-outside .*\n {2}nightrail\.yaml:2:\d+/],
  [
    'fonts: { regular: brand/logo.svg, strong: brand/medium.ttf, heavy: brand/medium.ttf }',
    /error font-unreadable .*\n {2}nightrail\.yaml:2:\d+/,
  ],
])('are refused with their place, and nothing is printed: %s', (brand, says) => {
  for (const command of ['check', 'build']) {
    const { code, out } = run(command, brand);
    expect(code, out).toBe(1);
    expect(out).toMatch(says);
    expect(existsSync(join(chain, 'out'))).toBe(false);
  }
});
