/**
 * Columns on the terminal stand apart, however wide what they hold.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { plan } from '../../src/commands/plan.js';
import { columns, table } from '../../src/commands/shared/table.js';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { told } from './told.js';

const chain = mkdtempSync(join(tmpdir(), 'nightrail-table-'));
afterAll(() => rmSync(chain, { recursive: true, force: true }));

it('are as wide as their widest cell', () => {
  expect(
    columns([
      ['a', 'b', 'c'],
      ['Sat 1:05 am', '-', 'x'],
    ]),
  ).toEqual(['a            b  c', 'Sat 1:05 am  -  x']);
  expect(table(['a', 'b'], [['long', 'x']])).toEqual(['a     b', '----  -', 'long  x']);
  expect(table(['a'], [])).toEqual([]);
});

it.each([
  ['12-hour', 'Sat 1:15 am'],
  ['24-hour', 'Sat 01:15'],
])('stand apart in a plan with a %s clock and nights past midnight', async (shows, off) => {
  for (const folder of ['equipment', 'sites']) mkdirSync(join(chain, folder), { recursive: true });
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  const late = STORE.replace('Mo-Su 07:00-22:00', 'Mo-Th 10:00-22:00; Fr-Su 10:00-00:30');
  writeFileSync(join(chain, 'sites/street.yaml'), `${late}clock_shows: ${shows}\n`);
  const { out } = await told(() => Promise.resolve(plan('street', { chain })));
  const lines = out.replaceAll('\u00a0', ' ').split('\n');
  const from = lines.findIndex((line) => /^ {2}day /.test(line));
  const rows = lines.slice(from, from + 8).map((line) => line.trim().split(/ {2,}/));
  expect(rows.map((row) => row.length)).toEqual(Array.from({ length: 8 }, () => 8));
  expect(rows[0]).toEqual(['day', 'start', 'empty by', 'off', 'wipe', 'on', 'cold by', 'first pan']);
  expect(rows[5]?.[3]).toBe(off);
});
