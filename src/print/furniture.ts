/**
 * What stands on every sheet around its content: the head with the logo, the foot with the number of the sheet, the draft band, the ring for a hole.
 * Head and foot belong to the tag tree once, on the first and the last sheet; elsewhere they are artifacts.
 */
import type { Page } from '../compose/block.js';
import { OURS, space, typeAt, type Setting } from './setting.js';
import { element, heightOf, slab, stack, type Element, type Paint, type Painting, type Slab } from './sheet.js';
import { bar, holeRing, put } from './signs.js';
import { setText, textSlabs } from './text.js';
import { MM, PAPER } from './theme.js';

/** Logos are at most this tall and wide. */
const LOGO = { height: 7 * MM, width: 45 * MM };

const logoOf = (page: Page, right: number): { readonly height: number; readonly width: number; readonly paint: Painting } => {
  const { logo } = page.brand;
  if (!logo) return { height: 0, width: 0, paint: () => [] };
  const scale = Math.min(LOGO.height / logo.height, LOGO.width / logo.width);
  const width = logo.width * scale;
  const height = logo.height * scale;
  const x = right - width;
  return { height, width, paint: (top) => [{ kind: 'logo', x, y: top, scale, logo }] };
};

/** The setting with the parent given, or without one. */
const under = (setting: Setting, parent: Element | undefined): Setting => {
  const { parent: _, ...rest } = setting;
  return parent ? { ...rest, parent } : rest;
};

const paragraph = (parent: Element | undefined): { of?: Element } => (parent ? { of: element('P', parent) } : {});

export interface Head {
  readonly height: number;
  /** Its paint. `to` is the element that takes its words; without one it is an artifact. */
  readonly paint: (top: number, to: Element | undefined) => readonly Paint[];
}

/** White between the draft band and the head. */
const BAND_GAP = 1 * MM;

/** The band stands in the margin, where printers still print: a page that fits as a draft fits once it is approved, and the other way round. */
const draftBand = (words: string, setting: Setting): Painting => {
  const style = { ...typeAt(setting, 'fine'), face: 'heavy' } as const;
  const band = setText([{ text: words }], style, setting, { colour: PAPER, align: 'middle', ...paragraph(setting.parent) });
  const ground = [bar(setting.width, band.height, setting.job.palette.shape('ink'))];
  return (headTop) => {
    const top = headTop - BAND_GAP - band.height;
    return [...put(setting.x, top, ground), ...band.paint(top)];
  };
};

/** The name of the unit and its place over a thick rule in the brand's colour; above it, in the margin, the draft band. */
export const headOf = (page: Page, setting: Setting): Head => {
  const { palette } = setting.job;
  const style = typeAt(setting, 'label');
  const logo = logoOf(page, setting.x + setting.width);
  const thick = 1.4 * MM;
  const lay = (to: Element | undefined): readonly Slab[] => {
    const inner = under({ ...setting, width: setting.width - (logo.width > 0 ? logo.width + style.size : 0) }, to);
    const draft = page.words.draft === undefined ? () => [] : draftBand(page.words.draft, under(setting, to));
    const text = setText(page.head, style, inner, { colour: palette.text('ink'), ...paragraph(to) });
    const height = Math.max(text.height, logo.height);
    return [
      slab(OURS, 0, height, (top) => [...draft(top), ...text.paint(top + height - text.height), ...logo.paint(top)]),
      slab(OURS, style.size * 0.3, thick, (top) => put(setting.x, top, [bar(setting.width, thick, palette.shape('brand'))])),
      slab(OURS, style.size * 0.8, 0),
    ];
  };
  return { height: heightOf(lay(undefined)), paint: (top, to) => stack(lay(to), top).paints };
};

export interface Foot {
  readonly height: number;
  /** Its paint on sheet `n` of `count`. */
  readonly paint: (top: number, to: Element | undefined, n: number, count: number) => readonly Paint[];
}

/** "2 of 4". */
const numberOf = (page: Page, n: number, count: number): string =>
  page.words.sheetOf.replace('{n}', String(n)).replace('{of}', String(count));

/**
 * The small print under a rule, and at its right the number of the sheet where there is more than one.
 * It tells who made the sheet and for which hours, and is read close up by whoever keeps it: nobody needs it at the unit or across the room.
 */
export const footOf = (page: Page, setting: Setting, most: number): Foot => {
  const { palette, faces } = setting.job;
  const style = typeAt({ ...setting, distance: 'hand' }, 'fine');
  const colour = palette.text('soft-ink');
  const numbered = most > 1;
  const numberWidth = numbered ? (faces.strong.width(numberOf(page, most, most)) + 1.5) * style.size : 0;
  const above = space(setting, 0.5) + style.size * 0.6;
  const below = style.size * 0.35;
  const lay = (to: Element | undefined): readonly Slab[] => {
    const inner = under({ ...setting, width: setting.width - numberWidth }, to);
    const texts = page.foot.map((runs) => setText(runs, style, inner, { colour, ...paragraph(to) }));
    const lines = texts.flatMap((text, i) => textSlabs(text, OURS, i === 0 ? below : style.size * 0.2));
    if (lines.length === 0 && !numbered) return [];
    const rule = slab(OURS, above, 1, (top) => put(setting.x, top, [bar(setting.width, 1, palette.shape('ink'))]));
    return [slab(OURS, 0, 0), rule, ...(lines.length > 0 ? lines : [slab(OURS, below, style.pitch)])];
  };
  const number = (top: number, n: number, count: number): readonly Paint[] => {
    if (!numbered || count === 1) return [];
    const set = setText([{ text: numberOf(page, n, count) }], { ...style, face: 'strong' }, under(setting, undefined), {
      colour,
      align: 'end',
    });
    return set.paint(top + above + 1 + below);
  };
  return {
    height: heightOf(lay(undefined)),
    paint: (top, to, n, count) => [...stack(lay(to), top).paints, ...number(top, n, count)],
  };
};

/** A place for a punched hole, top centre, in the margin (common practice, no source: a hole in the film beside the sheet keeps the pouch sealed). */
export const holeOf = (page: Page, sheetWidth: number, margin: number, colour: string): readonly Paint[] => {
  // Nobody laminates a draft.
  if (page.finish !== 'laminated' || page.words.draft !== undefined) return [];
  const diameter = 6 * MM;
  return put(sheetWidth / 2 - diameter / 2, (margin - diameter) / 2, holeRing(diameter, colour));
};
