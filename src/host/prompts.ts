/**
 * Questions at the terminal, one by one: the only file that imports the prompt library. Undefined means that a person broke off.
 */
import { autocomplete, CANCEL_SYMBOL, isCancel, log, select, text } from '@clack/prompts';
import type { Readable, Writable } from 'node:stream';

export interface Choice {
  /** Empty: what Enter alone says, which no typing chooses. A sign (`?`) is chosen by itself, not by the words of its label. */
  readonly value: string;
  readonly label: string;
}

export interface Prompts {
  /** Asks again, with what is wrong, until `check` has nothing to say. */
  readonly line: (
    ask: string,
    hint: string,
    check: (given: string) => string | undefined,
    /** Shown as the answer where Enter alone was pressed, which gives an empty one. */
    enter?: string,
  ) => Promise<string | undefined>;
  /** A list to walk in, or to type a choice or part of one; `none` is said where what was typed is in no choice. */
  readonly choose: (ask: string, of: readonly Choice[], now: string | undefined, none: string) => Promise<string | undefined>;
  /** Enter says no. */
  readonly yes: (ask: string) => Promise<boolean | undefined>;
  /** A line between two questions. */
  readonly tell: (says: string) => void;
}

export interface Streams {
  readonly input?: Readable;
  readonly output?: Writable;
}

const MOST = 10;

/** How well what was typed names a choice: 3 whole, 2 its beginning, 1 some part, 0 not at all. */
const fit = (typed: string, { value, label }: Choice): number => {
  const sought = typed.trim().toLowerCase();
  const names = value === '' ? [] : /^\w/.test(value) ? [value, label] : [value];
  return names.reduce((best, name) => {
    const text = name.toLowerCase();
    return Math.max(best, text === sought ? 3 : text.startsWith(sought) ? 2 : text.includes(sought) ? 1 : 0);
  }, 0);
};

export const makePrompts = (streams: Streams = {}): Prompts => {
  const answer = async <T>(asked: Promise<T>): Promise<Exclude<T, typeof CANCEL_SYMBOL> | undefined> => {
    const given = await asked;
    return isCancel(given) ? undefined : (given as Exclude<T, typeof CANCEL_SYMBOL>);
  };
  return {
    line: async (message, placeholder, check, enter = '') => {
      let typed = '';
      const validate = (given: string | undefined): string | undefined => check((typed = given ?? ''));
      const given = await answer(text({ ...streams, message, placeholder, defaultValue: enter, validate }));
      return given === undefined ? undefined : typed;
    },
    choose: (message, of, now, none) =>
      answer(
        autocomplete({
          ...streams,
          message,
          options: of.map(({ value, label }) => ({ value, label })),
          maxItems: MOST,
          // Only the best are left: whoever types `third` is not shown `two-third`.
          filter: (typed, { value, label = '' }) => {
            const mine = fit(typed, { value, label });
            return mine > 0 && of.every((other) => fit(typed, other) <= mine);
          },
          validate: (value) => (value === undefined ? none : undefined),
          ...(now === undefined ? {} : { initialValue: now }),
        }),
      ),
    // A list: where `y` alone answered, the Enter that people press after it would answer the next question too.
    yes: (message) =>
      answer(
        select({
          ...streams,
          message,
          options: [
            { value: false, label: 'No' },
            { value: true, label: 'Yes' },
          ],
          initialValue: false,
        }),
      ),
    tell: (says) => log.info(says, streams.output ? { output: streams.output } : {}),
  };
};

/** Somebody can be asked. */
export const isAsking = (): boolean => process.stdin.isTTY && process.stdout.isTTY;
