import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, it } from 'vitest';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from './faces.js';
import { everyBlock } from './make.js';

it('prints every kind of block', async () => {
  const { bytes, sheets, findings } = await printPdf(everyBlock, faces);
  expect(findings).toEqual([]);
  expect(sheets).toBe(2);
  const doc = await getDocument({ data: bytes as Uint8Array }).promise;
  expect(doc.numPages).toBe(2);
});
