/**
 * What a page is made of, between templates and print. A small closed union; `docs/blocks.md` says what each becomes in HTML and in PDF tags.
 * Blocks hold finished words and finished drawings: print measures, breaks and paints, and decides nothing about content.
 */
import type { Level } from '../base/level.js';
import type { Run } from '../base/run.js';
import type { SheetSize } from '../base/sheet-size.js';
import type { Drawing } from '../draw/drawing.js';

/** How far away the reader stands; sets the type scale and its legible floor (ANSI Z535.2 proportions for `room`). */
export type Distance =
  | 'room' // across the room, 10 ft / 3 m
  | 'unit' // at the unit, 3 ft / 1 m: capitals at least 3 mm
  | 'hand'; // in the hand: capitals at least 2.2 mm

/** What a paragraph is for. */
export type Role =
  | 'signal' // the one time of the page, in the largest type
  | 'message' // the sentence beside the signal
  | 'body'
  | 'fine' // the smallest type the distance allows
  | 'label'; // names a thing: small, strong

export type { Level, SheetSize };

/** Codes of the cautions that a block carries (trade/cautions); such a block is never left out. */
export type Cautions = readonly string[];

/** Where a block was written. */
export interface Written {
  /** Line of the template that wrote the block, 1-based; 0 for a block that the program made. */
  readonly line: number;
  /** File of that line, where it is not the paper's own template: a partial. */
  readonly doc?: string;
}

export interface Cell {
  readonly text: readonly Run[];
  /** `tick`: a box to tick before the text; `write`: room for a hand to write, a line at the cell's foot. */
  readonly hand?: 'tick' | 'write';
  /** True for a cell that heads its row. */
  readonly head?: true;
  /** Columns that the cell spans; 1 unless told. */
  readonly span?: number;
  /** `mute` for a cell in which nothing is to be done (a closed day); printed with a diagonal hatch and its text. */
  readonly tone?: 'plain' | 'strong' | 'mute';
  /** Of a band over rows: where they go on on another sheet, its name is said in the table's head, or its whole row stands again. */
  readonly again?: readonly Run[] | 'row';
}

export const cell = (text: readonly Run[], more: Partial<Cell> = {}): Cell => ({ text, ...more });

export type Block =
  | (Written & { readonly block: 'heading'; readonly level: 1 | 2 | 3 | 4; readonly text: readonly Run[] })
  | (Written & { readonly block: 'paragraph'; readonly role: Role; readonly text: readonly Run[]; readonly cautions?: Cautions })
  /** `mark`: `tick` gives each item a box to tick; `never` a cross that means "never do this". */
  | (Written & {
      readonly block: 'list';
      readonly mark: 'dot' | 'tick' | 'never';
      readonly items: readonly (readonly Block[])[];
      readonly cautions?: Cautions;
    })
  /** Numbered steps with large numerals; `when` (a clock time) is set out before the words. */
  | (Written & {
      readonly block: 'steps';
      readonly items: readonly { readonly when?: readonly Run[]; readonly body: readonly Block[] }[];
    })
  | (Written & {
      readonly block: 'table';
      readonly caption?: readonly Run[];
      readonly columns: readonly { readonly weight: number; readonly align: 'start' | 'middle' | 'end' }[];
      readonly head: readonly (readonly Cell[])[];
      readonly rows: readonly (readonly Cell[])[];
      /** After the column of tasks a column for each of the page's days. */
      readonly byDay?: true;
      /** Its rows stay on one sheet. */
      readonly whole?: true;
    })
  | (Written & {
      readonly block: 'callout';
      readonly level: Level;
      readonly cautions?: Cautions;
      readonly title: readonly Run[];
      readonly body: readonly Block[];
    })
  /** `share`: the width of the figure as a part of its column, 0 to 1; one that grows also takes what height its one sheet leaves. */
  | (Written & {
      readonly block: 'figure';
      readonly drawing: Drawing;
      readonly caption?: readonly Run[];
      readonly share: number;
      readonly grows?: true;
    })
  | (Written & {
      readonly block: 'columns';
      readonly columns: readonly { readonly weight: number; readonly body: readonly Block[] }[];
    })
  /** Things to cut out along dashed lines, so many side by side; each is kept whole. */
  | (Written & { readonly block: 'cut-outs'; readonly across: number; readonly items: readonly (readonly Block[])[] })
  /** May be left out when a sheet is too full, rank 3 first; never holds a caution, a "never" or a "call". */
  | (Written & { readonly block: 'optional'; readonly rank: 1 | 2 | 3; readonly body: readonly Block[] })
  /** Sets the reading distance for what it holds. */
  | (Written & { readonly block: 'face'; readonly distance: Distance; readonly body: readonly Block[] })
  /** Room to write: `lines` ruled lines under an optional label. */
  | (Written & { readonly block: 'blank'; readonly label: readonly Run[]; readonly lines: number })
  /** What follows starts on a new sheet. */
  /** `printed`: what stands on this sheet is for who holds the paper, and no page on a screen shows it. */
  | (Written & { readonly block: 'new-sheet'; readonly printed?: true });

/** The blocks that a block holds, in reading order. A kind that is missing here doesn't compile. */
export const childrenOf = (block: Block): readonly Block[] => {
  switch (block.block) {
    case 'list':
    case 'cut-outs':
      return block.items.flat();
    case 'steps':
      return block.items.flatMap((item) => item.body);
    case 'columns':
      return block.columns.flatMap((column) => column.body);
    case 'callout':
    case 'optional':
    case 'face':
      return block.body;
    case 'heading':
    case 'paragraph':
    case 'table':
    case 'figure':
    case 'blank':
    case 'new-sheet':
      return [];
  }
};

/** Every block with the blocks it holds, in reading order. */
export function* walk(blocks: readonly Block[]): Generator<Block> {
  for (const block of blocks) {
    yield block;
    yield* walk(childrenOf(block));
  }
}

/** A day of a dated sheet: its ISO date, and as its column is headed. */
export interface PageDay {
  readonly iso: string;
  readonly name: string;
}

/** One paper, ready for print. */
export interface Page {
  readonly title: string;
  /** BCP 47 tag. */
  readonly lang: string;
  readonly sheet: SheetSize;
  readonly orientation: 'portrait' | 'landscape';
  /** `one`: all of it on one sheet (or one per `new-sheet`), else a finding; `flow`: as many as it takes. */
  readonly length: 'one' | 'flow';
  /** Laminated sheets keep a safe edge for the pouch and a place for a punched hole. */
  readonly finish: 'laminated' | 'plain';
  readonly distance: Distance;
  /** Printed at the head of each sheet, small: what unit, where. */
  readonly head: readonly Run[];
  /** Printed at the foot of each sheet; "2 of 4" and the sheet number are added by print. */
  readonly foot: readonly (readonly Run[])[];
  readonly body: readonly Block[];
  /** Of a dated sheet: the name under which a phone keeps its ticks. It holds the store, the paper and the first date. */
  readonly ticks?: string;
  /** Of a sheet with tables by day: its days, from which a phone shows the one that is chosen. */
  readonly days?: { readonly label: string; readonly all: string; readonly note: string; readonly each: readonly PageDay[] };
  readonly brand: { readonly colour: string; readonly logo?: Logo };
  /** Words that print itself needs, in the page's language. */
  readonly words: {
    readonly sheetOf: string /* "{n} of {of}" */;
    readonly levels: Readonly<Record<Level, string>>;
    readonly draft?: string;
  };
}

/** A logo that was checked when read: opaque pixels or plain filled paths, of which what lies outside its box is not shown. */
export type Logo =
  | {
      readonly kind: 'paths';
      readonly width: number;
      readonly height: number;
      readonly paths: readonly { readonly d: string; readonly fill: string; readonly evenOdd?: true }[];
    }
  | {
      readonly kind: 'image';
      readonly width: number;
      readonly height: number;
      readonly bytes: Uint8Array;
      readonly type: 'png' | 'jpeg';
    };
