/**
 * From business days to nights: each closing with the crew's coming, the first pan and the opening of the next business day, over closed days too.
 */
import type { ClockKind } from '../../trade/clocks.js';
import type { Circle, Clock, Night, Shift } from './problem.js';

/** @param shifts one a business day, in order of the week; a closed day has none. One alone meets itself a week later. */
export const nightsOf = (circle: Circle, shifts: readonly Shift[]): readonly Night[] =>
  shifts.map((shift, i) => {
    const next = shifts[(i + 1) % shifts.length] as Shift;
    const later = (((next.day - shift.day + circle.days - 1) % circle.days) + 1) * circle.minutesPerDay;
    return {
      day: shift.day,
      closes: shift.closes,
      leaves: shift.leaves,
      comes: next.comes + later,
      firstPan: next.firstPan + later,
      opens: next.opens + later,
      closers: shift.closers,
      openers: next.openers,
      ...(shift.attended ? { attended: true as const } : {}),
    };
  });

const WEEKEND = 2;

/** The solver's view of a kind of clock on a circle; the last two days are the weekend. */
export const clockOf = (kind: ClockKind, { days }: Circle): Clock => {
  const all = Array.from({ length: days }, (_, day) => day);
  const classes = {
    all: [all],
    'weekdays-and-weekend': [all.slice(0, days - WEEKEND), all.slice(days - WEEKEND)],
    none: all.map((day) => [day]),
  }[kind.shares];
  const { by, step, stretches, programs, allowance, longest, followsDst, survivesPowerCut } = kind;
  // A hand may turn a switch as often as there are nights.
  const turns = by === 'hand' ? Infinity : stretches;
  return {
    by,
    classes,
    step,
    stretches: turns,
    allowance,
    followsDst,
    survivesPowerCut,
    ...(programs === undefined ? {} : { programs }),
    ...(longest === undefined ? {} : { longest }),
  };
};
