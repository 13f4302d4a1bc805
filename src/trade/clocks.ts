/**
 * Clocks that rest a rail, as records of capabilities; the solver and the picture of the dial read capabilities only.
 * Steps and drift are common practice, no source, unless told.
 */

/** Which days share one pattern. */
export type DaysShared = 'all' | 'weekdays-and-weekend' | 'none';

export interface ClockKind {
  readonly shares: DaysShared;
  /** Minutes: settings lie on multiples of it. */
  readonly step: number;
  /** Off-stretches a pattern can hold. */
  readonly stretches: number;
  /** Where it keeps only so many programs, each an off and an on time with the days that it is for. Left out where each day can have its own. */
  readonly programs?: number;
  /** Longest single stop in minutes, where the clock ends each one by itself. */
  readonly longest?: number;
  /** Minutes by which its stop and start may be off: half a step of reading the dial, and drift between two visits. */
  readonly allowance: number;
  /** Goes by the wall when that changes, each of its kind: a hand does. Of one clock that does, its profile says so: `follows_dst`. */
  readonly followsDst: boolean;
  readonly survivesPowerCut: boolean;
  /** What it looks like, for the picture: a face with trippers, a face with pins, figures, a switch. */
  readonly face: 'trippers' | 'pins' | 'figures' | 'switch';
  /** Who turns the rail off and on: the clock, or a hand as a nightly task. Staff turn a switch; a clock's off and on, which have live power behind them, are a technician's alone. */
  readonly by: 'clock' | 'hand';
  /** Can be put in the place of a clock that doesn't do, or of none; offered in the order of this table, so the dearest stands last. */
  readonly fitted: boolean;
}

const kinds = {
  'daily-dial': {
    shares: 'all',
    step: 15,
    stretches: 2,
    allowance: 15,
    followsDst: false,
    survivesPowerCut: false,
    face: 'trippers',
    by: 'clock',
    fitted: true,
  },
  // Ends each event by itself at 110 min (clock makers' manuals): it can't rest a static rail for hours.
  'hour-pin-clock': {
    shares: 'all',
    step: 60,
    stretches: 6,
    longest: 110,
    allowance: 15,
    followsDst: false,
    survivesPowerCut: false,
    face: 'pins',
    by: 'clock',
    fitted: false,
  },
  'weekday-weekend-clock': {
    shares: 'weekdays-and-weekend',
    step: 15,
    stretches: 2,
    allowance: 15,
    followsDst: false,
    survivesPowerCut: false,
    face: 'trippers',
    by: 'clock',
    fitted: true,
  },
  'seven-day-clock': {
    shares: 'none',
    step: 5,
    stretches: 2,
    allowance: 5,
    followsDst: false,
    survivesPowerCut: true,
    face: 'figures',
    by: 'clock',
    fitted: true,
  },
  controller: {
    shares: 'all',
    step: 10,
    stretches: 1,
    allowance: 10,
    followsDst: false,
    survivesPowerCut: true,
    face: 'figures',
    by: 'clock',
    fitted: false,
  },
  'hand-switch': {
    shares: 'none',
    step: 5,
    stretches: 1,
    allowance: 0,
    followsDst: true,
    survivesPowerCut: true,
    face: 'switch',
    by: 'hand',
    fitted: false,
  },
} as const satisfies Record<string, ClockKind>;

export type ClockKindName = keyof typeof kinds;
export const CLOCK_KINDS: Readonly<Record<ClockKindName, ClockKind>> = kinds;

/** A kind with the step that its maker gave it, in minutes; reading it is off by half of that. */
export const withStep = (kind: ClockKind, step: number | undefined): ClockKind =>
  step === undefined || kind.by === 'hand'
    ? kind
    : { ...kind, step, allowance: Math.max(0, kind.allowance + Math.ceil((step - kind.step) / 2)) };

/** Kinds whose days have times of their own in programs that a memory holds. */
export const hasPrograms = ({ shares, by }: ClockKind): boolean => shares === 'none' && by === 'clock';

/** Trippers or pins around a dial. */
export const isDial = ({ face }: ClockKind): boolean => face === 'trippers' || face === 'pins';

export const clockKindNames = Object.keys(kinds) as [ClockKindName, ...ClockKindName[]];
