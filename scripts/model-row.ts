/**
 * A row of docs/model.md's table: what the model gives, what the outside says, and the band that each figure is held to. A figure without a band
 * is one of which nothing outside tells; it is printed and held to nothing.
 */

export type Band = readonly [low: number, high: number] | undefined;

export interface Row {
  readonly what: string;
  /** As the outside has it. */
  readonly outside: string;
  readonly source: string;
  readonly compute: () => readonly number[];
  /** Decimals that are printed. */
  readonly digits: number;
  /** One for each figure, ends included. */
  readonly bands: readonly Band[];
  /** Where a band is not the outside's own figure: why, and what the model leaves out. */
  readonly why?: string;
}

export const PRACTICE = 'common practice, no source';

/** Indices of the figures that lie outside their bands, or have none where a row has too few; NaN lies outside of any. */
export const outsideBands = ({ bands }: Pick<Row, 'bands'>, figures: readonly number[]): readonly number[] =>
  figures.flatMap((figure, i) => {
    if (i >= bands.length || Number.isNaN(figure)) return [i];
    const band = bands[i];
    return band && !(figure >= band[0] && figure <= band[1]) ? [i] : [];
  });

const bandText = (band: Band): string => {
  if (!band) return '-';
  const [low, high] = band;
  if (low === -Infinity) return `at most ${high}`;
  return high === Infinity ? `at least ${low}` : `${low} to ${high}`;
};

export const HEAD: readonly string[] = ['what', 'outside', 'model', 'held to', 'source'];

/** The row's cells as the document prints them. */
export const cells = (row: Row): readonly string[] => [
  row.what,
  row.outside,
  row
    .compute()
    .map((figure) => figure.toFixed(row.digits))
    .join(' / '),
  row.bands.map(bandText).join(' / ') + (row.why === undefined ? '' : `: ${row.why}`),
  row.source,
];

/** Computed when it is first asked for, and once. */
export const once = <T>(work: () => T): (() => T) => {
  let found: { readonly value: T } | undefined;
  return () => (found ??= { value: work() }).value;
};
