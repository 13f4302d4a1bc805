/**
 * Paint to the operators of a PDF page. Text is written with operators of our own, so that what was measured is what is painted.
 */
import { rectangle } from '../draw/drawing.js';
import { drawingPaints } from './drawing-paints.js';
import type { FaceName, Faces } from './faces.js';
import type { Kit, Position } from './pdfkit.js';
import type { Paint } from './sheet.js';
import type { Palette } from './theme.js';

const round = (n: number): number => Math.round(n * 1000) / 1000;

type Text = Extract<Paint, { kind: 'text' }>;
type Path = Extract<Paint, { kind: 'path' }>;

const select = (doc: Kit, faces: Faces, face: FaceName): Kit['_font'] => {
  doc.font(faces[face].font);
  const font = doc._font;
  doc.page.fonts[font.id] ??= font.ref();
  return font;
};

/** Codes of words that a document's font has written, with the kerns between them: all of a hexadecimal string but its brackets. */
const written = new WeakMap<Kit['_font'], Map<string, string>>();

const codesOf = (font: Kit['_font'], word: string): string => {
  if (word === '') return '';
  const known = written.get(font) ?? new Map<string, string>();
  written.set(font, known);
  const before = known.get(word);
  if (before !== undefined) return before;
  const [codes, positions] = font.encode(word);
  const made = codes
    .map((code, i) => {
      const { xAdvance, advanceWidth } = positions[i] as Position;
      const kern = round(xAdvance - advanceWidth);
      return kern === 0 ? code : `${code}> ${-kern} <`;
    })
    .join('');
  known.set(word, made);
  return made;
};

/** Glyphs and the kerns between them, for the operator TJ. Words and spaces are shaped one by one, as they were measured. */
const shown = (font: Kit['_font'], pieces: readonly string[]): string => {
  let codes = '';
  for (const piece of pieces)
    if (piece === ' ' || !piece.includes(' ')) codes += codesOf(font, piece);
    else for (const word of piece.split(/( )/)) codes += codesOf(font, word);
  return `[${`<${codes}>`.replace(/ ?<>$/, '')}] TJ`;
};

const paintText = (doc: Kit, faces: Faces, text: Text): void => {
  const font = select(doc, faces, text.face);
  doc.fillColor(text.colour);
  const operators = [
    'BT',
    `/${font.id} ${round(text.size)} Tf`,
    // The page's y grows downwards; letters stand upright.
    `1 0 0 -1 ${round(text.x)} ${round(text.y)} Tm`,
    shown(font, text.pieces),
    'ET',
  ];
  doc.addContent(operators.join('\n'));
};

const paintPath = (doc: Kit, path: Path): void => {
  doc.save().translate(round(path.x), round(path.y));
  if (path.scale !== undefined) doc.scale(path.scale);
  if (path.width !== undefined) doc.lineWidth(path.width);
  if (path.dash && path.dash.length > 0) doc.dash(path.dash);
  doc.path(path.d);
  if (path.fill !== undefined && path.stroke !== undefined) doc.fillAndStroke(path.fill, path.stroke);
  else if (path.fill !== undefined) doc.fill(path.fill);
  else if (path.stroke !== undefined) doc.stroke(path.stroke);
  doc.restore();
};

const paintLogo = (doc: Kit, { x, y, scale, logo }: Extract<Paint, { kind: 'logo' }>): void => {
  doc.save().translate(round(x), round(y));
  if (logo.kind === 'image') {
    const size = { width: round(logo.width * scale), height: round(logo.height * scale) };
    doc.image(doc.openImage(logo.bytes), 0, 0, size);
  } else {
    doc
      .scale(scale)
      .path(rectangle(0, 0, logo.width, logo.height))
      .clip();
    for (const { d, fill, evenOdd } of logo.paths) doc.path(d).fill(fill, evenOdd ? 'even-odd' : 'non-zero');
  }
  doc.restore();
};

/** Paints on the document's current page, inside the marked content that is open. */
export const paintOn = (doc: Kit, faces: Faces, palette: Palette, paint: Paint): void => {
  switch (paint.kind) {
    case 'text':
      return void paintText(doc, faces, paint);
    case 'path':
      return void paintPath(doc, paint);
    case 'logo':
      return void paintLogo(doc, paint);
    case 'drawing':
      for (const part of drawingPaints(paint, faces, palette)) paintOn(doc, faces, palette, part);
  }
};
