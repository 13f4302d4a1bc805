/**
 * A figure as SVG: one picture with a title and a description from its text alternative, drawn in the light colours of print on any ground.
 */
import { textOf } from '../base/run.js';
import type { Drawing, Mark } from '../draw/drawing.js';
import { controlIn, printable } from './characters.js';
import { paletteOf, type Palette } from './theme.js';

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text for HTML and SVG, in elements and quoted attributes. Controls are refused: they were to be found before (print/check). */
export const escapeMarkup = (text: string): string => {
  const control = controlIn(text);
  if (control !== undefined) throw new Error(`control character ${control.codePointAt(0)} in text for print`);
  return printable(text).replace(/[&<>"]/g, (c) => ENTITIES[c] as string);
};

const number = (n: number): string => String(Math.round(n * 100) / 100);

const attributes = (pairs: Readonly<Record<string, string | undefined>>): string =>
  Object.entries(pairs)
    .map(([name, value]) => (value === undefined ? '' : ` ${name}="${escapeMarkup(value)}"`))
    .join('');

const markToSvg = (mark: Mark, palette: Palette): string => {
  if (mark.mark === 'path') {
    const { d, fill, stroke, width, dash } = mark;
    return `<path${attributes({
      d,
      fill: fill === undefined ? 'none' : palette.shape(fill),
      stroke: stroke === undefined ? undefined : palette.shape(stroke),
      'stroke-width': width === undefined ? undefined : number(width),
      'stroke-dasharray': dash === undefined ? undefined : dash.map(number).join(' '),
    })}/>`;
  }
  const { x, y, text, size, width, strong, anchor, tone } = mark;
  return `<text${attributes({
    x: number(x),
    y: number(y),
    'font-size': number(size),
    'font-weight': strong ? '700' : undefined,
    'text-anchor': anchor === 'start' ? undefined : anchor,
    // A phone lacks our face: whatever stands in takes the room that was measured, and no label runs into another.
    textLength: width ? number(width) : undefined,
    lengthAdjust: width ? 'spacingAndGlyphs' : undefined,
    fill: palette.text(tone),
  })}>${escapeMarkup(text)}</text>`;
};

/** The first sentence names the picture, the others describe it. */
const titleAndRest = (alt: string): readonly [string, string] => {
  const match = /^.*?[.!?](?=\s)/s.exec(alt);
  return match ? [match[0], alt.slice(match[0].length).trim()] : [alt, ''];
};

/**
 * @param palette colours of the page; ink on paper unless told.
 * @param id unique in its document; the drawing's name unless told.
 */
export const drawingToSvg = (drawing: Drawing, palette: Palette = paletteOf('#111111'), id: string = drawing.name): string => {
  const [title, rest] = titleAndRest(textOf(drawing.alt));
  const { width, height } = drawing;
  const lang = drawing.alt[0]?.lang;
  const open = attributes({
    xmlns: 'http://www.w3.org/2000/svg',
    role: 'img',
    lang,
    // A title alone would be read twice, as name and as description.
    'aria-label': rest === '' ? title : undefined,
    'aria-labelledby': rest === '' ? undefined : `${id}-title`,
    'aria-describedby': rest === '' ? undefined : `${id}-desc`,
    viewBox: `0 0 ${number(width)} ${number(height)}`,
    width: number(width),
    height: number(height),
    'font-family': "'Atkinson Hyperlegible Next', system-ui, sans-serif",
  });
  return [
    `<svg${open}>`,
    ...(rest === ''
      ? []
      : [
          `<title id="${escapeMarkup(id)}-title">${escapeMarkup(title)}</title>`,
          `<desc id="${escapeMarkup(id)}-desc">${escapeMarkup(rest)}</desc>`,
        ]),
    ...drawing.marks.map((mark) => markToSvg(mark, palette)),
    '</svg>',
  ].join('\n');
};
