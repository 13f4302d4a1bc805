/** The part of fontkit that print/faces uses; the library ships no types. */
declare module 'fontkit' {
  export interface Glyph {
    readonly id: number;
    readonly advanceWidth: number;
    readonly codePoints: readonly number[];
    /** Read from the outline. */
    readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
    readonly path: { readonly commands: readonly unknown[] };
    /** As the file calls it, where it does. */
    readonly name?: string;
  }
  export interface GlyphRun {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly { xAdvance: number; yAdvance: number; xOffset: number; yOffset: number }[];
    readonly advanceWidth: number;
  }
  export interface Font {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly lineGap: number;
    readonly capHeight: number;
    readonly xHeight: number;
    readonly italicAngle: number;
    readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
    /** Names of the tables that the file holds. */
    readonly directory: { readonly tables: Readonly<Record<string, unknown>> };
    readonly 'OS/2': { readonly sFamilyClass: number; readonly fsType: { readonly noEmbedding: boolean } };
    readonly post: { readonly isFixedPitch: number };
    readonly head: { readonly macStyle: { readonly italic: boolean } };
    readonly characterSet: readonly number[];
    glyphForCodePoint(codePoint: number): Glyph;
    hasGlyphForCodePoint(codePoint: number): boolean;
    getGlyph(id: number): Glyph;
    layout(text: string): GlyphRun;
    createSubset(): { readonly glyphs: readonly number[]; includeGlyph(glyph: number): number; encode(): Uint8Array };
  }
  /** A file of several fonts gives a collection, which has no directory. */
  export function create(bytes: Uint8Array): Font | { readonly fonts: readonly Font[] };
}
