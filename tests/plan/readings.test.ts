/**
 * Readings by day: hours enough on the week sheet, and where food goes out of a box that is not cold.
 */
import { describe, expect, it } from 'vitest';
import { planWeek } from '../../src/plan/week.js';
import { weekOfIso, type WeekDates } from '../../src/plan/week-dates.js';
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

describe('food that is served cold', () => {
  it('has rounds on each open day that leave no gap over four hours: of tops, drawers and boxes, not of freezers and sealed drinks', () => {
    let told = 0;
    for (const { id, plan, week } of weeks)
      for (const day of week.days)
        for (const unit of Object.values(plan.units)) {
          const name = `${id} ${unit.id.value.text} ${day.weekday}`;
          const read = day.rounds.flatMap(({ at, units }) => (units.includes(unit.id.value.text) ? [at.value.min] : []));
          const cold = !unit.is.frozen.value.is && !unit.is.sealed.value.is;
          expect(read.length > 0, name).toBe(day.open && cold);
          const at = day.units[unit.id.value.text] ?? {};
          // The bottom, and each box, was read when the crew came; a top's last reading is its probing at night.
          const from = plan.crew.comes.value.at[day.weekday]?.min;
          const until = at.start?.value.min ?? plan.crew.leaves.value.at[day.weekday]?.min;
          if (read.length === 0 || unit.afternoon || from === undefined || until === undefined) continue;
          told += 1;
          for (const [i, min] of [...read, until].entries())
            expect(min - (read[i - 1] ?? from), name).toBeLessThanOrEqual(longest(unit));
        }
    expect(told).toBeGreaterThan(80);
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
      const told = tried.findings.some((finding) => finding.code === 'food-over-usual');
      return { over: over !== undefined, told, every: step?.every?.value, code: step?.text.value.code };
    };
    expect(warm('110 °F')).toMatchObject({
      over: true,
      told: true,
      every: { si: 7200 },
      code: 'steps.read-by-day-warm-both.text',
    });
    expect(warm('60 °F')).toMatchObject({ over: false, told: false, every: { si: 14400 }, code: 'steps.read-by-day-both.text' });
  });

  it('is read from each loading to the emptying that follows it, where a top rests in the afternoon', () => {
    const hours = 'Mo-Su 06:00-10:00, 17:00-23:30';
    const { plan, read } =
      tryChain({ 'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', hours) }).stores.get('street') ?? {};
    const unit = plan?.units['line-1'];
    const day = plan && read && planWeek(read, plan, weekOfIso('2026-W49', 'mon') as WeekDates).days[2];
    const rounds = day?.rounds.map(({ at }) => at.value.min) ?? [];
    // The bottom read at 05:00, the top empty by 10:00; loaded 16:45 to before 24:00: every two hours, since nothing is predicted of this top, and nothing is in it between.
    expect([rounds.filter((m) => m < 600), rounds.filter((m) => m > 600 && m < 1005), rounds.filter((m) => m > 1005)]).toEqual([
      [420, 540],
      [],
      [1020, 1140, 1260, 1380],
    ]);
    expect(unit?.afternoon?.open.some((step) => step.every)).toBe(true);
  });
});

it('a store that never closes reads its boxes all night, while its top is empty', () => {
  const hours = STORE.replace('Mo-Su 07:00-22:00', '24/7') + "quiet_window: '01:00-09:00'\n";
  const { plan, read } = tryChain({ 'sites/street.yaml': hours }).stores.get('street') ?? {};
  if (!plan || !read) throw new Error('no plan');
  const day = planWeek(read, plan, weekOfIso('2026-W49', 'mon') as WeekDates).days[2];
  const at = day?.units['line-1'] ?? {};
  const night = day?.rounds.filter(({ units }) => units.includes('line-1/box')).map(({ at: { value } }) => value.min) ?? [];
  const comes = plan.crew.comes.value.at['thu']?.min ?? 0;
  // Where nobody comes to a closed store, the first reading has its hour as well.
  expect(day?.rounds[0]).toMatchObject({ at: { value: { min: plan.crew.comes.value.at['wed']?.min } }, units: ['line-1/box'] });
  const all = [at.start?.value.min ?? 0, ...night.slice(1), comes + 24 * 60];
  expect(night.length).toBeGreaterThan(1);
  for (const [i, min] of all.slice(1).entries()) expect(min - (all[i] ?? 0)).toBeLessThanOrEqual(LONGEST_MIN);
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
