/**
 * Which blocks are headings of the document and at which level: the same for the PDF's tags, its bookmarks and the HTML.
 * Levels start at 1 and never skip one (PDF/UA-1, 7.4.2), whatever the template wrote.
 */
import { walk, type Block, type Page } from '../compose/block.js';

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
