/**
 * A top that its own controller rests, after a power cut: the controller may have lost its time and rest it by day, with food in it. Common practice, no source.
 */
import { expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

it('is not unplugged to be cleaned, and is seen after a shut-down before food goes in; so is a clock whose reserve is used up', () => {
  const { workshop, stores } = tryFiles(demoFiles());
  if (!workshop) throw new Error('no workshop');
  const pages = pagesOf(workshop, stores).filter(({ lang, unit }) => lang === 'en' && unit?.is.rail.value.is);
  const saying = (id: string, sentence: RegExp) =>
    pages.filter(({ paper, page }) => paper.id === id && sentence.test(textOf(runsIn(page?.body ?? [])))).map(({ unit }) => unit);
  const ownRest = [
    ...new Set(pages.flatMap(({ unit }) => (unit && unit.is.fan_rail.value.is && !unit.is.timed.value.is ? [unit] : []))),
  ];
  expect(ownRest.length).toBeGreaterThan(1);
  expect(new Set(saying('trouble', /own controller may have lost its time\. Order/))).toEqual(new Set(ownRest));
  // Those that nobody cleans inside say nothing of it.
  const cleaned = saying('card', /the unit left on \(without power its own controller may lose its time\)/);
  expect(cleaned.length).toBeGreaterThan(0);
  for (const unit of cleaned) expect(ownRest).toContain(unit);
  for (const unit of ownRest) expect(saying('card', /turns it off: plug/)).not.toContain(unit);
  const reserve = saying('trouble', /Its clock's reserve may be used up/);
  expect(reserve.length).toBeGreaterThan(0);
  for (const unit of reserve) expect(unit?.rest?.stops_in_power_cut.value.is).toBe(false);
});

it('of a freezer found warm, soft food is thrown out under any law, and hard food kept', () => {
  const { workshop, stores } = tryFiles(demoFiles());
  if (!workshop) throw new Error('no workshop');
  const pages = pagesOf(workshop, stores).filter(({ paper, lang }) => paper.id === 'trouble' && lang === 'en');
  const [frozen, others] = [true, false].map((is) => pages.filter(({ unit }) => unit?.is.frozen.value.is === is));
  const says = (page: (typeof pages)[number]) =>
    /Soft: thrown out, that is the rule here\./.test(textOf(runsIn(page.page?.body ?? [])));
  expect(frozen?.length).toBeGreaterThan(0);
  expect(frozen?.every(says)).toBe(true);
  expect(others?.some(says)).toBe(false);
});

it('holds no food until somebody who may has seen its time, on the week sheet and on the trouble sheet', () => {
  const { workshop, stores } = tryFiles(demoFiles());
  if (!workshop) throw new Error('no workshop');
  let told = 0;
  for (const { paper, page, lang, unit } of pagesOf(workshop, stores)) {
    const fanRail = unit === undefined ? undefined : unit.is.fan_rail.value.is;
    if (!page || lang !== 'en' || paper.id !== 'trouble') continue;
    const text = textOf(runsIn(page.body));
    expect(/No food in the top until a technician has seen that its time is right/.test(text)).toBe(fanRail);
    told += fanRail ? 1 : 0;
  }
  expect(told).toBeGreaterThan(1);
  const weeks = pagesOf(workshop, stores).filter(({ paper, lang }) => paper.id === 'week' && lang === 'en');
  const saying = weeks.filter(({ page }) =>
    /no food in the top until a technician has seen it/.test(textOf(runsIn(page?.body ?? []))),
  );
  expect(saying.length).toBeGreaterThan(1);
});
