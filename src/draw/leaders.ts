/**
 * Labels in a column beside a picture, each with a leader to what it names: in the order of their targets, so that no leader crosses another,
 * and pushed apart, so that no label meets another.
 */
import { pathOf, type Mark, type TextWidth } from './drawing.js';
import { put, type Block } from './lettering.js';
import { leader, point } from './marks.js';

export interface Callout {
  readonly x: number;
  readonly y: number;
  readonly label: Block;
}

export interface Column {
  /** Leaders run level to here, */
  readonly edge: number;
  /** then to the labels' left side. */
  readonly left: number;
  readonly apart: number;
}

/** Tops of labels whose middles want to be at some heights: as near as they can without meeting, none above `top`. */
export const spread = (
  wanted: readonly { readonly y: number; readonly height: number }[],
  top: number,
  bottom: number,
  apart: number,
): readonly number[] => {
  const tops: number[] = [];
  let free = top;
  for (const { y, height } of wanted) {
    const at = Math.max(free, y - height / 2);
    tops.push(at);
    free = at + height + apart;
  }
  // What hangs over the bottom moves up, as far as there is room.
  let limit = Math.max(
    bottom,
    wanted.reduce((sum, w) => sum + w.height + apart, top - apart),
  );
  return tops
    .map((at, i) => ({ at, height: (wanted[i] as { height: number }).height }))
    .reverse()
    .map(({ at, height }) => {
      const moved = Math.min(at, limit - height);
      limit = moved - apart;
      return moved;
    })
    .reverse();
};

/** @param bottom labels stay above it if they can */
export const callouts = (
  some: readonly Callout[],
  column: Column,
  bottom: number,
  width: TextWidth,
): { readonly marks: readonly Mark[]; readonly bottom: number } => {
  const ordered = [...some].sort((a, b) => a.y - b.y);
  const tops = spread(
    ordered.map(({ y, label }) => ({ y, height: label.height })),
    0,
    bottom,
    column.apart,
  );
  const marks = ordered.flatMap(({ x, y, label }, i): readonly Mark[] => {
    const top = tops[i] as number;
    // Beside the middle of the first line.
    const beside = top + label.size * 0.56;
    return [
      ...leader(pathOf('M', x, y, 'H', column.edge, 'L', column.left - 5, beside)),
      ...point(x, y),
      ...put(label, column.left, top, 'start', width),
    ];
  });
  return { marks, bottom: Math.max(0, ...ordered.map(({ label }, i) => (tops[i] as number) + label.height)) };
};
