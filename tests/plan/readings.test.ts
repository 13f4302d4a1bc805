/**
 * Readings of a loaded top: lines enough on the week sheet, and where food goes out of a box that is not cold.
 */
import { describe, expect, it } from 'vitest';
import type { Step } from '../../src/plan/steps.js';
import { planWeek, readingsOn, weekOfIso, type WeekDates, type WeekDay } from '../../src/plan/week.js';
import { demoFiles, STORE, TABLE, tryChain, tryFiles } from '../support/chain.js';

const { workshop, stores } = tryFiles(demoFiles());
if (!workshop) throw new Error('the demo does not open');
const weeks = [...stores].flatMap(([id, { plan, read }]) => {
  const dates = weekOfIso('2026-W49', workshop.shelf.chain.week_starts) as WeekDates;
  return plan && read ? [{ id, plan, week: planWeek(read, plan, dates) }] : [];
});

/** US FDA Food Code 2022, 3-501.19 (B): the longest that food may be without temperature control; never longer between two readings. */
const LONGEST_MIN = 4 * 60;
/** Half of it where the model shows the food over the limit on a usual day. Common practice, no source. */
const longest = ({ physics }: { readonly physics?: { readonly usual_over?: unknown } | undefined }): number =>
  physics?.usual_over ? LONGEST_MIN / 2 : LONGEST_MIN;

describe('the warmest pan of a top', () => {
  const days = weeks.flatMap(({ id, plan, week }) =>
    Object.values(plan.units).flatMap((unit) =>
      [unit.open, unit.afternoon?.open ?? []].flatMap((steps) =>
        steps
          .filter((step) => step.every)
          .flatMap((step) => week.days.filter((d) => d.open).map((day) => ({ name: `${id} ${day.weekday}`, step, unit, day }))),
      ),
    ),
  );

  it('has a line for as many readings as leave no gap over four hours, and for no more', () => {
    let told = 0;
    for (const { name, step, unit, day } of days) {
      const at = day.units[unit.id.value.text] ?? {};
      const lines = readingsOn(step, unit, day);
      expect(lines, name).toBeGreaterThanOrEqual(1);
      if (unit.afternoon || !at.first_pan || !at.empty_by) continue;
      told += 1;
      const loaded = at.empty_by.value.min - at.first_pan.value.min;
      expect(loaded / (lines + 1), name).toBeLessThanOrEqual(longest(unit));
      if (lines > 1) expect(loaded / lines, name).toBeGreaterThan(longest(unit));
    }
    expect(told).toBeGreaterThan(20);
  });

  it('is read twice as often, and says why, where the model shows food over the limit on a usual day', () => {
    // Measured warm in a cool kitchen: the same machine in a hot one can only be warmer.
    const warm = (usual: string) => {
      const tried = tryChain({
        'equipment/table.yaml': TABLE.replace('condensing: { place', 'condensing: { power: 1/2 hp, place')
          .replace('senses: air }', 'senses: air }\n    shelves: { count: 4, volume: 16 cu ft }')
          .replace('air: 16 to 20 °F', 'measured: { kitchen: 70 °F, air: 18 °F, food: 37 °F }\n    air: 16 to 20 °F'),
        'sites/street.yaml': `${STORE}kitchen: { usual: ${usual}, hottest: 110 °F }\n`,
      });
      const { plan } = tried.stores.get('street') ?? {};
      const unit = plan?.units['line-1'];
      if (!plan || !unit) throw new Error(tried.told.join('\n'));
      const over = unit.physics?.usual_over?.value.si;
      if (over !== undefined) expect(over).toBeGreaterThan(plan.store.law.limit.value.si);
      const step = unit.open.find((one) => one.every);
      return { over: over !== undefined, every: step?.every?.value, code: step?.text.value.code };
    };
    expect(warm('110 °F')).toMatchObject({ over: true, every: { si: 7200 }, code: 'steps.read-by-day-warm.text' });
    expect(warm('60 °F')).toMatchObject({ over: false, every: { si: 14400 }, code: 'steps.read-by-day.text' });
  });

  it('is read from each loading to the emptying that follows it, where a top rests in the afternoon', () => {
    const hours = 'Mo-Su 06:00-10:00, 17:00-23:30';
    const { plan, read } =
      tryChain({ 'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', hours) }).stores.get('street') ?? {};
    const unit = plan?.units['line-1'];
    const day = plan && read && planWeek(read, plan, weekOfIso('2026-W49', 'mon') as WeekDates).days[2];
    const lines = (steps: readonly Step[] = []) =>
      steps.filter((step) => step.every).map((s) => unit && day && readingsOn(s, unit, day));
    // Loaded 05:45 to 10:00: 4 h 15 min, one reading. Loaded 16:45 to before 24:00: over four hours, under eight, one reading.
    expect([lines(unit?.open), lines(unit?.afternoon?.open)]).toEqual([[1], [1]]);
    const later = {
      ...day,
      units: { 'line-1': { ...day?.units['line-1'], night_empty_by: { value: { q: 'moment', min: 16.75 * 60 + 8 * 60 + 1 } } } },
    };
    const evening = unit?.afternoon?.open.find((step) => step.every);
    expect(evening && unit && readingsOn(evening, unit, later as unknown as WeekDay)).toBe(2);
  });
});

describe('a week sheet', () => {
  it('says once where cold food goes out of a cold box, and once of a freezer', () => {
    for (const { id, plan, week } of weeks) {
      const said = week.tree.keep.map((phrase) => phrase.value.code);
      expect(new Set(said).size, id).toBe(said.length);
      const units = Object.values(plan.units).filter((u) => u.is.box.value.is);
      expect(said.includes('call.keep-cold'), id).toBe(units.some((u) => u.is.cold.value.is));
      expect(said.includes('call.keep-frozen'), id).toBe(units.some((u) => u.is.frozen.value.is));
      for (const phrase of week.tree.keep.filter((p) => p.value.code === 'call.keep-cold')) {
        expect(phrase.value.with.backup?.value, id).toEqual(plan.store.backup.value);
      }
    }
  });
});
