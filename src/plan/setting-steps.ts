/**
 * How to set a rail's clock, in sentences for a technician; which sentences follows from what the clock can do, never from its name.
 */
import type { Known } from '../base/basis.js';
import { moment, WEEKDAYS, type Moment, type Weekday } from '../base/moment.js';
import { phrase, type Days, type Phrase, type Value } from '../base/value.js';
import { isDial, type ClockKind } from '../trade/clocks.js';
import { computed, practice } from './known.js';
import type { Outcome } from './timetable/index.js';

export interface SettingStep {
  readonly text: Known<Phrase>;
  readonly figures: Readonly<Record<string, Known<Value>>>;
  readonly [key: string]: Known<Value> | Readonly<Record<string, Known<Value>>>;
}

/** A setting as a clock with figures takes it: on which days of the calendar it turns. */
interface Setting {
  readonly off_days: Known<Days>;
  readonly off: Known<Moment>;
  readonly on_days: Known<Days>;
  readonly on: Known<Moment>;
}

interface Clock {
  readonly kind: ClockKind;
  readonly polarity: 'out-is-on' | 'out-is-off' | undefined;
  readonly reachable?: boolean | undefined;
}

const step = (code: string, figures: SettingStep['figures'] = {}): SettingStep => ({
  text: practice(phrase(`setting.${code}`, figures), `setting-${code}`),
  figures,
});

/** A face with trippers: all one way, then those of each stretch the other way. */
const trippers = (
  solved: Outcome & { ok: true },
  { polarity }: Clock,
  from: readonly Known<unknown>[],
): readonly SettingStep[] => {
  const known = <T extends Value>(value: T): Known<T> => computed(value, 'setting-of-those-days', from);
  const way = polarity ?? 'unknown';
  return [
    step(`all-${way}`),
    ...solved.patterns.flatMap(({ days, stretches }) =>
      stretches.map(({ off, on }) =>
        step(`stretch-${way}${solved.patterns.length > 1 ? '-days' : ''}`, {
          days: known({ q: 'days', days: days.map((day) => WEEKDAYS[day] as Weekday) }),
          off: known(moment(off)),
          on: known(moment(on)),
        }),
      ),
    ),
  ];
};

/** Figures to enter: each day of the calendar with its time. */
const figures = (settings: readonly Setting[]): readonly SettingStep[] => [
  step('clear'),
  ...settings.map(({ off_days, off, on_days, on }) => step('enter', { off_days, off, on_days, on })),
];

/**
 * All that a hand does in a box is done before power comes back. Trippers and pins stand beside live terminals, whatever a profile says of reaching them.
 * @param from the leaves of the times that the clock keeps
 */
export const settingSteps = (
  solved: Outcome & { ok: true },
  clock: Clock,
  settings: readonly Setting[],
  from: readonly Known<unknown>[],
): readonly SettingStep[] => {
  const { kind, reachable } = clock;
  if (kind.by === 'hand') return [];
  const dial = isDial(kind);
  const boxed = dial || !reachable;
  return [
    ...(boxed ? [step('isolate'), ...(dial ? [] : [step('without-power')])] : []),
    ...(dial ? [...trippers(solved, clock, from), step('turn-through')] : figures(settings)),
    step(dial ? 'time-on-dial' : 'time-in-figures'),
    ...(dial && kind.shares !== 'all' ? [step('day-on-dial')] : []),
    step('automatic'),
    ...(boxed ? [step('close')] : []),
    step('watch'),
    ...(boxed ? [step('live-work')] : []),
    step(kind.followsDst ? 'follows' : 'does-not-follow'),
    ...(kind.survivesPowerCut ? [] : [step(kind.shares === 'all' ? 'power-cut' : 'power-cut-days')]),
  ];
};
