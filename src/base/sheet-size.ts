/**
 * Sheets of paper, upright: ANSI Y14.1 and ISO 216. One more is a line here.
 */
interface Sheet {
  /** Short and long side in their own unit. */
  readonly sides: readonly [number, number];
  readonly unit: 'in' | 'mm';
  /** Of a sheet that holds a whole poster, which on smaller ones becomes a pair, night and morning: what an office printer takes in its stead. */
  readonly office?: string;
}

const sheets = {
  letter: { sides: [8.5, 11], unit: 'in' },
  legal: { sides: [8.5, 14], unit: 'in' },
  tabloid: { sides: [11, 17], unit: 'in', office: 'letter' },
  a4: { sides: [210, 297], unit: 'mm' },
  a3: { sides: [297, 420], unit: 'mm', office: 'a4' },
} as const satisfies Record<string, Sheet>;

export type SheetSize = keyof typeof sheets;
export const SHEETS: Readonly<Record<SheetSize, Sheet & { readonly office?: SheetSize }>> = sheets;
export const sheetSizes = Object.keys(sheets) as [SheetSize, ...SheetSize[]];

export const isLarge = (size: SheetSize): boolean => SHEETS[size].office !== undefined;
/** What is held in the hand is never larger than an office printer's sheet. */
export const officeSize = (size: SheetSize): SheetSize => SHEETS[size].office ?? size;
/** Width and height as CSS takes them: a size in figures takes no `landscape` (CSS Paged Media, 7.1; from memory). */
export const cssSize = (size: SheetSize, orientation: 'portrait' | 'landscape'): string => {
  const { sides, unit } = SHEETS[size];
  const [short, long] = sides.map((side) => `${side}${unit}`);
  return orientation === 'portrait' ? `${short} ${long}` : `${long} ${short}`;
};
