/**
 * What stands on every sheet around its content: the head with the logo, the foot with the number of the sheet, the draft band, the ring for a hole.
 * Head and foot are read once, on the first and the last sheet; elsewhere they are artifacts.
 */
import type { Page } from '../compose/block.js';
import { space, typeAt, type Setting } from './setting.js';
import { element, slab, stack, type Element, type Paint, type Slab } from './sheet.js';
import { bar, holeRing, put } from './signs.js';
import { setText, textSlabs } from './text.js';
import { MM, PAPER } from './theme.js';

/** Logos are at most this tall and wide. */
const LOGO = { height: 9 * MM, width: 45 * MM };

const logoOf = (
  page: Page,
  right: number,
): { readonly height: number; readonly width: number; readonly paints: readonly Paint[] } => {
  const { logo } = page.brand;
  if (!logo) return { height: 0, width: 0, paints: [] };
  const scale = Math.min(LOGO.height / logo.height, LOGO.width / logo.width);
  const width = logo.width * scale;
  const height = logo.height * scale;
  const x = right - width;
  const paints: readonly Paint[] =
    logo.kind === 'image'
      ? [{ kind: 'image', x, y: 0, width, height, bytes: logo.bytes }]
      : logo.paths.map(({ d, fill }): Paint => ({ kind: 'path', x, y: 0, scale, d, fill }));
  return { height, width, paints };
};

export interface Furniture {
  readonly height: number;
  /** `of` is the parent that the text belongs to, or nothing for an artifact. */
  readonly paints: (of: Element | undefined, n: number, count: number) => readonly Paint[];
}

const owned = (setting: Setting, of: Element | undefined): Setting => {
  const { parent: _, ...rest } = setting;
  return of ? { ...rest, parent: of } : rest;
};

/** The head: a thick rule in the brand's colour under the name of the unit and its place; above it all, the draft band. */
export const headOf = (page: Page, setting: Setting): Furniture => {
  const { palette } = setting.job;
  const style = typeAt(setting, 'label');
  const logo = logoOf(page, setting.x + setting.width);
  const width = setting.width - (logo.width > 0 ? logo.width + style.size : 0);
  const lay = (of: Element | undefined): readonly Slab[] => {
    const inner = owned({ ...setting, width }, of);
    const text = setText(page.head, style, inner, {
      colour: palette.text('ink'),
      ...(of && page.head.length > 0 ? { of: element('P', of) } : {}),
    });
    const lift = Math.max(0, logo.height - text.height);
    const name = slab(0, 0, Math.max(text.height, logo.height), [
      ...text.lines.flat().map((paint) => ({ ...paint, y: paint.y + lift })),
      ...logo.paints,
    ]);
    const rule = slab(0, style.size * 0.3, 1.4 * MM, put(setting.x, 0, [bar(setting.width, 1.4 * MM, palette.shape('brand'))]));
    return [...draft(of), name, rule, slab(0, style.size * 0.5, 0, [])];
  };
  const draft = (of: Element | undefined): readonly Slab[] => {
    if (page.words.draft === undefined) return [];
    const band = setText([{ text: page.words.draft }], { ...typeAt(setting, 'body'), face: 'heavy' }, setting, {
      colour: PAPER,
      align: 'middle',
      ...(of ? { of: element('P', of) } : {}),
    });
    return [
      slab(0, 0, band.height, [
        ...put(setting.x, 0, [bar(setting.width, band.height, palette.shape('ink'))]),
        ...band.lines.flat(),
      ]),
      slab(0, style.size * 0.4, 0, []),
    ];
  };
  const { height } = stack(lay(undefined));
  return { height, paints: (of) => stack(lay(of)).paints };
};

/** The foot: small print under a rule, and "2 of 4" at its right where there is more than one sheet. */
export const footOf = (page: Page, setting: Setting, widest: string): Furniture => {
  const { palette, faces } = setting.job;
  const style = typeAt(setting, 'fine');
  const colour = palette.text('soft-ink');
  const numberWidth = widest === '' ? 0 : faces.strong.width(widest) * style.size + style.size * 1.5;
  const lay = (of: Element | undefined): readonly Slab[] => {
    const inner = owned({ ...setting, width: setting.width - numberWidth }, of);
    const lines = page.foot.flatMap((runs, i) =>
      textSlabs(
        setText(runs, style, inner, { colour, ...(of ? { of: element('P', of) } : {}) }),
        0,
        i === 0 ? 0 : style.size * 0.2,
      ),
    );
    const rule = slab(0, style.size * 0.6, 1, put(setting.x, 0, [bar(setting.width, 1, palette.shape('ink'))]));
    const text = lines.length > 0 || widest === '' ? lines : [slab(0, 0, style.pitch, [])];
    return text.length === 0
      ? []
      : [slab(0, 0, 0, []), rule, ...text.map((s, i) => (i === 0 ? { ...s, gap: style.size * 0.35 } : s))];
  };
  const number = (n: number, count: number): readonly Paint[] => {
    if (widest === '') return [];
    const text = page.words.sheetOf.replace('{n}', String(n)).replace('{of}', String(count));
    const line = setText([{ text }], { ...style, face: 'strong' }, owned(setting, undefined), { colour, align: 'end' });
    const top = style.size * 0.95 + 1;
    return line.lines.flat().map((paint) => ({ ...paint, y: paint.y + top }));
  };
  const { height } = stack(lay(undefined));
  return { height, paints: (of, n, count) => [...stack(lay(of)).paints, ...number(n, count)] };
};

/** A place for a punched hole, top centre, in the margin (punched in the film beside the sheet a pouch stays sealed: common practice, no source). */
export const holeOf = (page: Page, sheetWidth: number, margin: number, colour: string): readonly Paint[] => {
  if (page.finish !== 'laminated') return [];
  const diameter = 6 * MM;
  return put(sheetWidth / 2 - diameter / 2, (margin - diameter) / 2, holeRing(diameter, colour));
};

/** White between head, content and foot. */
export const around = (setting: Setting): number => space(setting, 0.5);
