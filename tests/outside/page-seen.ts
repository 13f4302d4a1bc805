/**
 * A PDF as it is seen: its sheets rendered by PDFium, its texts with their places by pdf.js. Lengths are points, y grows downwards from the sheet's top.
 */
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { open } from '../print/pdf-read.js';

export interface SeenText {
  readonly text: string;
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly width: number;
  readonly size: number;
  /** True for the label of a picture. */
  readonly label: boolean;
}

export interface SeenSheet {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly SeenText[];
  /** `#rrggbb` of every shape that is filled or stroked. */
  readonly shapes: ReadonlySet<string>;
  /** Colour of a point of the sheet, 0xrrggbb. */
  readonly at: (x: number, y: number) => number;
  /** Points between two dots of the picture. */
  readonly dot: number;
}

const hex = (colour: unknown): string => String(colour).toLowerCase();

const shapesOf = (list: { readonly fnArray: readonly number[]; readonly argsArray: readonly unknown[] }): ReadonlySet<string> => {
  const found = new Set<string>();
  const stack: { fill: string; stroke: string }[] = [];
  let now = { fill: '#000000', stroke: '#000000' };
  list.fnArray.forEach((fn, i) => {
    const args = list.argsArray[i] as readonly unknown[];
    if (fn === OPS.save) stack.push(now);
    else if (fn === OPS.restore) now = stack.pop() ?? now;
    else if (fn === OPS.setFillRGBColor) now = { ...now, fill: hex(args[0]) };
    else if (fn === OPS.setStrokeRGBColor) now = { ...now, stroke: hex(args[0]) };
    else if (fn === OPS.constructPath) {
      const paint = args[0] as number;
      if (paint === OPS.fill || paint === OPS.eoFill || paint === OPS.fillStroke) found.add(now.fill);
      if (paint === OPS.stroke || paint === OPS.fillStroke) found.add(now.stroke);
    }
  });
  return found;
};

/** @param dpi dots per inch of the picture */
export const seen = async (bytes: Uint8Array, dpi = 144): Promise<readonly SeenSheet[]> => {
  const library = await PDFiumLibrary.init();
  const pictures = await library.loadDocument(bytes);
  const doc = await open(new Uint8Array(bytes));
  const sheets: SeenSheet[] = [];
  for (let n = 1; n <= doc.numPages; n++) {
    const page = await doc.getPage(n);
    const [, , width, height] = page.view as [number, number, number, number];
    const texts: SeenText[] = [];
    const marks: string[] = [];
    for (const item of (await page.getTextContent({ includeMarkedContent: true })).items) {
      if ('type' in item) {
        if (item.type === 'endMarkedContent') marks.pop();
        else marks.push((item as { tag?: string }).tag ?? '');
      } else if (item.str.trim() !== '') {
        const [, , across = 0, up = 0, x = 0, y = 0] = item.transform as readonly number[];
        const size = Math.hypot(across, up);
        // A space at a line's end is there for readers only.
        const width = item.str.endsWith(' ') ? item.width - 0.2 * size : item.width;
        texts.push({ text: item.str.trim(), x, y: height - y, width, size, label: marks.at(-1) === 'Figure' });
      }
    }
    const { data, width: across, height: down } = await pictures.getPage(n - 1).render({ scale: dpi / 72, render: 'bitmap' });
    sheets.push({
      width,
      height,
      texts,
      shapes: shapesOf(await page.getOperatorList()),
      dot: 72 / dpi,
      at: (x, y) => {
        const column = Math.min(across - 1, Math.max(0, Math.floor((x * dpi) / 72)));
        const row = Math.min(down - 1, Math.max(0, Math.floor((y * dpi) / 72)));
        const i = 4 * (row * across + column);
        return ((data[i] ?? 0) << 16) | ((data[i + 1] ?? 0) << 8) | (data[i + 2] ?? 0);
      },
    });
  }
  pictures.destroy();
  library.destroy();
  return sheets;
};

/** `#rrggbb` of a packed colour. */
export const hexOf = (colour: number): string => `#${colour.toString(16).padStart(6, '0')}`;

/** The colours in a box of a sheet, with how many dots have each. */
export const coloursIn = (
  sheet: SeenSheet,
  left: number,
  top: number,
  right: number,
  bottom: number,
): ReadonlyMap<number, number> => {
  const found = new Map<number, number>();
  for (let y = top; y < bottom; y += sheet.dot)
    for (let x = left; x < right; x += sheet.dot) {
      const colour = sheet.at(x, y);
      found.set(colour, (found.get(colour) ?? 0) + 1);
    }
  return found;
};
