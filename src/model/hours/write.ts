/**
 * The canonical rewriting of opening hours, in the open grammar. Where a night runs into a day that another rule names, the order and the separators are
 * chosen so that a tool which cuts nights at midnight reads what we read.
 */
import { DAY } from '../../base/moment.js';
import { daysInMonth } from './civil.js';
import type { DateRange, DayOfYear, DayPick, Hours, Rule, Span } from './hours.js';
import { isStanding, standingSpans } from './match.js';
import { DAY_NAMES, MONTH_NAMES } from './scan.js';

const two = (n: number): string => String(n).padStart(2, '0');
export const writeTime = (minutes: number): string => `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;

export const writeSpan = ({ from, to }: Span): string =>
  `${writeTime(from)}-${writeTime(to > DAY && to - DAY < from ? to - DAY : to)}`;

const time12 = (minutes: number): string => {
  const [hour, minute] = [Math.floor(minutes / 60) % 12 || 12, minutes % 60];
  return `${hour}${minute === 0 ? '' : `:${two(minute)}`}${minutes % DAY < DAY / 2 ? 'am' : 'pm'}`;
};

/** `10:30am-12:30am`, for who writes so. */
export const writeSpan12 = ({ from, to }: Span): string => `${time12(from)}-${time12(to)}`;

export const writeSpans = (spans: readonly Span[]): string => spans.map(writeSpan).join(',');

const dayName = (day: number): string => DAY_NAMES[day] as string;

/** Weekdays in order, two or more in a row as a range. */
const writePicks = (picks: readonly DayPick[]): string => {
  const parts: string[] = [];
  for (let i = 0; i < picks.length;) {
    const { day, nth } = picks[i] as DayPick;
    let run = 1;
    while (nth === null && picks[i + run]?.nth === null && picks[i + run]?.day === day + run) run += 1;
    if (nth !== null) parts.push(`${dayName(day)}[${nth.join(',')}]`);
    else parts.push(run === 1 ? dayName(day) : `${dayName(day)}-${dayName(day + run - 1)}`);
    i += run;
  }
  return parts.join(',');
};

/** `Mo-Fr,PH`; empty where a rule names no days. */
export const writeDays = (rule: Rule): string =>
  [...(rule.days ? [writePicks(rule.days)] : []), ...(rule.holidays ? ['PH'] : [])].join(',');

export const writeDay = ({ year, month, day }: DayOfYear): string =>
  `${year === null ? '' : `${year} `}${MONTH_NAMES[month - 1] as string} ${two(day)}`;

const writeMonth = ({ year, month }: DayOfYear): string =>
  `${year === null ? '' : `${year} `}${MONTH_NAMES[month - 1] as string}`;

/** Whole months without their days: `May-Sep`. */
const writeRange = ({ first, last }: DateRange): string => {
  if (last === null) return `${writeDay(first)}+`;
  const whole = first.day === 1 && last.day === daysInMonth(last.year ?? 2000, last.month) && first.year === last.year;
  const [from, to] = whole ? [writeMonth(first), writeMonth({ ...last, year: null })] : [writeDay(first), writeDay(last)];
  return from === to || (whole && first.month === last.month) ? from : `${from}-${to}`;
};

/** One rule alone, as in a finding. */
export const writeRule = (rule: Rule): string =>
  [
    ...(rule.dates ? [rule.dates.map(writeRange).join(',')] : []),
    ...(writeDays(rule) === '' ? [] : [writeDays(rule)]),
    ...(rule.spans ? [writeSpans(rule.spans)] : []),
    ...(rule.open ? (rule.spans ? [] : ['open']) : ['off']),
    ...(rule.comment === null ? [] : [`"${rule.comment}"`]),
  ].join(' ');

/** The standing week: days of equal spans together, in the order of the week. */
const writeWeek = (hours: Hours): string => {
  const groups = new Map<string, DayPick[]>();
  let late = false;
  for (let day = 0; day < 7; day++) {
    const spans = standingSpans(hours, day);
    late ||= spans.some((span) => span.to > DAY);
    const key = spans.length === 0 ? 'off' : writeSpans(spans);
    groups.set(key, [...(groups.get(key) ?? []), { day, nth: null }]);
  }
  if (groups.size === 1) {
    const only = [...groups.keys()].join();
    return only === '00:00-24:00' ? '24/7' : only;
  }
  const rule = (key: string): string => `${writePicks(groups.get(key) as DayPick[])} ${key}`;
  const open = [...groups.keys()].filter((key) => key !== 'off').map(rule);
  const closed = groups.has('off') ? [rule('off')] : [];
  return late ? [...closed, open.join(', ')].join('; ') : [...open, ...closed].join('; ');
};

/** All rules: the standing week made short where it stands first, the dated rules as written. */
export const writeHours = (hours: Hours): string => {
  const dated = hours.rules.findIndex((rule) => !isStanding(rule));
  const rest = dated === -1 ? [] : hours.rules.slice(dated);
  const weekFirst = dated !== 0 && rest.every((rule) => !isStanding(rule));
  const single = weekFirst ? rest : hours.rules;
  const text = single.map((rule, i) => (i === 0 && !weekFirst ? '' : rule.adds ? ', ' : '; ') + writeRule(rule)).join('');
  return weekFirst ? writeWeek(hours) + text : text;
};
