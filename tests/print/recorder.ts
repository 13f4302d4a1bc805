/**
 * A document that paints nothing and writes down what it is told: one line a call, text by its letters instead of by the codes of a font's subset.
 */
import type { EmbeddableFont } from '../../src/print/faces.js';
import type { Kit } from '../../src/print/pdfkit.js';

export interface Recorder {
  readonly doc: Kit;
  readonly calls: readonly string[];
}

const short = (value: unknown): string => {
  if (value instanceof Uint8Array) return `${value.length} bytes`;
  if (typeof value === 'number') return String(Math.round(value * 100) / 100);
  if (typeof value === 'string') return value.replace(/\n/g, ' ');
  return JSON.stringify(value, (_, v: unknown) => (typeof v === 'number' ? Math.round(v * 100) / 100 : v));
};

export const record = (): Recorder => {
  const calls: string[] = [];
  const page = { fonts: {}, height: 0 };
  let font: Kit['_font'] | undefined;
  const encode = (made: EmbeddableFont): Kit['_font']['encode'] => {
    return (text) => {
      const { glyphs, positions } = made.layout(text);
      const codes = glyphs.map((glyph) => String.fromCodePoint(...glyph.codePoints));
      return [codes, positions.map((p, i) => ({ xAdvance: p.xAdvance, advanceWidth: glyphs[i]?.advanceWidth ?? 0 }))];
    };
  };
  const known: Record<string, unknown> = {
    page,
    openImage: (bytes: Uint8Array) => ({ label: `${bytes.length} bytes` }),
    font: (made: EmbeddableFont) => {
      font = {
        id: made.postscriptName,
        font: made,
        subset: { includeGlyph: (id) => id },
        widths: [],
        unicode: [],
        ref: () => ({}),
        encode: encode(made),
        embed: () => undefined,
      };
      return doc;
    },
  };
  const doc: Kit = new Proxy({} as Kit, {
    get: (_, name: string) => {
      if (name === '_font') return font;
      if (name in known) return known[name];
      return (...given: readonly unknown[]) => {
        calls.push([name, ...given.map(short)].join(' '));
        return name === 'markStructureContent' ? { refs: [] } : doc;
      };
    },
  });
  return { doc, calls };
};
