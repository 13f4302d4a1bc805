/**
 * The formats in which a page can be written, by the name that a person gives. One more is a file in this folder, its name in format-names and a line here.
 */
import type { Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Page } from '../compose/block.js';
import type { Faces } from './faces.js';
import type { FormatName } from './format-names.js';
import { printHtml } from './html.js';
import { printPdf } from './print-pdf.js';

export interface Printing {
  /** The page in each of the paper's arrangements, the preferred one first. */
  readonly pages: readonly (() => Page | undefined)[];
  readonly faces: Faces;
  /** The template, for findings. */
  readonly at: Place;
}

export interface Printed {
  /** Absent when a finding of severity error says why. */
  readonly bytes?: Uint8Array;
  /** Sheets of paper; 0 for what has none. */
  readonly sheets: number;
  readonly findings: readonly Finding[];
}

/** The ending of a file's name is the format's own. */
export type OutputFormat = (printing: Printing) => Promise<Printed>;

/** The first arrangement that fits its sheets; where none does, what the first one says. */
const pdf: OutputFormat = async ({ pages, faces, at }) => {
  let first: Printed | undefined;
  for (const make of pages) {
    const page = make();
    const printed = page && (await printPdf(page, faces, at));
    if (printed?.bytes) return printed;
    first ??= printed;
  }
  return first ?? { sheets: 0, findings: [] };
};

/** A screen has no end, so the preferred arrangement always fits. */
const html: OutputFormat = ({ pages, at }) => {
  const page = pages[0]?.();
  const { html: text, findings } = page ? printHtml(page, at) : { html: '', findings: [] };
  return Promise.resolve({ ...(text ? { bytes: new TextEncoder().encode(text) } : {}), sheets: 0, findings });
};

const formats: Readonly<Record<FormatName, OutputFormat>> = { pdf, html };
/** By whatever a person wrote. */
export const FORMATS: Readonly<Record<string, OutputFormat>> = formats;
