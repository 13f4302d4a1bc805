/**
 * Pull-down: how long an empty rail with its covers shut takes from the kitchen's temperature to ready.
 */
import { runCabinet } from '../cabinet/run.js';
import { HOUR, firstPast, pansOf, type Setting } from './setting.js';

export interface PullDown {
  /** s, as computed for a clean, dry rail with its full charge. */
  readonly computed: number;
  /** s to plan with: half as much again, and no less than an hour, an hour and a half over 86 °F. Common practice, no source. */
  readonly least: number;
}

const HOT = (86 + 459.67) / 1.8;

/**
 * From switching the rail on after four hours of rest to air at or below a temperature.
 * @param ready K
 * @returns undefined where it isn't reached in six hours, or for a kitchen out of range
 */
export const pullDown = (setting: Setting, ready: number): PullDown | undefined => {
  const { model, kitchen, rail, base } = setting;
  const rest = 4 * HOUR;
  const run = runCabinet(model, {
    kitchen,
    start: 'settled',
    duration: rest + 6 * HOUR,
    every: 60,
    events: [
      { at: 0, do: 'move', load: pansOf(model, rail), to: base },
      { at: 0, do: 'cooling', zone: rail, on: false },
      { at: rest, do: 'covers', zone: rail, shut: true },
      { at: rest, do: 'cooling', zone: rail, on: true },
    ],
    seen: ({ time, zones }) => (time.at(-1) ?? 0) >= rest && (zones[rail]?.air.at(-1) ?? Infinity) <= ready,
  });
  const at = run && firstPast(run, run.zones[rail]?.air ?? [], ready, 'down', rest);
  if (at === undefined) return undefined;
  const computed = at - rest;
  return { computed, least: Math.max(1.5 * computed, kitchen.temperature > HOT ? 1.5 * HOUR : HOUR) };
};
