/**
 * A flow of slabs to sheets: what stays together stays, columns go on side by side, and a table's head is painted again on each sheet.
 */
import { heightOf, stack, type Slab, type Stack } from './sheet.js';

/** Rounding in sums of heights, points. */
const EPSILON = 0.01;

/** The slab and those that it must share a sheet with. */
const groupEnd = (slabs: readonly Slab[], from: number): number => {
  let to = from;
  while (slabs[to]?.keep && to + 1 < slabs.length) to++;
  return to + 1;
};

/** Height that a slab needs at least to begin on a sheet. */
const least = (s: Slab): number =>
  s.columns
    ? Math.max(0, ...s.columns.map((column) => (column.length === 0 ? 0 : groupHeight(column.slice(0, groupEnd(column, 0))))))
    : s.height;

/** A group may end in columns, which go on to the next sheet. */
const groupHeight = (group: readonly Slab[]): number =>
  heightOf(group.slice(0, -1)) + (group.length > 1 ? (group.at(-1) as Slab).gap : 0) + least(group.at(-1) as Slab);

interface Filled {
  readonly placed: readonly Slab[];
  readonly rest: readonly Slab[];
}

const split = (s: Slab, height: number): Filled => {
  const parts = (s.columns ?? []).map((column) => fill(column, height));
  const columnsOf = (lists: readonly (readonly Slab[])[]): Slab => ({
    ...s,
    height: Math.max(0, ...lists.map(heightOf)),
    columns: lists,
  });
  const rest = parts.map((part) => part.rest);
  return {
    placed: [columnsOf(parts.map((part) => part.placed))],
    rest: rest.some((column) => column.length > 0) ? [columnsOf(rest)] : [],
  };
};

/** The slabs that go on a sheet of the height given, at least one, and those left over. */
const fill = (slabs: readonly Slab[], height: number): Filled => {
  const placed: Slab[] = [];
  let y = 0;
  let i = 0;
  const again = slabs[0]?.again ?? [];
  if (again.length > 0) {
    placed.push(...again);
    y = heightOf(again);
  }
  while (i < slabs.length) {
    const to = groupEnd(slabs, i);
    const group = slabs.slice(i, to);
    const gap = placed.length === 0 ? 0 : (group[0] as Slab).gap;
    const last = group.at(-1) as Slab;
    const whole = heightOf(group);
    const room = height - y - gap + EPSILON;
    if (whole <= room) {
      placed.push(...group);
      y += gap + whole;
      i = to;
    } else if (last.columns && groupHeight(group) <= room) {
      const before = heightOf(group.slice(0, -1)) + (group.length > 1 ? last.gap : 0);
      const parts = split(last, room - before);
      placed.push(...group.slice(0, -1), ...parts.placed);
      return { placed, rest: [...parts.rest, ...slabs.slice(to)] };
    } else if (i === 0) {
      // A group taller than a sheet comes apart; a slab taller than a sheet overflows, which fit reports.
      let taken = 1;
      while (taken < group.length && heightOf(group.slice(0, taken + 1)) <= room) taken++;
      placed.push(...group.slice(0, taken));
      return { placed, rest: slabs.slice(taken) };
    } else break;
  }
  return { placed, rest: slabs.slice(i) };
};

/** Flows between new-sheet marks; empty ones fall away. */
export const partsOf = (slabs: readonly Slab[]): readonly (readonly Slab[])[] => {
  const parts: Slab[][] = [[]];
  for (const s of slabs) {
    if (s.fresh) parts.push([]);
    else (parts.at(-1) as Slab[]).push(s);
  }
  return parts.filter((part) => part.length > 0);
};

/** A part over as many sheets as it takes. */
export const paginate = (part: readonly Slab[], height: number): readonly (readonly Slab[])[] => {
  const sheets: (readonly Slab[])[] = [];
  for (let rest = part; rest.length > 0;) {
    const filled = fill(rest, height);
    sheets.push(filled.placed);
    rest = filled.rest;
  }
  return sheets;
};

/** White that is left over on a sheet widens the spaces between its slabs, by at most this factor. */
const STRETCH = 1.4;

/** Places a sheet's slabs from `top`, with spaces widened to fill the height if they are not far from it. */
export const settle = (slabs: readonly Slab[], top: number, height: number, stretch: boolean): Stack => {
  const gaps = slabs.slice(1).reduce((sum, s) => sum + s.gap, 0);
  const free = height - heightOf(slabs);
  const factor = stretch && gaps > 0 && free > 0 ? Math.min(STRETCH, 1 + free / gaps) : 1;
  return stack(
    slabs.map((s) => ({ ...s, gap: s.gap * factor })),
    top,
  );
};
