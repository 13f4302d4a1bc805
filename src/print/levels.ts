/**
 * Which blocks are headings of the document and at which level: the same for the PDF's tags, its bookmarks and the HTML.
 * Levels start at 1 and never skip one (PDF/UA-1, 7.4.2), whatever the template wrote.
 */
import type { Block, Page } from '../compose/block.js';

/** Every block with the blocks it holds, in reading order. */
export function* walk(blocks: readonly Block[]): Generator<Block> {
  for (const block of blocks) {
    yield block;
    if (block.block === 'list' || block.block === 'cut-outs') for (const item of block.items) yield* walk(item);
    else if (block.block === 'steps') for (const item of block.items) yield* walk(item.body);
    else if (block.block === 'columns') for (const column of block.columns) yield* walk(column.body);
    else if (block.block === 'callout' || block.block === 'optional' || block.block === 'face') yield* walk(block.body);
  }
}

/** Level of each heading. A page without a heading of level 1 has its signals for that: the time is its headline. */
export const headingLevels = (page: Page): ReadonlyMap<Block, number> => {
  const blocks = [...walk(page.body)];
  const titled = blocks.some((block) => block.block === 'heading' && block.level === 1);
  const levels = new Map<Block, number>();
  const open: number[] = [];
  for (const block of blocks) {
    const headline = !titled && block.block === 'paragraph' && block.role === 'signal';
    const written = block.block === 'heading' ? block.level : headline ? 1 : undefined;
    if (written === undefined) continue;
    while ((open.at(-1) ?? 0) >= written) open.pop();
    open.push(written);
    levels.set(block, open.length);
  }
  return levels;
};
