import type { HoursFault } from './hours.js';

/** Leaves the reading of one text; caught in read.ts and nowhere else. */
export class Fault extends Error {
  constructor(
    readonly fault: HoursFault,
    readonly from: { readonly offset: number },
    readonly upTo: { readonly offset: number; readonly length: number },
    readonly data: Readonly<Record<string, string>> = {},
    readonly suggestion?: string,
    /** What may be meant as well, where the suggestion is a short opening. */
    readonly other?: string,
  ) {
    super(fault);
  }
}
