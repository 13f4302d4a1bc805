/**
 * Opening hours of a row of a sheet that has them in columns of their own: `opens` and `closes` for all days, or a column a day or for days in a row.
 */
import type { Finding } from '../base/finding.js';
import { WEEKDAYS, type Weekday } from '../base/moment.js';
import { readDays } from '../model/fields.js';
import { DAY_NAMES, faultData, parseHours, sameSpans, standingSpans, type Hours } from '../model/hours/index.js';

/** The days of a column: `hours.fri`, `hours.mon-thu`. */
const daysOf = (column: string): readonly Weekday[] =>
  /^hours\.[a-z]{3}(-[a-z]{3})?$/.test(column) ? readDays(column.slice('hours.'.length)) : [];

/** Whether hours stand in a column beside `hours`. */
export const isHoursColumn = (column: string): boolean => column === 'opens' || column === 'closes' || daysOf(column).length > 0;

export interface CellFault {
  readonly code: string;
  readonly column: string;
  readonly data: Finding['data'];
}

export interface RowHours {
  /** Undefined where none are written, or where a day has none. */
  readonly text?: string;
  readonly faults: readonly CellFault[];
}

/** What one or two cells say of some days. */
interface Said {
  readonly column: string;
  readonly days: readonly Weekday[];
  readonly wrote: string;
}

const numberOf = (day: Weekday): number => WEEKDAYS.indexOf(day);
const nameOf = ([first, ...more]: readonly Weekday[]): string =>
  [first, more.at(-1)].flatMap((day) => (day ? (DAY_NAMES[numberOf(day)] as string) : [])).join('-');

/** What a text may mean: where it says neither am nor pm, any of its readings. */
const readingsOf = (text: string): readonly Hours[] => {
  const read = parseHours(text);
  const ways = read.ok ? [text] : [read.suggestion, read.other].flatMap((way) => way ?? []);
  return ways.flatMap((way) => {
    const again = parseHours(way);
    return again.ok ? [again.hours] : [];
  });
};

/** Whether two texts may mean the same on some days. Of `hours` that can't be read, its own fault is told. */
const mayAgree = (hours: string, { wrote, days }: Said): boolean => {
  const [first, second] = [readingsOf(hours), readingsOf(wrote)];
  const same = (a: Hours, b: Hours): boolean =>
    days.map(numberOf).every((day) => sameSpans(standingSpans(a, day), standingSpans(b, day)));
  return first.length === 0 || first.some((a) => second.some((b) => same(a, b)));
};

/** What is wrong with a cell by itself. @param forgiven a fault that leaves the same hours as elsewhere; of brackets nobody knows */
const faultOf = ({ column, wrote }: Said, forgiven: boolean): readonly CellFault[] => {
  const read = parseHours(wrote);
  if (read.ok) {
    const other = read.hours.rules.some(({ dates, days, holidays }) => dates !== null || days !== null || holidays);
    return other ? [{ code: 'csv-day-cell', column, data: { column, wrote } }] : [];
  }
  return forgiven && read.suggestion !== undefined && read.fault !== 'in-brackets'
    ? []
    : [{ code: `hours-${read.fault}`, column, data: faultData(read) }];
};

/** A day that two cells speak of, and the first one of which none does. */
const coverFaults = (said: readonly Said[], columns: readonly string[], whole: boolean): readonly CellFault[] => {
  const twice = said.flatMap(({ column, days }, i) => {
    const other = said.slice(0, i).find((one) => one.days.some((day) => days.includes(day)));
    return other ? [{ code: 'csv-day-twice', column, data: { column, other: other.column } }] : [];
  });
  const without = WEEKDAYS.find((day) => !said.some(({ days }) => days.includes(day)));
  if (!whole || without === undefined) return twice;
  const column = columns.find((name) => daysOf(name).includes(without)) ?? `hours.${without}`;
  return [...twice, { code: 'csv-hours-gap', column, data: { column } }];
};

/** @param cell the text under a column; empty where there is none. @param columns the names of them all */
export const rowHours = (cell: (column: string) => string, columns: readonly string[]): RowHours => {
  const hours = cell('hours');
  const ofDays = columns
    .map((column): Said => ({ column, days: daysOf(column), wrote: cell(column) }))
    .filter(({ days, wrote }) => days.length > 0 && wrote !== '')
    .sort((a, b) => numberOf(a.days[0] as Weekday) - numberOf(b.days[0] as Weekday));
  const [opens, closes] = [cell('opens'), cell('closes')];
  if (ofDays.length === 0 && (opens === '') !== (closes === '') && hours === '') {
    const column = opens === '' ? 'opens' : 'closes';
    return { faults: [{ code: 'csv-hours-gap', column, data: { column } }] };
  }
  const everyDay = ofDays.length === 0 && opens !== '' && closes !== '';
  const said: readonly Said[] = everyDay ? [{ column: 'opens', days: WEEKDAYS, wrote: `${opens}-${closes}` }] : ofDays;
  if (said.length === 0) return { ...(hours === '' ? {} : { text: hours }), faults: [] };
  const cover = coverFaults(said, columns, hours === '');
  if (hours === '') {
    const text = everyDay ? (said[0] as Said).wrote : said.map(({ days, wrote }) => `${nameOf(days)} ${wrote}`).join('; ');
    const faults = [...cover, ...(everyDay ? [] : said.flatMap((one) => faultOf(one, false)))];
    return { ...(cover.length > 0 ? {} : { text }), faults };
  }
  const faults = said.flatMap((one) => faultOf(one, true));
  const apart = said.filter((one) => !faults.some(({ column }) => column === one.column) && !mayAgree(hours, one));
  const other = everyDay ? apart.map(({ wrote }) => wrote) : apart.map(({ days, wrote }) => `${nameOf(days)} ${wrote}`);
  const two = { code: 'csv-two-hours', column: 'hours', data: { hours, other: other.join('; ') } };
  return { text: hours, faults: [...cover, ...faults, ...(apart.length > 0 ? [two] : [])] };
};
