/**
 * Tables and checklists: column widths by weight, rows that never split, and head rows that are painted again on each sheet, with the band whose rows go on there.
 */
import type { Run } from '../base/run.js';
import type { Block, Cell } from '../compose/block.js';
import { layCell, type LaidCell } from './cell.js';
import { space, typeAt, type Setting } from './setting.js';
import { element, slab, together, unorphaned, type Element, type Painting, type Slab } from './sheet.js';
import { bar, put } from './signs.js';
import { setText, textSlabs } from './text.js';

type Table = Extract<Block, { block: 'table' }>;

/** Thickness of the rules: at the table's top and under its head, under a row, between columns. */
const RULE = { head: 1.6, row: 0.7, column: 0.5 } as const;

/** Left edges of the columns and the right edge of the last. */
const edgesOf = (block: Table, setting: Setting): readonly number[] => {
  const total = block.columns.reduce((sum, column) => sum + column.weight, 0);
  let x = setting.x;
  return [x, ...block.columns.map((column) => (x += (setting.width * column.weight) / total))];
};

const cellElement = (cell: Cell, head: boolean, row: Element): Element => {
  const span = cell.span !== undefined && cell.span > 1 ? { span: cell.span } : {};
  if (head || cell.head) return element('TH', row, { scope: head ? 'Column' : 'Row', ...span });
  return element('TD', row, { ...span, ...(cell.hand === 'tick' && cell.text.length === 0 ? { actual: '\u2610' } : {}) });
};

/** True for a row of one cell, and for one whose head stands out: it heads those after it. */
const isBand = (block: Table, cells: readonly Cell[]): boolean =>
  block.columns.length > 1 && (cells.length === 1 || (cells[0]?.head === true && cells[0].tone === 'strong'));

/** Rows by the band that heads them; those before the first band each by itself. */
const bandsOf = (block: Table, rows: readonly Slab[]): readonly (readonly Slab[])[] => {
  const bands: Slab[][] = [];
  let open = false;
  rows.forEach((one, i) => {
    const band = isBand(block, block.rows[i] ?? []);
    if (band || !open) bands.push([one]);
    else (bands.at(-1) as Slab[]).push(one);
    open ||= band;
  });
  return bands;
};

/** A band that may break: its head with two rows at least, and two at its end. */
const opened = (band: readonly Slab[]): readonly Slab[] =>
  band.length < 3 ? together(band) : unorphaned([together(band.slice(0, 2)), ...band.slice(2).map((one) => [one])]);

/** Rows of a band that is read in one go, such as a round with the probe. */
const SHORT = 7;

const staysWhole = (band: readonly Slab[], bands: Setting['job']['rung']['bands']): boolean =>
  bands === 'all' || (bands === 'short' && band.length <= SHORT);

/** The head rows over rows that go on from another sheet, with the name of their band beside the first head. */
const headsUnder = ({ head }: Table, name: readonly Run[]): Table['head'] =>
  head.map(([first, ...others], i) =>
    first && i === head.length - 1
      ? [{ ...first, text: [...first.text, { text: ' · ' }, ...name] }, ...others]
      : [...(first ? [first] : []), ...others],
  );

export const layTable = (block: Table, setting: Setting): readonly Slab[] => {
  const { palette } = setting.job;
  const edges = edgesOf(block, setting);
  const pad = typeAt(setting, 'body').size * 0.4;

  const row = (cells: readonly Cell[], head: boolean, of: Element | undefined): Slab => {
    let column = 0;
    const laid = cells.map((cell): LaidCell => {
      const x = edges[column] as number;
      const { align } = block.columns[column] as Table['columns'][number];
      column += cell.span ?? 1;
      const width = (edges[column] as number) - x;
      return layCell(cell, { x, width, pad, align, head, ...(of ? { of: cellElement(cell, head, of) } : {}) }, setting);
    });
    const height = Math.max(0, ...laid.map((cell) => cell.height));
    const thick = head ? RULE.head : RULE.row;
    const paint: Painting = (top) => [
      ...(head ? put(setting.x, top, [bar(setting.width, height, palette.shape('wash'))]) : []),
      ...laid.flatMap((cell) => cell.paint(top, height)),
      ...put(setting.x, top + height - thick, [bar(setting.width, thick, palette.shape(head ? 'ink' : 'rule'))]),
      ...laid.slice(1).flatMap((cell) => put(cell.x, top, [bar(RULE.column, height, palette.shape('rule'))])),
    ];
    return slab(block, 0, height, paint, head);
  };

  const table = element('Table', setting.parent);
  const gap = space(setting, 0.6);
  const label = { colour: palette.text('ink'), ...(block.caption ? { of: element('Caption', table) } : {}) };
  const caption = block.caption
    ? textSlabs(setText(block.caption, typeAt(setting, 'label'), setting, label), block, gap, true)
    : [];
  const ruled: Painting = (y) => put(setting.x, y, [bar(setting.width, RULE.head, palette.shape('ink'))]);
  const top = slab(block, 0, RULE.head, ruled, true);
  const thead = block.head.length > 0 ? element('THead', table) : undefined;
  const heads = block.head.map((cells) => row(cells, true, thead && element('TR', thead)));
  const again = [top, ...block.head.map((cells) => row(cells, true, undefined))];
  const body = element('TBody', table);
  let above = again;
  const rows = block.rows.map((cells) => {
    const [first] = cells;
    if (isBand(block, cells)) above = again;
    const laid = { ...row(cells, false, element('TR', body)), again: above };
    if (first?.again === 'row') above = [...again, row(cells, false, undefined)];
    else if (first?.again) above = [top, ...headsUnder(block, first.again).map((head) => row(head, true, undefined))];
    return laid;
  });
  const banded = block.rows.some((cells) => isBand(block, cells));
  const kept = block.whole
    ? together(rows)
    : banded
      ? bandsOf(block, rows).flatMap((band) => (staysWhole(band, setting.job.rung.bands) ? together : opened)(band))
      : unorphaned(rows.map((one) => [one]));
  return [...caption, { ...top, gap: caption.length > 0 ? space(setting, 0.25) : gap }, ...heads, ...kept];
};
