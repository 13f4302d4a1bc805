/** A table for the terminal: columns as wide as what they hold, the last one free. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] => {
  const all = [head, ...rows];
  const widths = head.map((_, i) => Math.min(48, Math.max(...all.map((row) => [...(row[i] ?? '')].length))));
  const line = (row: readonly string[]): string =>
    row
      .map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0)))
      .join('  ')
      .replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ')
      .trimEnd();
  return rows.length === 0 ? [] : [line(head), widths.map((w) => '-'.repeat(w)).join('  '), ...rows.map(line)];
};
