/**
 * How long a year of timetables takes, and how much memory at its peak: 3 rails a store, solved and laid on every date of a year; run from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/bench/timetable.js [most stores]
 */
import { dayNumber, parseHours, weekOf } from '../src/model/hours/index.js';
import { nightsBetween, type Standing } from '../src/plan/timetable/dates/index.js';
import { clockOf, nightsOf, solve, WEEK_CIRCLE, type Need, type Rail, type Shift } from '../src/plan/timetable/index.js';
import { CLOCK_KINDS, type ClockKindName } from '../src/trade/clocks.js';

const KINDS: readonly ClockKindName[] = ['daily-dial', 'seven-day-clock', 'weekday-weekend-clock'];
const ZONES = ['America/New_York', 'America/Chicago', 'America/Denver', 'America/Los_Angeles', 'America/Phoenix'];
const DAY = 1440;

/** A store's hours, different for each number. */
const hoursOf = (n: number): string => {
  const opens = 8 + (n % 4);
  const late = 22 + (n % 3);
  return `Mo-Th ${String(opens).padStart(2, '0')}:00-22:00, Fr-Sa ${String(opens).padStart(2, '0')}:30-${late}:${n % 2 ? '30' : '00'}, Su ${opens + 1}:00-21:00`;
};

const shiftsOf = (text: string): readonly Shift[] => {
  const parsed = parseHours(text);
  if (!parsed.ok) throw new Error(`${text}: ${parsed.fault}`);
  return weekOf(parsed.hours).map(({ from, to }) => {
    const day = Math.floor(from / DAY);
    const [opens, closes] = [from - day * DAY, to - day * DAY];
    return { day, opens, closes, comes: opens - 120, leaves: closes + 60, firstPan: opens - 30, closers: 2, openers: 1 };
  });
};

const needOf = (r: number): Need => ({
  empty: 20 + 5 * r,
  load: 15,
  pullDown: 60 + 10 * r,
  pullDownBand: 30,
  leastRest: 270,
  enoughRest: 390,
  startBeforeClose: 30,
  wipe: null,
  longestRun: 1560,
});

const storeYear = (n: number): { nights: number; solved: number } => {
  const rails = KINDS.map((kind, r): Rail => ({ id: kind, need: needOf(r), clock: clockOf(CLOCK_KINDS[kind], WEEK_CIRCLE) }));
  const problem = { circle: WEEK_CIRCLE, nights: nightsOf(WEEK_CIRCLE, shiftsOf(hoursOf(n))), rails };
  const timetable = solve(problem);
  const christmas = dayNumber(2027, 12, 25);
  const standing: Standing = {
    problem,
    timetable,
    zone: ZONES[n % ZONES.length] as string,
    exceptions: new Map([[christmas, null]]),
  };
  return {
    nights: nightsBetween(standing, dayNumber(2027, 1, 1), dayNumber(2027, 12, 31)).length,
    solved: timetable.filter((o) => o.ok).length,
  };
};

const most = Number(process.argv[2] ?? 10000);
for (let stores = 100; stores <= most; stores *= 10) {
  const [start, before] = [performance.now(), process.cpuUsage()];
  let [nights, solved] = [0, 0];
  for (let n = 0; n < stores; n++) {
    const year = storeYear(n);
    nights += year.nights;
    solved += year.solved;
  }
  const seconds = (performance.now() - start) / 1000;
  const busy = process.cpuUsage(before).user / 1e6;
  console.log(
    `${stores} stores x 3 rails: ${seconds.toFixed(2)} s by the clock, ${busy.toFixed(2)} s of processor, ${((busy * 1e6) / (stores * 3)).toFixed(0)} us a rail-year; ${solved} solved, ${nights} nights; ${Math.round(process.resourceUsage().maxRSS / 1024)} MB at the peak`,
  );
}
