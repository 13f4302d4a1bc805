/**
 * A page as a source for typst: the same words on the same sheet in the same typeface and about the same sizes, with the same pictures, steps, tables and
 * frames. It is there to be measured against, not to be printed.
 */
import { textOf, type Run } from '../src/base/run.js';
import { cssSize } from '../src/base/sheet-size.js';
import type { Block, Cell, Page } from '../src/compose/block.js';
import { drawingToSvg } from '../src/print/svg.js';
import { paletteOf } from '../src/print/theme.js';

/** Points of body type at each distance, and of the signal. */
const SIZE = { room: 47, unit: 17, hand: 11.5 } as const;

const escaped = (text: string): string => text.replace(/[\\#$*_`<>@=~[\]"'/+-]/g, (c) => `\\${c}`);
const quoted = (text: string): string => JSON.stringify(text);
const inline = (runs: readonly Run[]): string =>
  runs.map((run) => (run.strong ? `#strong[${escaped(run.text)}]` : escaped(run.text))).join('');

const cellOf = (cell: Cell, head: boolean): string => {
  const span = cell.span === undefined ? '' : `colspan: ${cell.span}, `;
  const words = head || cell.head || cell.tone === 'strong' ? `#strong[${inline(cell.text)}]` : inline(cell.text);
  const hand = cell.hand === 'tick' ? '#box(width: 13pt, height: 13pt, stroke: 1pt) ' : cell.hand === 'write' ? '#v(16pt)' : '';
  return `table.cell(${span})[${hand}${words}]`;
};

export interface Source {
  readonly text: string;
  /** Pictures by the names that the text gives them. */
  readonly pictures: ReadonlyMap<string, string>;
}

export const typstOf = (page: Page): Source => {
  const pictures = new Map<string, string>();
  const palette = paletteOf(page.brand.colour);
  const write = (blocks: readonly Block[], size: number): string => blocks.map((block) => one(block, size)).join('\n\n');
  const item = (body: readonly Block[], size: number): string => `[${write(body, size)}]`;
  const one = (block: Block, size: number): string => {
    switch (block.block) {
      case 'heading':
        return `#heading(level: ${block.level})[${inline(block.text)}]`;
      case 'paragraph': {
        const scale =
          block.role === 'signal'
            ? size === SIZE.room
              ? 1.8
              : 2.6
            : block.role === 'message'
              ? 1.1
              : block.role === 'fine'
                ? 0.8
                : 1;
        return scale === 1 ? inline(block.text) : `#text(size: ${size * scale}pt)[${inline(block.text)}]`;
      }
      case 'list':
        return `#list(marker: [#box(width: 8pt, height: 8pt, stroke: 1pt)], ${block.items.map((body) => item(body, size)).join(', ')})`;
      case 'steps':
        return `#enum(${block.items.map(({ when, body }) => `[${when ? `#strong[${inline(when)}] ` : ''}${write(body, size)}]`).join(', ')})`;
      case 'table': {
        const columns = block.columns.map((column) => `${column.weight}fr`).join(', ');
        const head = block.head.map((row) => `table.header(${row.map((cell) => cellOf(cell, true)).join(', ')}),`).join('\n');
        const rows = block.rows.map((row) => row.map((cell) => cellOf(cell, false)).join(', ')).join(',\n');
        return `#table(columns: (${columns},), stroke: 0.5pt,\n${head}\n${rows})`;
      }
      case 'callout':
        return `#block(width: 100%, stroke: 1.5pt, inset: 8pt, breakable: false)[#strong[${escaped(page.words.levels[block.level])}] ${inline(block.title)}\n\n${write(block.body, size)}]`;
      case 'figure': {
        const name = `${block.drawing.name}-${pictures.size}.svg`;
        pictures.set(name, drawingToSvg(block.drawing, palette, name));
        return `#image("${name}", width: ${Math.round(block.share * 100)}%, alt: ${quoted(textOf(block.drawing.alt))})`;
      }
      case 'columns': {
        const weights = block.columns.map((column) => `${column.weight}fr`).join(', ');
        return `#grid(columns: (${weights}), column-gutter: 20pt, ${block.columns.map((column) => item(column.body, size)).join(', ')})`;
      }
      case 'cut-outs':
        return `#grid(columns: ${block.across}, gutter: 8pt, ${block.items.map((body) => item(body, size)).join(', ')})`;
      case 'optional':
        return write(block.body, size);
      case 'face':
        return `#[#set text(size: ${SIZE[block.distance]}pt)\n${write(block.body, SIZE[block.distance])}]`;
      case 'blank':
        return `${inline(block.label)}${'#v(20pt)#line(length: 100%)'.repeat(block.lines)}`;
      case 'new-sheet':
        return '#pagebreak()';
    }
  };
  const size = SIZE[page.distance];
  const [width, height] = cssSize(page.sheet, page.orientation).split(' ');
  const text = `#set document(title: ${quoted(page.title)})
#set page(width: ${width}, height: ${height}, margin: 12mm, header: [${inline(page.head)}], footer: [${page.foot.map(inline).join(' ')}])
#set text(font: "Atkinson Hyperlegible Next", size: ${size}pt, lang: "${page.lang.slice(0, 2)}", hyphenate: true)
${write(page.body, size)}
`;
  return { text, pictures };
};
