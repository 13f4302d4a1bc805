/**
 * From a place (document and path) to line, column and length, late: only when a finding is printed.
 */
import { isMap, isScalar, isSeq, type Node, type Pair } from 'yaml';
import type { Place } from '../base/place.js';
import type { Source } from './yaml.js';

export interface Spot {
  /** 1-based. */
  readonly line: number;
  readonly column: number;
  /** Characters to underline, at least 1. */
  readonly length: number;
}

/** Where the value (or, for a missing one, the nearest key above it) stands. A place that has its own line keeps it. */
export const locate = (at: Place, source: Source | undefined): Spot | undefined => {
  if (at.line !== undefined) return { line: at.line, column: at.column ?? 1, length: 1 };
  if (!source?.yaml) return undefined;
  let node = source.yaml.contents;
  let pair: Pair | undefined;
  let whole = true;
  for (const step of at.path) {
    let next: Node | null | undefined;
    if (isMap(node)) {
      const found: Pair | undefined = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
      if (found) pair = found;
      next = found?.value as Node | null | undefined;
      if (found && !next) break;
    } else if (isSeq(node) && typeof step === 'number') {
      next = node.items[step] as Node | undefined;
      // Of a list its item is nearer than the list's key.
      if (next) pair = undefined;
    }
    if (!next) {
      whole = false;
      break;
    }
    node = next;
  }
  const key = pair?.key as Node | undefined;
  // A map's own range runs over many lines: its key says where it is.
  const target = at.key || !whole || (isMap(node) && key) ? (key ?? node) : node;
  const range = target?.range;
  if (!range) return undefined;
  const { line, col } = source.lines.linePos(range[0]);
  const end = source.text.slice(range[0], range[1]).split('\n')[0] ?? '';
  return { line, column: col, length: Math.max(1, end.trimEnd().length) };
};
