/**
 * CSV that we write: every cell quoted, and none that a spreadsheet would take for a formula. UTF-8 with a byte order mark, so that spreadsheets read it as such.
 */
const cell = (text: string): string => {
  const plain = text.replace(/[\u0000-\u001f\u007f]+/g, ' ');
  return `"${(/^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(plain) ? `'${plain}` : plain).replace(/"/g, '""')}"`;
};

export const csvText = (rows: readonly (readonly string[])[]): string =>
  `\ufeff${rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('')}`;
