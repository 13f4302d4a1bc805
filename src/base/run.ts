/**
 * A stretch of text in one style. Text on a page is a list of runs, so that a value keeps the path of the plan it came from,
 * and a word in another language keeps its language.
 */
export interface Run {
  readonly text: string;
  readonly strong?: true;
  /** Path of the plan's value that this run says. */
  readonly value?: string;
  /** BCP 47 tag, only where it differs from the page's. */
  readonly lang?: string;
}

export const textOf = (runs: readonly Run[]): string => runs.map((r) => r.text).join('');
