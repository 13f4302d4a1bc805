/**
 * A night that is not its weekday's ordinary one: the clocks change in it, or the store has other hours. Each rail's standing setting is held against it:
 * fine, a task for a hand, or an error. All in elapsed minutes, told in wall minutes.
 */
import type { DayNumber } from '../../../model/hours/index.js';
import { demandsOf, latestStarts, type Demand } from '../crew.js';
import type { Clock, Night, Rail, Stop } from '../problem.js';
import type { RestTimes } from '../outcome.js';
import type { DatedNight, DatedRail, DateNote, Standing } from './dated.js';
import { clockStops, dialSpans, handStops, type Solved } from './stops-on.js';
import type { DateNight } from './shifts.js';
import { oddity, shown, wallLegs, when, type Change, type Leg } from './wall.js';

/**
 * Closed for so many days, food opened on the last one has run out: it keeps seven at 41 °F, that day counted, FDA Food Code 2022, 3-501.17(A);
 * and nobody trusts a clock after it.
 */
export const LONG_CLOSURE = 6;

const PEOPLE = ['closes', 'leaves', 'comes', 'firstPan', 'opens'] as const;

/** Of a store that never closes the other times are its quiet window's. */
const ATTENDED = ['comes', 'firstPan'] as const;

/** When the crew leaves: so long after closing as on any other night, and no later than the wall shows its time; a time that the wall shows twice is the first then. */
export const leavingOf = (wall: readonly Leg[], { closes, leaves }: Night): number => {
  const [closed, shows] = [when(wall, closes, 'second'), when(wall, leaves, 'second')];
  const after = closed + leaves - closes;
  return [closes, leaves].every((at) => oddity(wall, at) === 'skipped') ? Math.max(shows, after) : Math.min(shows, after);
};

/** People's times in elapsed minutes; where the wall shows one twice, the one that is worse for food. */
const elapsedNight = (wall: readonly Leg[], night: Night): Night => ({
  ...night,
  closes: when(wall, night.closes, 'second'),
  leaves: leavingOf(wall, night),
  comes: when(wall, night.comes, 'second'),
  firstPan: when(wall, night.firstPan, 'first'),
  opens: when(wall, night.opens, 'first'),
});

interface Scene {
  readonly date: DayNumber;
  readonly later: number;
  readonly opened: number;
  readonly changes: readonly Change[];
  readonly wall: readonly Leg[];
  /** In elapsed minutes. */
  readonly night: Night;
}

interface Held {
  readonly stops: readonly Stop[];
  readonly notes: readonly DateNote[];
  readonly emptyBy: number | null;
}

/** When the clock is turned by hand to what the wall will show: once food is out at the usual time. */
const resetAt = (scene: Scene, solved: Solved, clock: Clock, demand: Demand): number => {
  const rest = solved.nights.find((n) => n.day === scene.night.day)?.rest;
  const usual = rest ? when(scene.wall, rest.off, 'first') - clock.allowance : scene.night.leaves;
  return Math.max(demand.out, Math.min(usual, scene.night.leaves));
};

/** A night whose stops don't fit: a hand holds the rail on while food is in it, turns it on early, or leaves it on. */
const byHand = (
  scene: Scene,
  { need }: Rail,
  clock: Clock,
  demand: Demand,
  stops: readonly Stop[],
  reset: number | undefined,
): Held => {
  const { wall, night } = scene;
  const { allowance } = clock;
  const tell = (elapsed: number): number => shown(wall, elapsed);
  /** From one minute on until another, and which of two times these are. */
  const held = (note: (from: number, until: number) => DateNote, from: number, until: number): readonly DateNote[] => [
    note(tell(from), tell(until)),
    ...whichOf(scene, 'hold', from),
    ...whichOf(scene, 'release', until),
  ];
  const notes: DateNote[] = [];
  const tooSoon = stops.filter((s) => s.from < demand.out + allowance && s.from !== reset);
  const tooLong = stops.filter((s) => s.to > demand.power - allowance);
  const nobody = tooLong.length > 0 && !night.attended && night.comes > demand.power;
  const cut = stops
    .filter((s) => !(nobody && tooLong.includes(s)))
    .map((s) => ({
      from: tooSoon.includes(s) ? Math.max(s.from, demand.out) : s.from,
      to: tooLong.includes(s) ? Math.min(s.to, demand.power) : s.to,
    }))
    .filter((s) => s.from < s.to);
  const last = cut.at(-1);
  const rest = last ? last.to - last.from : 0;
  const [first, final] = [stops[0], stops.at(-1)];
  if (!first || !final) return { stops: [], notes, emptyBy: null };
  const touched = tooSoon.length > 0 || tooLong.length > 0;
  /** Before the clock turns it off, and while somebody is there. */
  const stay = (from: Stop, to: Stop): readonly DateNote[] =>
    held(
      (begins, until) => ({ code: 'stay-on', from: begins, until }),
      Math.min(from.from - allowance, night.attended ? Infinity : night.leaves),
      to.to + allowance,
    );
  if (touched && rest < need.leastRest) return { stops: [], notes: stay(first, final), emptyBy: null };
  const sooner = tooSoon[0];
  if (sooner) notes.push(...held((from, until) => ({ code: 'hold-on', from, until }), sooner.from - allowance, demand.out));
  if (nobody) for (const s of tooLong) notes.push(...stay(s, s));
  else if (tooLong.length > 0)
    notes.push(...held((at, until) => ({ code: 'turn-on-early', at, until }), demand.power, final.to + allowance));
  const begin = (cut[0] as Stop).from;
  const limits = [
    sooner || begin === reset ? begin : begin - allowance,
    reset ?? Infinity,
    night.attended ? Infinity : night.leaves,
  ];
  return { stops: cut, notes, emptyBy: Math.max(demand.out, Math.min(...limits)) };
};

const crewNotes = ({ wall, night }: Scene, demand: Demand): readonly DateNote[] => {
  const tell = (elapsed: number): number => shown(wall, elapsed);
  if (night.firstPan <= night.closes)
    return [{ code: 'first-pan-before-closing', closes: tell(night.closes), firstPan: tell(night.firstPan) }];
  if (night.attended) return [];
  return [
    ...(demand.out > night.leaves
      ? [{ code: 'empty-after-crew-leaves', out: tell(demand.out), leaves: tell(night.leaves) } as const]
      : []),
    ...(demand.coldBy < night.comes
      ? [{ code: 'load-before-crew-comes', coldBy: tell(demand.coldBy), comes: tell(night.comes) } as const]
      : []),
    ...(demand.wiped !== null && demand.wiped > demand.power
      ? [{ code: 'wiped-too-late', wiped: tell(demand.wiped), power: tell(demand.power) } as const]
      : []),
  ];
};

const turningNotes = ({ wall, date, later }: Scene, { patterns }: Solved, stops: readonly Stop[]): readonly DateNote[] => {
  const set = dialSpans(patterns, date, later + 1);
  return stops.flatMap((stop, i) =>
    (['off', 'on'] as const).flatMap((turns): readonly DateNote[] => {
      // Between its first going off and its last coming on a clock that follows may turn back and forth with the wall: nothing for people.
      if (turns === 'off' ? i > 0 : i < stops.length - 1) return [];
      const elapsed = turns === 'off' ? stop.from : stop.to;
      // A turning that is set in the hour that is left out comes when that hour is skipped.
      const skipped = wall.flatMap((leg, i) => {
        if (i === 0 || leg.from !== elapsed) return [];
        const [from, to] = [leg.from + (wall[i - 1] as Leg).ahead, leg.from + leg.ahead];
        return set.map((span) => (turns === 'off' ? span.from : span.to)).filter((at) => at >= from && at < to);
      });
      if (skipped.length > 0) return [{ code: 'turning-skipped', turns, at: Math.min(...skipped) }];
      const at = shown(wall, elapsed);
      return oddity(wall, at) === 'twice' ? [{ code: 'turning-twice', turns, at }] : [];
    }),
  );
};

/** Of a time that the wall shows twice, which of the two it is. */
const whichOf = ({ wall }: Scene, what: 'off' | 'reset' | 'hold' | 'release', elapsed: number): readonly DateNote[] => {
  const at = shown(wall, elapsed);
  if (oddity(wall, at) !== 'twice') return [];
  return [{ code: elapsed === when(wall, at, 'first') ? 'turns-first-time' : 'turns-second-time', what, at }];
};

interface Judged extends Held {
  readonly rail: Rail;
  readonly demand: Demand;
}

const judgeRail = (scene: Scene, rail: Rail, solved: Solved, demand: Demand): Judged => {
  const { wall, night, changes, date, later, opened } = scene;
  const clock = rail.clock as Clock;
  if (clock.by === 'hand') {
    const usual = solved.nights.find((n) => n.day === night.day)?.rest;
    const stops = handStops(usual ? { from: usual.off, to: usual.on } : undefined, wall, demand.out, demand.power);
    const rested = stops.every((s) => s.to - s.from >= rail.need.leastRest) && night.comes <= demand.power;
    return {
      rail,
      demand,
      stops: rested ? stops : [],
      notes: crewNotes(scene, demand),
      emptyBy: rested ? (stops[0]?.from ?? null) : null,
    };
  }
  const turn = changes.reduce((sum, c) => sum + c.shift, 0);
  const stopsBy = (legs: readonly Leg[]): readonly Stop[] => clockStops(solved, date, later + 1, legs, opened, night.opens);
  const unturned = stopsBy(wallLegs([]));
  // Turned back before it would stop the top: then it goes off at its usual time.
  const before = turn < 0 ? (unturned[0]?.from ?? Infinity) - clock.allowance : Infinity;
  // Before a store opens again after so long, every clock is seen: by then it shows the wall's time.
  const follows = clock.followsDst || later > LONG_CLOSURE;
  const reset = follows || turn === 0 ? undefined : Math.max(demand.out, Math.min(resetAt(scene, solved, clock, demand), before));
  const dial =
    reset === undefined
      ? follows
        ? wall
        : wallLegs([])
      : [
          { from: -Infinity, ahead: 0 },
          { from: reset, ahead: turn },
        ];
  const stops = stopsBy(dial);
  const held = byHand(scene, rail, clock, demand, stops, reset);
  const missed = reset === undefined ? undefined : unturned.at(-1);
  const notes: DateNote[] = [
    ...crewNotes(scene, demand),
    ...(reset === undefined
      ? []
      : [
          {
            code: 'reset-clock',
            at: shown(wall, reset),
            turn,
            on: missed ? shown(wall, missed.to) : null,
            late: (missed?.to ?? 0) - (stops.at(-1)?.to ?? missed?.to ?? 0),
          } as const,
          ...whichOf(scene, 'reset', reset),
        ]),
    ...(clock.followsDst
      ? turningNotes(scene, solved, stops)
      : held.stops.slice(0, 1).flatMap(({ from }) => whichOf(scene, 'off', from))),
    ...held.notes,
  ];
  return { rail, demand, stops: held.stops, notes, emptyBy: held.emptyBy };
};

/** A special night as it is told, and the stops of each rail in elapsed minutes. */
export interface Special {
  readonly dated: DatedNight;
  readonly stops: readonly (readonly Stop[])[];
}

/** @param changes of the wall between the date's opening and the next, in minutes from 00:00 of the date @param opened the date's opening */
export const specialNight = (
  standing: Standing,
  date: DayNumber,
  { night: written, later, other }: DateNight,
  changes: readonly Change[],
  opened: number,
): Special => {
  const wall = wallLegs(changes);
  const night = elapsedNight(wall, written);
  const scene: Scene = { date, later, opened, changes, wall, night };
  const { rails } = standing.problem;
  const [demands] = demandsOf({ nights: [night], rails });
  const judged = rails.map((rail, r): Judged => {
    const outcome = standing.timetable[r];
    const demand = demands?.[r] as Demand;
    return outcome?.ok ? judgeRail(scene, rail, outcome, demand) : { rail, demand, stops: [], notes: [], emptyBy: null };
  });
  const starts = latestStarts(
    rails.map((r) => r.need),
    judged.map((j) => j.emptyBy),
    demands ?? [],
    night,
  );
  const tell = (elapsed: number): number => shown(wall, elapsed);
  const odd = (written.attended ? ATTENDED : PEOPLE).flatMap((what): readonly DateNote[] => {
    const found = oddity(wall, written[what]);
    // After a closing that the wall shows once, there is one leaving.
    if (what === 'leaves' && found === 'twice' && oddity(wall, written.closes) !== 'twice') return [];
    return found ? [{ code: `time-${found}`, what, at: written[what] }] : [];
  });
  const railOf = ({ rail, demand, stops, notes, emptyBy }: Judged, r: number): DatedRail => {
    const [first, last] = [stops[0], stops.at(-1)];
    const minutes = last ? last.to - last.from : 0;
    const times = (off: Stop, on: Stop, by: number): RestTimes => ({
      startEmptying: tell(starts[r] ?? by),
      emptyBy: tell(by),
      off: tell(off.from),
      on: tell(on.to),
      minutes,
      wiped: demand.wiped === null ? null : tell(demand.wiped),
    });
    const rest = first && last && emptyBy !== null ? times(first, last, emptyBy) : null;
    const twice = (what: 'startEmptying' | 'emptyBy', elapsed: number): readonly DateNote[] => {
      if (!rest || oddity(wall, rest[what]) !== 'twice') return [];
      const isFirst = elapsed === when(wall, rest[what], 'first');
      return [{ code: isFirst ? 'first-time-meant' : 'second-time-meant', what, at: rest[what] }];
    };
    return {
      rail: rail.id,
      coldBy: tell(demand.coldBy),
      rest,
      notes: [
        ...changes.map(({ at, shift }) => ({ code: 'clocks-change', at, shift, rest: minutes }) as const),
        ...odd,
        ...(emptyBy === null ? [] : [...twice('startEmptying', starts[r] ?? emptyBy), ...twice('emptyBy', emptyBy)]),
        ...notes,
        ...(last && minutes < rail.need.leastRest
          ? [{ code: 'rest-short', rest: minutes, least: rail.need.leastRest } as const]
          : []),
      ],
    };
  };
  const special = [...(changes.length > 0 ? ['clocks-change' as const] : []), ...(other ? ['other-hours' as const] : [])];
  return { dated: { date, special, night: written, changes, rails: judged.map(railOf) }, stops: judged.map((j) => j.stops) };
};
