/**
 * Reads opening hours: tokens -> rules. The subset of the open grammar is stated in model/hours/index.ts; a mistake is told with its place.
 */
import { DAY, NOON } from '../../base/moment.js';
import { nearest } from '../../base/spelling.js';
import { OTHER_LANGUAGES } from './other-languages.js';
import { checkAdditions } from './additions.js';
import { closedDays } from './closed.js';
import { checkRules, type PlacedRule } from './contradictions.js';
import { datesOf, startsDate } from './dates.js';
import { Fault } from './fault.js';
import type { DayPick, HoursFault, ParsedHours, Span } from './hours.js';
import { likely, type Written } from './halves.js';
import { KNOWN_WORDS, scan, type Token } from './scan.js';
import { shortMornings } from './short-mornings.js';
import { writeHours, writeSpan, writeSpan12, writeTime } from './write.js';

/** A time of day without its colon, `930` or `2200`: never read, since it may be a year. */
const joined = (at: Token, said: string): Written | undefined => {
  const [, hour, minute] = (at.kind === 'number' && /^(\d{1,2})([0-5]\d)$/.exec(said)) || [];
  if (hour === undefined || Number(hour) > 24) return undefined;
  const minutes = Number(hour) * 60 + Number(minute);
  return { at, minutes, sure: hour.startsWith('0') || Number(hour) > 12, half: false, figure: true };
};

/** After days that have their hours, what begins the days that have others. */
const EXCEPT = /^(except|but)$/i;

/**
 * What an unknown word was meant for. One of two letters is near to too many (`So` is no slip for `Mo`), and one of three at two edits is near to
 * anything: `hrs` is no `Fr`.
 */
const DAY_PARTS =
  /^(?:mon(?:day)?|mo|tues?(?:day)?|tu|wed(?:nesday)?|we|thur?s?(?:day)?|th|fri(?:day)?|fr|sat(?:urday)?|sa|sun(?:day)?|su|m|t|w|f)/i;
const TWO_LETTERS: Readonly<Record<string, string>> = { m: 'Mo', t: 'Tu', w: 'We', f: 'Fr' };

/** Days that are written as one word, each with a comma between: TTh, FriSat. */
const joinedDays = (word: string): string | undefined => {
  const days: string[] = [];
  for (let rest = word; rest !== '';) {
    const [part] = DAY_PARTS.exec(rest) ?? [];
    if (part === undefined) return undefined;
    const small = part.toLowerCase();
    days.push(TWO_LETTERS[small] ?? `${small.charAt(0).toUpperCase()}${small.charAt(1)}`);
    rest = rest.slice(part.length);
  }
  return days.length > 1 ? days.join(',') : undefined;
};

const meant = (word: string): string | undefined =>
  joinedDays(word) ??
  (EXCEPT.test(word) ? ';' : undefined) ??
  OTHER_LANGUAGES.get(word.toLowerCase()) ??
  (word.length > 2 ? nearest(word, KNOWN_WORDS, word.length < 5 ? 1 : 2) : undefined);

const reader = (text: string) => {
  // Before days and times "from" says nothing of its own.
  const tokens = scan(text).filter(
    (token, at, all) => !(token.kind === 'from' && token.length === 'from'.length && !startsDate(all[at + 1])),
  );
  let i = 0;
  let plain = false;
  /** Spans whose closing is a figure alone. */
  const figures: Span[] = [];

  const peek = (ahead = 0): Token => tokens[Math.min(i + ahead, tokens.length - 1)] as Token;
  const next = (): Token => {
    const token = peek();
    if (token.plain) plain = true;
    i = Math.min(i + 1, tokens.length - 1);
    return token;
  };
  const took = (kind: Token['kind']): boolean => peek().kind === kind && Boolean(next());
  const textOf = (from: Token, upTo: Token = from): string => text.slice(from.offset, upTo.offset + upTo.length);
  const last = (): Token => tokens[i - 1] as Token;

  /** Two times without their colons, `1030 to 2200`, as they may be meant. */
  const withoutColons = (token: Token): { readonly upTo: Token; readonly ways: readonly string[] } | undefined => {
    const [dash, upTo] = tokens.slice(tokens.indexOf(token) + 1);
    const [opens, closes] = [token, upTo].map((at) => at && joined(at, textOf(at)));
    if (dash?.kind !== 'dash' || !upTo || !opens || !closes) return undefined;
    // A nought before it, or 13 and more, shows that both count to 24.
    const by24 = [opens, closes].some((t) => t.sure);
    const ways = likely(...([opens, closes].map((t) => ({ ...t, figure: !by24 })) as [Written, Written]));
    return ways.length > 0 ? { upTo, ways: ways.map(writeSpan) } : undefined;
  };

  const refuse = (token: Token, wanted: string): never => {
    const found = textOf(token);
    if (token.kind === 'outside' && token.what === '(') {
      const rest = tokens.slice(tokens.indexOf(token));
      const end = rest.find((one) => one.kind === 'outside' && one.what === ')') ?? rest.at(-2) ?? token;
      throw new Fault('in-brackets', token, end, { said: textOf(token, end) }, '');
    }
    // Between rules people write a stroke where a semicolon belongs.
    if (token.kind === 'outside')
      throw new Fault('outside-subset', token, token, { what: token.what }, token.what === '/' ? ';' : undefined);
    if (token.kind === 'plus') throw new Fault('outside-subset', token, token, { what: found });
    if (token.kind === 'bad-time') throw new Fault('bad-time', token, token, { time: found });
    if (token.kind === 'unknown') throw new Fault('unknown-word', token, token, { word: found }, meant(found));
    const { upTo = token, ways = [] } = withoutColons(token) ?? {};
    throw new Fault('unexpected', token, upTo, { found, wanted }, ...ways);
  };

  const dates = datesOf({ peek, next, took, last, textOf, refuse, saidPlainly: () => (plain = true) });

  const startsDay = (token: Token): boolean => token.kind === 'day' || token.kind === 'days' || token.kind === 'holiday';

  const nth = (): number[] => {
    const found: number[] = [];
    do {
      const at = peek();
      const sign = took('dash') ? -1 : 1;
      const number = next();
      if (number.kind !== 'number' || number.value < 1 || number.value > 5) return refuse(at, 'a number from 1 to 5');
      const upTo = sign === 1 && took('dash') ? next() : number;
      if (upTo.kind !== 'number' || upTo.value < number.value || upTo.value > 5) return refuse(upTo, 'a number from 1 to 5');
      for (let n = number.value; n <= upTo.value; n++) found.push(sign * n);
    } while (took('comma'));
    if (!took('unbracket')) refuse(peek(), ']');
    return found;
  };

  const dayPicks = (): DayPick[] => {
    const token = next();
    if (token.kind === 'days') return token.days.map((day) => ({ day, nth: null }));
    if (token.kind !== 'day') return refuse(token, 'a day');
    if (took('bracket')) return [{ day: token.day, nth: nth() }];
    if (!took('dash')) return [{ day: token.day, nth: null }];
    const end = next();
    if (end.kind !== 'day') return refuse(end, 'a day');
    return Array.from({ length: ((end.day - token.day + 7) % 7) + 1 }, (_, n) => ({ day: (token.day + n) % 7, nth: null }));
  };

  /** After a comma or, as people write it, side by side; a day that was named already belongs to a rule whose beginning was left out. */
  const anotherDay = (picks: readonly DayPick[]): boolean => {
    if (peek().kind === 'comma' && startsDay(peek(1))) return Boolean(next());
    const token = peek();
    if (token.kind !== 'day' || last().kind !== 'day' || picks.some((pick) => pick.day === token.day)) return false;
    plain = true;
    return true;
  };

  interface Days {
    readonly days: DayPick[] | null;
    readonly holidays: boolean;
    /** Which token stands before each further day: its comma, or the day itself. */
    readonly joints: readonly number[];
  }

  /** @param end the token at which they end, whatever stands there */
  const days = (end = Infinity): Days => {
    const picks: DayPick[] = [];
    const joints: number[] = [];
    let holidays = false;
    while (startsDay(peek())) {
      if (took('holiday')) holidays = true;
      else picks.push(...dayPicks());
      const joint = i;
      if (joint >= end || !anotherDay(picks)) break;
      joints.push(joint);
    }
    return { days: picks.length > 0 ? picks : null, holidays, joints };
  };

  /** Of days and times after "closed", the token at which the closed days end. */
  const closedUpTo = (start: Token, joints: readonly number[]): number => {
    const found = closedDays(text, tokens, joints);
    if (found && 'end' in found) return found.end;
    const { from, upTo, ways } = found ?? { from: start, upTo: last(), ways: [] };
    throw new Fault('closed-and-times', from, upTo, { said: textOf(start, last()) }, ...ways);
  };

  const startsTime = (token: Token): boolean =>
    token.kind === 'clock' || token.kind === 'bad-time' || (token.kind === 'number' && token.value <= 24);

  const time = (): Written => {
    const at = next();
    const said = textOf(at);
    if (at.kind === 'clock') {
      const half = /\d.*[ap]/i.test(said);
      return { at, minutes: at.minutes, sure: at.sure, half, figure: !half && /\d/.test(said) };
    }
    if (at.kind !== 'number') return refuse(at, 'a time');
    if (at.value > 24) throw new Fault('bad-time', at, at, { time: said }, joined(at, said) && said.replace(/..$/, ':$&'));
    plain = true;
    return { at, minutes: at.value * 60, sure: at.value > 12, half: false, figure: true };
  };

  const span = (): Span => {
    const opens = time();
    if (peek().kind !== 'dash') refuse(peek(), '-');
    next();
    const closes = time();
    const written = { from: textOf(opens.at), to: textOf(closes.at) };
    const bad = (fault: HoursFault, ways: readonly Span[] = []): never => {
      const [first, other] = ways.map(opens.half || closes.half ? writeSpan12 : writeSpan);
      throw new Fault(fault, opens.at, closes.at, written, first, other);
    };
    const from = opens.minutes;
    const said = closes.minutes === 0 ? DAY : closes.minutes;
    // One figure of 13 or more, or 0, shows that the text counts to 24; otherwise each must say which half of the day it means.
    const by24 = [opens, closes].some((t) => t.figure && (t.sure || t.minutes < 60));
    // After `10:30am` and after noon a closing without its half is one of either, however it is padded: 02:00, 12:30. 00:30 can be one only.
    const halved =
      (opens.half || (from === NOON && !opens.figure)) &&
      closes.figure &&
      closes.minutes < 13 * 60 &&
      !(closes.sure && closes.minutes < 60);
    // A closing of one figure after a morning's hour counts to 12, however the opening is padded: 11:00-3:00; and so does one of 10 or 11 that is earlier: 11:00-10:00.
    // After 17:00 it can be a night's alone.
    const morning = from >= 60 && from < 13 * 60;
    const short =
      closes.figure && closes.minutes >= 60 && morning && (!closes.sure || (closes.minutes >= 600 && closes.minutes < from));
    if (halved || short || !((opens.sure && closes.sure) || by24)) bad('am-or-pm', likely(opens, closes));
    if (from >= DAY) throw new Fault('bad-time', opens.at, opens.at, { time: written.from });
    let to = said;
    if (to === from) bad('same-time', opens.figure && closes.figure && from <= NOON ? [{ from, to: from + NOON }] : []);
    if (to < from) {
      if (to > NOON) bad('closes-before-opens');
      to += DAY;
    }
    if (to - from > DAY) bad('too-long');
    // Who writes 12pm often means midnight.
    if (closes.figure || (closes.half && to === NOON)) figures.push({ from, to });
    return { from, to };
  };

  const spans = (): Span[] | null => {
    if (took('always')) return [{ from: 0, to: DAY }];
    if (!startsTime(peek())) return null;
    const found: Span[] = [];
    do {
      const from = peek();
      const read = span();
      const clash = found.find((other) => other.from < read.to && read.from < other.to);
      if (clash) throw new Fault('overlapping', from, last(), { first: writeSpan(clash), second: writeSpan(read) });
      found.push(read);
    } while (peek().kind === 'comma' && startsTime(peek(1)) && Boolean(next()));
    return found.sort((a, b) => a.from - b.from);
  };

  const state = (): boolean | null => (took('off') ? false : took('open') ? true : null);

  /** @param end the token at which its days end, where that is known */
  const rule = (joint?: Token, end?: number): PlacedRule => {
    const begin = i;
    const start = peek();
    const early = state();
    if (
      early !== null &&
      (startsDate(peek()) || peek().kind === 'from' || startsDay(peek()) || startsTime(peek()) || peek().kind === 'always')
    )
      plain = true;
    const onDates = dates();
    if (peek().kind === 'colon') next();
    const before = days(end);
    if (before.days !== null && peek().kind === 'colon') {
      next();
      plain = true;
    }
    const at = spans();
    if (early === false && at !== null && (onDates !== null || before.days !== null || before.holidays)) {
      const closed = closedUpTo(start, before.joints);
      i = begin;
      return rule(joint, closed);
    }
    // People also name the days after the times; what is said of those days stands before the times then.
    const after = at !== null && before.days === null && !before.holidays && startsDay(peek());
    const { joints: _, ...onDays } = after ? days() : before;
    if (after) plain = true;
    const late = early === null && !after ? state() : null;
    const comment = peek().kind === 'comment' ? next() : undefined;
    const said = early ?? late;
    if (at === null && said === null) {
      if (onDates === null && onDays.days === null && !onDays.holidays) refuse(start, 'days or times');
      refuse(peek(), 'times, open or off');
    }
    return {
      rule: {
        dates: onDates,
        ...onDays,
        spans: at,
        open: said ?? true,
        adds: joint?.kind === 'comma',
        comment: comment?.kind === 'comment' ? comment.text : null,
      },
      ...(joint ? { joint } : {}),
      offset: start.offset,
      length: last().offset + last().length - start.offset,
    };
  };

  const rules = (): { rules: PlacedRule[]; plain: boolean; figures: readonly Span[] } => {
    const found: PlacedRule[] = [];
    let joint: Token | undefined;
    while (took('semicolon')); // a text may begin with an empty line
    if (peek().kind === 'end') throw new Fault('empty', peek(), peek());
    while (peek().kind !== 'end') {
      found.push(rule(joint));
      const separator = peek();
      if (separator.kind !== 'semicolon' && separator.kind !== 'comma' && separator.kind !== 'end')
        refuse(separator, '; or the end');
      joint = next();
      while (took('semicolon'));
    }
    return { rules: found, plain, figures };
  };
  return rules;
};

const readOnce = (text: string): ParsedHours => {
  try {
    const { rules, plain, figures } = reader(text)();
    const clash = checkRules(rules) ?? checkAdditions(rules);
    if (clash) return { ok: false, ...clash };
    const hours = { rules: rules.map((r) => r.rule) };
    const doubt = shortMornings(hours, figures);
    return { ok: true, hours, readAs: writeHours(hours), plain, ...(doubt ? { doubt } : {}) };
  } catch (thrown) {
    if (!(thrown instanceof Fault)) throw thrown;
    const { fault, from, upTo, data, suggestion, other } = thrown;
    const length = upTo.offset + upTo.length - from.offset;
    return {
      ok: false,
      fault,
      offset: from.offset,
      length,
      data,
      ...(suggestion === undefined ? {} : { suggestion }),
      ...(other === undefined ? {} : { other }),
    };
  }
};

/** Faults of one text that are mended one after another, at most. */
const MOST_FAULTS = 8;

/**
 * The whole text with what is suggested in place of each fault; undefined where that can't be read either, so that nobody is told to write nonsense.
 * @param otherwise with what may be meant as well, where there is such
 * @param leftOut is given each piece in brackets, which the text is then without
 */
const mended = (text: string, otherwise = false, leftOut?: (said: string) => void): string | undefined => {
  let now = text;
  for (let n = 0; n <= MOST_FAULTS; n++) {
    const read = readOnce(now);
    if (read.ok) return now.replace(/ +(?=;|$)/g, '').trim();
    const instead = (otherwise ? read.other : undefined) ?? read.suggestion;
    if (instead === undefined) return undefined;
    if (read.fault === 'in-brackets') leftOut?.(read.data['said'] as string);
    now = now.slice(0, read.offset) + instead + now.slice(read.offset + read.length);
  }
  return undefined;
};

const placeIn = (text: string, part: string) => ({ offset: text.indexOf(part), length: part.length });

/** A time as a spreadsheet keeps it, a part of the day: 0.458333 is 11:00. */
const partOfDay = (text: string): ParsedHours | undefined => {
  const part = text.trim();
  if (!/^0?[.,]\d+$/.test(part)) return undefined;
  const minutes = Math.round(Number(part.replace(',', '.')) * DAY) % DAY;
  return { ok: false, fault: 'part-of-a-day', ...placeIn(text, part), data: { part, time: writeTime(minutes) } };
};

/**
 * Reads opening hours in the subset of the open grammar that index.ts states, or as people write them. Never throws on what a person wrote.
 * @returns the hours and how they were read, or the first fault with its place in the text and, where there is one, the whole text as it would be read.
 */
export const parseHours = (text: string): ParsedHours => {
  const part = partOfDay(text);
  if (part) return part;
  const read = readOnce(text);
  if (read.ok) return read;
  const { suggestion: _, other: __, ...first } = read;
  const brackets: string[] = [];
  const whole = mended(text, false, (said) => brackets.push(said));
  const other = mended(text, true);
  const [bracket] = brackets;
  // What a suggestion leaves out is told before any other fault.
  const fault: typeof first =
    whole === undefined || bracket === undefined
      ? first
      : { ok: false, fault: 'in-brackets', ...placeIn(text, bracket), data: { said: brackets.join(' ') } };
  return {
    ...fault,
    ...(whole === undefined ? {} : { suggestion: whole }),
    ...(whole === undefined || other === undefined || other === whole ? {} : { other }),
  };
};
