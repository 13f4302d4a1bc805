/**
 * The seam around pdfkit 0.20: opens a tagged PDF/UA-1 document, mends what the library lacks, and collects its bytes.
 * The only file that imports it; the version is pinned, and each seam says what it was checked against.
 */
import PDFDocument from 'pdfkit';
import type { EmbeddableFont } from './faces.js';
import { remembering } from './remembering.js';

/** What is asked of pdfkit beyond its documented interface, and what its published types lack. Checked against 0.20.2. */
export interface Kit {
  readonly page: { readonly fonts: Record<string, unknown>; readonly height: number; write(operators: Uint8Array): void };
  readonly outline: Outline;
  readonly _root: { readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } } };
  info: Record<string, unknown>;
  subset: number | string;
  _font: KitFont;
  _offset: number;
  flushPages(): void;
  ref(data?: Record<string, unknown>): Reference;
  push(chunk: Uint8Array | null): boolean;
  _write(data: Uint8Array | string): void;
  addPage(options: { size: readonly [number, number]; margin: number }): Kit;
  addContent(operators: string): Kit;
  font(font: EmbeddableFont): Kit;
  save(): Kit;
  restore(): Kit;
  translate(x: number, y: number): Kit;
  scale(factor: number): Kit;
  path(d: string): Kit;
  clip(): Kit;
  fill(colour: string, rule?: 'even-odd' | 'non-zero'): Kit;
  stroke(colour: string): Kit;
  fillAndStroke(fill: string, stroke: string): Kit;
  lineWidth(width: number): Kit;
  dash(lengths: readonly number[]): Kit;
  openImage(bytes: Uint8Array): OpenImage;
  image(image: OpenImage, x: number, y: number, size: { width: number; height: number }): Kit;
  moveTo(x: number, y: number): Kit;
  lineTo(x: number, y: number): Kit;
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): Kit;
  quadraticCurveTo(ax: number, ay: number, x: number, y: number): Kit;
  fillColor(colour: string): Kit;
  markContent(tag: 'Artifact', options?: { type: string }): Kit;
  markStructureContent(tag: string, options?: { lang?: string; actual?: string }): Content;
  endMarkedContent(): Kit;
  struct(tag: string, options: { alt?: string; actual?: string; lang?: string }): StructElement;
  addStructure(element: StructElement): Kit;
  endMetadata(): void;
  on(event: 'data', listener: (chunk: Uint8Array) => void): Kit;
  on(event: 'end', listener: () => void): Kit;
  on(event: 'error', listener: (fault: Error) => void): Kit;
  end(): void;
}

interface KitFont {
  readonly id: string;
  ref(): unknown;
  readonly font: EmbeddableFont;
  readonly subset: { includeGlyph(id: number): number };
  /** Of the subset's glyphs. */
  readonly widths: (number | undefined)[];
  readonly unicode: (readonly number[] | undefined)[];
  encode(text: string): readonly [readonly string[], readonly Position[]];
  embed(): void;
}

interface Reference {
  readonly data: Record<string, unknown>;
  compress: boolean;
  end(bytes?: Uint8Array): void;
}

export interface Position {
  readonly xAdvance: number;
  readonly advanceWidth: number;
}

/** A picture that pdfkit has read, to be placed as often as needed. */
export interface OpenImage {
  readonly label: string;
}

/** pdfkit's note of marked content, to be added to its element. */
export type Content = { readonly refs: readonly unknown[] };

export interface StructElement {
  readonly dictionary: { readonly data: Record<string, unknown> };
  add(child: StructElement | Content): StructElement;
  end(): void;
}

export interface Outline {
  addItem(title: string, options: { fit: false; top: number; left: number; expanded: true }): Outline;
}

const escapeXml = (text: string): string => text.replace(/[&<>]/g, (c) => (c === '&' ? '&amp;' : c === '<' ? '&lt;' : '&gt;'));

/**
 * Seam: where its part of a standard is the number 1, pdfkit writes a CIDSet, which PDF/A-1 wants; it leaves out the parts of composed letters,
 * so that PDF/UA-1 7.21.4.2 is broken. PDF/UA needs none, and the part is written into the metadata all the same.
 */
const withoutCidSet = (doc: Kit): void => {
  doc.subset = String(doc.subset);
};

/** Seam: viewers are asked to print at true size, since shrinking to fit a printer's margins would put type under its legible floor. */
const printAtTrueSize = (doc: Kit): void => {
  doc._root.data.ViewerPreferences.data.PrintScaling = 'None';
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

/** Seam: pdfkit embeds bytes anew each time that they are opened; a picture on every sheet is embedded once. */
const embedOnce = (doc: Kit): void => {
  const opened = new Map<Uint8Array, OpenImage>();
  const openImage = doc.openImage.bind(doc);
  doc.openImage = (bytes) => {
    const known = opened.get(bytes) ?? openImage(bytes);
    opened.set(bytes, known);
    return known;
  };
};

const latin1 = (text: string): Uint8Array => Buffer.from(text, 'latin1');

/** Seam: pdfkit makes bytes of every operator and of every line of the file by itself; those of a page, and those between two streams, are joined first. */
const joinLines = (doc: Kit): void => {
  let operators = '';
  const flushPages = doc.flushPages.bind(doc);
  doc.addContent = (more) => {
    operators += `${more}\n`;
    return doc;
  };
  doc.flushPages = () => {
    if (operators !== '') doc.page.write(latin1(operators));
    operators = '';
    flushPages();
  };
  let lines = '';
  const push = doc.push.bind(doc);
  doc.push = (chunk) => {
    if (lines !== '') push(latin1(lines));
    lines = '';
    return push(chunk);
  };
  doc._write = (data) => {
    if (typeof data === 'string') lines += `${data}\n`;
    else doc.push(data);
    doc._offset += data.length + (typeof data === 'string' ? 1 : 0);
  };
};

/** Operators of paths that documents drew, by how they were written. A chain's icons and frames are the same on every sheet. */
const rememberDrawn = remembering<string>(2000);

/** Seam: pdfkit reads a path anew each time that it is drawn; where it stands and its scale are operators before it, so its own stay the same. */
const rememberPaths = (doc: Kit): void => {
  const path = doc.path.bind(doc);
  const add = doc.addContent.bind(doc);
  const operatorsOf = (d: string): string => {
    const made: string[] = [];
    doc.addContent = (operators) => (made.push(operators), doc);
    path(d);
    doc.addContent = add;
    return made.join('\n');
  };
  doc.path = (d) => doc.addContent(rememberDrawn(d, () => operatorsOf(d)));
};

/** Runs something for each font of a document when it is opened. */
const onOpening = (doc: Kit, act: (opened: KitFont) => void): void => {
  const met = new Set<KitFont>();
  const font = doc.font.bind(doc);
  doc.font = (chosen) => {
    font(chosen);
    if (!met.has(doc._font)) act(doc._font);
    met.add(doc._font);
    return doc;
  };
};

/** Seam: pdfkit lays out each word anew in each document and scales it in place, by 1 for our fonts; their shapes are taken as they are remembered. */
const encodeShapes = (doc: Kit): void =>
  onOpening(doc, (opened) => {
    const encode = opened.encode.bind(opened);
    const { font, subset, widths, unicode } = opened;
    opened.encode = (text) => {
      // It parts a text at its spaces.
      if (text !== ' ' && /^$|[ \t]/.test(text)) return encode(text);
      const { glyphs, positions } = font.layout(text);
      const codes = glyphs.map(({ id, advanceWidth, codePoints }) => {
        const glyph = subset.includeGlyph(id);
        widths[glyph] ??= advanceWidth;
        unicode[glyph] ??= codePoints;
        return glyph.toString(16).padStart(4, '0');
      });
      return [codes, glyphs.map(({ advanceWidth }, i) => ({ xAdvance: positions[i]?.xAdvance ?? advanceWidth, advanceWidth }))];
    };
  });

/** Files of fonts as pdfkit compressed them. */
const packed = new WeakMap<Uint8Array, Uint8Array>();

/** Seam: pdfkit compresses a font's file anew in each document; it takes what it made of the same file before. */
const packFontsOnce = (doc: Kit): void => {
  const ref = doc.ref.bind(doc);
  const fileOfFont = (): Reference => {
    const made = ref();
    const end = made.end.bind(made);
    made.end = (bytes = new Uint8Array()) => {
      const known = packed.get(bytes);
      if (known) {
        made.compress = false;
        Object.assign(made.data, { Length: 0, Filter: 'FlateDecode' });
        return void end(known);
      }
      const write = doc._write.bind(doc);
      doc._write = (data) => {
        if (typeof data !== 'string') packed.set(bytes, data);
        write(data);
      };
      end(bytes);
      doc._write = write;
    };
    return made;
  };
  onOpening(doc, (opened) => {
    const embed = opened.embed.bind(opened);
    opened.embed = () => {
      // The first object that a font opens is its file.
      doc.ref = (...data) => {
        doc.ref = ref;
        return data.length === 0 ? fileOfFont() : ref(...data);
      };
      embed();
    };
  });
};

export interface DocumentTraits {
  readonly title: string;
  /** BCP 47. */
  readonly lang: string;
  /** The font is loaded first: a document starts with one. */
  readonly font: EmbeddableFont;
}

/** Every file carries one date, so that equal pages are equal bytes; the edition's own date is on the page. */
const CREATED = new Date(Date.UTC(2000, 0, 1));

/**
 * Opens a document; `bytes` settles after `doc.end()`.
 * @param quick false to let pdfkit write by itself what the seams for speed write for it: the bytes are the same.
 */
export const openDocument = (
  { title, lang, font }: DocumentTraits,
  quick = true,
): { readonly doc: Kit; readonly bytes: Promise<Uint8Array> } => {
  const options = {
    pdfVersion: '1.7',
    subset: 'PDF/UA',
    tagged: true,
    lang,
    displayTitle: true,
    autoFirstPage: false,
    font,
    info: { Title: title, Producer: 'nightrail', Creator: 'nightrail', CreationDate: CREATED },
  };
  const doc = new PDFDocument(options as unknown as PDFKit.PDFDocumentOptions) as unknown as Kit;
  withoutCidSet(doc);
  printAtTrueSize(doc);
  escapeMetadata(doc);
  mendQuadratics(doc);
  embedOnce(doc);
  if (quick) for (const seam of [joinLines, rememberPaths, encodeShapes, packFontsOnce]) seam(doc);
  const chunks: Uint8Array[] = [];
  const bytes = new Promise<Uint8Array>((resolve, reject) => {
    doc.on('data', (chunk) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
  });
  return { doc, bytes };
};
