/**
 * What layout makes and a writer paints: elements of the tag tree, paint, slabs (pieces that do not break) and sheets.
 * Lengths are points, y grows downwards.
 */
import type { Logo, Written } from '../compose/block.js';
import type { Drawing } from '../draw/drawing.js';
import type { FaceName } from './faces.js';

export type Tag =
  | 'Document'
  | 'Sect'
  | 'H1'
  | 'H2'
  | 'H3'
  | 'H4'
  | 'P'
  | 'L'
  | 'LI'
  | 'Lbl'
  | 'LBody'
  | 'Table'
  | 'Caption'
  | 'THead'
  | 'TBody'
  | 'TR'
  | 'TH'
  | 'TD'
  | 'Figure';

/** A node of the tag tree, in reading order. It holds other elements or is painted, never both. */
export interface Element {
  readonly tag: Tag;
  readonly kids: Element[];
  readonly alt?: string;
  /** What a painted mark stands for, in characters. */
  readonly actual?: string;
  /** BCP 47, where it differs from the document's. */
  readonly lang?: string;
  readonly scope?: 'Row' | 'Column';
  readonly span?: number;
  readonly numbering?: 'Decimal' | 'Disc' | 'None';
}

export const element = (tag: Tag, parent?: Element, traits: Omit<Element, 'tag' | 'kids'> = {}): Element => {
  const made: Element = { tag, kids: [], ...traits };
  parent?.kids.push(made);
  return made;
};

/** Paint belongs to an element of the tag tree; without one it is an artifact: read by eyes only. */
interface Owned {
  readonly of?: Element;
}

export type Paint =
  | (Owned & {
      readonly kind: 'text';
      readonly x: number;
      /** The baseline. */
      readonly y: number;
      readonly size: number;
      readonly face: FaceName;
      /** Set one after the other, each shaped by itself: words, spaces, parts of words. */
      readonly pieces: readonly string[];
      readonly colour: string;
      readonly lang?: string;
      /** What it reads as, where that is not what is painted: a hyphen that only a line's end put there. */
      readonly actual?: string;
    })
  | (Owned & {
      readonly kind: 'path';
      readonly x: number;
      readonly y: number;
      /** SVG path data; x, y and scale place it. */
      readonly d: string;
      readonly scale?: number;
      readonly fill?: string;
      readonly stroke?: string;
      readonly width?: number;
      readonly dash?: readonly number[];
    })
  | (Owned & {
      readonly kind: 'drawing';
      readonly x: number;
      readonly y: number;
      readonly scale: number;
      readonly drawing: Drawing;
    })
  | (Owned & {
      readonly kind: 'logo';
      readonly x: number;
      readonly y: number;
      readonly scale: number;
      readonly logo: Logo;
    });

/** Paint of a thing whose top is at this y. Most things are laid on several rungs of the fit ladder and painted on one. */
export type Painting = (top: number) => readonly Paint[];

/** A piece that does not break, measured and ready: x counts from the sheet's edge. */
export interface Slab {
  /** Space before it; falls away at the top of a sheet or column. */
  readonly gap: number;
  readonly height: number;
  readonly paint: Painting;
  /** Stays on one sheet with the slab after it. */
  readonly keep: boolean;
  readonly at: Written;
  /** Baseline of its first line of text, for what is set beside it. */
  readonly baseline?: number;
  /** Painted again, as artifacts, above it when it starts a sheet: the head rows of its table. */
  readonly again?: readonly Slab[];
  /** Columns side by side, each a flow of its own; then `paint` gives nothing and `height` is the tallest. */
  readonly columns?: readonly (readonly Slab[])[];
  /** What follows starts a new sheet. */
  readonly fresh?: true;
  /** A heading of the tag tree, for the outline of the document. */
  readonly heading?: Heading;
}

export interface Heading {
  /** Level in the tag tree, 1 to 4, never skipping one. */
  readonly level: number;
  readonly text: string;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly paints: readonly Paint[];
  readonly headings: readonly (Heading & { readonly y: number })[];
}

const nothing: Painting = () => [];

export const slab = (at: Written, gap: number, height: number, paint = nothing, keep = false): Slab => ({
  at,
  gap,
  height,
  paint,
  keep,
});

/** Height of a flow that does not break. */
export const heightOf = (slabs: readonly Slab[]): number => slabs.reduce((y, s, i) => y + (i === 0 ? 0 : s.gap) + s.height, 0);

/** Slabs of which none stands on a sheet without the next. */
export const together = (slabs: readonly Slab[]): readonly Slab[] =>
  slabs.map((s, i) => (i === slabs.length - 1 || s.keep ? s : { ...s, keep: true }));

/** Parts of a list or table, of which none stands alone on a sheet: the first goes with the second, the last with the one before it. */
export const unorphaned = (parts: readonly (readonly Slab[])[]): readonly Slab[] =>
  parts.flatMap((part, i) => {
    const last = part.at(-1);
    const kept = parts.length > 1 && (i === 0 || i === parts.length - 2);
    return kept && last ? [...part.slice(0, -1), { ...last, keep: true }] : part;
  });

export interface Stack {
  readonly paints: readonly Paint[];
  readonly headings: readonly (Heading & { readonly y: number })[];
}

/** Places a flow from y = `top`, columns side by side. */
export const stack = (slabs: readonly Slab[], top = 0): Stack => {
  const paints: Paint[] = [];
  const headings: (Heading & { y: number })[] = [];
  let y = top;
  slabs.forEach((s, i) => {
    if (i > 0) y += s.gap;
    paints.push(...s.paint(y));
    if (s.heading) headings.push({ ...s.heading, y });
    for (const column of s.columns ?? []) {
      const placed = stack(column, y);
      paints.push(...placed.paints);
      headings.push(...placed.headings);
    }
    y += s.height;
  });
  return { paints, headings };
};
