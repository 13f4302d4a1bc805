/**
 * Sheets to a tagged PDF (1.7, PDF/UA-1): marked content page by page, then the tag tree in reading order, and bookmarks.
 */
import { drawingPaints } from './drawing-paints.js';
import type { FaceName, Faces } from './faces.js';
import { openDocument, type Content, type Kit, type Outline, type StructElement } from './pdfkit.js';
import { paintOn } from './paint.js';
import type { Element, Paint, Sheet } from './sheet.js';
import type { Palette } from './theme.js';

/** Where the paint of an element went: its marked content, and the box of a figure. */
interface Painted {
  readonly contents: Content[];
  box?: readonly number[];
}

const round = (n: number): number => Math.round(n * 1000) / 1000;

/** Left, bottom, right, top in the page's own coordinates. */
const boxOf = (paint: Extract<Paint, { kind: 'drawing' }>, sheet: Sheet): readonly number[] => {
  const { drawing, scale, x, y } = paint;
  return [x, sheet.height - y - drawing.height * scale, x + drawing.width * scale, sheet.height - y].map(round);
};

/** What a stretch of marked content belongs to and reads as. Stretches never nest: readers lose what follows an inner one. */
interface Marked {
  readonly of?: Element;
  readonly lang?: string;
  readonly actual?: string;
}

const markedOf = (paint: Paint): Marked => {
  const { of } = paint;
  if (!of || paint.kind !== 'text') return of ? { of } : {};
  const { lang, actual } = paint;
  return { of, ...(lang === undefined ? {} : { lang }), ...(actual === undefined ? {} : { actual }) };
};

const mark = (doc: Kit, { of, ...traits }: Marked, painted: Map<Element, Painted>): void => {
  if (!of) return void doc.markContent('Artifact', { type: 'Layout' });
  const known = painted.get(of) ?? { contents: [] };
  // pdfkit writes these traits for a Span alone; the structure says what the content is.
  known.contents.push(doc.markStructureContent(Object.keys(traits).length > 0 ? 'Span' : of.tag, traits));
  painted.set(of, known);
};

export const paintSheet = (doc: Kit, sheet: Sheet, faces: Faces, palette: Palette, painted: Map<Element, Painted>): void => {
  doc.addPage({ size: [round(sheet.width), round(sheet.height)], margin: 0 });
  let current: Marked | undefined;
  for (const paint of sheet.paints) {
    const next = markedOf(paint);
    if (!current || next.of !== current.of || next.lang !== current.lang || next.actual !== current.actual) {
      if (current) doc.endMarkedContent();
      mark(doc, next, painted);
      current = next;
    }
    if (paint.of && paint.kind === 'drawing') (painted.get(paint.of) as Painted).box = boxOf(paint, sheet);
    paintOn(doc, faces, palette, paint);
  }
  if (current) doc.endMarkedContent();
};

/** Attributes that pdfkit has no options for (list numbering, column spans) or whose owners it mixes up (a box and a scope). */
const attributesOf = (
  { tag, numbering, scope, span }: Element,
  box: readonly number[] | undefined,
): Record<string, unknown> | undefined => {
  if (tag === 'L') return { O: 'List', ListNumbering: numbering ?? 'None' };
  if (scope !== undefined || span !== undefined) return { O: 'Table', Scope: scope, ColSpan: span };
  return box ? { O: 'Layout', Placement: 'Block', BBox: box } : undefined;
};

/** A row keeps its columns, and a document is one. */
const KEPT_EMPTY: ReadonlySet<Element['tag']> = new Set(['TD', 'TH', 'Document']);

/** The tag tree in reading order. Elements that came to hold nothing are left out. */
const structureOf = (doc: Kit, made: Element, painted: ReadonlyMap<Element, Painted>): readonly StructElement[] => {
  const own = painted.get(made);
  const kids = made.kids.flatMap((kid) => structureOf(doc, kid, painted));
  if (!own && kids.length === 0 && !KEPT_EMPTY.has(made.tag)) return [];
  const { alt, actual, lang } = made;
  const struct = doc.struct(made.tag, {
    ...(alt === undefined ? {} : { alt }),
    ...(actual === undefined ? {} : { actual }),
    ...(lang === undefined ? {} : { lang }),
  });
  const attributes = attributesOf(made, own?.box);
  if (attributes) struct.dictionary.data.A = attributes;
  for (const content of own?.contents ?? []) struct.add(content);
  for (const kid of kids) struct.add(kid);
  struct.end();
  return [struct];
};

interface Bookmark {
  readonly level: number;
  readonly item: Outline;
}

/** Adds a sheet's bookmarks, nested by level; `open` holds those that a deeper one would go under, outermost first. */
const bookmark = (sheet: Sheet, outline: Outline, open: Bookmark[]): void => {
  for (const { level, text, y } of sheet.headings) {
    while ((open.at(-1)?.level ?? 0) >= level) open.pop();
    const parent = open.at(-1)?.item ?? outline;
    // pdfkit counts `left` from the right side.
    const item = parent.addItem(text, { fit: false, top: Math.max(0, round(y) - 6), left: sheet.width, expanded: true });
    open.push({ level, item });
  }
};

/** The characters that every document brings, used or not. */
const ASCII = Array.from({ length: 0x7e - 0x20 + 1 }, (_, i) => String.fromCodePoint(0x20 + i));

/**
 * Characters that each face brings: ASCII as a whole and what else is written, in order, so that most documents of a chain embed the same files of fonts,
 * which are made once, and are there once in what a print shop gets.
 */
const alphabetsOf = (sheets: readonly Sheet[], faces: Faces, palette: Palette): ReadonlyMap<FaceName, readonly string[]> => {
  const used = new Map<FaceName, Set<string>>();
  const meet = (paint: Paint): void => {
    if (paint.kind === 'drawing') drawingPaints(paint, faces, palette).forEach(meet);
    if (paint.kind !== 'text') return;
    const met = used.get(paint.face) ?? new Set(ASCII);
    used.set(paint.face, met);
    for (const piece of paint.pieces) for (const character of piece) met.add(character);
  };
  for (const sheet of sheets) sheet.paints.forEach(meet);
  return new Map(
    [...used].map(([name, met]) => [name, [...met].filter((c) => faces[name].has(c.codePointAt(0) as number)).sort()]),
  );
};

export interface PdfDocument {
  readonly title: string;
  readonly lang: string;
  readonly root: Element;
  readonly sheets: readonly Sheet[];
}

/**
 * Writes the file.
 * @returns its bytes: the same for the same document, faces and Node binary.
 */
export const writePdf = ({ title, lang, root, sheets }: PdfDocument, faces: Faces, palette: Palette): Promise<Uint8Array> => {
  const { doc, bytes } = openDocument({ title, lang, font: faces.regular.font });
  const alphabets = alphabetsOf(sheets, faces, palette);
  // The names of fonts depend on the order in which they are loaded.
  for (const face of ['regular', 'strong', 'heavy'] as const) {
    doc.font(faces[face].font);
    for (const character of alphabets.get(face) ?? []) doc._font.encode(character);
  }
  const painted = new Map<Element, Painted>();
  const open: Bookmark[] = [];
  for (const sheet of sheets) {
    paintSheet(doc, sheet, faces, palette, painted);
    bookmark(sheet, doc.outline, open);
  }
  for (const tree of structureOf(doc, root, painted)) doc.addStructure(tree);
  doc.end();
  return bytes;
};
