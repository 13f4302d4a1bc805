/**
 * Things to cut out: each in a dashed box of its own, those of a row equally high, so that a knife and a ruler do for the whole sheet.
 */
import type { Block } from '../compose/block.js';
import { rectangle } from '../draw/drawing.js';
import { space, type Setting } from './setting.js';
import { element, heightOf, slab, stack, type Slab } from './sheet.js';
import { put } from './signs.js';
import { MM } from './theme.js';

/** Between two boxes, and from a cut to what is printed (common practice, no source). */
const APART = 3 * MM;
const PAD = 3.5 * MM;
const DASH = [4, 3] as const;

export const layCutOuts = (block: Extract<Block, { block: 'cut-outs' }>, setting: Setting): readonly Slab[] => {
  const width = (setting.width - APART * (block.across - 1)) / block.across;
  const rows = Array.from({ length: Math.ceil(block.items.length / block.across) }, (_, i) =>
    block.items.slice(i * block.across, (i + 1) * block.across),
  );
  return rows.map((items, i) => {
    const laid = items.map((item, k) => {
      const x = setting.x + k * (width + APART);
      const inner = { ...setting, x: x + PAD, width: width - 2 * PAD, parent: element('Sect', setting.parent) };
      return { x, slabs: setting.job.lay(item, inner) };
    });
    const height = Math.max(0, ...laid.map(({ slabs }) => heightOf(slabs))) + 2 * PAD;
    const cut = { d: rectangle(0, 0, width, height), stroke: setting.job.palette.shape('soft-ink'), width: 0.7, dash: DASH };
    return slab(block, i === 0 ? space(setting, 0.8) : APART, height, (top) =>
      laid.flatMap(({ x, slabs }) => [...put(x, top, [cut]), ...stack(slabs, top + PAD).paints]),
    );
  });
};
