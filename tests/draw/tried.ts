/**
 * Figures of a small chain's plan, measured with the real faces, and the boxes of their texts.
 */
import { textOf } from '../../src/base/run.js';
import type { Drawing } from '../../src/draw/drawing.js';
import type { FigureContext } from '../../src/draw/figure.js';
import { drawFigure } from '../../src/draw/index.js';
import type { UnitPlan } from '../../src/plan/unit.js';
import { textWidth } from '../../src/print/faces.js';
import { speaker, type Reader } from '../../src/say/speaker.js';
import type { Words } from '../../src/say/words.js';
import { faces } from '../print/faces.js';
import { tryChain } from '../support/chain.js';
import { LANGUAGES } from '../support/languages.js';

const width = textWidth(faces);

export interface Asked {
  /** Files of the chain over its usual ones. */
  readonly files?: Readonly<Record<string, string>>;
  readonly unit?: string;
  readonly reader?: Partial<Reader>;
  /** What is said instead of, or after, the word list's own text. */
  readonly words?: (code: string, text: string) => string;
  readonly change?: (unit: UnitPlan) => UnitPlan;
}

const chains = new Map<string, ReturnType<typeof tryChain>>();

export const contextOf = ({ files = {}, unit: id = 'line-1', reader = {}, words, change }: Asked): FigureContext => {
  const key = JSON.stringify(files);
  const tried = chains.get(key) ?? tryChain(files, LANGUAGES);
  chains.set(key, tried);
  const plan = tried.stores.get('street')?.plan;
  const unit = plan?.units[id];
  const own = tried.workshop?.words.get(reader.lang ?? 'en');
  if (!plan || !unit || !own) throw new Error(tried.told.join('\n'));
  const said: Words = {
    ...own,
    get: (code) => {
      const text = own.get(code);
      return text === undefined || !words ? text : words(code, text);
    },
  };
  return {
    plan,
    unit: change ? change(unit) : unit,
    speaker: speaker(said, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon', ...reader }),
    width,
  };
};

export const draw = (name: string, asked: Asked = {}): Drawing => {
  const drawing = drawFigure(name, contextOf(asked));
  if (!drawing || drawing === 'unknown') throw new Error(`${name}: ${String(drawing)}`);
  return drawing;
};

export const altOf = (drawing: Drawing): string => textOf(drawing.alt);

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What the letters of each text take: from a capital's top to a descender's foot. */
export const boxesOf = (drawing: Drawing): readonly Box[] =>
  drawing.marks.flatMap((mark) => {
    if (mark.mark !== 'text') return [];
    const wide = width(mark.text, mark.size, mark.strong);
    const left = mark.x - { start: 0, middle: wide / 2, end: wide }[mark.anchor];
    return [{ text: mark.text, left, right: left + wide, top: mark.y - 0.7 * mark.size, bottom: mark.y + 0.22 * mark.size }];
  });

const SLACK = 0.05;

/** Pairs of texts that lie on each other, and texts that stick out of the picture. */
export const collisions = (drawing: Drawing): readonly string[] => {
  const boxes = boxesOf(drawing);
  const met = boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right - SLACK && b.left < a.right - SLACK && a.top < b.bottom - SLACK && b.top < a.bottom - SLACK)
      .map((b) => `"${a.text}" on "${b.text}"`),
  );
  const out = boxes.filter(
    (b) => b.left < -SLACK || b.top < -SLACK || b.right > drawing.width + SLACK || b.bottom > drawing.height + SLACK,
  );
  return [...met, ...out.map((b) => `"${b.text}" outside`)];
};

/** Texts that a straight upright line of the picture runs through. */
export const crossings = (drawing: Drawing): readonly string[] => {
  const boxes = boxesOf(drawing);
  return drawing.marks.flatMap((mark) => {
    const upright = mark.mark === 'path' ? /^M ([\d.]+) ([\d.]+) V ([\d.]+)$/.exec(mark.d) : null;
    if (!upright) return [];
    const [x, from, to] = upright.slice(1).map(Number) as [number, number, number];
    return boxes
      .filter((b) => b.left < x && x < b.right && b.top < Math.max(from, to) && Math.min(from, to) < b.bottom)
      .map((b) => `line through "${b.text}"`);
  });
};

/** Digits in a picture's texts that no value of the plan accounts for. */
export const looseDigits = (drawing: Drawing): readonly string[] =>
  drawing.marks.flatMap((mark) => (mark.mark === 'text' && /\d/.test(mark.text) && mark.value === undefined ? [mark.text] : []));
