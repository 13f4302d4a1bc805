/**
 * Real-sized weeks of every shape, from written hours to settings: nothing throws, and each answer is held against the rules one by one.
 */
import { expect, it } from 'vitest';
import { parseHours, weekOf } from '../../src/model/hours/index.js';
import { CLOCK_KINDS, clockKindNames } from '../../src/trade/clocks.js';
import { clockOf, nightsOf, solve, WEEK_CIRCLE, type Clock, type Need, type Shift } from '../../src/plan/timetable/index.js';
import { seeded } from './walker.js';

const DAY = 1440;
const NAMES = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];

it('keeps every rule in three thousand weeks', () => {
  const random = seeded(10080);
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const time = (m: number): string => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
  const counts = { solved: 0, refused: 0, kept: 0, late: 0, stays: 0 };
  for (let n = 0; n < 3000; n++) {
    const opens = int(14, 24) * 30;
    const text = NAMES.filter(() => random() > 0.12)
      .map((day) => {
        const from = random() < 0.8 ? opens : int(10, 26) * 30;
        return `${day} ${time(from)}-${time(Math.min(from + int(8, 32) * 30, DAY + Math.min(opens - 360, 720)))}`;
      })
      .join(', ');
    const parsed = parseHours(text === '' ? 'off' : text);
    if (!parsed.ok) continue;
    const shifts = new Map<number, Shift>();
    for (const { from, to } of weekOf(parsed.hours)) {
      const day = Math.floor(from / DAY);
      const [o, c] = [from - day * DAY, to - day * DAY];
      shifts.set(day, {
        day,
        opens: o,
        closes: c,
        comes: o - int(60, 180),
        leaves: c + int(0, 90),
        firstPan: o - int(0, 60),
        closers: int(1, 2),
        openers: 1,
      });
    }
    const nights = nightsOf(WEEK_CIRCLE, [...shifts.values()]);
    const least = int(120, 300);
    const need: Need = {
      empty: int(5, 45),
      load: int(5, 30),
      pullDown: int(20, 90),
      pullDownBand: int(0, 45),
      leastRest: least,
      enoughRest: least + int(0, 120),
      startBeforeClose: int(0, 45),
      wipe: random() < 0.2 ? 10 : null,
      longestRun: random() < 0.7 ? 3 * DAY : int(900, 2000),
    };
    const clock: Clock = clockOf(
      CLOCK_KINDS[clockKindNames[int(0, clockKindNames.length - 1)] as (typeof clockKindNames)[number]],
      WEEK_CIRCLE,
    );
    const found =
      random() < 0.3
        ? clock.classes.map((days) => ({ days, stretches: [{ off: int(0, 4) * 30, on: int(11, 15) * 30 }] }))
        : undefined;
    const [outcome] = solve({ circle: WEEK_CIRCLE, nights, rails: [{ id: 'rail', need, clock, ...(found ? { found } : {}) }] });
    const told = JSON.stringify({ text, need, clock, outcome });
    if (!outcome?.ok) {
      expect(outcome?.reasons.length, told).toBeGreaterThan(0);
      counts.refused++;
      continue;
    }
    counts.solved++;
    if (outcome.kept) counts.kept++;
    expect(outcome.nights.length).toBe(nights.length);
    for (const [i, plan] of outcome.nights.entries()) {
      const night = nights[i] as (typeof nights)[number];
      const out = night.closes - need.startBeforeClose + Math.ceil(need.empty / night.closers);
      const power = night.firstPan - need.load - need.pullDown;
      const d = clock.allowance;
      expect(plan.coldBy, told).toBe(night.firstPan - need.load);
      for (const stop of plan.stops) {
        expect(stop.from, told).toBeGreaterThanOrEqual(out + d);
        expect(stop.to, told).toBeLessThanOrEqual(power - d);
        expect([stop.from % clock.step, stop.to % clock.step], told).toEqual([0, 0]);
      }
      const { rest } = plan;
      if (!rest) {
        counts.stays++;
        expect(plan.stops, told).toEqual([]);
        continue;
      }
      if (night.closes > DAY) counts.late++;
      expect(rest.counts, told).toBe(rest.minutes >= need.leastRest);
      expect(rest.emptyBy, told).toBe(Math.min(rest.off - d, night.leaves));
      expect(rest.emptyBy, told).toBeGreaterThanOrEqual(out);
      expect(rest.startEmptying, told).toBe(rest.emptyBy - Math.ceil(need.empty / night.closers));
      if (need.wipe !== null) expect(rest.on, told).toBeGreaterThanOrEqual(night.comes + need.wipe + d);
      if (clock.by === 'hand') expect([rest.off <= night.leaves, rest.on >= night.comes], told).toEqual([true, true]);
      for (const { days } of [rest.why.off, rest.why.on]) expect(days.length, told).toBeGreaterThan(0);
    }
    // The longest run between rests, over the turnings that the clock makes.
    const rests = outcome.nights
      .flatMap((p) => p.stops.map((s) => ({ from: s.from + p.day * DAY, to: s.to + p.day * DAY })))
      .filter((s) => s.to - s.from >= need.leastRest);
    rests.forEach((rest, i) =>
      expect((rests[i + 1]?.from ?? (rests[0]?.from ?? 0) + 7 * DAY) - rest.to, told).toBeLessThanOrEqual(need.longestRun),
    );
    expect(outcome.turnings.length, told).toBe(2 * outcome.nights.reduce((sum, p) => sum + p.stops.length, 0));
  }
  expect(counts.solved).toBeGreaterThan(400);
  expect(Math.min(counts.refused, counts.kept, counts.late, counts.stays), JSON.stringify(counts)).toBeGreaterThan(20);
});
