/**
 * Joins PDFs of ours into one for a print shop, page after page as they come: of all that went before it keeps numbers only.
 * What a printer needs is kept (pages, fonts, pictures); tags, links and outlines stay in the single documents.
 */
import { bytesOf, entry, pdfText, readPdf, type PdfFile, type PdfValue } from './pdf-objects.js';

export interface Joining {
  /** Adds a document. @param single each page starts on a front @returns its pages, without the empty ones */
  readonly add: (bytes: Uint8Array, single: boolean) => number;
  /** Pages so far, the empty ones too. */
  readonly pages: () => number;
  readonly finish: () => void;
}

/** Of a page, what a printer needs. */
const KEPT = ['/Type', '/MediaBox', '/CropBox', '/TrimBox', '/Contents', '/Resources', '/Rotate', '/UserUnit'];

/** So many shared objects are remembered; forgetting makes the file larger, nothing else. */
const REMEMBERED = 5000;

const CATALOG = 1;
const PAGES = 2;

/**
 * @param write takes the file's bytes in order
 * @param hash tells equal objects (a font that many documents embed) apart from others
 */
export const joinPdfs = (
  title: string,
  write: (bytes: Uint8Array) => void,
  hash: (content: Uint8Array | string) => string,
): Joining => {
  const offsets: number[] = [];
  const kids: number[] = [];
  let shared = new Map<string, number>();
  let length = 0;
  let next = PAGES + 1;
  const emit = (bytes: Uint8Array): void => {
    write(bytes);
    length += bytes.length;
  };
  const put = (number: number, text: string, stream?: Uint8Array): void => {
    offsets[number] = length;
    emit(bytesOf(`${number} 0 obj\n${text}\n`));
    if (stream) {
      emit(bytesOf('stream\n'));
      emit(stream);
      emit(bytesOf('\nendstream\n'));
    }
    emit(bytesOf('endobj\n'));
  };
  emit(bytesOf('%PDF-1.7\n%\u00ff\u00ff\u00ff\u00ff\n'));

  /** Copies an object and all below it; one that is there already, letter by letter, is used again. */
  const copier = (file: PdfFile) => {
    const copied = new Map<number, number>();
    const copy = (number: number): number => {
      const known = copied.get(number);
      if (known !== undefined) return known;
      const { value, stream } = file.object(number);
      const plain: PdfValue =
        stream && value.is === 'dict'
          ? { is: 'dict', entries: new Map([...value.entries, ['/Length', { is: 'atom', text: String(stream.length) }]]) }
          : value;
      const text = pdfText(plain, copy);
      const key = hash(stream ? `${text} ${hash(stream)}` : text);
      const same = shared.get(key);
      const target = same ?? next++;
      if (same === undefined) {
        put(target, text, stream);
        if (shared.size >= REMEMBERED) shared = new Map();
        shared.set(key, target);
      }
      copied.set(number, target);
      return target;
    };
    return copy;
  };

  const page = (entries: string): void => {
    const number = next++;
    put(number, `<<${entries} /Parent ${PAGES} 0 R>>`);
    kids.push(number);
  };

  const add: Joining['add'] = (bytes, single) => {
    const file = readPdf(bytes);
    const copy = copier(file);
    let box = '[0 0 612 792]';
    const toFront = (): void => {
      if (kids.length % 2 === 1) page(`/Type /Page /MediaBox ${box} /Resources <<>>`);
    };
    toFront();
    for (const [i, number] of file.pages.entries()) {
      if (single && i > 0) toFront();
      const { value } = file.object(number);
      const kept = KEPT.flatMap((key) => {
        const inner = entry(value, key);
        return inner ? [`${key} ${pdfText(inner, copy)}`] : [];
      });
      const media = entry(value, '/MediaBox');
      if (media) box = pdfText(media, copy);
      page(kept.join(' '));
    }
    toFront();
    return file.pages.length;
  };

  const finish = (): void => {
    put(PAGES, `<</Type /Pages /Count ${kids.length} /Kids [${kids.map((kid) => `${kid} 0 R`).join(' ')}]>>`);
    // Only plain letters: what the title names are ids of ours.
    const info = next++;
    put(info, `<</Title (${title.replace(/[^ -~]|[\\()]/g, ' ')})>>`);
    put(CATALOG, `<</Type /Catalog /Pages ${PAGES} 0 R /ViewerPreferences <</PrintScaling /None /Duplex /DuplexFlipLongEdge>>>>`);
    const start = length;
    emit(bytesOf(`xref\n0 ${next}\n0000000000 65535 f \n`));
    for (let i = 1; i < next; i++) emit(bytesOf(`${String(offsets[i]).padStart(10, '0')} 00000 n \n`));
    emit(bytesOf(`trailer\n<</Size ${next} /Root ${CATALOG} 0 R /Info ${info} 0 R>>\nstartxref\n${start}\n%%EOF\n`));
  };
  return { add, pages: () => kids.length, finish };
};
