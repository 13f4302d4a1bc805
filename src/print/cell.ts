/**
 * One cell of a table: its words, a box to tick, room to write, or a hatch where nothing is to be done.
 */
import { error } from '../base/finding.js';
import { textOf } from '../base/run.js';
import type { Cell } from '../compose/block.js';
import { rectangle } from '../draw/drawing.js';
import { placeOf, typeAt, type Setting } from './setting.js';
import type { Element, Paint } from './sheet.js';
import { bar, filled, hatch, put, tickBox } from './signs.js';
import { setText, type SetText } from './text.js';
import { MM, PAPER } from './theme.js';

export interface Frame {
  readonly x: number;
  readonly width: number;
  /** White between the cell's sides and what it holds. */
  readonly pad: number;
  readonly align: 'start' | 'middle' | 'end';
  /** True in the head rows. */
  readonly head: boolean;
  /** Element that its words belong to; an artifact without one. */
  readonly of?: Element;
}

export interface LaidCell {
  readonly x: number;
  /** Height that it needs at least. */
  readonly height: number;
  /** Its paint in a row of the top and height given. */
  readonly paint: (top: number, height: number) => readonly Paint[];
}

/** Least height of a cell for a pen, and side of a box to tick (common practice, no source). */
const PEN_CELL = { room: 12 * MM, unit: 10 * MM, hand: 8 * MM } as const;
const PEN_BOX = { room: 8 * MM, unit: 6 * MM, hand: 4.6 * MM } as const;
/** Where a thing stands between the pads. */
const shift = (align: Frame['align'], free: number): number => (align === 'start' ? 0 : align === 'end' ? free : free / 2);

/** A diagonal hatch with the words on a clear ground. */
const muted = (
  frame: Frame,
  text: SetText,
  [top, height]: readonly [number, number],
  down: number,
  colour: string,
): readonly Paint[] => {
  const { x, width, pad, align } = frame;
  const left = pad / 2 + shift(align, width - 2 * pad - text.width);
  const clear = filled(rectangle(left, down, text.width + pad, text.height), PAPER);
  return put(x, top, [...hatch(width, height, 5, colour), ...(text.height > 0 ? [clear] : [])]);
};

export const layCell = (cell: Cell, frame: Frame, setting: Setting): LaidCell => {
  const { job, distance } = setting;
  const { x, width, pad, head, of } = frame;
  const ink = job.palette.shape('ink');
  const empty = cell.text.length === 0;
  const box = cell.hand === 'tick' ? PEN_BOX[distance] : 0;
  // Words beside a box start right after it.
  const left = box > 0 && !empty ? box + pad * 0.8 : 0;
  const align = left > 0 ? 'start' : frame.align;
  const inner = width - 2 * pad;
  if (box > inner) job.findings.push(error('too-narrow', placeOf(setting), { text: textOf(cell.text) }));

  const style = typeAt(setting, head ? 'label' : 'body');
  const strong = head || cell.head === true || cell.tone === 'strong';
  const text = setText(
    cell.text,
    { ...style, face: strong ? 'strong' : style.face },
    { ...setting, x: x + pad + left, width: Math.max(1, inner - left) },
    { align, colour: job.palette.text('ink'), ...(of ? { of } : {}) },
  );
  const words = text.height + 1.4 * pad;
  const pen = PEN_CELL[distance];
  const height = cell.hand === 'write' ? Math.max(pen, text.height + pen) : cell.hand === 'tick' ? Math.max(pen, words) : words;

  const paint: LaidCell['paint'] = (top, rowHeight) => {
    const down = cell.hand === 'write' || head ? pad * 0.7 : (rowHeight - text.height) / 2;
    const boxX = x + pad + shift(align, inner - box);
    const rule = bar(inner, 0.8, job.palette.shape('soft-ink'));
    return [
      ...(cell.tone === 'mute' ? muted(frame, text, [top, rowHeight], down, job.palette.shape('rule')) : []),
      ...(box > 0 ? put(boxX, top + (rowHeight - box) / 2, tickBox(box, ink), empty ? of : undefined) : []),
      ...(cell.hand === 'write' ? put(x + pad, top + rowHeight - pen * 0.24, [rule]) : []),
      ...text.paint(top + down),
    ];
  };
  return { x, height, paint };
};
