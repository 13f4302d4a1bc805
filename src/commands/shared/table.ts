import { harmless } from '../../host/terminal.js';

/** Columns for the terminal, as wide as what they hold, the last one free. */
export const columns = (rows: readonly (readonly string[])[]): readonly string[] => {
  const widths = widthsOf(rows);
  return rows
    .map((row) =>
      row
        .map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0)))
        .join('  ')
        .trimEnd(),
    )
    .map(harmless);
};

/** A cell that is wider than this runs over. */
const WIDEST = 48;
const widthsOf = (rows: readonly (readonly string[])[]): readonly number[] =>
  (rows[0] ?? []).map((_, i) => Math.min(WIDEST, Math.max(...rows.map((row) => [...(row[i] ?? '')].length))));

/** A table for the terminal: columns under their heads and a rule. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] => {
  if (rows.length === 0) return [];
  const all = [head, ...rows];
  const [top = '', ...below] = columns(all);
  return [
    top,
    widthsOf(all)
      .map((w) => '-'.repeat(w))
      .join('  '),
    ...below,
  ];
};
