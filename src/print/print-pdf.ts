/**
 * A page to a PDF: characters checked, words measured, the page fitted to its sheets, the file written.
 */
import { anyError, error, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import type { Page } from '../compose/block.js';
import { onOneLine } from './characters.js';
import { badCharacters, langsOf } from './check.js';
import type { Faces } from './faces.js';
import { fit } from './fit.js';
import { hyphenatorFor, type Hyphenator } from './hyphens.js';
import { writePdf } from './pdf.js';
import { paletteOf } from './theme.js';

export interface PrintedPdf {
  /** Absent when a finding of severity error says why the page can't be printed. */
  readonly bytes?: Uint8Array;
  readonly sheets: number;
  readonly findings: readonly Finding[];
}

/**
 * Prints a page as a tagged PDF (PDF/UA-1).
 * @param at the template, for findings: its lines are the lines of the blocks.
 * @returns findings `does-not-fit`, `no-glyph`, `control-character`, `too-narrow`, `empty-page` (errors: no bytes), `figure-too-small` (warning),
 *   `left-out` (note).
 */
export const printPdf = async (page: Page, faces: Faces, at: Place = place('page')): Promise<PrintedPdf> => {
  const refused = badCharacters(page, at, faces);
  if (refused.length > 0) return { sheets: 0, findings: refused };

  const hyphenators = new Map<string, Hyphenator>();
  for (const lang of langsOf(page)) hyphenators.set(lang, await hyphenatorFor(lang));
  const hyphenator = (lang = page.lang): Hyphenator => hyphenators.get(lang) as Hyphenator;

  const palette = paletteOf(page.brand.colour);
  const fitted = fit({ page, faces, palette, hyphenator, at });
  const findings = [
    ...fitted.findings,
    ...(fitted.sheets.length === 0 && !anyError(fitted.findings) ? [error('empty-page', at)] : []),
  ];
  if (anyError(findings)) return { sheets: 0, findings };
  const bytes = await writePdf(
    { title: onOneLine(page.title), lang: page.lang, root: fitted.root, sheets: fitted.sheets },
    faces,
    palette,
  );
  return { bytes, sheets: fitted.sheets.length, findings };
};
