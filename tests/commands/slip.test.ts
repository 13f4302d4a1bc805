/**
 * A slip in a chain's own words is told by its cause alone: what only follows from it stands in the ledger, not before it.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { build } from '../../src/commands/build.js';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { told } from './told.js';

/** Where clocks never change: what is told is the same on each day on which this runs. */
const STREET = STORE.replace('America/Chicago', 'America/Phoenix');

const chain = mkdtempSync(join(tmpdir(), 'nightrail-slip-'));
afterAll(() => rmSync(chain, { recursive: true, force: true }));
const write = (path: string, text: string): void => {
  mkdirSync(join(chain, path, '..'), { recursive: true });
  writeFileSync(join(chain, path), text);
};
write('nightrail.yaml', CHAIN.replace('[en]', '[en, es]').replace(/^papers: .*$/m, 'papers: [handout]'));
write('equipment/table.yaml', TABLE);
write('sites/street.yaml', STREET);
write('templates/partials/handout-own.md.hbs', '{{t "ours.close"}}\n');
write('words/en/ours.yaml', 'close: Nobody closes alone.\n');

it.each([
  ['es', 'close: Ojo: nadie cierra a solas.\n', 'yaml-syntax'],
  ['es', 'close: A las 9 pm nadie cierra a solas.\n', 'words-figure'],
  ['en', 'close: At 9 pm nobody closes alone.\n', 'words-figure'],
])('in %s: %s', async (lang, text, code) => {
  write('words/en/ours.yaml', 'close: Nobody closes alone.\n');
  write('words/es/ours.yaml', 'close: Nadie cierra a solas.\n');
  write(`words/${lang}/ours.yaml`, text);
  const order = {
    chain,
    json: true,
    out: join(chain, `out-${lang}-${code}`),
    weeks: 1,
    format: ['pdf'],
    patience: 60,
    workers: 0,
  };
  const { findings, code: exit } = await told(() => build([], order));
  const heavy = findings
    .filter((f) => f.severity !== 'note' && f.code !== 'text-untranslated')
    .map((f) => `${f.severity} ${f.code} ${f.file}`);
  expect([exit, heavy]).toEqual([1, [`error ${code} words/${lang}/ours.yaml`]]);
});
