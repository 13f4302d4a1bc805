/**
 * How a chain looks: its colour, its logo and its own fonts, read once and checked, for every page of every store.
 */
import { anyError, error, note, warning, type Finding } from '../base/finding.js';
import { place, within, type Place } from '../base/place.js';
import type { Page } from '../compose/block.js';
import { printable } from '../print/characters.js';
import { canShape, fontFault, makeFaces, type FaceName, type Faces } from '../print/faces.js';
import { levelLike, paletteOf } from '../print/theme.js';
import type { Words } from '../say/words.js';
import { readLogo } from './logo/read-logo.js';
import type { Workshop } from './workshop.js';

/** Why a file of the chain's folder was not read. */
export type FileFault = 'file-outside' | 'file-linked' | 'file-missing' | 'file-no-access';

export type ReadFile =
  | { readonly bytes: Uint8Array }
  | { readonly fault: FileFault }
  /** Not read: it holds so many bytes. */
  | { readonly large: number };

export interface BrandFiles {
  /** A file by its path below the chain's folder, if it has at most so many bytes. */
  readonly read: (path: string, most: number) => ReadFile;
  /** The faces of a chain that has none of its own. */
  readonly faces: Readonly<Record<FaceName, Uint8Array>>;
}

export interface Brand {
  readonly look: Page['brand'];
  readonly faces: Faces;
  /** Every file that pages take from: the fonts, the logo. */
  readonly files: readonly Uint8Array[];
}

/** Bytes. A logo goes into every page; a font with all the letters of the Latin, Greek and Cyrillic scripts has a few hundred thousand. */
const LARGEST_LOGO = 2_000_000;
const LARGEST_FONT = 10_000_000;

/** The bytes of a file, or findings at the place that names it. */
const open = (files: BrandFiles, path: string, most: number, at: Place): Uint8Array | readonly Finding[] => {
  const read = files.read(path, most);
  if ('bytes' in read) return read.bytes;
  return ['large' in read ? error('file-too-large', at, { most }) : error(read.fault, at, { wrote: path })];
};

/** Figures and units, and signal words in capitals. */
const ALWAYS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789°%–-.,:/';

/** Every word that the pages of a language are made of, apart from what stores write. */
const repertoire = (words: Words): readonly string[] => {
  const own = words.codes.filter((code) => !/^(findings|why)\./.test(code));
  return [
    ALWAYS,
    ...own.flatMap((code) =>
      printable(words.get(code) ?? '')
        .replace(/\{[a-z_]+\}/g, ' ')
        .split(/\s+/),
    ),
  ];
};

/** Languages that the chain's stores print unless they say otherwise; all, where it doesn't say. */
const languagesOf = ({ shelf, words }: Workshop): readonly Words[] => {
  const asked: unknown = shelf.chain.defaults?.['languages'];
  return [...words.values()].filter((w) => !Array.isArray(asked) || asked.includes(w.lang));
};

const NAMES = ['regular', 'strong', 'heavy'] as const;

const fontAt = (workshop: Workshop, name: FaceName): Place => within(workshop.shelf.chainAt, 'brand', 'fonts', name);

/** Characters of the chain's languages that its own fonts lack. */
const lacking = (workshop: Workshop, faces: Faces): readonly Finding[] =>
  languagesOf(workshop).flatMap((words) => {
    const all = repertoire(words);
    const needed = [...new Set(all.join(''))].sort();
    return NAMES.flatMap((name) => {
      // A damaged table of kerning may only be met by some pair of letters.
      if (!canShape(faces[name], all))
        return [error('font-unreadable', fontAt(workshop, name), { wrote: workshop.shelf.chain.brand.fonts?.[name] ?? '' })];
      const there = needed.filter((c) => faces[name].has(c.codePointAt(0) as number));
      const bad = there.filter((c) => !faces[name].prints(c.codePointAt(0) as number));
      if (bad.length > 0) return [error('font-unsound', fontAt(workshop, name), { characters: bad.slice(0, 20).join(' ') })];
      const lacks = needed.filter((c) => !there.includes(c));
      const data = { lang: words.lang, characters: lacks.join(' ') };
      return lacks.length === 0 ? [] : [error('font-lacks', fontAt(workshop, name), data)];
    });
  });

interface ReadFonts {
  readonly fonts?: BrandFiles['faces'];
  readonly findings: readonly Finding[];
}

const readFonts = (workshop: Workshop, files: BrandFiles): ReadFonts => {
  const { fonts } = workshop.shelf.chain.brand;
  if (!fonts) return { fonts: files.faces, findings: [] };
  const findings: Finding[] = [];
  const bytes: Partial<Record<FaceName, Uint8Array>> = {};
  for (const name of NAMES) {
    const opened = open(files, fonts[name], LARGEST_FONT, fontAt(workshop, name));
    if (!(opened instanceof Uint8Array)) {
      findings.push(...opened);
      continue;
    }
    const fault = fontFault(opened);
    if (fault) findings.push(error(fault, fontAt(workshop, name), { wrote: fonts[name] }));
    else bytes[name] = opened;
  }
  const { regular, strong, heavy } = bytes;
  return regular && strong && heavy ? { fonts: { regular, strong, heavy }, findings } : { findings };
};

/** @returns findings, and without errors among them the brand. */
export const openBrand = (workshop: Workshop, files: BrandFiles): { brand?: Brand; findings: readonly Finding[] } => {
  const { chain, chainAt } = workshop.shelf;
  const at = within(chainAt, 'brand');
  const findings: Finding[] = [];
  const { adjusted } = paletteOf(chain.brand.colour);
  if (adjusted) findings.push(note('brand-adjusted', within(at, 'colour'), adjusted));

  const like = levelLike(chain.brand.colour);
  if (like) findings.push(warning('brand-like-safety', within(at, 'colour'), { colour: chain.brand.colour, like }));

  const path = chain.brand.logo;
  const bytes = path === undefined ? undefined : open(files, path, LARGEST_LOGO, within(at, 'logo'));
  const read = bytes instanceof Uint8Array ? readLogo(bytes, place(path as string)) : { findings: bytes ?? [] };
  findings.push(...read.findings);

  const { fonts, findings: ofFonts } = readFonts(workshop, files);
  findings.push(...ofFonts);
  if (!fonts || anyError(findings)) return { findings };
  const faces = makeFaces(fonts);
  if (chain.brand.fonts) findings.push(...lacking(workshop, faces));
  if (anyError(findings)) return { findings };
  const logo = 'logo' in read ? read.logo : undefined;
  const look = { colour: chain.brand.colour, ...(logo ? { logo } : {}) };
  const used = [...NAMES.map((name) => fonts[name]), ...(bytes instanceof Uint8Array ? [bytes] : [])];
  return { brand: { look, faces, files: used }, findings };
};
