/**
 * Which food hangs in which opening of a rail, and on which shelf it spends the night; what the store wrote about it that cannot be, or should not.
 * Nobody's arrangement is worked out here: a store writes its own, and is told where food stands that should stand apart.
 */
import type { Known } from '../base/basis.js';
import { error, note, warning, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import type { Place } from '../base/place.js';
import { count, flag, term, type Count, type Flag, type Term, type Told, type Value } from '../base/value.js';
import { EMPTY, type Food } from '../model/food.js';
import type { Zone } from '../model/profile.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import { panRows } from '../trade/pans.js';
import { practice, told, written } from './known.js';

export interface Opening {
  /** Counted from the left, the front row first. */
  readonly number: Known<Count>;
  /** Undefined where nobody said, or where nothing hangs. */
  readonly food: Known<Told> | undefined;
  readonly allergen: Known<Told> | undefined;
  readonly class: Known<Term> | undefined;
  readonly empty: Known<Flag>;
  readonly raw: Known<Flag>;
  readonly needs_cold: Known<Flag>;
  readonly [key: string]: Known<Value> | undefined;
}

/** Shelves of the night, the upper first: food that is eaten as it is, what has an allergen apart from it, raw food lowest. */
const SHELVES = ['ready', 'allergen', 'raw'] as const;

interface Placed {
  readonly opening: Opening;
  readonly food: Food | undefined;
  readonly id: string | undefined;
}

/** Openings side by side in a row, and one behind the other. */
const neighbours = (rows: readonly (readonly number[])[]): readonly (readonly [number, number])[] =>
  rows.flatMap((row, r) =>
    row.flatMap((place, i): (readonly [number, number])[] =>
      [row[i + 1], rows[r + 1]?.[i]].flatMap((other) => (other === undefined ? [] : [[place, other] as const])),
    ),
  );

/** Indices of each row's openings; what a list leaves out belongs to the last row. */
const rowsOf = (counts: readonly number[], all: number): readonly (readonly number[])[] => {
  let from = 0;
  return counts.map((n, r) => {
    const to = r === counts.length - 1 ? all : Math.min(all, from + n);
    const row = Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
    from = to;
    return row;
  });
};

export const panMap = (read: ReadStore, unit: ReadUnit, zone: Zone, lang: string) => {
  const { pans } = zone;
  if (!pans) return { findings: [] };
  const findings: Finding[] = [];
  const foods = read.store.foods ?? {};
  const at = (...path: (string | number)[]) => read.originOf('units', unit.id, ...path);
  const { openings } = unit.unit;
  const known = openings !== undefined;
  const wrote = openings?.flatMap((row, r) => row.map((id, i) => ({ id, r, i }))) ?? [];
  const openingAt = (n: number): Place => at('openings', ...(wrote[n] ? [wrote[n].r, wrote[n].i] : [])).at;

  const rows = rowsOf(openings?.map((row) => row.length) ?? panRows(pans.size, pans.count), pans.count);
  const heated = new Set(unit.unit.heat ? rows.map((row) => (unit.unit.heat === 'left' ? row[0] : row.at(-1))) : []);

  const placed = Array.from({ length: pans.count }, (_, i): Placed => {
    const id = wrote[i]?.id;
    const food = id === undefined ? undefined : foods[id];
    if (id !== undefined && id !== EMPTY && !food) {
      const names = [...Object.keys(foods), EMPTY];
      findings.push(error('no-such-food', openingAt(i), { wrote: id, ...suggestion(id, names) }));
    }
    const of = (...path: string[]) => read.originOf('foods', id ?? '', ...path);
    const trait = (is: boolean, key: string): Known<Flag> => (food ? written(flag(is), of(key)) : practice(flag(false), 'trait'));
    const opening: Opening = {
      number: practice(count(i + 1), 'opening-number'),
      food: food && written(told(food.name, lang), of('name')),
      allergen: food?.allergen === undefined ? undefined : written(told(food.allergen, lang), of('allergen')),
      class: food && written<Term>(term(food.class), of('class')),
      empty: practice(flag(known && !food), 'trait'),
      raw: trait(food?.class === 'raw', 'class'),
      needs_cold: trait(food?.needs_cold !== false, 'needs_cold'),
    };
    return { opening, food, id };
  });

  if (foods[EMPTY]) findings.push(error('food-called-empty', read.originOf('foods', EMPTY).at, {}));
  if (known && wrote.length > pans.count)
    findings.push(error('too-many-openings', at('openings').at, { wrote: wrote.length, has: pans.count }));
  if (known && wrote.length < pans.count)
    findings.push(note('openings-not-said', at('openings').at, { wrote: wrote.length, has: pans.count }));

  for (const [a, b] of neighbours(rows).map(([i, j]) => [placed[i], placed[j]] as const)) {
    if (!a?.food || !b?.food || a.id === b.id) continue;
    const data = { one: a.id ?? '', other: b.id ?? '', first: a.opening.number.value.n, second: b.opening.number.value.n };
    const where = openingAt(data.second - 1);
    if (a.food.class !== b.food.class) findings.push(warning('raw-beside-ready', where, data));
    else if (JSON.stringify(a.food.allergen) !== JSON.stringify(b.food.allergen))
      findings.push(warning('allergen-beside-other', where, data));
  }
  for (const { food, id, opening } of placed)
    if (food && food.hardy !== true && heated.has(opening.number.value.n - 1))
      findings.push(
        warning('tender-by-heat', openingAt(opening.number.value.n - 1), {
          food: id ?? '',
          opening: opening.number.value.n,
        }),
      );

  const shelfOf = ({ food }: Placed): (typeof SHELVES)[number] =>
    food?.class === 'raw' ? 'raw' : food?.allergen === undefined ? 'ready' : 'allergen';
  const map = {
    known: practice(flag(known), 'trait'),
    heat: unit.unit.heat && written<Term>(term(unit.unit.heat), at('heat')),
    /** The front row first. */
    rows: rows.map((row) => row.map((i) => (placed[i] as Placed).opening)),
    /** The upper shelf first; without foods, nothing is known of them. */
    night: Object.fromEntries(
      SHELVES.map((shelf) => [shelf, placed.filter((p) => p.food && shelfOf(p) === shelf).map((p) => p.opening)]),
    ),
    cold: placed.filter((p) => p.food && p.food.needs_cold !== false).map((p) => p.opening),
  };
  return { map, findings };
};
