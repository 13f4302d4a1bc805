/**
 * What is wrong with a rail's rest, as findings: why there is no schedule, or which nights of one fall short.
 */
import { amount } from '../base/amount.js';
import { error, note, warning, type Datum, type Finding } from '../base/finding.js';
import { moment, weekdayAt } from '../base/moment.js';
import type { Place } from '../base/place.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import { settingSays, type ClockSetting } from './clock-settings.js';
import type { FoundFood } from './consequences/found-food.js';
import type { FoundTold } from './found-clock.js';
import { foundSettings, settingNeeded, turningsIn, signedSince, timeOff, type FoundClock } from './found-settings.js';
import type { Remedies } from './remedies.js';
import type { Outcome, Reason } from './timetable/index.js';

const duration = (minutes: number) => amount('duration', minutes * 60);

const snake = (key: string): string => key.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`);

const LENGTHS = ['offered', 'least', 'longest', 'run'];

const isDay = (key: string): boolean => key.toLowerCase().endsWith('day') || key === 'until';

/** What a reason says beside its days. */
const without = (reason: Reason): readonly (readonly [string, number])[] =>
  Object.entries(reason).filter((entry): entry is [string, number] => entry[0] !== 'code' && !isDay(entry[0]));

/** Reasons that differ only by their days, as one finding's data: days by name, times as times. */
const grouped = (reasons: readonly Reason[]): readonly { readonly code: Reason['code']; readonly data: Finding['data'] }[] => {
  const groups = new Map<string, Reason[]>();
  for (const reason of reasons) {
    const key = JSON.stringify([reason.code, without(reason)]);
    groups.set(key, [...(groups.get(key) ?? []), reason]);
  }
  return [...groups.values()].map((group) => {
    const [first] = group as [Reason];
    const figures = without(first).map(([key, value]): readonly [string, Datum] => [
      snake(key),
      LENGTHS.includes(key) ? duration(value) : key === 'has' ? value : moment(value),
    ]);
    const days = Object.keys(first)
      .filter(isDay)
      .map((key): readonly [string, Datum] => [
        snake(key),
        [...new Set(group.map((reason) => weekdayAt((reason as unknown as Record<string, number>)[key] as number)))],
      ]);
    return { code: first.code, data: Object.fromEntries([...days, ...figures]) };
  });
};

/** What of the crew decides whether a top can rest. */
const OF_CREW = ['comes', 'leaves', 'first_pan', 'closers', 'openers'] as const;

/** A schedule that cannot be kept may rest on what nobody wrote of the crew. */
const onAssumed = (read: ReadStore, unit: ReadUnit, at: Place): readonly Finding[] => {
  const keys = OF_CREW.filter((key) => read.originOf('crew', key).assumed).map((key) => `crew.${key}`);
  return keys.length > 0 ? [warning('rest-on-assumed', at, { unit: unit.id, keys })] : [];
};

/** @param outcome undefined where the store has no night */
export const restFindings = (
  read: ReadStore,
  unit: ReadUnit,
  clockAt: Place,
  outcome: Outcome | undefined,
  remedies: readonly Remedies[],
): readonly Finding[] => {
  const at = read.originOf('units', unit.id).at;
  const also = [read.originOf('hours').at, clockAt];
  // Any of them may be the one that is read: each says what would help.
  const hint = remedies.length > 0 ? { remedies: remedies.map(({ text, written }) => (written ?? text).value) } : {};
  if (!outcome?.ok) {
    const reasons: readonly Reason[] = outcome?.reasons ?? [{ code: 'never-closes' }];
    return [
      ...grouped(reasons).map(({ code, data }) => error(`no-rest-${code}`, at, { unit: unit.id, ...data, ...hint }, also)),
      ...onAssumed(read, unit, at),
    ];
  }
  const on = outcome.nights.filter((n) => n.rest === null);
  const short = outcome.nights.flatMap((n) =>
    n.rest && !n.rest.counts ? [{ day: weekdayAt(n.day), minutes: n.rest.minutes }] : [],
  );
  return [
    ...(on.length > 0
      ? [error('no-rest-some-night', at, { unit: unit.id, days: on.map((n) => weekdayAt(n.day)), ...hint }, also)]
      : []),
    ...(short.length > 0
      ? [
          warning(
            'short-night',
            at,
            { unit: unit.id, days: short.map((s) => s.day), rest: duration(Math.min(...short.map((s) => s.minutes))) },
            also,
          ),
        ]
      : []),
  ];
};

/** What a clock was found at, did to the food, and should be set to. */
export interface FoundAgainst {
  readonly clock: FoundClock;
  readonly did: readonly FoundTold[];
  readonly food: readonly FoundFood[];
  readonly should: readonly ClockSetting[];
}

export const foundFindings = (
  read: ReadStore,
  unit: ReadUnit,
  { clock, did, food, should }: FoundAgainst,
): readonly Finding[] => {
  const { at } = read.originOf('units', unit.id, 'found', 'clock');
  const { override } = clock;
  const [only, ...more] = foundSettings(clock);
  // Several settings are told by their number; the card lists them.
  const was = more.length > 0 || !only ? { count: more.length + 1 } : { off: moment(only.off), on: moment(only.on) };
  const several = more.length > 0 ? '-settings' : '';
  // How it was held, and its time of day, are findings of their own.
  const faults = did.map((t) => t.text.value).filter(({ code }) => !/^found\.(override|slow|fast)/.test(code));
  const off = timeOff(clock);
  const right = turningsIn(foundSettings(clock)) === turningsIn(should.map(settingNeeded));
  const [alone, ...others] = should;
  const now: Finding['data'] = !alone
    ? {}
    : others.length === 0
      ? { should_off: alone.off.value, should_on: alone.on.value }
      : { should: should.map(settingSays) };
  const since = signedSince(unit, 'clock');
  return [
    ...(override && override !== 'automatic' ? [warning('override-found', at, { override, ...since })] : []),
    ...(off ? [warning(`clock-found-${off.way}`, at, { by: off.by, ...since })] : []),
    ...(faults.length > 0
      ? [
          warning(`clock-found-wrong${several}`, at, {
            ...was,
            ...now,
            ...since,
            faults: [...faults, ...food.map((f) => f.says.value)],
          }),
        ]
      : !right
        ? [warning(`clock-found-other${several}`, at, { ...was, ...now, ...since })]
        : off
          ? []
          : [note(`clock-found-right${several}`, at, was)]),
  ];
};
