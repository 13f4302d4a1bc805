/**
 * A second, slow solver for small worlds, written apart from the first: it walks the circle minute by minute and tries every setting of the clock.
 */
import type { Clock, Need, Night, Pattern, Problem, Rail } from '../../src/plan/timetable/index.js';

/** A number from 0 to 1, the same for the same seed (mulberry32, public domain). */
export const seeded = (seed: number): (() => number) => {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
};

export interface Walk {
  readonly length: number;
  /** By minute: the night in which the rail may be off, -1 where it must be on. */
  readonly night: Int8Array;
  readonly edge: readonly {
    readonly from: number;
    readonly to: number;
    readonly lateEnough: number;
    readonly offBy: number;
    readonly offUntil: number;
  }[];
  readonly need: Need;
  readonly clock: Clock;
  readonly day: number;
  readonly dayOf: Int32Array;
  readonly classOf: Int32Array;
  readonly found: Uint8Array | undefined;
}

/** One rail alone with its crew. Minutes of an edge are those of its night's business day. */
export const walkOf = ({ circle, nights }: Problem, { need, clock, found }: Rail & { clock: Clock }): Walk => {
  const day = circle.minutesPerDay;
  const length = circle.days * day;
  const night = new Int8Array(length).fill(-1);
  const d = clock.allowance;
  const edge = nights.map((n: Night, i) => {
    const out = n.closes - need.startBeforeClose + Math.ceil(need.empty / n.closers);
    const power = n.firstPan - Math.ceil(need.load / n.openers) - need.pullDown;
    const [from, to] = [out + d, power - d];
    for (let m = from; m < to; m++) night[(n.day * day + m + length) % length] = i;
    const untils = [need.wipe === null ? -1e9 : n.comes + need.wipe + d, clock.by === 'hand' ? n.comes : -1e9];
    return {
      from,
      to,
      lateEnough: Math.max(from, n.leaves + d),
      offBy: clock.by === 'hand' ? n.leaves : 1e9,
      offUntil: Math.max(...untils),
    };
  });
  const dayOf = Int32Array.from({ length }, (_, m) => Math.floor(m / day));
  const classOf = dayOf.map((x) => clock.classes.findIndex((c) => c.includes(x)));
  return { length, night, edge, need, clock, day, dayOf, classOf, found: found && offOf({ length, day }, found) };
};

export const offOf = ({ length, day }: { length: number; day: number }, patterns: readonly Pattern[]): Uint8Array => {
  const off = new Uint8Array(length);
  for (const { days, stretches } of patterns) {
    for (const x of days) {
      for (const s of stretches) {
        for (let m = 0; m < day; m++) if (s.off < s.on ? m >= s.off && m < s.on : m >= s.off || m < s.on) off[x * day + m] = 1;
      }
    }
  }
  return off;
};

export interface Score {
  readonly values: readonly number[];
  /** Nights whose rest counts. */
  readonly nights: number;
  /** Start and less its end of each stop, in order of the nights' windows on the circle. */
  readonly stops: readonly (readonly [number, number])[];
}

/** Undefined where a rule is broken; else the score, larger is better from left to right: useful, -settings, morning, evening, -idle, -change, minutes off. */
export const walk = (w: Walk, nights: readonly Night[], off: Uint8Array): Score | undefined => {
  const { length, night, need, clock, day } = w;
  for (let m = 0; m < length; m++) if (off[m] && (night[m] as number) < 0) return undefined;
  const sets = new Set<string>();
  const perClass = new Map<string, number>();
  const runs: { night: number; from: number; to: number }[][] = nights.map(() => []);
  const rests: [number, number][] = [];
  for (let m = 0; m < length; m++) {
    const before = (m + length - 1) % length;
    if (off[m] === off[before]) continue;
    const key = `${w.classOf[m] as number} ${m % day} ${off[m] as number}`;
    if (!sets.has(key)) {
      sets.add(key);
      const side = `${w.classOf[m] as number} ${off[m] as number}`;
      perClass.set(side, (perClass.get(side) ?? 0) + 1);
    }
    if (!off[m]) continue;
    let to = m;
    while (off[to % length]) to++;
    if (to - m >= need.leastRest) rests.push([m, to]);
    if (clock.longest !== undefined && to - m > clock.longest) return undefined;
    const i = night[m] as number;
    // In minutes of the business day: the first such minute at or after the window's start.
    const start = (nights[i] as Night).day * day;
    const edge = w.edge[i] as Walk['edge'][number];
    let from = m - start;
    while (from < edge.from) from += length;
    while (from - length >= edge.from) from -= length;
    runs[i]?.push({ night: i, from, to: from + to - m });
  }
  if ([...perClass.values()].some((n) => n > clock.stretches)) return undefined;
  if (rests.length === 0) return undefined;
  for (let i = 0; i < rests.length; i++) {
    const next = rests[(i + 1) % rests.length] as [number, number];
    const start = i + 1 < rests.length ? next[0] : next[0] + length;
    if (start - (rests[i] as [number, number])[1] > need.longestRun) return undefined;
  }
  let [useful, counting, morning, evening, idle, total] = [0, 0, 0, 0, 0, 0];
  const ownDays = clock.classes.every((days) => days.length === 1);
  const programs = new Set<string>();
  for (const [i, row] of runs.entries()) {
    const edge = w.edge[i] as Walk['edge'][number];
    row.sort((a, b) => a.from - b.from);
    const [first, last] = [row[0], row.at(-1)];
    for (const r of row) programs.add(`${r.from} ${r.to}`);
    if (!first || !last) continue;
    if (last.from > edge.offBy || last.to < edge.offUntil) return undefined;
    const rest = last.to - last.from;
    if (rest < need.leastRest) continue;
    counting++;
    useful += Math.min(rest, need.enoughRest, clock.longest ?? Infinity);
    morning += Math.min(edge.to - last.to, need.pullDownBand);
    evening += Math.min(first.from, edge.lateEnough) - edge.from;
    if (ownDays && edge.to - edge.from > day) idle += edge.to - edge.from - row.reduce((sum, r) => sum + r.to - r.from, 0);
  }
  if (useful === 0) return undefined;
  if (clock.programs !== undefined && programs.size > clock.programs) return undefined;
  let change = 0;
  for (let m = 0; m < length; m++) {
    total += off[m] as number;
    if (w.found && off[m] !== w.found[m]) change++;
  }
  const starts = nights.map((n, i) => (n.day * day + (w.edge[i] as Walk['edge'][number]).from + length) % length);
  const order = [...runs.keys()].sort((a, b) => (starts[a] as number) - (starts[b] as number));
  return {
    values: [useful, -(clock.programs === undefined ? sets.size : programs.size), morning, evening, -idle, -change, total],
    nights: counting,
    // From the start of the first window on, so that nights compare in order.
    stops: order.flatMap((i) => (runs[i] ?? []).map((r): [number, number] => [r.from + order.indexOf(i) * 1e6, -r.to])),
  };
};

/** Larger score first; then the earlier and longer stop. */
const better = (a: Score, b: Score): boolean => {
  for (const [i, x] of a.values.entries()) if (x !== b.values[i]) return x > (b.values[i] as number);
  for (const [i, [from, to]] of a.stops.entries()) {
    const other = b.stops[i];
    if (!other || from !== other[0]) return !other || from < other[0];
    if (to !== other[1]) return to < other[1];
  }
  return false;
};

/** With programs, a setting that rests all nights comes before any other. */
const first = ({ clock }: Walk, { length }: readonly Night[], a: Score, b: Score): boolean => {
  const [x, y] = [a, b].map(({ nights }) => clock.programs !== undefined && nights === length);
  return x === y ? better(a, b) : x === true;
};

export interface Best {
  readonly score: Score;
  readonly off: Uint8Array;
}

const everyPattern = function* (w: Walk): Generator<Uint8Array> {
  const { clock, day, length } = w;
  const cells = day / clock.step;
  const bits = clock.classes.length * cells;
  const off = new Uint8Array(length);
  for (let mask = 0; mask < 2 ** bits; mask++) {
    for (let m = 0; m < length; m++)
      off[m] = (mask >> ((w.classOf[m] as number) * cells + Math.floor((m % day) / clock.step))) & 1;
    yield off;
  }
};

const everyProgram = function* (w: Walk, nights: readonly Night[], i = 0, off = new Uint8Array(w.length)): Generator<Uint8Array> {
  const night = nights[i];
  if (!night) {
    yield off;
    return;
  }
  yield* everyProgram(w, nights, i + 1, off);
  const { from, to } = w.edge[i] as Walk['edge'][number];
  const q = w.clock.step;
  for (let a = Math.ceil(from / q) * q; a < to; a += q) {
    for (let b = a + q; b <= to; b += q) {
      const next = off.slice();
      for (let m = a; m < b; m++) next[(night.day * w.day + m + w.length) % w.length] = 1;
      yield* everyProgram(w, nights, i + 1, next);
    }
  }
};

/** The setting as it was found, where it keeps the rules. */
const asFound = (w: Walk, nights: readonly Night[]): Best | undefined => {
  const { found } = w;
  const score = found?.every((x, m) => m % w.clock.step === 0 || x === found[m - 1]) ? walk(w, nights, found) : undefined;
  return found && score && { score, off: found };
};

/** The best setting of all, by trying every one, unless the one that was found rests as many nights; undefined where none keeps the rules. */
export const search = (w: Walk, nights: readonly Night[]): Best | undefined => {
  const kept = asFound(w, nights);
  if (kept?.score.nights === nights.length) return kept;
  let best: Best | undefined;
  for (const off of w.clock.programs === undefined ? everyPattern(w) : everyProgram(w, nights)) {
    const score = walk(w, nights, off);
    if (score && (!best || first(w, nights, score, best.score))) best = { score, off: off.slice() };
  }
  return kept && !(best && best.score.nights > kept.score.nights) ? kept : best;
};
