/**
 * A picture as data: marks in a box of points, a text alternative, and the figures it shows.
 * SVG and PDF are written from the same marks (print/svg, print/pdf); nothing here knows a page.
 */
import type { Run } from '../base/run.js';

/** A colour by its job; the theme says what it is. `ink` on `paper` is the page's text. */
export type Tone =
  'ink' | 'soft-ink' | 'rule' | 'paper' | 'wash' | 'brand' | 'on-brand' | 'cold' | 'danger' | 'warning' | 'caution' | 'notice';

export type Mark =
  | {
      readonly mark: 'path';
      /** SVG path data in absolute or relative commands (M L H V C S Q T A Z). */
      readonly d: string;
      readonly fill?: Tone;
      readonly stroke?: Tone;
      /** Points. */
      readonly width?: number;
      /** Lengths of dash and gap, points. */
      readonly dash?: readonly number[];
    }
  | {
      readonly mark: 'text';
      readonly x: number;
      /** The baseline. */
      readonly y: number;
      readonly text: string;
      /** Font size, points. */
      readonly size: number;
      /** Points that it is measured to take: where its own face is missing, another is set to these. */
      readonly width?: number;
      readonly strong?: true;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly tone: Tone;
      /** Path of the plan's value that this text says. */
      readonly value?: string;
    };

export interface Drawing {
  /** Name of the figure: `day-bar`, `dial`. */
  readonly name: string;
  /** Points. */
  readonly width: number;
  readonly height: number;
  /** What a person who can't see the picture needs to know; whole sentences. */
  readonly alt: readonly Run[];
  readonly marks: readonly Mark[];
}

/** Width of a text in points; `print/measure` gives it, so that a figure can keep its labels apart. */
export type TextWidth = (text: string, size: number, strong?: boolean) => number;

const round = (n: number): number => Math.round(n * 100) / 100;

/** Joins path commands, rounding every number to a hundredth of a point so that pictures are the same everywhere. */
export const pathOf = (...parts: (string | number)[]): string =>
  parts.map((p) => (typeof p === 'number' ? String(round(p)) : p)).join(' ');

export const rectangle = (x: number, y: number, w: number, h: number): string => pathOf('M', x, y, 'h', w, 'v', h, 'h', -w, 'Z');

export const circle = (x: number, y: number, r: number): string =>
  pathOf('M', x - r, y, 'A', r, r, 0, 1, 0, x + r, y, 'A', r, r, 0, 1, 0, x - r, y, 'Z');
