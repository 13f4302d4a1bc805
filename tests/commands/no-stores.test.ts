/**
 * A chain without a store: nothing is planned or made, and that is told, with what to do and an exit code that says so.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { build } from '../../src/commands/build.js';
import { check } from '../../src/commands/check.js';
import { report } from '../../src/commands/report.js';
import { CHAIN, TABLE } from '../support/chain.js';
import { told } from './told.js';

const chain = mkdtempSync(join(tmpdir(), 'nightrail-no-stores-'));
mkdirSync(join(chain, 'equipment'));
writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
afterAll(() => rmSync(chain, { recursive: true, force: true }));

const out = join(chain, 'out');
const order = { chain, json: true, out, weeks: 1, format: ['pdf'], patience: 60, workers: 0 };

it('is told by check and by build, once, and ends with exit code 1', async () => {
  const checked = await told(() => Promise.resolve(check([], { chain, json: true })));
  const built = await told(() => build([], order));
  const named = await told(() => build(['larch'], order));
  for (const { code, findings } of [checked, built, named])
    expect([code, findings.filter((f) => f.severity === 'error').map((f) => [f.code, f.file])]).toEqual([
      1,
      [['no-stores-yet', 'sites']],
    ]);
});

it('is not said of a profile that is checked alone', async () => {
  expect((await told(() => Promise.resolve(check(['equipment/table.yaml'], { chain, json: true })))).code).toBe(0);
});

it('and such a profile is tried all the same: alone, and where no store has it yet', async () => {
  const file = join(chain, 'equipment/hot.yaml');
  writeFileSync(file, TABLE.replace('  strategy:', '  sensor: ntc-9k\n  strategy:'));
  try {
    for (const paths of [['equipment/hot.yaml'], ['equipment'], []]) {
      const { code, findings } = await told(() => Promise.resolve(check(paths, { chain, json: true })));
      expect([code, findings.map((f) => f.code)]).toEqual([1, expect.arrayContaining(['unknown-sensor'])]);
    }
    expect((await told(() => Promise.resolve(check(['equipment/table.yaml'], { chain, json: true })))).code).toBe(0);
  } finally {
    rmSync(file);
  }
});

it('is what report says, in place of nothing to do', async () => {
  await told(() => build([], order));
  const { out: said } = await told(() => Promise.resolve(report({ chain, out })));
  expect(said).toContain('No store is written yet');
  expect(said).not.toContain('Nothing to do');
});
