/**
 * A top that its own controller rests, after a power cut: the controller may have lost its time and rest it by day, with food in it. Common practice, no source.
 */
import { expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

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
