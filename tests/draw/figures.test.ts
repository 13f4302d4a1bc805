/**
 * Each figure of one hand-made plan as SVG, to be looked at when it changes; and what every figure keeps to.
 */
import { describe, expect, it } from 'vitest';
import { LANGUAGES } from '../support/languages.js';
import { drawFigure, figureNames } from '../../src/draw/index.js';
import { drawingToSvg } from '../../src/print/svg.js';
import { BY_DIAL, BY_HAND, BY_SEVEN_DAYS, BY_WEEKDAY_CLOCK, COOLER, DRAWERS, REACH_IN, SHARED_AIR, WALK_IN } from './stores.js';
import { altOf, boxesOf, collisions, contextOf, crossings, draw, looseDigits } from './tried.js';

const PLANS = { BY_DIAL, BY_WEEKDAY_CLOCK, BY_SEVEN_DAYS, BY_HAND, SHARED_AIR, REACH_IN, DRAWERS, WALK_IN, COOLER };

describe('golden pictures', () => {
  // What shows a unit's scenes has a test of its own: two-nights.test.ts.
  for (const name of figureNames.filter((figure) => figure !== 'two-nights')) {
    it(name, async () => {
      await expect(`${drawingToSvg(draw(name, { files: BY_DIAL }))}\n`).toMatchFileSnapshot(`golden/${name}.svg`);
    });
  }
});

describe.each(Object.entries(PLANS))('every figure of %s', (_, files) => {
  for (const lang of LANGUAGES) {
    for (const clockShows of ['24-hour', '12-hour'] as const) {
      for (const name of figureNames) {
        it(`${name}, ${lang}, ${clockShows}`, () => {
          const drawing = drawFigure(
            name,
            contextOf({ files, reader: { lang, clockShows, measure: lang === 'en' ? 'us' : 'si' } }),
          );
          if (drawing === undefined) return;
          if (drawing === 'unknown') throw new Error(name);
          expect(collisions(drawing)).toEqual([]);
          expect(crossings(drawing)).toEqual([]);
          expect(looseDigits(drawing)).toEqual([]);
          expect(altOf(drawing)).toMatch(/[.!?]\s*$/);
          // 3 mm capitals where the picture is 540 pt wide, on a page set at nine tenths.
          const sizes = drawing.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.size] : []));
          expect(Math.min(...sizes) * 0.668 * 0.9).toBeGreaterThan((3 * 72) / 25.4);
        });
      }
    }
  }
});

describe('what is drawn for which unit', () => {
  const names = ['day-bar', 'dial', 'elevation', 'fill', 'ladder'];
  const drawn = (files: Readonly<Record<string, string>>): readonly string[] =>
    names.filter((name) => drawFigure(name, contextOf({ files })) !== undefined);

  it('shows all of a table that a dial rests', () => {
    expect(drawn(BY_DIAL)).toEqual(names);
  });

  it('has no dial where a hand turns the top off, and no night where nothing does', () => {
    expect(drawn(BY_HAND)).toEqual(['day-bar', 'elevation', 'fill', 'ladder']);
    expect(drawn(SHARED_AIR)).toEqual(['elevation', 'fill', 'ladder']);
    expect(drawn(REACH_IN)).toEqual(['elevation', 'ladder']);
  });
});

const texts = (name: string, files: Readonly<Record<string, string>>): string =>
  boxesOf(draw(name, { files }))
    .map((b) => b.text)
    .join(' | ');

describe('the night', () => {
  it('is the most usual one, and says what differs on the others', () => {
    expect(texts('day-bar', BY_DIAL)).toMatchInlineSnapshot(
      `"Tue–Thu, Sun night | food | Top off, empty | food | 01:30 | goes off by itself | 22:45 | top is empty | 22:20 | start to empty | 09:15 | comes on | by itself | 10:30 | cold? load it | 10:45 | all pans are in | The bottom stays on all night, with the food | Fri, Sat night:  | 01:15 | top is empty"`,
    );
  });

  it('tells a person to switch and to wipe where no clock and no drain do', () => {
    expect(texts('day-bar', BY_HAND)).toMatchInlineSnapshot(
      `"food | Top off, empty | food | 20:45 | switch the top off | 20:45 | top is empty | 20:20 | start to empty | 07:10 | wipe up | the water | 09:30 | switch the top on | 10:30 | cold? load it | 10:45 | all pans are in | The bottom stays on all night, with the food"`,
    );
  });

  it('names the times in its text alternative', () => {
    expect(altOf(draw('day-bar', { files: BY_DIAL }))).toMatchInlineSnapshot(
      `"The night as a bar. Start to empty the top: Tue–Thu, Sun 22:20 · Fri, Sat night 00:50. The top is empty: Tue–Thu, Sun 22:45 · Fri, Sat night 01:15. It goes off: 01:30. It comes on: 09:15. All pans are in: 10:45. The bottom is on all the time. The food is here: the bottom of this unit."`,
    );
  });
});

describe('the clock', () => {
  it('is one dial for each class of days that the clock keeps apart, though four kinds of night share them', () => {
    expect(texts('dial', BY_WEEKDAY_CLOCK)).toMatchInlineSnapshot(
      `"Mon–Fri | Sat, Sun | off | 22:00 | on | 05:15 | midnight | noon | off | 23:15 | on | 08:15 | midnight | noon | Dark: the top is on. Find | out which way a tab acts. | Open: the top is off | The hours run this way. | The dial turns only the | way of the arrow on it. | Turn it until the time of day | stands at the clock's own mark."`,
    );
  });

  it('is a panel for each setting where the face shows figures', () => {
    expect(texts('dial', BY_SEVEN_DAYS)).toMatchInlineSnapshot(
      `"Tue–Thu, Sun | night | off,  | Tue–Thu, | Sun | 22:50 | on,  | Tue–Fri | 09:25 | Fri, Sat | night | off,  | Sat, Sun | 01:20 | on,  | Sat, Sun | 09:25"`,
    );
  });
});

describe('the unit from the front', () => {
  it('tells what rules the top from what rules the bottom', () => {
    expect(altOf(draw('elevation', { files: BY_DIAL }))).toMatchInlineSnapshot(
      `"The unit from the front, cut open where food is. Covers, up. Static cold rail: 12 pans, sixth-size. Load line: food stays 1 in below the edge. Probe top centre. Top: off at night, by a clock in a closed box: only a technician. Refrigerated base. Probe top shelf. Bottom: never off. It has no clock."`,
    );
    expect(altOf(draw('elevation', { files: SHARED_AIR }))).toMatchInlineSnapshot(
      `"The unit from the front, cut open where food is. Covers, up. Forced-air rail: 12 pans, sixth-size. Load line: food stays 1 in below the edge. Probe top centre. Refrigerated base. Probe top shelf. Top and bottom: never off. They have no clock."`,
    );
  });
});

describe('the temperatures', () => {
  it('have the limit of the law where food is held, and none where drinks are', () => {
    expect(altOf(draw('ladder', { files: REACH_IN }))).toMatchInlineSnapshot(
      `"The temperatures of this unit on one scale, with the point where water freezes. Reach-in cabinet: air 34 – 39 °F, food 36 – 39 °F. The law's limit for food is 41 °F."`,
    );
    expect(altOf(draw('ladder', { files: COOLER }))).toMatchInlineSnapshot(
      `"The temperatures of this unit on one scale, with the point where water freezes. Glass-door merchandiser: air 34 – 39 °F, drinks 36 – 39 °F."`,
    );
  });
});
