/**
 * How a value passes through Handlebars and Markdown without ever being markup: it goes in as a numbered sentinel and comes out as runs.
 * Handlebars' own escaping calls `toHTML`, triple braces call `toString`; both give the sentinel.
 */
import type { Run } from '../base/run.js';

/** Private-use characters that no person's text may hold (read/yaml refuses them). */
export const VALUE_OPEN = '\ue000';
export const VALUE_CLOSE = '\ue001';
export const LINE_OPEN = '\ue002';
export const LINE_CLOSE = '\ue003';

/** What a sentinel stands for. */
export interface Payload {
  readonly runs: readonly Run[];
  /** Set out before a step's words: its clock time. */
  readonly when?: true;
}

/** Holds the payloads of one rendering. */
export class Pot {
  readonly #payloads: Payload[] = [];

  put(payload: Payload): string {
    this.#payloads.push(payload);
    return `${VALUE_OPEN}${this.#payloads.length - 1}${VALUE_CLOSE}`;
  }

  get(index: number): Payload {
    const payload = this.#payloads[index];
    if (!payload) throw new Error(`no payload ${index}`);
    return payload;
  }
}

/** What a template sees of a value: it can be printed, tested for being there, and handed to a helper. Nothing else. */
export class Leaf {
  readonly #pot: Pot;
  readonly #say: () => Payload;

  /** @param say is asked only when the value is printed */
  constructor(pot: Pot, say: () => Payload) {
    this.#pot = pot;
    this.#say = say;
  }

  toHTML(): string {
    return this.#pot.put(this.#say());
  }

  toString(): string {
    return this.toHTML();
  }

  static runsOf(leaf: Leaf): readonly Run[] {
    return leaf.#say().runs;
  }
}
