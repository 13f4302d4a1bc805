/**
 * Lists and steps: a mark or a large numeral beside each item, and the clock time of a step set out before its words.
 */
import { textOf } from '../base/run.js';
import type { Block, Written } from '../compose/block.js';
import { printable } from './characters.js';
import { indented, space, typeAt, type Setting } from './setting.js';
import { element, heightOf, slab, together, unorphaned, type Paint, type Painting, type Slab } from './sheet.js';
import { bullet, prohibition, put, tickBox } from './signs.js';
import { setText, textSlabs, type SetText } from './text.js';
import { PAPER } from './theme.js';

type List = Extract<Block, { block: 'list' }>;
type Steps = Extract<Block, { block: 'steps' }>;

/** What stands beside an item: its paint, given the y of the item's first baseline, and the height that it takes. */
interface Aside {
  readonly gap: number;
  readonly at: Written;
  readonly paint: Painting;
  readonly height: number;
}

/** Puts paint beside the first slab of an item; an item without slabs gets one for it. */
const beside = (slabs: readonly Slab[], { gap, at, paint, height }: Aside): readonly Slab[] => {
  const [first, ...rest] = slabs.length > 0 ? slabs : [slab(at, 0, height)];
  if (!first) return [];
  const tall = rest.length > 0 ? first.height : Math.max(first.height, height);
  const baseline = first.baseline ?? height * 0.8;
  const both: Painting = (top) => [...paint(top + baseline), ...first.paint(top)];
  return [{ ...first, gap, height: tall, paint: both }, ...rest];
};

/** An item stays on one sheet with what it holds, such as lines to write an answer on, unless it is longer than so many lines. */
const UNBROKEN = 12;

const unbroken = (slabs: readonly Slab[], pitch: number): readonly Slab[] =>
  heightOf(slabs) <= UNBROKEN * pitch ? together(slabs) : slabs;

/** The mark is as tall as so many capitals, and what it stands for in characters. */
const MARKS = {
  dot: { capitals: 0.5, actual: '\u2022' },
  tick: { capitals: 1.5, actual: '\u2610' },
  never: { capitals: 1.9, actual: '\u2717' },
} as const;

export const layList = (block: List, setting: Setting): readonly Slab[] => {
  const { palette, faces } = setting.job;
  const body = typeAt(setting, 'body');
  const capital = faces.regular.capHeight * body.size;
  const { capitals, actual } = MARKS[block.mark];
  const size = capital * capitals;
  const left = block.mark === 'dot' ? body.size * 0.95 : size + body.size * 0.5;
  const list = element('L', setting.parent, { numbering: block.mark === 'dot' ? 'Disc' : 'None' });
  const items = block.items.map((item, i) => {
    const li = element('LI', list);
    const label = element('Lbl', li, { actual });
    const slabs = setting.job.lay(item, { ...indented(setting, left), parent: element('LBody', li) });
    const gap = i === 0 ? space(setting, 0.45) : space(setting, block.mark === 'dot' ? 0.3 : 0.42);
    const mark: Painting = (baseline) => {
      const y = baseline - capital / 2 - size / 2;
      if (block.mark === 'dot') return put(setting.x, y, bullet(size, palette.shape('ink')), label);
      if (block.mark === 'tick') return put(setting.x, y, tickBox(size, palette.shape('ink')), label);
      return put(setting.x, y, prohibition(size, palette.shape('danger'), PAPER), label);
    };
    return unbroken(beside(slabs, { gap, at: setting, height: body.pitch, paint: mark }), body.pitch);
  });
  return unorphaned(items);
};

/** A numeral is so much larger than the words beside it, and hangs from the top of their capitals. */
const NUMERAL = 1.55;
/** Times stand in a column of their own as long as it takes no more than this part of the width. */
const WHEN_SHARE = 0.3;

const standing = (text: SetText, baseline: number): readonly Paint[] => text.paint(baseline - text.baseline);

export const laySteps = (block: Steps, setting: Setting): readonly Slab[] => {
  const { palette, faces, lay } = setting.job;
  const body = typeAt(setting, 'body');
  const capHeight = faces.heavy.capHeight;
  const numeral = { ...body, size: body.size * NUMERAL, pitch: body.pitch * NUMERAL, face: 'heavy' } as const;
  const hang = capHeight * (numeral.size - body.size);
  // As wide as the widest digit, so that lists of steps side by side and one below the other line up.
  const widest = faces.heavy.width('0'.repeat(String(block.items.length).length)) * numeral.size;
  const left = widest + body.size * 0.6;
  const whenStyle = { ...body, face: 'heavy' } as const;
  const whenWidth = Math.max(0, ...block.items.map((item) => faces.heavy.width(printable(textOf(item.when ?? []))) * body.size));
  const column = whenWidth + body.size * 0.6;
  const aside = whenWidth > 0 && column <= (setting.width - left) * WHEN_SHARE;
  const list = element('L', setting.parent, { numbering: 'Decimal' });
  const items = block.items.map((item, i) => {
    const li = element('LI', list);
    const label = element('Lbl', li);
    const parent = element('LBody', li);
    const frame = { ...indented(setting, left), parent };
    const number = setText(
      [{ text: String(i + 1) }],
      numeral,
      { ...setting, width: left },
      { colour: palette.text('ink'), of: label },
    );
    const when =
      item.when && item.when.length > 0
        ? setText(item.when, whenStyle, frame, { colour: palette.text('brand'), of: element('P', parent) })
        : undefined;
    const words = lay(item.body, aside ? indented(frame, column) : frame);
    const slabs =
      when && !aside ? [...textSlabs(when, setting, 0, true), ...words.map((s, k) => (k === 0 ? { ...s, gap: 0 } : s))] : words;
    const numbered = beside(slabs, {
      gap: space(setting, i === 0 ? 0.45 : 0.5),
      at: setting,
      height: body.pitch + hang,
      paint: (baseline) => [...standing(number, baseline + hang), ...(when && aside ? standing(when, baseline) : [])],
    });
    return unbroken(numbered, body.pitch);
  });
  return unorphaned(items);
};
