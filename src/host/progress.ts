/**
 * How far a long run is: a bar with rate and time left on a terminal, a quiet line now and then elsewhere.
 */
import { counted } from '../base/counted.js';
import type { Terminal } from './terminal.js';

const WIDTH = 24;
const QUIET = 15_000;

const left = (seconds: number): string =>
  seconds < 90
    ? `${Math.ceil(seconds)} s left`
    : seconds < 5400
      ? `${Math.ceil(seconds / 60)} min left`
      : `${(seconds / 3600).toFixed(1)} h left`;

/** One line: `[######------] 120 of 500 stores, 40 a second, 10 s left  larch-street`. */
export const progressLine = (done: number, of: number, seconds: number, what: string): string => {
  const full = of === 0 ? WIDTH : Math.floor((done / of) * WIDTH);
  const rate = seconds > 0.5 && done > 0 ? done / seconds : 0;
  const pace = rate > 0 ? `, ${rate < 10 ? rate.toFixed(1) : Math.round(rate)} a second, ${left((of - done) / rate)}` : '';
  return `[${'#'.repeat(full)}${'-'.repeat(WIDTH - full)}] ${done} of ${counted(of, 'store')}${pace}${what ? `  ${what}` : ''}`;
};

export interface Progress {
  readonly step: (what: string) => void;
  readonly text: () => string;
}

/** @param now milliseconds, from a clock that only goes forward */
export const makeProgress = (terminal: Terminal, of: number, now: () => number): Progress => {
  const begun = now();
  let done = 0;
  let told = begun;
  const seconds = (): number => (now() - begun) / 1000;
  return {
    step: (what) => {
      done++;
      if (terminal.interactive) terminal.progress(progressLine(done, of, seconds(), what));
      else if (now() - told >= QUIET && done < of) {
        told = now();
        terminal.problem(progressLine(done, of, seconds(), ''));
      }
    },
    text: () => `${done} of ${counted(of, 'store')} done`,
  };
};
