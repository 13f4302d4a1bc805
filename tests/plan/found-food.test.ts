/**
 * Food in a rail that its clock, as found, stopped: predicted by the unit's own model, and told only where it condemns.
 */
import { expect, it } from 'vitest';
import { findingWords } from '../../src/say/findings.js';
import { speaker } from '../../src/say/speaker.js';
import type { Words } from '../../src/say/words.js';
import { demoFiles, tryFiles } from '../support/chain.js';

const foodOf = (off: string, on: string) => {
  const files = demoFiles();
  const doc = 'sites/copper-ferry.yaml';
  const text = new TextDecoder()
    .decode(files.get(doc))
    .replace("off: '01:15', on: '08:00', override", `off: '${off}', on: '${on}', override`);
  for (const other of [...files.keys()]) if (other.startsWith('sites/')) files.delete(other);
  files.set(doc, new TextEncoder().encode(text));
  const { workshop, stores } = tryFiles(files);
  const { plan, findings } = stores.get('copper-ferry') ?? {};
  if (!workshop || !plan || !findings) throw new Error('no plan');
  const words = workshop.words.get('en') as Words;
  const reader = { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon' } as const;
  const said = findings
    .filter((f) => f.code.startsWith('clock-found'))
    .map((f) => findingWords(f, words, speaker(words, reader)));
  return { food: plan.units['line-1']?.found?.clock?.food ?? [], said };
};

it('gets warmer the longer it stands, never warmer than the kitchen, and is told as predicted', () => {
  const { food, said } = foodOf('21:15', '04:00');
  const [long, short, ...more] = food;
  expect(more).toEqual([]);
  // Check, the report and the page of all stores say it with the clock, with what it rests on.
  expect(said).toHaveLength(1);
  expect(said[0]?.says.replace(/\s/g, ' ')).toMatch(
    /Predicted by this unit's model for food at 39 °F, in a kitchen of 78 °F, in a top .* for 3 h 35 min, covers shut:/,
  );
  expect(said[0]?.hint).toBe('R. Talavera has signed for it since: see once more that it is set to off 01:15, on 08:00');
  expect([long?.stopped.value.si, short?.stopped.value.si]).toEqual([215 * 60, 65 * 60]);
  for (const one of [long, short]) {
    expect(one?.coldest.value.si).toBeLessThanOrEqual(one?.mean.value.si ?? 0);
    expect(one?.mean.value.si).toBeLessThanOrEqual(one?.warmest.value.si ?? 0);
    // The usual kitchen of the store, 78 °F.
    expect(one?.warmest.value.si).toBeLessThan(((78 - 32) * 5) / 9 + 273.15);
    // 41 °F, the limit of its food law.
    expect(one?.warmest.value.si).toBeGreaterThan(((41 - 32) * 5) / 9 + 273.15);
  }
  expect(long?.mean.value.si).toBeGreaterThan(short?.mean.value.si ?? Infinity);
  expect(long?.over.value.si).toBeGreaterThan(0);
  expect(long?.says.value.code).toBe('scenes.found-food-over');
});

it('is not told of a clock that was right', () => {
  expect(foodOf('01:15', '08:00').food).toEqual([]);
});

it('is not told of a stop too short to warm it', () => {
  // The clock stops it minutes before it is empty.
  const { food, said } = foodOf('00:40', '08:00');
  expect(said[0]?.says).toMatch(/off with food in it/);
  expect(said[0]?.says).not.toMatch(/Predicted/);
  expect(food).toEqual([]);
});
