/**
 * Small random worlds for the solver: two or three days of a few cells, with every kind of clock.
 */
import { nightsOf, type Clock, type Night, type Pattern, type Problem, type Shift } from '../../src/plan/timetable/index.js';

export type ClockTrait = 'daily' | 'two-classes' | 'each-day' | 'programs' | 'hand';

/** Which gaps there are: between two business days, within one (an afternoon closing), or both. */
export type Gaps = 'nights' | 'afternoons' | 'both';

/** @param random 0 to 1 */
export const toyWorld = (random: () => number, trait: ClockTrait, gaps: Gaps = 'nights'): Problem | undefined => {
  const int = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const days = trait === 'two-classes' ? 3 : int(2, 3);
  const cells = {
    daily: int(4, 10),
    'two-classes': int(4, 6),
    'each-day': days === 3 ? 4 : int(4, 6),
    programs: int(4, 5),
    hand: days === 3 ? 4 : int(4, 5),
  }[trait];
  const step = int(1, 3);
  const day = cells * step;
  const all = Array.from({ length: days }, (_, i) => i);
  const classes = trait === 'daily' ? [all] : trait === 'two-classes' ? [all.slice(0, 2), all.slice(2)] : all.map((x) => [x]);
  const shifts: Shift[] = [];
  for (const x of all) {
    if (random() < 0.15) continue;
    // An afternoon closing wants a long day around it.
    const long = gaps === 'afternoons';
    const opens = long ? int(0, Math.floor(day * 0.2)) : int(Math.floor(day * 0.2), Math.floor(day * 0.6));
    const closes = opens + (long ? int(Math.floor(day * 0.8), day) : int(1, Math.ceil(day * 0.8)));
    const firstPan = Math.max(0, opens - int(0, step));
    shifts.push({
      day: x,
      opens,
      closes,
      comes: firstPan - int(step, 3 * step),
      leaves: closes + int(0, 2 * step),
      firstPan,
      closers: int(1, 2),
      openers: int(1, 2),
    });
  }
  const circle = { days, minutesPerDay: day };
  if (shifts.length === 0) return undefined;
  const afternoonOf = ({ day: x, opens, closes, closers, openers }: Shift): readonly Night[] => {
    const shuts = opens + int(0, Math.ceil(day * 0.3));
    const again =
      shuts + (gaps === 'afternoons' ? int(Math.floor(day * 0.4), Math.ceil(day * 0.8)) : int(1, Math.ceil(day * 0.6)));
    const firstPan = again - int(0, step);
    if (again > closes || firstPan <= shuts || (gaps === 'both' && random() < 0.15)) return [];
    const [comes, leaves] = [firstPan - int(step, 3 * step), shuts + int(0, 2 * step)];
    return [{ day: x, closes: shuts, leaves, comes, firstPan, opens: again, closers, openers }];
  };
  const nights = [
    ...(gaps === 'nights' ? [] : shifts.flatMap(afternoonOf)),
    ...(gaps === 'afternoons' ? [] : nightsOf(circle, shifts)),
  ].sort((a, b) => a.day - b.day || a.closes - b.closes);
  if (nights.length === 0 || nights.some((n) => n.firstPan <= n.closes)) return undefined;
  // The two gaps of a day that share a closing are none that a store has.
  if (nights.some((n, i) => nights[i - 1]?.day === n.day && nights[i - 1]?.closes === n.closes)) return undefined;
  const leastRest = int(1, Math.ceil(day * (gaps === 'afternoons' ? 0.2 : 0.4)));
  const clock: Clock = {
    by: trait === 'hand' ? 'hand' : 'clock',
    classes,
    step,
    // A day of its own can hold the ends of three gaps, and the clock they are tried on can too.
    stretches: trait === 'hand' ? 99 : trait === 'each-day' && gaps === 'both' ? 4 : int(trait === 'each-day' ? 2 : 1, 3),
    allowance: trait === 'hand' ? 0 : int(0, step),
    followsDst: true,
    survivesPowerCut: true,
    ...(trait === 'programs' ? { programs: int(1, 3), stretches: 99 } : {}),
    ...(trait === 'daily' && random() < 0.1 ? { longest: int(1, day), stretches: 1 } : {}),
  };
  const found = (): readonly Pattern[] =>
    classes.map((of) => {
      const off = int(0, cells - 1) * step;
      const on = int(1, cells) * step;
      return { days: of, stretches: off === on || random() < 0.2 ? [] : [{ off, on }] };
    });
  return {
    circle,
    nights,
    rails: [
      {
        id: 'rail',
        need: {
          empty: int(0, step),
          load: int(0, step),
          pullDown: int(0, 2 * step),
          pullDownBand: int(0, 2 * step),
          leastRest,
          enoughRest: leastRest + int(0, Math.ceil(day * 0.4)),
          startBeforeClose: int(0, step),
          wipe: random() < 0.3 ? int(0, step) : null,
          longestRun: random() < 0.4 ? day * days : int(Math.floor(day / 2), day * 2),
        },
        clock,
        ...(random() < 0.3 && trait !== 'hand' ? { found: found() } : {}),
      },
    ],
  };
};
