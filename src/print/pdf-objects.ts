/**
 * Reads the objects of a PDF as print/pdf writes it (one table of offsets, no packed objects), and writes them again under other numbers.
 */

/** A dictionary, an array, a reference, or anything else as it is written. */
export type PdfValue =
  | { readonly is: 'dict'; readonly entries: ReadonlyMap<string, PdfValue> }
  | { readonly is: 'array'; readonly items: readonly PdfValue[] }
  | { readonly is: 'ref'; readonly number: number }
  | { readonly is: 'atom'; readonly text: string };

export interface PdfObject {
  readonly value: PdfValue;
  readonly stream?: Uint8Array;
}

export interface PdfFile {
  readonly object: (number: number) => PdfObject;
  /** Numbers of the pages, in order. */
  readonly pages: readonly number[];
}

export class PdfFault extends Error {}

const SPACE = /[\0\t\n\f\r ]/;
const DELIMITER = /[\0\t\n\f\r ()<>[\]{}/%]/;

/** A cursor over bytes held as characters of the same number. */
class Scanner {
  constructor(
    readonly text: string,
    public at: number,
  ) {}

  passSpace(): void {
    while (SPACE.test(this.text[this.at] ?? 'x')) this.at++;
  }

  /** What comes after spaces. */
  #ahead(length: number): string {
    this.passSpace();
    return this.text.slice(this.at, this.at + length);
  }

  #string(): string {
    const from = this.at++;
    for (let depth = 1; depth > 0; this.at++) {
      const c = this.text[this.at];
      if (c === undefined) throw new PdfFault('a text is never closed');
      if (c === '\\') this.at++;
      else if (c === '(') depth++;
      else if (c === ')') depth--;
    }
    return this.text.slice(from, this.at);
  }

  word(): string {
    const from = this.at++;
    while (this.at < this.text.length && !DELIMITER.test(this.text[this.at] as string)) this.at++;
    return this.text.slice(from, this.at);
  }

  value(): PdfValue {
    this.passSpace();
    const { text, at } = this;
    if (text.startsWith('<<', at)) return this.#dict();
    switch (text[at]) {
      case '[': {
        this.at++;
        const items: PdfValue[] = [];
        while (this.#ahead(1) !== ']') items.push(this.value());
        this.at++;
        return { is: 'array', items };
      }
      case '(':
        return { is: 'atom', text: this.#string() };
      case '<': {
        const end = text.indexOf('>', at);
        this.at = end + 1;
        return { is: 'atom', text: text.slice(at, end + 1) };
      }
      case undefined:
        throw new PdfFault('it ends in the middle');
      default: {
        const reference = /^(\d+) \d+ R(?![A-Za-z])/.exec(text.slice(at, at + 24));
        if (!reference) return { is: 'atom', text: this.word() };
        this.at += reference[0].length;
        return { is: 'ref', number: Number(reference[1]) };
      }
    }
  }

  #dict(): PdfValue {
    this.at += 2;
    const entries = new Map<string, PdfValue>();
    while (this.#ahead(2) !== '>>') {
      const key = this.word();
      if (!key.startsWith('/')) throw new PdfFault(`${key} is no key`);
      entries.set(key, this.value());
    }
    this.at += 2;
    return { is: 'dict', entries };
  }
}

const latin = (bytes: Uint8Array): string => {
  let text = '';
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return text;
};

export const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (c) => c.charCodeAt(0));

export const entry = (value: PdfValue, key: string): PdfValue | undefined =>
  value.is === 'dict' ? value.entries.get(key) : undefined;

/** @throws PdfFault for what print/pdf doesn't write */
export const readPdf = (bytes: Uint8Array): PdfFile => {
  const text = latin(bytes);
  const start = Number(/startxref\s+(\d+)\s+%%EOF\s*$/.exec(text)?.[1]);
  const table = /^xref\s+0 (\d+)\s+/.exec(text.slice(start, start + 40));
  if (!table) throw new PdfFault('its table of objects is of another kind');
  const first = start + table[0].length;
  const count = Number(table[1]);
  const offsets = Array.from({ length: count }, (_, i) => Number(text.slice(first + i * 20, first + i * 20 + 10)));
  const trailerAt = text.indexOf('trailer', first + count * 20);
  const trailer = new Scanner(text, trailerAt + 'trailer'.length).value();
  if (entry(trailer, '/Encrypt')) throw new PdfFault('it is encrypted');

  const object = (number: number): PdfObject => {
    const offset = offsets[number];
    if (!offset) throw new PdfFault(`it has no object ${number}`);
    const header = /^\d+ \d+ obj\s/.exec(text.slice(offset, offset + 30));
    if (!header) throw new PdfFault(`its object ${number} lies elsewhere`);
    const scanner = new Scanner(text, offset + header[0].length);
    const value = scanner.value();
    scanner.passSpace();
    const opened = /^stream\r?\n/.exec(text.slice(scanner.at, scanner.at + 8));
    if (!opened) return { value };
    const written = entry(value, '/Length');
    const length = written?.is === 'ref' ? object(written.number).value : written;
    const from = scanner.at + opened[0].length;
    return { value, stream: bytes.subarray(from, from + Number(length?.is === 'atom' ? length.text : Number.NaN)) };
  };

  const refOf = (value: PdfValue | undefined): number => {
    if (value?.is !== 'ref') throw new PdfFault('a reference is missing');
    return value.number;
  };
  const pagesBelow = (number: number): readonly number[] => {
    const { value } = object(number);
    const kids = entry(value, '/Kids');
    return kids?.is === 'array' ? kids.items.flatMap((kid) => pagesBelow(refOf(kid))) : [number];
  };
  const root = object(refOf(entry(trailer, '/Root'))).value;
  return { object, pages: pagesBelow(refOf(entry(root, '/Pages'))) };
};

/** A value as text, its references under other numbers. */
export const pdfText = (value: PdfValue, numberFor: (number: number) => number): string => {
  switch (value.is) {
    case 'dict':
      return `<<${[...value.entries].map(([key, inner]) => `${key} ${pdfText(inner, numberFor)}`).join(' ')}>>`;
    case 'array':
      return `[${value.items.map((inner) => pdfText(inner, numberFor)).join(' ')}]`;
    case 'ref':
      return `${numberFor(value.number)} 0 R`;
    case 'atom':
      return value.text;
  }
};
