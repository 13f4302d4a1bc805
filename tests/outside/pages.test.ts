/**
 * What a page says to those who hear it is the same on paper and on a screen: the outline of its PDF's tag tree equals that of its HTML's accessibility tree,
 * and both equal the golden, but for sheets that are printed alone, paper by paper and language by language.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import type { Page } from '../../src/compose/block.js';
import { printHtml } from '../../src/print/html.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from '../print/faces.js';
import { openBrowser } from '../support/browser.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';
import { outlineOfPage, outlineOfPdf } from './outline.js';

const STORE = 'copper-ferry';

const tried = tryFiles(new Map([...demoFiles()].filter(([doc]) => !doc.startsWith('sites/') || doc === `sites/${STORE}.yaml`)));
if (!tried.workshop) throw new Error('the demo does not open');
const made = pagesOf(tried.workshop, tried.stores);

let browser: Browser;
let work: string;
beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-outline-'));
  browser = await openBrowser();
}, 60_000);
afterAll(async () => {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
});

describe.each(made.map(({ paper, lang, page }) => ({ name: `${paper.id}.${lang}`, page: page as Page })))(
  '$name',
  ({ name, page }) => {
    // On as many sheets as it takes, so that no optional part is left out.
    const flowing: Page = { ...page, length: 'flow' };

    const golden = `golden/${name}.outline.txt`;

    it('reads as its golden in PDF', async () => {
      const { bytes, findings } = await printPdf(flowing, faces);
      if (!bytes) throw new Error(JSON.stringify(findings));
      const file = join(work, `${name}.pdf`);
      writeFileSync(file, bytes);
      const outline = await outlineOfPdf(file, bytes);
      expect(outline.length).toBeGreaterThan(20);
      await expect(`${outline.join('\n')}\n`).toMatchFileSnapshot(golden);
    });

    it('reads as its golden in HTML, without the sheets that are for who holds the paper', async () => {
      const file = join(work, `${name}.html`);
      writeFileSync(file, printHtml(flowing).html);
      const tab = await browser.newPage();
      await tab.goto(`file://${file}`);
      const outline = await outlineOfPage(tab);
      await tab.close();
      const lines = readFileSync(`tests/outside/${golden}`, 'utf8').trimEnd().split('\n');
      const printed = page.body.findIndex((block) => block.block === 'new-sheet' && block.printed === true);
      const heading = printed < 0 ? undefined : page.body[printed + 1];
      const from = heading?.block === 'heading' ? lines.indexOf(`heading 1 ${textOf(heading.text)}`) : lines.length;
      expect(from).toBeGreaterThan(20);
      expect(outline).toEqual(printed < 0 ? lines : [...lines.slice(0, from), ...lines.slice(-page.foot.length)]);
    });
  },
);
