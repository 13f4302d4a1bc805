/**
 * Tables and checklists: column widths by weight, rows that never split, boxes to tick, room to write, and hatched cells where nothing is to be done.
 */
import type { Block, Cell } from '../compose/block.js';
import { space, typeAt, type Setting } from './setting.js';
import { element, slab, type Element, type Paint, type Slab } from './sheet.js';
import { bar, filled, hatch, put, tickBox } from './signs.js';
import { setText, textSlabs } from './text.js';
import { MM, PAPER } from './theme.js';
import { rectangle } from '../draw/drawing.js';

type Table = Extract<Block, { block: 'table' }>;

/** Least height of a cell for a pen, and side of a box to tick (common practice, no source). */
const PEN_CELL = { room: 12 * MM, unit: 10 * MM, hand: 8 * MM } as const;
const PEN_BOX = { room: 8 * MM, unit: 6 * MM, hand: 4.6 * MM } as const;

interface Grid {
  /** Left edges of the columns and the right edge of the last, points from the sheet's edge. */
  readonly edges: readonly number[];
  readonly align: readonly ('start' | 'middle' | 'end')[];
  readonly pad: number;
}

const gridOf = (block: Table, setting: Setting): Grid => {
  const total = block.columns.reduce((sum, column) => sum + column.weight, 0);
  const edges = [setting.x];
  for (const column of block.columns) edges.push((edges.at(-1) as number) + (setting.width * column.weight) / total);
  return { edges, align: block.columns.map((column) => column.align), pad: typeAt(setting, 'body').size * 0.4 };
};

interface LaidCell {
  readonly cell: Cell;
  readonly x: number;
  readonly width: number;
  readonly height: number;
  readonly paint: (height: number) => readonly Paint[];
}

const layCell = (cell: Cell, column: number, grid: Grid, setting: Setting, head: boolean, of: Element | undefined): LaidCell => {
  const { palette } = setting.job;
  const x = grid.edges[column] as number;
  const end = grid.edges[Math.min(column + (cell.span ?? 1), grid.edges.length - 1)] as number;
  const width = end - x;
  const box = cell.hand === 'tick' ? PEN_BOX[setting.distance] : 0;
  const align = grid.align[column] ?? 'start';
  const left = box > 0 && cell.text.length > 0 ? box + grid.pad * 0.8 : 0;
  const style = typeAt(setting, head ? 'label' : 'body');
  const strong = head || cell.head === true || cell.tone === 'strong';
  const text = setText(
    cell.text,
    { ...style, face: strong ? 'strong' : style.face },
    { ...setting, x: x + grid.pad + left, width: width - 2 * grid.pad - left },
    {
      align,
      colour: palette.text('ink'),
      ...(of ? { of } : {}),
    },
  );
  const least =
    cell.hand === undefined
      ? 0
      : Math.max(PEN_CELL[setting.distance], cell.hand === 'write' ? text.height + PEN_CELL[setting.distance] * 0.8 : 0);
  const paint = (height: number): readonly Paint[] => {
    const middle = cell.hand === 'write' || head ? grid.pad * 0.7 : (height - text.height) / 2;
    const free = width - 2 * grid.pad - box;
    const boxX = x + grid.pad + (left > 0 || align === 'start' ? 0 : align === 'end' ? free : free / 2);
    return [
      ...(cell.tone === 'mute' ? [...put(x, 0, hatch(width, height, 5, palette.shape('rule')))] : []),
      ...(cell.tone === 'mute' && text.height > 0
        ? put(x, 0, [
            filled(
              rectangle(
                grid.pad * 0.5 +
                  (align === 'start'
                    ? 0
                    : align === 'end'
                      ? width - grid.pad - text.width
                      : (width - text.width) / 2 - grid.pad * 0.5),
                middle - 1,
                text.width + grid.pad,
                text.height + 2,
              ),
              PAPER,
            ),
          ])
        : []),
      ...(box > 0
        ? put(boxX, (height - box) / 2, tickBox(box, palette.shape('ink')), cell.text.length === 0 ? of : undefined)
        : []),
      ...(cell.hand === 'write'
        ? put(x + grid.pad, height - grid.pad * 0.9, [bar(width - 2 * grid.pad, 0.9, palette.shape('soft-ink'))])
        : []),
      ...text.lines.flat().map((p) => ({ ...p, y: p.y + middle })),
    ];
  };
  return { cell, x, width, height: Math.max(least, text.height + 1.4 * grid.pad), paint };
};

const cellElement = (cell: Cell, head: boolean, row: Element | undefined): Element | undefined => {
  if (!row) return undefined;
  const span = cell.span !== undefined && cell.span > 1 ? { span: cell.span } : {};
  const actual = cell.hand === 'tick' && cell.text.length === 0 ? { actual: '\u2610' } : {};
  if (head) return element('TH', row, { scope: 'Column', ...span });
  return cell.head ? element('TH', row, { scope: 'Row', ...span }) : element('TD', row, { ...span, ...actual });
};

const layRow = (
  cells: readonly Cell[],
  grid: Grid,
  setting: Setting,
  head: boolean,
  row: Element | undefined,
  gap: number,
): Slab => {
  const { palette } = setting.job;
  let column = 0;
  const laid = cells.map((cell) => {
    const made = layCell(cell, column, grid, setting, head, cellElement(cell, head, row));
    column += cell.span ?? 1;
    return made;
  });
  const height = Math.max(0, ...laid.map((cell) => cell.height));
  const line = head ? 1.6 : 0.7;
  const rules = [
    ...put(setting.x, height - line, [bar(setting.width, line, palette.shape(head ? 'ink' : 'rule'))]),
    ...laid.slice(1).flatMap((cell) => put(cell.x - 0.25, 0, [bar(0.5, height, palette.shape('rule'))])),
  ];
  const ground = head ? put(setting.x, 0, [bar(setting.width, height, palette.shape('wash'))]) : [];
  return slab(setting.line, gap, height, [...ground, ...laid.flatMap((cell) => cell.paint(height)), ...rules], head);
};

export const layTable = (block: Table, setting: Setting): readonly Slab[] => {
  const grid = gridOf(block, setting);
  const table = element('Table', setting.parent);
  const gap = space(setting, 0.6);
  const caption = block.caption
    ? textSlabs(
        setText(block.caption, typeAt(setting, 'label'), setting, {
          colour: setting.job.palette.text('ink'),
          of: element('Caption', table),
        }),
        block.line,
        gap,
        true,
      )
    : [];
  const top = slab(
    block.line,
    caption.length > 0 ? space(setting, 0.25) : gap,
    1.6,
    put(setting.x, 0, [bar(setting.width, 1.6, setting.job.palette.shape('ink'))]),
    true,
  );
  const head = (parent: Element | undefined): readonly Slab[] =>
    block.head.map((cells) => layRow(cells, grid, setting, true, parent ? element('TR', parent) : undefined, 0));
  const heads = [top, ...(block.head.length > 0 ? head(element('THead', table)) : [])];
  const again = [{ ...top, gap: 0 }, ...head(undefined)];
  const body = element('TBody', table);
  const rows = block.rows.map((cells) => ({ ...layRow(cells, grid, setting, false, element('TR', body), 0), again }));
  return [...caption, ...heads, ...rows];
};
