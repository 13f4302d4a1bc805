/**
 * The closed part of a unit from the front, by how food lies in it: doors with shelves, drawers, a walk-in's room; low under a top, or tall by itself.
 * Doors are drawn by the shelves; a profile says nothing of their number.
 */
import type { UnitPlan } from '../plan/unit.js';
import type { ZoneKind } from '../trade/zones.js';
import { body, door, drawer, fan, louvre, shelves, within, type Box } from './cabinet.js';
import { pathOf, rectangle, type Mark } from './drawing.js';
import type { Front } from './front.js';
import { loadLine } from './pans.js';
import { EDGE, HEAVY, OUTLINE, shape, stroke } from './strokes.js';

export type BoxZone = NonNullable<UnitPlan['box']>;

const DRAWERS = 130;
const TALL = 236;
const MACHINE = 46;
/** Of an open section, what its door's width is at most; and shelves one above the other in a low and a tall box. */
const SECTION = 96;
const FEW = { low: 2, tall: 5 } as const;

/** Sections side by side for so many shelves. */
const sectionsOf = (count: number, most: number): number => Math.min(3, Math.max(1, Math.ceil(count / most)));

/** Doors side by side, the last one cut open; glass ones all open. */
const doors = (box: Box, count: number, most: number, glass: boolean): Front => {
  const sections = sectionsOf(count, most);
  const room = box.width / sections;
  const at = (i: number): Box => ({ x: box.x + i * room, y: box.y, width: room, height: box.height });
  const rows = Math.max(1, Math.round(count / sections));
  const open = shelves(at(sections - 1), Math.min(rows, most + 2), glass);
  const shut = Array.from({ length: sections - 1 }, (_, i) => i).flatMap((i) =>
    glass ? shelves(at(i), rows, true).marks : door(at(i), i % 2 === 0 ? 'right' : 'left'),
  );
  const last = within(at(sections - 1), 4);
  return {
    marks: [
      body(box),
      ...shut,
      ...open.marks,
      loadLine(last.x + 2, last.x + last.width - 2, open.line),
      ...(glass ? [stroke(rectangle(last.x, last.y, last.width, last.height), OUTLINE)] : []),
    ],
    bottom: box.y + box.height,
    spots: { box: [last.x + last.width * 0.3, last.y], boxLine: [last.x + last.width - 6, open.line], boxProbe: open.probe },
  };
};

const drawers = (box: Box, count: number, pans: number): Front => {
  const columns = count > 1 ? 2 : 1;
  const rows = Math.ceil(count / columns);
  const [w, h] = [box.width / columns, box.height / rows];
  const all = Array.from({ length: count }, (_, i) => ({
    x: box.x + (i % columns) * w,
    y: box.y + Math.floor(i / columns) * h,
    width: w,
    height: h,
  }));
  const open = all[columns - 1] as Box;
  return {
    marks: [body(box), ...all.flatMap((one) => drawer(one, one === open ? pans : undefined))],
    bottom: box.y + box.height,
    spots: {
      box: [open.x + w * 0.5, box.y + box.height - h * 0.4],
      boxProbe: [open.x + w * (pans > 1 ? 0.72 : 0.5), open.y + h * 0.55],
    },
  };
};

/** A room: its door shut on the left, cut open on the right to its racks and its coil with fans. */
const room = (box: Box): Front => {
  const inside = { x: box.x + box.width * 0.42, y: box.y + 8, width: box.width * 0.58 - 8, height: box.height - 16 };
  const rack = shelves({ x: inside.x + 6, y: inside.y + 62, width: inside.width - 12, height: inside.height - 76 }, 3, false);
  const feet = inside.y + inside.height;
  const coil = { x: inside.x + inside.width * 0.2, y: inside.y + 5, width: inside.width * 0.6, height: 32 };
  const legs = [inside.x + 12, inside.x + inside.width - 12].map((x) => pathOf('M', x, inside.y + 62, 'V', feet)).join(' ');
  return {
    marks: [
      body(box),
      ...door({ x: box.x + 12, y: box.y + 24, width: box.width * 0.34, height: box.height - 28 }, 'right'),
      shape(rectangle(inside.x, inside.y, inside.width, inside.height), 'wash', EDGE),
      ...rack.marks,
      stroke(legs, OUTLINE),
      body(coil),
      ...fan(coil.x + coil.width * 0.28, coil.y + 16, 12),
      ...fan(coil.x + coil.width * 0.72, coil.y + 16, 12),
      loadLine(inside.x + 4, inside.x + inside.width - 4, inside.y + 58),
    ],
    bottom: box.y + box.height,
    spots: {
      box: [box.x + box.width - 5, box.y + 4],
      boxLine: [inside.x + inside.width - 6, inside.y + 58],
      boxProbe: rack.probe,
    },
  };
};

/** A low box fills what the table gives it; a tall one has the width that its sections need, its condensing unit below. */
export const boxFront = (
  zone: BoxZone,
  kind: ZoneKind,
  at: { readonly middle: number; readonly low: Box | undefined; readonly machine: boolean },
): Front & { readonly box: Box } => {
  const count = zone.shelves?.count.value.n ?? 2;
  const make = (box: Box, most: number): Front => {
    switch (kind.carries) {
      case 'drawers':
        return drawers(box, zone.drawers?.count.value.n ?? 2, zone.drawers?.pans_each.value.n ?? 1);
      case 'room':
        return room(box);
      case 'pans':
      case 'shelves':
        return doors(box, count, most, kind.holds === 'sealed');
    }
  };
  if (at.low) return { ...make(at.low, FEW.low), box: at.low };
  const width = { drawers: 2.4, room: 2.9, pans: 1, shelves: sectionsOf(count, FEW.tall) }[kind.carries] * SECTION;
  const height = kind.carries === 'drawers' ? DRAWERS : TALL;
  const box: Box = { x: at.middle - width / 2, y: 8, width, height };
  const front = make(box, FEW.tall);
  const machine: Box = { x: box.x, y: box.y + height, width, height: MACHINE };
  const marks: readonly Mark[] = at.machine
    ? [body(machine), louvre({ x: machine.x + 10, y: machine.y + 8, width: width - 64, height: MACHINE - 16 })]
    : [];
  return {
    marks: [...front.marks, ...marks, ...feet(box.x, width, machine.y + (at.machine ? MACHINE : 0))],
    bottom: machine.y + (at.machine ? MACHINE : 0) + 8,
    spots: front.spots,
    box: at.machine ? machine : box,
  };
};

export const feet = (x: number, width: number, y: number): readonly Mark[] => [
  stroke(pathOf('M', x + 8, y + 4, 'h', 14, 'M', x + width - 22, y + 4, 'h', 14), HEAVY),
];
