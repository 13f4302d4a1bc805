/**
 * The timetable on real dates, in the store's time zone.
 *
 *   validZone('America/Chicgo')                        // { ok: false, suggestion: 'America/Chicago' }
 *   const standing = { problem, timetable: solve(problem), zone, exceptions };   // exceptions: day number -> that date's Shift, or null: closed
 *   nightsBetween(standing, first, last)               // one DatedNight a business date: times on the wall, elapsed rest, notes
 *   specialNights(standing, first, last)               // only those that differ: changes of the clocks, other hours, errors
 *   daysOfWeek({ year: 2027, week: 10 }, 0)            // the seven days that hold the ISO week's Thursday
 *   nightsIfWrong(problem, 0, outcome, wrongByChange(clock, 60))   // what a clock that nobody set would do, and how dangerous it is
 */
export { validZone, type ZoneCheck } from './valid-zone.js';
export { offsetAt, transitionsOf, transitionsBetween, type Transition } from './zone.js';
export { shown, wallLegs, when, type Leg } from './wall.js';
export { daysOfWeek, isoWeekOf, parseIsoWeek, type IsoWeek } from './iso-week.js';
export { nightsBetween, specialNights } from './nights-between.js';
export { leavingOf, LONG_CLOSURE } from './special-night.js';
export { afternoonsBetween, resetBefore, type OtherAfternoon } from './afternoons-between.js';
export { nightsIfWrong, wrongByChange, wrongByPowerCut, type WrongNight } from './wrong-clock.js';
export type { DatedNight, DatedRail, DateNote, Standing } from './dated.js';
