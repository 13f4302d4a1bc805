/** How far a long run is: a bar where somebody watches, a quiet line now and then elsewhere. */
import { describe, expect, it } from 'vitest';
import { makeProgress, progressLine } from '../../src/host/progress.js';
import type { Terminal } from '../../src/host/terminal.js';

const run = (interactive: boolean, seconds: readonly number[]) => {
  const bars: string[] = [];
  const lines: string[] = [];
  const terminal = {
    interactive,
    progress: (text: string) => void bars.push(text),
    problem: (text: string) => void lines.push(text),
  } as unknown as Terminal;
  let now = 0;
  const progress = makeProgress(terminal, seconds.length, () => now);
  for (const at of seconds) {
    now = at * 1000;
    progress.step('larch-street');
  }
  return { bars, lines };
};

describe('progress', () => {
  it('is how many, the rate and the time left', () => {
    expect(progressLine(120, 480, 3, 'larch-street')).toBe(
      '[######------------------] 120 of 480 stores, 40 a second, 9 s left  larch-street',
    );
    expect(progressLine(1, 2, 600, '')).toMatch(/, 0\.0 a second, 10 min left$/);
    expect(progressLine(10, 100_010, 1, '')).toMatch(/, 10 a second, 2\.8 h left$/);
    // No rate is known yet.
    expect(progressLine(0, 5, 0, '')).toBe('[------------------------] 0 of 5 stores');
  });
  it('is a bar that moves with each store on a terminal', () => {
    const { bars, lines } = run(true, [1, 2, 3]);
    expect([bars.length, lines]).toEqual([3, []]);
    expect(bars[1]).toContain('2 of 3 stores, 1.0 a second, 1 s left');
  });
  it('is elsewhere one line in fifteen seconds at the most, and none of a short run', () => {
    expect(run(false, [1, 2, 14])).toEqual({ bars: [], lines: [] });
    const { bars, lines } = run(false, [1, 16, 17, 30, 32, 33]);
    expect(bars).toEqual([]);
    expect(lines.map((line) => /(\d+) of 6/.exec(line)?.[1])).toEqual(['2', '5']);
  });
});
