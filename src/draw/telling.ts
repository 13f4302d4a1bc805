/**
 * Text alternatives made of what a picture's labels say: whole sentences, one after another.
 */
import type { Run } from '../base/run.js';
import type { Line } from './lettering.js';

/** Each line closed by a stop where it has none, a space between two. */
export const sentences = (lines: readonly Line[]): readonly Run[] =>
  lines.flatMap((line, i): readonly Run[] => {
    const open = !/[.!?]$/.test(line.at(-1)?.text ?? '');
    return [...(i > 0 ? [{ text: ' ' }] : []), ...line.map(({ strong: _, ...run }) => run), ...(open ? [{ text: '.' }] : [])];
  });
