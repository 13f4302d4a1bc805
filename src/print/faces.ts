/**
 * The three font faces of a page, parsed once from bytes: what they can write, how wide a word is, and the font object that pdf.ts embeds.
 * The only file that knows fontkit. Shapes are remembered per face and word, so every document and every rung of the ladder shares them.
 */
import { create, type Font, type Glyph } from 'fontkit';
import type { TextWidth } from '../draw/drawing.js';
import { printable } from './characters.js';
import { remembering } from './remembering.js';

export type FaceName = 'regular' | 'strong' | 'heavy';

interface Shape {
  readonly glyphs: readonly Pick<Glyph, 'id' | 'advanceWidth' | 'codePoints'>[];
  /** Thousandths of an em. */
  readonly positions: readonly { xAdvance: number; yAdvance: number; xOffset: number; yOffset: number }[];
  readonly advanceWidth: number;
}

/** What pdfkit asks of a font; everything in thousandths of an em, whatever the file's own units are. */
export type EmbeddableFont = Omit<Font, 'layout' | 'characterSet' | 'glyphForCodePoint' | 'directory'> & {
  layout(text: string): Shape;
};

export interface Face {
  readonly name: FaceName;
  /** Height of a flat capital, em. */
  readonly capHeight: number;
  /** Depth of a descender below the baseline, em, positive. */
  readonly descent: number;
  has(codePoint: number): boolean;
  /** Of a character that it has and that is no space: whether it is drawn, and a figure as itself. */
  prints(codePoint: number): boolean;
  /** Width of a text set on one line, em. Spaces are measured as they are painted: unkerned. */
  width(text: string): number;
  readonly font: EmbeddableFont;
}

export type Faces = Readonly<Record<FaceName, Face>>;

const WORDS = 20000;
/** Files of one face with some of its glyphs: chains write their documents with the same few. */
const FILES = 64;

/** Subsets of a font that encode the same glyphs once. */
const subsetsOf = (font: Font): (() => ReturnType<Font['createSubset']>) => {
  const remember = remembering<Uint8Array>(FILES);
  return () => {
    const subset = font.createSubset();
    const encode = subset.encode.bind(subset);
    subset.encode = () => remember(subset.glyphs.join(), encode);
    return subset;
  };
};

const embeddable = (font: Font): EmbeddableFont => {
  const scale = 1000 / font.unitsPerEm;
  const remember = remembering<Shape>(WORDS);
  const glyph = (g: Glyph): Shape['glyphs'][number] => ({
    id: g.id,
    advanceWidth: g.advanceWidth * scale,
    codePoints: g.codePoints,
  });
  const shape = (text: string): Shape => {
    const run = font.layout(text);
    return {
      glyphs: run.glyphs.map(glyph),
      positions: run.positions.map((p) => ({
        xAdvance: p.xAdvance * scale,
        yAdvance: p.yAdvance * scale,
        xOffset: p.xOffset * scale,
        yOffset: p.yOffset * scale,
      })),
      advanceWidth: run.advanceWidth * scale,
    };
  };
  const { minX, minY, maxX, maxY } = font.bbox;
  return {
    postscriptName: font.postscriptName,
    unitsPerEm: 1000,
    ascent: font.ascent * scale,
    descent: font.descent * scale,
    lineGap: font.lineGap * scale,
    capHeight: font.capHeight * scale,
    xHeight: font.xHeight * scale,
    italicAngle: font.italicAngle,
    bbox: { minX: minX * scale, minY: minY * scale, maxX: maxX * scale, maxY: maxY * scale },
    'OS/2': font['OS/2'],
    post: font.post,
    head: font.head,
    hasGlyphForCodePoint: (codePoint) => font.hasGlyphForCodePoint(codePoint),
    getGlyph: (id) => ({ ...font.getGlyph(id), advanceWidth: font.getGlyph(id).advanceWidth * scale }),
    createSubset: subsetsOf(font),
    layout: (text) => remember(text, () => shape(text)),
  };
};

/**
 * fontkit keeps the first glyph object that it makes of each glyph, with the characters that it was made for: a letter first met as a part of
 * another one (the n of ñ) would have none, and read as nothing. So every character's glyph is made before anything is shaped.
 */
const meetEveryGlyph = (font: Font): Font => {
  for (const codePoint of font.characterSet) font.glyphForCodePoint(codePoint);
  return font;
};

/** @throws when the bytes are not one font. */
const parse = (bytes: Uint8Array): Font => {
  const font = create(bytes);
  if ('fonts' in font) throw new Error('a collection of fonts');
  return meetEveryGlyph(font);
};

const FLAT_CAPITAL = 'H';

/** The names of figures in the Adobe Glyph List: a font whose 4 leads to the glyph called six would print other times. */
const FIGURES = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** Whether a character leads to an outline of finite numbers, and a figure to no other one. An outline that can't be read is none. */
const prints = (font: Font, codePoint: number): boolean => {
  try {
    const { path, bbox, name = '' } = font.glyphForCodePoint(codePoint);
    const figure = FIGURES[codePoint - '0'.charCodeAt(0)];
    const [called = ''] = name.split('.');
    if (figure !== undefined && FIGURES.includes(called) && called !== figure) return false;
    return path.commands.length > 0 && Object.values(bbox).every(Number.isFinite) && bbox.maxX > bbox.minX;
  } catch {
    return false;
  }
};

const makeFace = (name: FaceName, bytes: Uint8Array): Face => {
  const parsed = parse(bytes);
  const font = embeddable(parsed);
  // A character may be listed and lead to glyph 0, "not defined" (OpenType, cmap).
  const characters = new Set(parsed.characterSet.filter((codePoint) => parsed.glyphForCodePoint(codePoint).id !== 0));
  const wordWidth = (word: string): number => (word === '' ? 0 : font.layout(word).advanceWidth / 1000);
  return {
    name,
    // Measured: what the file says of itself may be missing or wrong, and legible floors hang on it.
    capHeight: parsed.glyphForCodePoint(FLAT_CAPITAL.charCodeAt(0)).bbox.maxY / parsed.unitsPerEm,
    descent: -font.descent / 1000,
    has: (codePoint) => characters.has(codePoint),
    prints: (codePoint) => prints(parsed, codePoint),
    width: (text) => {
      if (!text.includes(' ')) return wordWidth(text);
      const words = text.split(' ');
      return words.reduce((sum, word) => sum + wordWidth(word), (words.length - 1) * wordWidth(' '));
    },
    font,
  };
};

/** Why a font can't be used on a page. */
export type FontFault = 'font-unreadable' | 'font-not-truetype' | 'font-variable' | 'font-not-embeddable';

/** What is wrong with a font that somebody brought: every table that a page needs is read once, since a broken file may open well. */
export const fontFault = (bytes: Uint8Array): FontFault | undefined => {
  try {
    const font = parse(bytes);
    const { tables } = font.directory;
    if (!('glyf' in tables)) return 'font-not-truetype';
    if ('fvar' in tables) return 'font-variable';
    if (font['OS/2'].fsType.noEmbedding) return 'font-not-embeddable';
    const { font: face } = makeFace('regular', bytes);
    const subset = font.createSubset();
    for (const codePoint of font.characterSet) subset.includeGlyph(font.glyphForCodePoint(codePoint).id);
    subset.encode();
    face.layout(FLAT_CAPITAL);
    return undefined;
  } catch {
    return 'font-unreadable';
  }
};

/** Whether a face sets every one of some words: a broken file may open well, and fail at a pair of letters. */
export const canShape = (face: Face, words: readonly string[]): boolean => {
  try {
    new Set(words).forEach((word) => face.width(word));
    return true;
  } catch {
    return false;
  }
};

/**
 * Parses the faces of a page. Do it once and share them between documents.
 * @param bytes whole static TrueType fonts: for text, for strong text, and for the largest type.
 * @throws when the bytes are not a font: the program's fonts are broken, not the user's input.
 */
export const makeFaces = (bytes: Readonly<Record<FaceName, Uint8Array>>): Faces => ({
  regular: makeFace('regular', bytes.regular),
  strong: makeFace('strong', bytes.strong),
  heavy: makeFace('heavy', bytes.heavy),
});

/** Width of a text in points, for figures that keep their labels apart. */
export const textWidth =
  (faces: Faces): TextWidth =>
  (text, size, strong) =>
    faces[strong ? 'strong' : 'regular'].width(printable(text)) * size;
