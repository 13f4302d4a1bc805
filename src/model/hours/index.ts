/**
 * Opening hours: a subset of the open `opening_hours` grammar of OpenStreetMap (specification 0.7), and what people write instead.
 *
 * Read:  rules `;` rules, additional rules `,`; [years] [months, dates, ranges of them, `2026 Dec 01+`] [weekdays, `Th[4]`, `Mo[-1]`, `PH`] [times] [open | off | closed] ["comment"];
 *        times up to 48:00, past midnight, several a day; `24/7`.
 * Not:   sunrise and the like, open ends of times (`+`), of dates without a year, fallback (`||`), `week`, `SH`, `easter`, points in time, repeats (`/`), `unknown`.
 * Asked: an additional rule whose hours overlap what its days have and leave some of that outside (`11-22, Su 11-15`): a semicolon says that they replace it.
 * Other: a night belongs to the day on which it opens and a later rule for the next day doesn't cut it (tools of the grammar cut it at midnight); `readAs` is written
 *        so that they read the same.
 *
 *   parseHours('mon-thu 6am-11pm; fri-sat 6am-1am; sun closed')
 *   -> { ok: true, hours, plain: true, readAs: 'Su off; Mo-Th 06:00-23:00, Fr-Sa 06:00-01:00' }
 */
export type { DateRange, DayOfYear, DayPick, Doubt, Hours, HoursFault, ParsedHours, Rule, Span } from './hours.js';
export { faultData } from './hours.js';
export { parseHours } from './read.js';
export { DAY_NAMES } from './scan.js';
export { writeSpan, writeSpan12 } from './write.js';
export { isSeasonal, names, sameSpans, standingSpans } from './match.js';
export { openOn, otherHours, seasonsOf, weekOf, type DateFacts, type Season } from './week.js';
export { civil, dayNumber, dayOfIso, dayWritten, isWrittenYear, isoOf, weekdayOf, type Civil, type DayNumber } from './civil.js';
