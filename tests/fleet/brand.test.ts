/**
 * A chain's colour, logo and fonts: bad ones are findings at the line that names them, good ones are on every page.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { openBrand, type BrandFiles, type ReadFile } from '../../src/fleet/brand.js';
import { locate } from '../../src/read/locate.js';
import { readYaml } from '../../src/read/yaml.js';
import { CHAIN, tryChain } from '../support/chain.js';

const { resolve } = createRequire(import.meta.url);
const shipped = (weight: string): Uint8Array =>
  new Uint8Array(
    readFileSync(resolve(`@expo-google-fonts/atkinson-hyperlegible-next/${weight}/AtkinsonHyperlegibleNext_${weight}.ttf`)),
  );
const faces = { regular: shipped('400Regular'), strong: shipped('700Bold'), heavy: shipped('800ExtraBold') };

const open = (brand: string, own: Readonly<Record<string, ReadFile>> = {}, defaults = 'languages: [en]') => {
  const chain = CHAIN.replace("brand: { colour: '#1f4d3a' }", `brand:\n${brand}`).replace('languages: [en]', defaults);
  const { workshop } = tryChain({ 'nightrail.yaml': chain });
  if (!workshop) throw new Error('the chain does not open');
  const files: BrandFiles = { read: (path) => own[path] ?? { fault: 'file-missing' }, faces };
  const opened = openBrand(workshop, files);
  const { source } = readYaml('nightrail.yaml', new TextEncoder().encode(chain));
  const told = opened.findings.map((f) => `${f.severity} ${f.code}:${locate(f.at, source)?.line ?? ''}`);
  return { ...opened, told };
};

const LOGO = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1"><path d="M0 0h2v1z"/></svg>');
const COLOUR = "  colour: '#1f4d3a'\n";
const FONTS = `${COLOUR}  fonts:\n    regular: a.ttf\n    strong: b.ttf\n    heavy: c.ttf`;

describe('a brand', () => {
  it('of a colour alone has the typeface that nightrail brings', () => {
    const { brand, findings } = open(COLOUR);
    expect(findings).toEqual([]);
    expect(brand?.look).toEqual({ colour: '#1f4d3a' });
    expect(brand?.faces.heavy.has('ñ'.codePointAt(0) as number)).toBe(true);
  });

  it('with a font whose tables are damaged opens, or is refused: nothing fails later, at a pair of letters', () => {
    const tables = (bytes: Uint8Array): readonly { readonly tag: string; readonly from: number; readonly length: number }[] => {
      const view = new DataView(bytes.buffer, bytes.byteOffset);
      return Array.from({ length: view.getUint16(4) }, (_, i) => {
        const at = 12 + 16 * i;
        const tag = String.fromCharCode(...bytes.subarray(at, at + 4));
        return { tag, from: view.getUint32(at + 8), length: view.getUint32(at + 12) };
      });
    };
    const refused: string[] = [];
    for (const tag of ['GPOS', 'GSUB', 'GDEF', 'cmap', 'hmtx'])
      for (const part of [0.02, 0.3]) {
        const bytes = shipped('400Regular').slice();
        const { from = 0, length = 0 } = tables(bytes).find((table) => table.tag === tag) ?? {};
        bytes.fill(0xff, from + Math.floor(length * part), from + Math.floor(length * part) + 64);
        const { told, brand } = open(FONTS, {
          'a.ttf': { bytes },
          'b.ttf': { bytes: faces.strong },
          'c.ttf': { bytes: faces.heavy },
        });
        if (brand) expect(brand.faces.regular.width('Line 1: 41 °F, AVATAR, To., "Yes"')).toBeGreaterThan(0);
        else refused.push(...told);
      }
    expect(new Set(refused)).toContain('error font-unreadable:5');
  });

  it('with a font that prints nothing, or other figures, is refused', () => {
    const table = (bytes: Uint8Array, tag: string): { from: number; length: number } => {
      const view = new DataView(bytes.buffer, bytes.byteOffset);
      for (let at = 12; ; at += 16)
        if (String.fromCharCode(...bytes.subarray(at, at + 4)) === tag)
          return { from: view.getUint32(at + 8), length: view.getUint32(at + 12) };
    };
    const empty = shipped('400Regular').slice();
    const loca = table(empty, 'loca');
    empty.fill(0, loca.from, loca.from + loca.length);
    const rest = { 'b.ttf': { bytes: faces.strong }, 'c.ttf': { bytes: faces.heavy } };
    expect(open(FONTS, { 'a.ttf': { bytes: empty }, ...rest }).told).toEqual(['error font-unsound:5']);
    // Format 4 of cmap: the segment of the figures leads each to the next glyph.
    const moved = shipped('400Regular').slice();
    const view = new DataView(moved.buffer, moved.byteOffset);
    const cmap = table(moved, 'cmap').from;
    for (let i = 0; i < view.getUint16(cmap + 2); i++) {
      const at = cmap + view.getUint32(cmap + 8 + 8 * i);
      if (view.getUint16(at) !== 4) continue;
      const segments = view.getUint16(at + 6) / 2;
      for (let s = 0; s < segments; s++) {
        const [end, start] = [view.getUint16(at + 14 + 2 * s), view.getUint16(at + 16 + 2 * segments + 2 * s)];
        const delta = at + 16 + 4 * segments + 2 * s;
        if (start <= 0x34 && end >= 0x36) view.setUint16(delta, (view.getUint16(delta) + 1) & 0xffff);
      }
    }
    expect(open(FONTS, { 'a.ttf': { bytes: moved }, ...rest }).told).toEqual(['error font-unsound:5']);
  });

  it('of a colour too light to read is darkened, and says so at its line', () => {
    const { brand, told } = open("  colour: '#ffd200'");
    expect(told).toEqual(['note brand-adjusted:3', 'warning brand-like-safety:3']);
    expect(brand).toBeDefined();
  });

  // ISO 3864-1 and ANSI Z535.1: red, orange, yellow and blue are safety colours; dull or other hues may be taken for none.
  it.each([
    ['#c8102e', 'danger'],
    ['#f26b1d', 'warning'],
    ['#1c5fa8', 'notice'],
    ['#2b2b2b', undefined],
    ['#4a2745', undefined],
    ['#1f4d3a', undefined],
  ])('%s is held against the safety colours: %s', (colour, like) => {
    const { findings } = open(`  colour: '${colour}'`);
    expect(findings.filter((f) => f.code === 'brand-like-safety').map((f) => f.data['like'])).toEqual(like ? [like] : []);
  });

  it('has its logo', () => {
    const { brand, findings } = open(`${COLOUR}  logo: brand/logo.svg`, { 'brand/logo.svg': { bytes: LOGO } });
    expect(findings).toEqual([]);
    expect(brand?.look.logo).toMatchObject({ kind: 'paths', width: 2, height: 1 });
    expect(brand?.files).toContain(LOGO);
  });

  it.each([
    [{ fault: 'file-outside' }, 'error file-outside:4'],
    [{ fault: 'file-linked' }, 'error file-linked:4'],
    [{ fault: 'file-missing' }, 'error file-missing:4'],
    [{ large: 50_000_000 }, 'error file-too-large:4'],
    [
      { bytes: new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 1">\n<script/></svg>') },
      'error logo-active:2',
    ],
  ] as const)('with a bad logo has none, and no page is printed: %j', (file, expected) => {
    const { brand, told } = open(`${COLOUR}  logo: x`, { x: file });
    expect(told).toEqual([expected]);
    expect(brand).toBeUndefined();
  });

  it('has its own fonts', () => {
    const own = { 'a.ttf': { bytes: faces.regular }, 'b.ttf': { bytes: faces.strong }, 'c.ttf': { bytes: faces.regular } };
    const { brand, findings } = open(FONTS, own);
    expect(findings).toEqual([]);
    expect(brand?.faces.heavy.width('W')).toBe(brand?.faces.regular.width('W'));
    expect(brand?.files).toEqual([faces.regular, faces.strong, faces.regular]);
  });

  it('with fonts that are none says which', () => {
    const half = faces.strong.subarray(0, faces.strong.length / 2);
    const { brand, told } = open(FONTS, { 'a.ttf': { bytes: LOGO }, 'b.ttf': { bytes: half } });
    expect(told).toEqual(['error font-unreadable:5', 'error font-unreadable:6', 'error file-missing:7']);
    expect(brand).toBeUndefined();
  });

  it('with a font whose makers forbid embedding says so', () => {
    // OpenType specification, OS/2: fsType are the two bytes at offset 8; 2 is "restricted licence embedding".
    const forbidden = faces.regular.slice();
    const view = new DataView(forbidden.buffer);
    for (let i = 0, at = 12; i < view.getUint16(4); i++, at += 16)
      if (new TextDecoder().decode(forbidden.subarray(at, at + 4)) === 'OS/2') view.setUint16(view.getUint32(at + 8) + 8, 2);
    const { told } = open(FONTS, {
      'a.ttf': { bytes: forbidden },
      'b.ttf': { bytes: faces.strong },
      'c.ttf': { bytes: faces.heavy },
    });
    expect(told).toEqual(['error font-not-embeddable:5']);
  });

  it('with a font that lacks a letter of its languages says which letters', () => {
    // A font of the same letters but n with tilde: its entry of the character map is turned to the letter under it.
    const lacking = withoutCharacter(faces.regular, 0xf1);
    const files = { 'a.ttf': { bytes: lacking }, 'b.ttf': { bytes: faces.strong }, 'c.ttf': { bytes: faces.heavy } };
    const spanish = open(FONTS, files, 'languages: [en, es]');
    expect(spanish.told).toEqual(['error font-lacks:5']);
    expect(spanish.findings[0]?.data).toEqual({ lang: 'es', characters: 'ñ' });
    expect(spanish.brand).toBeUndefined();
    // English pages have no such letter.
    expect(open(FONTS, files).told).toEqual([]);
  });
});

/** The font with a character mapped to no glyph: format 4 subtables of cmap (OpenType specification), where the delta of a segment leads to glyph 0. */
function withoutCharacter(font: Uint8Array, codePoint: number): Uint8Array {
  const made = font.slice();
  const view = new DataView(made.buffer);
  let cmap = 0;
  for (let i = 0, at = 12; i < view.getUint16(4); i++, at += 16)
    if (new TextDecoder().decode(made.subarray(at, at + 4)) === 'cmap') cmap = view.getUint32(at + 8);
  for (let i = 0; i < view.getUint16(cmap + 2); i++) {
    const table = cmap + view.getUint32(cmap + 4 + i * 8 + 4);
    if (view.getUint16(table) !== 4) throw new Error('a format 4 subtable was expected');
    const count = view.getUint16(table + 6) / 2;
    const ends = table + 14;
    for (let s = 0; s < count; s++) {
      const start = view.getUint16(ends + 2 + 2 * count + 2 * s);
      const end = view.getUint16(ends + 2 * s);
      if (codePoint < start || codePoint > end) continue;
      const offsetAt = ends + 2 + 6 * count + 2 * s;
      const offset = view.getUint16(offsetAt);
      if (offset === 0 && start === end) view.setUint16(ends + 2 + 4 * count + 2 * s, 0x10000 - start);
      else if (offset !== 0) view.setUint16(offsetAt + offset + 2 * (codePoint - start), 0);
      else throw new Error('the character shares a segment without offsets');
    }
  }
  return made;
}
