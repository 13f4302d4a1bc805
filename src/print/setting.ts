/**
 * Where and how blocks are laid: one job for a page on one rung of the fit ladder, and the frame that a block is laid in.
 */
import type { Block, Distance, Written } from '../compose/block.js';
import type { Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Faces } from './faces.js';
import type { Hyphenator } from './hyphens.js';
import type { RememberLines } from './lines.js';
import type { Measure } from './measure.js';
import type { Element, Slab } from './sheet.js';
import { typeStyle, type Palette, type TypeRole, type TypeStyle } from './theme.js';

/** How tight a page is set: a rung of the fit ladder. */
export interface Rung {
  /** Factor on the space between blocks and on the type size. */
  readonly gaps: number;
  readonly scale: number;
  /** Of a table's bands those whose rows stay on one sheet. */
  readonly bands: 'all' | 'short' | 'none';
}

export interface Job {
  readonly faces: Faces;
  readonly measure: Measure;
  readonly remember: RememberLines;
  readonly palette: Palette;
  readonly hyphenator: (lang?: string) => Hyphenator;
  readonly rung: Rung;
  /** Optional blocks that are left out. */
  readonly left: ReadonlySet<Block>;
  /** Factor on figures that grow with the room of their sheet. */
  readonly growth: number;
  /** Level in the tag tree of every block that is a heading of the document. */
  readonly levels: ReadonlyMap<Block, number>;
  readonly levelWords: Readonly<Record<'danger' | 'warning' | 'caution' | 'notice', string>>;
  /** Document that findings point into. */
  readonly at: Place;
  readonly findings: Finding[];
  /** Lays blocks one under the other in a frame (layout/layBlocks), for blocks that hold blocks. */
  readonly lay: (blocks: readonly Block[], setting: Setting) => readonly Slab[];
}

export interface Setting {
  readonly job: Job;
  readonly distance: Distance;
  readonly x: number;
  readonly width: number;
  /** Parent in the tag tree; absent for what is painted as an artifact. */
  readonly parent?: Element;
  /** Where the block at hand was written. */
  readonly line: number;
  readonly doc?: string;
}

export const typeAt = (setting: Setting, role: TypeRole): TypeStyle =>
  typeStyle(setting.distance, role, setting.job.faces.heavy.capHeight, setting.job.rung.scale);

/** Type across the room is so large that white in its own measure would fill the sheet: spaces grow no further than with this size, points. */
const LARGEST_SPACE = 22;

/** A space on the page: so many body sizes, tightened by the rung. */
export const space = (setting: Setting, ems: number): number =>
  ems * Math.min(LARGEST_SPACE, typeAt(setting, 'body').size) * setting.job.rung.gaps;

/** The frame without `left` points of its left side. */
export const indented = (setting: Setting, left: number): Setting => ({
  ...setting,
  x: setting.x + left,
  width: setting.width - left,
});

/** What no template wrote: title, head and foot. */
export const OURS: Written = { line: 0 };

/** A place in the paper's template, or in the partial that wrote it. */
export const placeIn = (at: Place, { line, doc }: Written): Place => ({ ...at, ...(doc === undefined ? {} : { doc }), line });

export const placeOf = (setting: Setting): Place => placeIn(setting.job.at, setting);
