/**
 * Food in a rail that its clock, as found, stopped: predicted by the unit's own model, and told only where it condemns.
 */
import { expect, it } from 'vitest';
import { withAllScenes } from '../../src/plan/consequences/index.js';
import { demoFiles, tryFiles } from '../support/chain.js';

const foodOf = (off: string, on: string) => {
  const files = demoFiles();
  const doc = 'sites/copper-ferry.yaml';
  const text = new TextDecoder().decode(files.get(doc)).replace("off: '01:15', on: '08:00'", `off: '${off}', on: '${on}'`);
  for (const other of [...files.keys()]) if (other.startsWith('sites/')) files.delete(other);
  files.set(doc, new TextEncoder().encode(text));
  const { workshop, stores } = tryFiles(files);
  const { plan, read } = stores.get('copper-ferry') ?? {};
  if (!workshop || !plan || !read) throw new Error('no plan');
  return withAllScenes(workshop.shelf, read, plan).units['line-1']?.scenes?.found;
};

it('gets warmer the longer it stands, never warmer than the kitchen, and is told as predicted', () => {
  const [long, short, ...more] = foodOf('21:15', '04:00') ?? [];
  expect(more).toEqual([]);
  expect([long?.stopped.value.si, short?.stopped.value.si]).toEqual([195 * 60, 45 * 60]);
  for (const food of [long, short]) {
    expect(food?.coldest.value.si).toBeLessThanOrEqual(food?.mean.value.si ?? 0);
    expect(food?.mean.value.si).toBeLessThanOrEqual(food?.warmest.value.si ?? 0);
    // The usual kitchen of the store, 78 °F.
    expect(food?.warmest.value.si).toBeLessThan(((78 - 32) * 5) / 9 + 273.15);
    // 41 °F, the limit of its food law.
    expect(food?.warmest.value.si).toBeGreaterThan(((41 - 32) * 5) / 9 + 273.15);
  }
  expect(long?.mean.value.si).toBeGreaterThan(short?.mean.value.si ?? Infinity);
  expect(long?.over.value.si).toBeGreaterThan(0);
  expect(long?.says.value.code).toBe('scenes.found-food-over');
});

it('is not told of a clock that was right', () => {
  expect(foodOf('01:15', '08:00')).toEqual([]);
});
