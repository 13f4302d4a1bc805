/**
 * The night's timetable. Nights and needs go in, clock settings and the times of every night come out, or the reasons why there is none.
 *
 *   const nights = nightsOf(WEEK_CIRCLE, shifts);                      // business days -> gaps between them (nights.ts)
 *   const clock = clockOf(CLOCK_KINDS['daily-dial'], WEEK_CIRCLE);     // a kind's record -> capabilities
 *   const [outcome] = solve({ circle: WEEK_CIRCLE, nights, rails: [{ id, need, clock, found: [{ days: [0,1,2,3,4,5,6], stretches: [{ off: 1395, on: 345 }] }] }] });
 *   if (outcome.ok) outcome.nights[0].rest                             // { startEmptying, emptyBy, off, on, minutes, wiped, slack, why } or null: stays on
 *   else outcome.reasons                                               // codes with data (outcome.ts)
 *   remediesFor(problem, 0, { clocks, quietFrom: 120 })                // the smallest changes after which there is a schedule, each solved again (levers.ts)
 *   spreadRests({ minutesPerDay: 1440, count: 4, minutes: 30, step: 15, avoid })   // several short rests with food in, outside the rush
 *
 * All times of a night are whole minutes from 00:00 of its business day, unwrapped: 00:30 after closing is 1470, 05:45 the next morning 1785.
 * `firstPan` is when the pans must be in: loading runs from `coldBy` to `firstPan`. Round needs up to whole minutes before they come here.
 */
export { clockOf, nightsOf } from './nights.js';
export { atOneRail, demandsOf, pairsOf, type Demand } from './crew.js';
export { solve } from './solve.js';
export { applyRemedy, remediesFor, type Remedy } from './remedies.js';
export type { Change, Offers } from './levers.js';
export { spreadRests, type Spread, type SpreadProblem } from './spread.js';
export { daysSinceLast, WEEK_CIRCLE } from './problem.js';
export type { Circle, Clock, Need, Night, Pattern, Problem, Rail, Shift, Stop, Stretch } from './problem.js';
export { isWhole } from './outcome.js';
export type { Binding, NightPlan, NightRest, Outcome, Program, Reason, Timetable, Turning } from './outcome.js';
