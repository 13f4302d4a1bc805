/**
 * The picture of two nights: what it shows, that no label meets another in any language or words, and that it is drawn only where it condemns.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../src/draw/drawing.js';
import { drawFigure } from '../../src/draw/index.js';
import { withScenes } from '../../src/plan/consequences/index.js';
import type { UnitPlan } from '../../src/plan/unit.js';
import { textWidth } from '../../src/print/faces.js';
import { drawingToSvg } from '../../src/print/svg.js';
import { speaker, type Reader } from '../../src/say/speaker.js';
import { faces } from '../print/faces.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { LANGUAGES } from '../support/languages.js';
import { altOf, boxesOf, collisions, crossings, looseDigits } from './tried.js';

const tried = tryFiles(demoFiles());
const { workshop } = tried;
if (!workshop) throw new Error('the demo does not open');
const width = textWidth(faces);

const storeOf = (id: string) => {
  const { plan, read } = tried.stores.get(id) ?? {};
  if (!plan || !read) throw new Error(id);
  return { plan, read };
};

interface Asked {
  readonly reader?: Partial<Reader>;
  readonly words?: (code: string, text: string) => string;
  readonly change?: (unit: UnitPlan) => UnitPlan;
}

const drawn = (store: string, id = 'line-1', { reader = {}, words, change }: Asked = {}): Drawing | undefined => {
  const { plan, read } = storeOf(store);
  const own = workshop.words.get(reader.lang ?? 'en');
  const unit = plan.units[id];
  if (!own || !unit) throw new Error(store);
  const said = {
    ...own,
    get: (code: string) => {
      const text = own.get(code);
      return text === undefined || !words ? text : words(code, text);
    },
  };
  const told = withScenes(workshop.shelf, read, plan, unit);
  const drawing = drawFigure('two-nights', {
    plan,
    unit: change ? change(told) : told,
    speaker: speaker(said, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon', ...reader }),
    width,
  });
  if (drawing === 'unknown') throw new Error('no such figure');
  return drawing;
};

const sure = (drawing: Drawing | undefined): Drawing => {
  if (!drawing) throw new Error('not drawn');
  return drawing;
};

it('has a golden picture', async () => {
  await expect(`${drawingToSvg(sure(drawn('high-basin')))}\n`).toMatchFileSnapshot('golden/two-nights.svg');
});

it('says what it shows, as values of the plan', () => {
  expect(altOf(sure(drawn('high-basin')))).toMatch(
    /^Two nights, predicted\. Emptied: .* from 39\s°F to \d\d\s°F on average .* over the limit, 41\s°F, for .* thrown out\.$/,
  );
  const texts = boxesOf(sure(drawn('high-basin'))).map((b) => b.text);
  expect(texts).toContain('predicted');
  expect(texts).toContain('41\u00a0°F');
});

describe.each(['high-basin', 'copper-ferry', 'switchyard', 'wren-stair', 'magpie-lane', 'corbel-yard'])('at %s', (store) => {
  for (const lang of LANGUAGES)
    for (const clockShows of ['24-hour', '12-hour'] as const)
      for (const measure of ['us', 'si'] as const)
        it(`is clear in ${lang}, ${clockShows}, ${measure}`, () => {
          const drawing = sure(drawn(store, 'line-1', { reader: { lang, clockShows, measure } }));
          expect(collisions(drawing)).toEqual([]);
          expect(crossings(drawing)).toEqual([]);
          expect(looseDigits(drawing)).toEqual([]);
          const sizes = drawing.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.size] : []));
          expect(Math.min(...sizes) * 0.668 * 0.9).toBeGreaterThan((3 * 72) / 25.4);
        });
});

it('keeps its labels apart for any words', () => {
  const word = fc.string({ unit: fc.constantFrom(...'abdegilmnoprstuwáñW'), minLength: 1, maxLength: 10 });
  const label = fc.array(word, { minLength: 1, maxLength: 5 }).map((words) => words.join(' '));
  fc.assert(
    fc.property(fc.array(label, { minLength: 12, maxLength: 12 }), (labels) => {
      const given = new Map<string, string>();
      const words = (code: string, text: string): string => {
        if (!code.startsWith('scenes.') || code === 'scenes.alt') return text;
        const own = given.get(code) ?? labels[given.size % labels.length] ?? text;
        given.set(code, own);
        return [...(text.match(/\{[a-z_]+\}/g) ?? []), own].join(' ');
      };
      expect(collisions(sure(drawn('high-basin', 'line-1', { words })))).toEqual([]);
    }),
    { seed: 20261125, numRuns: 100 },
  );
});

it('is not drawn for a unit without a night of its own, nor without scenes', () => {
  expect(drawn('assay-yard', 'sandwich')).toBeUndefined();
  expect(drawn('assay-yard', 'refrigerator')).toBeUndefined();
  expect(drawn('high-basin', 'line-1', { change: (unit) => ({ ...unit, scenes: undefined }) })).toBeUndefined();
});
