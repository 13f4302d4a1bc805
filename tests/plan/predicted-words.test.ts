/**
 * What the demo's cards say of the physics, and its findings with them: a unit or a part without a model is told of; food that may freeze is
 * told of even where all is well; no row of a fault reads as leave; a finding and a page round one figure the same way.
 */
import { expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { compose } from '../../src/compose/paper.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { withAllScenes } from '../../src/plan/consequences/index.js';
import { physicsOf } from '../../src/plan/physics/index.js';
import type { ReadUnit } from '../../src/read/shelf.js';
import { findingWords } from '../../src/say/findings.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { roughWidth, runsIn } from '../support/pages.js';

const tried = tryFiles(demoFiles());
const { workshop } = tried;
if (!workshop) throw new Error('the demo does not open');
const card = workshop.papers.find((paper) => paper.id === 'card');
if (!card) throw new Error('there is no card');

const cards = [...tried.stores].flatMap(([id, { plan, read }]) => {
  if (!plan || !read) return [];
  const full = withAllScenes(workshop.shelf, read, plan);
  return Object.values(full.units).flatMap((unit, i) => {
    const physics = physicsOf(workshop.shelf, plan.store, read.units[i] as ReadUnit);
    return [...workshop.words].map(([lang, words]) => {
      const speaker = readerOf(words, read, workshop.shelf);
      const subject = { plan: full, unit, date: '2026-11-16', sheet: read.store.sheet, brand: { colour: '#1f4d3a' } };
      const text = textOf(runsIn(compose(card, subject, speaker, roughWidth).page?.body ?? []));
      return { name: `${id} ${unit.id.value.text} ${lang}`, unit, physics, plan: full, lang, words, speaker, text };
    });
  });
});

const kelvin = (fahrenheit: number): number => (fahrenheit + 459.67) / 1.8;

it('each card tells of what nothing is predicted, and of nothing else', () => {
  const told = new Set<string>();
  for (const { name, unit, physics, speaker, text } of cards) {
    const nothing = ['unit', 'top', 'bottom'].filter((part) => text.includes(textOf(speaker.phrase(`scenes.nothing-${part}`))));
    told.add(nothing.join());
    const rail = unit.is.rail.value.is && physics.rail === undefined;
    const box = unit.is.box.value.is && physics.box === undefined;
    const expected = unit.physics === undefined ? ['unit'] : rail ? ['top'] : box ? ['bottom'] : [];
    expect(nothing, name).toEqual(expected);
    if (unit.physics === undefined) expect(text, name).not.toContain(textOf(speaker.phrase('scenes.never')));
  }
  expect(told).toContain('unit');
  expect(told).toContain('');
});

it('a corner under the freezing point of tender food is told of with that point, though nothing is wrong', () => {
  // Lettuce, -0.2 °C: ASHRAE Handbook Refrigeration, thermal properties of foods, table 3. No food of that table freezes sooner.
  let frozen = 0;
  for (const { name, unit, speaker, text } of cards) {
    const holds = unit.scenes?.holds;
    if (!holds) continue;
    expect(unit.physics?.freezes?.value.si, name).toBeCloseTo(272.95, 6);
    const sound = unit.scenes?.never[0]?.rail.value.si ?? Infinity;
    if (sound < 272.95) expect(holds.freezes, name).toBeDefined();
    if (!holds.freezes) continue;
    frozen += 1;
    expect(holds.coldest_shut?.value.si, name).toBeLessThan(272.95);
    expect(text, name).toContain(textOf(speaker.say(holds.freezes).runs));
  }
  expect(frozen).toBeGreaterThan(0);
});

it('a table of faults says that each is to be mended, and its air is never rounded to the mild side', () => {
  for (const { name, unit, plan, text, speaker } of cards) {
    const [sound, ...faults] = unit.scenes?.never ?? [];
    const freezes = unit.physics?.freezes;
    if (!sound || !freezes) continue;
    expect(text, name).toContain(textOf(speaker.phrase('scenes.never-note', { freezes })));
    for (const { base, rail } of faults) {
      expect(rail.basis, name).toMatchObject({ rounded: 'colder' });
      if (!base || !sound.base) continue;
      const warmer = base.value.si >= sound.base.value.si;
      if (warmer) expect(base.basis, name).toMatchObject({ rounded: 'up' });
      if (base.value.si < sound.base.value.si - 1) expect(base.basis, name).toMatchObject({ rounded: 'colder' });
      if (base.value.si > plan.store.law.limit.value.si) expect(base.basis, name).toMatchObject({ rounded: 'up' });
    }
  }
});

it('a card tells the kitchen in which its unit was read from that for which it predicts', () => {
  const { text } = cards.find(({ name }) => name === 'switchyard line-1 en') ?? { text: '' };
  expect(text).toContain('in a kitchen of 79\u00a0°F, as it was read');
  expect(text).toContain("It rounds this store's kitchen up from 79\u00a0°F, and from 86\u00a0°F on the hottest day.");
  expect(text).toContain('in a kitchen of 80\u00a0°F, covers shut');
  expect(cards.find(({ name }) => name === 'copper-ferry line-1 en')?.text).toContain('in a kitchen of 75\u00a0°F, assumed');
});

it('a finding says a predicted temperature as a page does: whole degrees, food and kitchen up, the aim down', () => {
  const found = tried.findings.filter((f) => f.code === 'rail-cannot-hold');
  expect(found.length).toBeGreaterThan(0);
  const { words, speaker } = cards.find(({ name }) => name === 'copper-ferry line-1 en') ?? {};
  if (!words || !speaker) throw new Error('no words');
  for (const finding of found) {
    const { says } = findingWords(finding, words, speaker);
    const figures = [...says.matchAll(/(-?[\d.]+)\u00a0°F/g)].map(([, n]) => n ?? '');
    expect(
      figures.every((n) => /^\d+$/.test(n)),
      says,
    ).toBe(true);
    const [kitchen, food, aim] = figures.map(Number).map(kelvin) as [number, number, number];
    const exact = (key: string): number => (finding.data[key] as { si: number }).si;
    expect(kitchen, says).toBeGreaterThanOrEqual(exact('kitchen') - 1e-6);
    expect(food, says).toBeGreaterThanOrEqual(exact('food') - 1e-6);
    expect(aim, says).toBeLessThanOrEqual(exact('aim') + 1e-6);
  }
});

it('a card tells the air and the food that come of a dial: as found, left alone, left low up high, and for another air', () => {
  const of = (name: string) => {
    const found = cards.find((one) => one.name === `${name} en`);
    const { dials } = found?.unit.scenes ?? {};
    if (!found || !dials) throw new Error(`${name} has no dials`);
    return { ...found, dials };
  };
  for (const { name, unit, text, speaker } of cards) {
    const dials = unit.scenes?.dials;
    expect(dials?.rows ?? [], name).toHaveLength(unit.pressure.for_air.length);
    for (const part of ['found', 'left_alone', 'not_raised'] as const) {
      const told = dials?.[part];
      if (told) expect(text, name).toContain(textOf(speaker.say(told.says).runs));
    }
    const [first, ...rest] = dials?.rows ?? [];
    let before = first;
    for (const row of rest) {
      expect(row.mean.value.si, name).toBeGreaterThan(before?.mean.value.si ?? NaN);
      expect(row.coldest.value.si, name).toBeGreaterThan(before?.coldest.value.si ?? NaN);
      before = row;
    }
  }
  // The bellows of a store at 5280 ft, left at its sea-level figure, makes colder food than the raised dial of its middle row.
  const high = of('high-basin line-1');
  expect(high.dials.not_raised?.mean.value.si).toBeLessThan((high.dials.rows[2]?.mean.value.si ?? NaN) - 0.5);
  expect(of('copper-ferry line-1').dials.not_raised).toBeUndefined();
  // Left alone after R-404A made way for R-448A, the same figures are a warmer coil and warmer food.
  const changed = of('old-ropewalk line-2');
  expect(changed.dials.left_alone?.mean.value.si).toBeGreaterThan((changed.dials.rows[2]?.mean.value.si ?? NaN) + 0.5);
});
