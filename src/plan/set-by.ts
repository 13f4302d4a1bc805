/**
 * Who set a unit's clock and controls; and whether the clock stands at the times that the plan now has, which is not so once the hours have changed.
 */
import { warning, type Finding } from '../base/finding.js';
import { moment, WEEKDAYS } from '../base/moment.js';
import { date, flag, phrase, verbatim, type Days, type Phrase } from '../base/value.js';
import type { Unit } from '../model/store.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import { settingSays, type ClockSetting } from './clock-settings.js';
import { foundSettings, settingNeeded, settingsDone, turningsIn, type FoundSetting } from './found-settings.js';
import { CLOCK_KINDS, withStep, type ClockKindName } from '../trade/clocks.js';
import { practice, written } from './known.js';
import type { UnitRest } from './rests.js';

type SetBy = NonNullable<Unit['set_by']>;
type SetClock = NonNullable<SetBy['clock']>;

/** One setting for all days is told by its times alone. */
const alone = ([first, ...more]: readonly FoundSetting[]): FoundSetting | undefined =>
  more.length === 0 && first?.days.length === WEEKDAYS.length ? first : undefined;

/** What a clock was set to, a sentence a setting. */
const standsAt = (settings: readonly FoundSetting[], origin: Parameters<typeof written>[1]) =>
  settings.map(({ days, off, on, on_days: onDays }) => {
    const figures = {
      days: written<Days>({ q: 'days', days }, origin),
      off: written(moment(off), origin),
      on: written(moment(on), origin),
    };
    const until = onDays && { on_days: written<Days>({ q: 'days', days: onDays }, origin) };
    const says = until ? phrase('found.set-until', { ...figures, ...until }) : phrase('found.set', figures);
    return { says: practice(says, 'found-set'), ...figures, ...until };
  });

const otherTimes = (read: ReadStore, unit: ReadUnit, by: SetBy, clock: SetClock, should: readonly ClockSetting[]): Finding => {
  const origin = read.originOf('units', unit.id, 'set_by', 'clock');
  const was = foundSettings(clock);
  const { who } = by;
  const [old, now] = [alone(was), alone(should.map(settingNeeded))];
  if (old && now) {
    const times = { off: moment(old.off), on: moment(old.on), should_off: moment(now.off), should_on: moment(now.on) };
    return warning('clock-set-for-other-times', origin.at, { who, ...times });
  }
  const set = standsAt(was, origin).map(({ says }): Phrase => says.value);
  return warning('clock-set-for-other-times-settings', origin.at, { who, set, should: should.map(settingSays) });
};

const YES = practice(flag(true), 'trait');

/** @param rest of its rail, where it has one that rests */
export const setBy = (read: ReadStore, unit: ReadUnit, rest: UnitRest | undefined) => {
  const { set_by: by, found } = unit.unit;
  const at = (...path: string[]) => read.originOf('units', unit.id, 'set_by', ...path);
  const clocked = rest !== undefined && !rest.clock.byHand;
  const should = clocked ? rest.settings : [];
  const isOther = (was: readonly FoundSetting[]): boolean =>
    was.length > 0 && should.length > 0 && turningsIn(was) !== turningsIn(should.map(settingNeeded));
  // As it was found it stands, until somebody signs for it; one that is held off cools nothing, and one that is held on stops it again once
  // somebody lets go.
  const later = clocked && found?.clock && (!by || by.when < found.when) ? found.clock : undefined;
  const held = later && later.override !== undefined && later.override !== 'automatic' ? later.override : undefined;
  const kind = rest && withStep(CLOCK_KINDS[rest.clock.kind.value.code as ClockKindName], rest.clock.step.value.si / 60);
  const did = later && held !== 'off' ? settingsDone(later, kind?.allowance ?? 0) : [];
  const asFound = {
    ...(isOther(did) ? { other: YES, stands: standsAt(did, read.originOf('units', unit.id, 'found', 'clock')) } : {}),
    ...(held === 'off' ? { heldOff: YES } : {}),
  };
  if (!by) return { tree: undefined, ...asFound, clockUnsigned: undefined, clockAlone: undefined, findings: [] };
  const set = by.clock;
  const other = set !== undefined && !later && isOther(foundSettings(set));
  const findings: readonly Finding[] = [
    ...(other ? [otherTimes(read, unit, by, set, should)] : []),
    ...(set && !clocked ? [warning('clock-set-of-none', at('clock').at, { who: by.who })] : []),
    ...(!set && should.length > 0 ? [warning('clock-set-not-told', at().at, { who: by.who })] : []),
  ];
  const tree = {
    who: written(verbatim(by.who), at('who')),
    when: written(date(by.when), at('when')),
  };
  const asSet = other ? { other: YES, stands: standsAt(foundSettings(set), at('clock')) } : undefined;
  const since = by.when < (found?.when ?? '');
  // A name under controls that nobody looked at, or that were read again since, would be a signature for what was not done.
  const controlsRead = since && (found?.pressure !== undefined || found?.control !== undefined);
  const clockAlone = by.controls === false ? written(flag(true), at('controls')) : controlsRead ? YES : undefined;
  const clock = later ? asFound : asSet;
  const clockUnsigned = clock?.other ?? (held ? YES : undefined);
  return { tree, ...clock, clockUnsigned, clockAlone, findings };
};
