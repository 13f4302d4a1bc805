/**
 * Sheets to a tagged PDF (PDF 1.7, PDF/UA-1): the one file that knows pdfkit.
 * It paints with text operators of its own, so that what was measured is what is written, and mends what pdfkit 0.20 lacks (see the seams below).
 */
import PDFDocument from 'pdfkit';
import { drawingPaints } from './drawing-paints.js';
import type { EmbeddableFont, FaceName, Faces } from './faces.js';
import type { Element, Paint, Sheet } from './sheet.js';
import type { Palette } from './theme.js';

/** What is asked of pdfkit beyond its documented interface, and what its published types lack. Checked against 0.20.2. */
interface Kit {
  readonly page: { readonly fonts: Record<string, unknown>; readonly height: number };
  readonly outline: Outline;
  info: Record<string, unknown>;
  subset: number | string;
  _font: { readonly id: string; ref(): unknown; encode(text: string): readonly [readonly string[], readonly Position[]] };
  addPage(options: { size: readonly [number, number]; margin: number }): Kit;
  addContent(operators: string): Kit;
  font(font: EmbeddableFont): Kit;
  save(): Kit;
  restore(): Kit;
  translate(x: number, y: number): Kit;
  scale(factor: number): Kit;
  path(d: string): Kit;
  fill(colour: string): Kit;
  stroke(colour: string): Kit;
  fillAndStroke(fill: string, stroke: string): Kit;
  lineWidth(width: number): Kit;
  dash(lengths: readonly number[]): Kit;
  image(bytes: Uint8Array, x: number, y: number, size: { width: number; height: number }): Kit;
  moveTo(x: number, y: number): Kit;
  lineTo(x: number, y: number): Kit;
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): Kit;
  quadraticCurveTo(ax: number, ay: number, x: number, y: number): Kit;
  fillColor(colour: string): Kit;
  markContent(tag: 'Artifact', options?: { type: string }): Kit;
  markStructureContent(tag: string): Content;
  endMarkedContent(): Kit;
  struct(tag: string, options: { alt?: string; actual?: string; lang?: string }): StructElement;
  addStructure(element: StructElement): Kit;
  endMetadata(): void;
  on(event: 'data', listener: (chunk: Uint8Array) => void): Kit;
  on(event: 'end', listener: () => void): Kit;
  on(event: 'error', listener: (fault: Error) => void): Kit;
  end(): void;
}

interface Position {
  readonly xAdvance: number;
  readonly advanceWidth: number;
}

/** pdfkit's note of marked content, to be added to its element. */
type Content = { readonly refs: readonly unknown[] };

interface StructElement {
  readonly dictionary: { readonly data: Record<string, unknown> };
  add(child: StructElement | Content): StructElement;
  end(): void;
}

interface Outline {
  addItem(title: string, options: { fit: false; top: number; left: number; expanded: true }): Outline;
}

export interface Document {
  readonly title: string;
  readonly lang: string;
  readonly root: Element;
  readonly sheets: readonly Sheet[];
}

/** Every file carries one date, so that equal pages are equal bytes; the edition's own date is on the page. */
const CREATED = new Date(Date.UTC(2000, 0, 1));

const round = (n: number): number => Math.round(n * 1000) / 1000;
const escapeXml = (text: string): string => text.replace(/[&<>]/g, (c) => (c === '&' ? '&amp;' : c === '<' ? '&lt;' : '&gt;'));

/** Text in a PDF string: UTF-16 with a byte order mark, in hexadecimal. */
const utf16 = (text: string): string =>
  `<FEFF${[...Array(text.length).keys()].map((i) => text.charCodeAt(i).toString(16).padStart(4, '0')).join('')}>`;

/**
 * Seam: where its part of a standard is the number 1, pdfkit writes a CIDSet, which PDF/A-1 wants; it leaves out the parts of composed letters,
 * so that PDF/UA-1 7.21.4.2 is broken. PDF/UA needs none, and the part is written into the metadata all the same.
 */
const withoutCidSet = (doc: Kit): void => {
  doc.subset = String(doc.subset);
};

/** Seam: pdfkit writes the title into XMP as it is; it must be escaped as XML. */
const escapeMetadata = (doc: Kit): void => {
  const endMetadata = doc.endMetadata.bind(doc);
  doc.endMetadata = () => {
    const { info } = doc;
    doc.info = { ...info, Title: escapeXml(String(info.Title)) };
    endMetadata();
    doc.info = info;
  };
};

/** Seam: pdfkit writes a quadratic curve with the operator `v`, which is another curve; it is written as the cubic that equals it. */
const mendQuadratics = (doc: Kit): void => {
  let pen = { x: 0, y: 0 };
  const moveTo = doc.moveTo.bind(doc);
  const lineTo = doc.lineTo.bind(doc);
  const bezierCurveTo = doc.bezierCurveTo.bind(doc);
  doc.moveTo = (x, y) => ((pen = { x, y }), moveTo(x, y));
  doc.lineTo = (x, y) => ((pen = { x, y }), lineTo(x, y));
  doc.bezierCurveTo = (ax, ay, bx, by, x, y) => ((pen = { x, y }), bezierCurveTo(ax, ay, bx, by, x, y));
  doc.quadraticCurveTo = (ax, ay, x, y) => {
    const third = (from: number, control: number): number => from + (2 / 3) * (control - from);
    return doc.bezierCurveTo(third(pen.x, ax), third(pen.y, ay), third(x, ax), third(y, ay), x, y);
  };
};

class Painter {
  constructor(
    private readonly doc: Kit,
    private readonly faces: Faces,
    private readonly palette: Palette,
  ) {}

  private select(face: FaceName): Kit['_font'] {
    this.doc.font(this.faces[face].font);
    const font = this.doc._font;
    this.doc.page.fonts[font.id] ??= font.ref();
    return font;
  }

  private text(paint: Extract<Paint, { kind: 'text' }>): void {
    const font = this.select(paint.face);
    const shown: string[] = [];
    let open = '';
    const close = (kern: number): void => {
      if (open !== '') shown.push(`<${open}>`);
      if (kern !== 0) shown.push(String(round(-kern)));
      open = '';
    };
    // Words and spaces are shaped one by one, as they were measured.
    for (const part of paint.pieces.flatMap((piece) => piece.split(/( )/))) {
      if (part === '') continue;
      const [codes, positions] = font.encode(part);
      codes.forEach((code, i) => {
        const { xAdvance, advanceWidth } = positions[i] as Position;
        open += code;
        if (round(xAdvance - advanceWidth) !== 0) close(xAdvance - advanceWidth);
      });
    }
    close(0);
    const span = paint.lang === undefined ? '' : `/Span <</Lang (${paint.lang})>> BDC\n`;
    this.doc.fillColor(paint.colour);
    const place = `1 0 0 -1 ${round(paint.x)} ${round(paint.y)} Tm /${font.id} ${round(paint.size)} Tf`;
    // A hyphen that only the line's end put there reads as a soft hyphen.
    const hyphen = paint.hyphen
      ? `\n/Span <</ActualText ${utf16('\u00AD')}>> BDC\n<${font.encode('-')[0].join('')}> Tj\nEMC`
      : '';
    this.doc.addContent(`${span}BT\n${place}\n[${shown.join(' ')}] TJ${hyphen}\nET${span === '' ? '' : '\nEMC'}`);
  }

  private path(paint: Extract<Paint, { kind: 'path' }>): void {
    const { doc } = this;
    doc.save().translate(round(paint.x), round(paint.y));
    if (paint.scale !== undefined) doc.scale(paint.scale);
    if (paint.width !== undefined) doc.lineWidth(paint.width);
    if (paint.dash && paint.dash.length > 0) doc.dash(paint.dash);
    doc.path(paint.d);
    if (paint.fill !== undefined && paint.stroke !== undefined) doc.fillAndStroke(paint.fill, paint.stroke);
    else if (paint.fill !== undefined) doc.fill(paint.fill);
    else if (paint.stroke !== undefined) doc.stroke(paint.stroke);
    doc.restore();
  }

  paint(paint: Paint): void {
    switch (paint.kind) {
      case 'text':
        return this.text(paint);
      case 'path':
        return this.path(paint);
      case 'image':
        this.doc.image(paint.bytes, paint.x, paint.y, { width: paint.width, height: paint.height });
        return;
      case 'drawing':
        for (const part of drawingPaints(paint, this.faces, this.palette)) this.paint(part);
    }
  }
}

/** Where the paint of each element went: its marked content, and the box of a figure. */
interface Painted {
  readonly contents: Content[];
  box?: readonly number[];
}

const paintSheet = (doc: Kit, painter: Painter, sheet: Sheet, painted: Map<Element, Painted>): void => {
  doc.addPage({ size: [round(sheet.width), round(sheet.height)], margin: 0 });
  let current: Element | undefined | null = null;
  for (const paint of sheet.paints) {
    if (paint.of !== current) {
      if (current !== null) doc.endMarkedContent();
      current = paint.of;
      if (!current) doc.markContent('Artifact', { type: 'Layout' });
      else {
        const known = painted.get(current) ?? { contents: [] };
        known.contents.push(doc.markStructureContent(current.tag));
        painted.set(current, known);
      }
    }
    if (paint.kind === 'drawing' && paint.of) {
      const { drawing, scale, x, y } = paint;
      const box = [x, sheet.height - y - drawing.height * scale, x + drawing.width * scale, sheet.height - y];
      (painted.get(paint.of) as Painted).box = box.map(round);
    }
    painter.paint(paint);
  }
  if (current !== null) doc.endMarkedContent();
};

/** Seam: pdfkit has no list numbering, no column spans, and mixes up the owners of a box and a scope; attributes are written here. */
const attributesOf = (made: Element, box: readonly number[] | undefined): Record<string, unknown> | undefined => {
  if (made.tag === 'L') return { O: 'List', ListNumbering: made.numbering ?? 'None' };
  if (made.scope !== undefined || made.span !== undefined) return { O: 'Table', Scope: made.scope, ColSpan: made.span };
  return box ? { O: 'Layout', Placement: 'Block', BBox: box } : undefined;
};

/** The tag tree in reading order. Elements that came to hold nothing are left out, table cells excepted. */
const structureOf = (doc: Kit, made: Element, painted: ReadonlyMap<Element, Painted>): StructElement | undefined => {
  const own = painted.get(made);
  const kids = made.kids.flatMap((kid) => structureOf(doc, kid, painted) ?? []);
  if (!own && kids.length === 0 && made.tag !== 'TD' && made.tag !== 'TH') return undefined;
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
  return struct;
};

/** Bookmarks of a sheet, nested by level; `open` holds the bookmarks that a deeper one would go under, outermost first. */
const bookmark = (sheet: Sheet, outline: Outline, open: { readonly level: number; readonly item: Outline }[]): void => {
  for (const { level, text, y } of sheet.headings) {
    while ((open.at(-1)?.level ?? 0) >= level) open.pop();
    const parent = open.at(-1)?.item ?? outline;
    // pdfkit counts `left` from the right side.
    const item = parent.addItem(text, { fit: false, top: Math.max(0, y - 6), left: sheet.width, expanded: true });
    open.push({ level, item });
  }
};

/**
 * Writes the file.
 * @returns its bytes: the same for the same document, faces and Node binary.
 */
export const writePdf = (document: Document, faces: Faces, palette: Palette): Promise<Uint8Array> => {
  const options = {
    pdfVersion: '1.7',
    subset: 'PDF/UA',
    tagged: true,
    lang: document.lang,
    displayTitle: true,
    autoFirstPage: false,
    font: faces.regular.font,
    info: { Title: document.title, Producer: 'nightrail', Creator: 'nightrail', CreationDate: CREATED },
  };
  const doc = new PDFDocument(options as unknown as PDFKit.PDFDocumentOptions) as unknown as Kit;
  withoutCidSet(doc);
  escapeMetadata(doc);
  mendQuadratics(doc);
  // Font names depend on the order of loading.
  for (const face of ['strong', 'heavy'] as const) doc.font(faces[face].font);
  const chunks: Uint8Array[] = [];
  const bytes = new Promise<Uint8Array>((resolve, reject) => {
    doc.on('data', (chunk) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      chunks.reduce((at, chunk) => (whole.set(chunk, at), at + chunk.length), 0);
      resolve(whole);
    });
  });
  const painter = new Painter(doc, faces, palette);
  const painted = new Map<Element, Painted>();
  const open: { level: number; item: Outline }[] = [];
  for (const sheet of document.sheets) {
    paintSheet(doc, painter, sheet, painted);
    bookmark(sheet, doc.outline, open);
  }
  const root = structureOf(doc, document.root, painted);
  if (!root) throw new Error('a document without content has no tag tree');
  doc.addStructure(root);
  doc.end();
  return bytes;
};
