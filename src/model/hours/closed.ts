/**
 * Days behind "closed" that times follow: which of them are closed, and which have the times.
 */
import type { Token } from './scan.js';

export type ClosedDays =
  /** The token at which the closed days end. */
  | { readonly end: number }
  /** May be meant in several ways: what to write from one token to another for each, the likeliest first; none where none is likelier. */
  | { readonly from: Token; readonly upTo: Token; readonly ways: readonly string[] };

/**
 * They end at their only comma, if one day or range stands behind it, as in `closed mon and tue, wed-thu 11am-9pm`. All else may mean two things.
 * @param joints which token stands before each further day: its comma, or the day itself
 * @returns undefined for one day or range alone
 */
export const closedDays = (text: string, tokens: readonly Token[], joints: readonly number[]): ClosedDays | undefined => {
  const token = (at: number): Token => tokens[at] as Token;
  const textOf = (from: Token, upTo = from): string => text.slice(from.offset, upTo.offset + upTo.length);
  const commas = joints.filter((at) => textOf(token(at)) === ',');
  const [only] = commas.length === 1 ? commas : [];
  const [first, end] = [joints[0], joints.at(-1)];
  if (first === undefined || end === undefined) return undefined;
  if (only === end) return { end };
  const [from, upTo] = [token(first), token(end)];
  /** The text from the first joint to the last, with a semicolon at one of them. */
  const cutAt = (joint: number): string => {
    const at = token(joint);
    const behind = at.kind === 'comma' ? textOf(at, upTo).slice(at.length) : ` ${textOf(at, upTo)}`;
    return `${text.slice(from.offset, at.offset).trimEnd()};${behind}`;
  };
  const likely = joints.length > 2 ? (only === undefined ? [] : [only]) : only === first ? [first, end] : [end, first];
  return { from, upTo, ways: [...new Set(likely)].map(cutAt) };
};
