/**
 * What a technician found on a unit beside what its sheets say, with room for what was left.
 */
import type { Known } from '../base/basis.js';
import type { Run } from '../base/run.js';
import type { Value } from '../base/value.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Speaker } from '../say/speaker.js';
import { cell, type Block, type Cell } from './block.js';

/** What a technician found, beside it what the sheets say, and room for what was left. */
export const foundGrid = (unit: UnitPlan, speaker: Speaker, line: number): Block => {
  const t = (code: string): readonly Run[] => speaker.phrase(`card.${code}`);
  const say = (known: Known<Value> | undefined): readonly Run[] => (known ? speaker.say(known).runs : []);
  const blank = cell([], { hand: 'write' });
  const { found, rest, pressure, zones } = unit;
  type Setting = Readonly<Record<'off' | 'on' | 'off_days' | 'on_days', Known<Value>>>;
  /** One turn of a clock's settings, of several each with the days of the calendar, as a clock counts them, not with the nights. */
  const turns = (settings: readonly Setting[], turn: 'off' | 'on'): readonly Run[] =>
    settings.flatMap((s, i, all) => [
      ...(i > 0 ? [{ text: ' · ' }] : []),
      ...(all.length > 1 ? [...say(s[`${turn}_days`]), { text: ' ' }] : []),
      ...say(s[turn]),
    ]);
  const was = (found?.clock?.settings ?? []).map((s) => ({ off: s.off, on: s.on, off_days: s.days, on_days: s.on_days }));
  const { set_by: by, clock_unsigned: other, clock_alone: alone } = unit;
  // Who signed before it was found so did not leave it as it is now.
  const since = by && found && by.when.value.iso >= found.when.value.iso;
  const signed = since ? cell(speaker.phrase('card.found-when', { who: by.who, when: by.when })) : blank;
  const [clockLeft, controlsLeft] = [other || !rest?.off ? blank : signed, alone ? blank : signed];
  /** Beside what was found stands who signed since that it is as the sheets say; where neither is written, room for both. */
  const row = (
    label: readonly Run[],
    of: Known<Value> | readonly Run[] | undefined,
    should: readonly Run[],
    left: Cell = controlsLeft,
  ): readonly Cell[] => {
    const before = of === undefined ? [] : 'basis' in of ? say(of) : of;
    const written = before.length > 0;
    return [cell(label, { head: true }), written ? cell(before) : blank, cell(should), written ? left : blank];
  };
  const planned = (turn: 'off' | 'on'): readonly Run[] =>
    !rest?.off ? t('none-safe') : rest.settings.length > 0 ? turns(rest.settings, turn) : say(rest[turn]);
  const space: Run = { text: ' ' };
  const turned = t(rest?.by_hand.value.is ? 'switch' : 'clock');
  // Where no schedule is safe, a clock that was found goes on as it stands.
  const clock =
    rest && (rest.off || was.length > 0)
      ? [
          row([...turned, space, ...t('off')], turns(was, 'off'), planned('off'), clockLeft),
          row([...turned, space, ...t('on')], turns(was, 'on'), planned('on'), clockLeft),
          ...(found?.clock?.time ? [row(t('clock-time'), found.clock.time.says, t('true-time'), clockLeft)] : []),
          ...(found?.clock?.override ? [row(t('override'), found.clock.override, [], clockLeft)] : []),
        ]
      : [];
  const dial = pressure.dial
    ? [
        row(t('cut-in'), found?.pressure?.cut_in, say(pressure.dial.cut_in.set_here)),
        pressure.dial.by_difference.value.is
          ? row(t('difference'), found?.pressure?.difference, say(pressure.dial.difference_here))
          : row(t('cut-out'), found?.pressure?.cut_out, say(pressure.dial.cut_out.set_here)),
      ]
    : pressure.not_known
      ? [
          row(t('cut-in'), found?.pressure?.cut_in, say(pressure.not_known)),
          row(t('cut-out'), found?.pressure?.cut_out, say(pressure.not_known)),
        ]
      : [];
  const controls = Object.entries(zones).flatMap(([id, zone]) => {
    if (!zone.control && !zone.control_not_known) return [];
    const was = found?.control.find((c) => c.zone.value.text === id);
    const name = say(zone.name ?? zone.kind);
    return [
      row([...name, { text: ', ' }, ...t('starts')], was?.cut_in, say(zone.control?.cut_in ?? zone.control_not_known)),
      row([...name, { text: ', ' }, ...t('stops')], was?.cut_out, say(zone.control?.cut_out ?? zone.control_not_known)),
    ];
  });
  const when = found ? speaker.phrase('card.found-when', { when: found.when, who: found.who }) : [];
  return {
    block: 'table',
    line,
    columns: [2, 1.5, 1.5, 2].map((weight) => ({ weight, align: 'start' as const })),
    head: [
      [
        cell(t('what')),
        cell([...t('found'), ...(when.length > 0 ? [{ text: speaker.colon }, ...when] : [])]),
        cell(t('planned')),
        cell(t('left-blank')),
      ],
    ],
    rows: [...clock, ...dial, ...controls, [cell(t('kitchen'), { head: true }), blank, cell([]), blank]],
  };
};
