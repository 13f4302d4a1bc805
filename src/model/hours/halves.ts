/**
 * What two times of a 12-hour clock may mean that don't say which half of the day is meant: 9-5, 10:30am-2.
 */
import { DAY, NOON } from '../../base/moment.js';
import type { Span } from './hours.js';
import type { Token } from './scan.js';

/** An opening no longer than this is told beside another that may be meant: 10am-2 closes in the afternoon, or at night. */
const SHORT = 360;
/** An opening longer than this is meant by nobody who writes two figures of a 12-hour clock. */
const LONG = 1200;

/** A time of day as written. */
export interface Written {
  readonly at: Token;
  /** Minutes from 00:00 as it reads on a 24-hour clock. */
  readonly minutes: number;
  /** Leaves no doubt by itself which half of the day is meant. */
  readonly sure: boolean;
  /** Says am or pm. */
  readonly half: boolean;
  /** A figure alone: neither am nor pm, neither noon nor midnight. */
  readonly figure: boolean;
}

/** The minutes that a time may mean: one, or one in each half of the day. Nought is the start of the day, and 13 or more its second half. */
const meanings = ({ minutes, figure }: Written): readonly number[] =>
  figure && minutes >= 60 && minutes < 13 * 60 ? [minutes, (minutes + NOON) % DAY] : [minutes];

/**
 * Openings that two written times may mean, the likeliest first, and a second one only where the first is short, or where `pm` behind a closing may hold
 * for the opening too: 5-10pm. Each says of both ends what is written.
 */
export const likely = (opens: Written, closes: Written): readonly Span[] => {
  const ways = meanings(opens).flatMap((from) =>
    // A closing most often lies in the other half of the day than its figure reads: 9-5.
    [...meanings(closes)].reverse().flatMap((to) => {
      const end = to <= from ? to + DAY : to;
      return end > DAY && to > NOON ? [] : [{ from, to: end }];
    }),
  );
  const usual = ways.filter(({ from, to }) => to - from <= LONG);
  const [first] = usual.length > 0 ? usual : ways;
  if (!first) return [];
  const other = usual.find(({ from, to }) => from === first.from && to > first.to);
  const shared =
    closes.half && opens.figure ? usual.find(({ from, to }) => from === first.from + NOON && to === first.to) : undefined;
  const second = first.to - first.from < SHORT ? other : shared;
  return second ? [first, second] : [first];
};
