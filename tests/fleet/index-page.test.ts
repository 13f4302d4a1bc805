/**
 * The page of all stores, used in a real Chromium from a file, as head office does.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { error, note, warning, type Finding } from '../../src/base/finding.js';
import { place } from '../../src/base/place.js';
import { indexData } from '../../src/fleet/index-page/data.js';
import { INDEX, makeIndex } from '../../src/fleet/index-page/index.js';
import type { Ledger, StoreRecord } from '../../src/fleet/ledger.js';
import { STORE } from '../support/chain.js';
import { openBrowser } from '../support/browser.js';
import { memoryFolder, openedOf, smallBuild, threeStores } from './small-build.js';

let browser: Browser;
let folder: string;

const open = async (file: string): Promise<{ page: Page; asked: string[]; faults: string[] }> => {
  const page = await browser.newPage();
  const asked: string[] = [];
  const faults: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  await page.goto(`file://${join(folder, file)}`);
  return { page, asked, faults };
};

const NASTY = `</script><img src=x onerror="document.title='taken'"> & "Töpfe"`;

const files = threeStores({
  'sites/alder.yaml': `${STORE.replace('Test Street', JSON.stringify(NASTY))}region: North\n`,
  'sites/birch.yaml': `${STORE.replace('Test Street', 'Birch').replace('07:00-22:00', '02:00-22:00')}region: South\nlanguages: [en, es]\n`,
  'sites/wrong.yaml': STORE.replace('serial', 'serail'),
});

beforeAll(async () => {
  browser = await openBrowser();
  folder = mkdtempSync(join(tmpdir(), 'nightrail-index-'));
  const made = new Map<string, Uint8Array>();
  await smallBuild(files, memoryFolder(made).out);
  for (const [path, bytes] of made) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), bytes);
  }
}, 120_000);
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What an expression gives for each element that a selector finds. */
const each = (page: Page, selector: string, gives: string): Promise<string[]> =>
  page.evaluate<string[]>(`[...document.querySelectorAll(${JSON.stringify(selector)})].map((e) => ${gives})`);

const names = (page: Page): Promise<string[]> => each(page, 'tbody th', 'e.lastChild.textContent');

describe('the page of all stores', () => {
  it('shows every store with its papers, asks for nothing else, and takes no name for markup', async () => {
    const { page, asked, faults } = await open(INDEX);
    expect(await names(page)).toEqual(['alder', 'birch', 'cedar', 'wrong']);
    expect(await page.locator('#count').textContent()).toBe('4 of 4 stores');
    expect(await page.locator('tbody th').first().textContent()).toContain(NASTY);
    expect(await page.title()).toBe('Test Kitchens: papers of every store');
    expect(asked).toHaveLength(1);
    expect(faults).toEqual([]);
  });
  it('leads to each paper that lies there', async () => {
    const { page } = await open(INDEX);
    const links = await each(page, 'tbody a', 'e.getAttribute("href")');
    expect(links).toContain('birch/week.es.html');
    expect(links).not.toContain('birch/line-1-poster.en.html');
    await page.locator('a[href="cedar/week.en.html"]').click();
    expect(await page.title()).toContain('Cedar');
  });
  it('searches, filters by region and by finding, and sorts', async () => {
    const { page } = await open(INDEX);
    await page.getByLabel('Search').fill('topfe');
    expect(await names(page)).toEqual(['alder']);
    await page.getByLabel('Search').fill('LINE birch');
    expect(await names(page)).toEqual(['birch']);
    await page.getByLabel('Search').fill('');
    await page.getByLabel('Region').selectOption('South');
    expect(await names(page)).toEqual(['birch']);
    await page.getByLabel('Region').selectOption('');
    const options = await each(page, '#finding option', 'e.value');
    const unrested = options.find((o) => o.startsWith('error no-rest-')) as string;
    await page.getByLabel('Finding').selectOption(unrested);
    expect(await names(page)).toEqual(['birch']);
    await page.getByLabel('Finding').selectOption('error unknown-key');
    expect(await names(page)).toEqual(['wrong']);
    await page.getByLabel('Finding').selectOption('-');
    expect(await names(page)).not.toContain('wrong');
    await page.getByLabel('Finding').selectOption('');
    await page.getByRole('button', { name: 'Store' }).click();
    expect(await names(page)).toEqual(['wrong', 'cedar', 'birch', 'alder']);
    await page.getByRole('button', { name: 'Findings' }).click();
    expect((await names(page)).slice(0, 2).sort()).toEqual(['birch', 'wrong']);
  });
  it.each([390, 760, 1100])('sets every name and head in whole words, %i px wide, and nothing beyond the edge', async (width) => {
    const { page } = await open(INDEX);
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBe(width);
    const lines =
      'Math.round(e.getClientRects().length && e.getBoundingClientRect().height / parseFloat(getComputedStyle(e).lineHeight))';
    for (const told of await each(page, 'thead button, tbody th small, tbody a', `\`\${e.textContent}: \${${lines}}\``))
      expect(told).toMatch(/: 1$/);
    expect(Math.min(...(await each(page, 'tbody th', 'e.getBoundingClientRect().width')).map(Number))).toBeGreaterThan(150);
  });
  it.each([390, 1100])('has no fault that axe knows, %i px wide', async (width) => {
    const { page } = await open(INDEX);
    await page.setViewportSize({ width, height: 800 });
    // The page's own rules let no script in from elsewhere; the test's comes in through the debugger.
    const source = await import('node:fs').then((fs) =>
      fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'),
    );
    const violations = await page.evaluate(
      `(async () => { ${source}; const r = await axe.run(); return r.violations.map((v) => v.id + ': ' + v.nodes.map((n) => n.target).join(' ')); })()`,
    );
    expect(violations).toEqual([]);
  });
});

/** A ledger of many stores. */
const many = (count: number): Ledger => {
  const stores = new Map<string, StoreRecord>();
  for (let i = 0; i < count; i++) {
    const store = `store-${String(i).padStart(5, '0')}`;
    const units = ['line-1', 'line-2', 'box'].map((unit) => ({
      unit,
      store,
      profile: 'table',
      nickname: unit,
      times: {},
      facts: {},
      because: {},
    }));
    const made = { pages: 1, bytes: 1, hash: '' };
    const common = {
      store,
      format: 'pdf',
      finish: 'plain',
      sheet: 'letter',
      single: false,
      from: '',
      key: '',
      made,
      findings: [],
      untranslated: [],
    };
    const documents = ['en', 'es'].flatMap((language) => [
      { ...common, document: `${store}/week.${language}.pdf`, paper: 'week', language },
      ...units.flatMap(({ unit }) =>
        ['poster', 'card'].map((paper) => ({
          ...common,
          document: `${store}/${unit}-${paper}.${language}.pdf`,
          unit,
          paper,
          language,
        })),
      ),
    ]);
    const findings =
      i % 3 === 0
        ? [warning('override-found', place(`sites/${store}.yaml`), { override: 'on' }), note('law-not-checked', place(''), {})]
        : [];
    stores.set(store, {
      store: { store, doc: '', inputs: '', name: `Store number ${i}`, region: `Region ${i % 12}`, findings },
      units,
      documents,
    });
  }
  return { head: { ledger: 1, nightrail: '', engine: '', chain: '', shared: '', stores: count, ids: '' }, stores, left: [] };
};

describe('with 5,000 stores', () => {
  it('is small, is there at once, and answers a search at once', async () => {
    const text = makeIndex(many(5000), openedOf(files));
    expect(text.length).toBeLessThan(2_500_000);
    writeFileSync(join(folder, 'many.html'), text);
    const begun = performance.now();
    const { page, faults } = await open('many.html');
    await page.locator('tbody tr').first().waitFor();
    expect(performance.now() - begun).toBeLessThan(5000);
    expect(await page.locator('#count').textContent()).toBe('5000 of 5000 stores');
    const took = await page.evaluate<number>(`(() => {
      const begun = performance.now();
      document.getElementById('search').value = 'number 4999';
      document.getElementById('search').dispatchEvent(new Event('input'));
      return performance.now() - begun;
    })()`);
    expect(await names(page)).toEqual(['store-04999']);
    expect(took).toBeLessThan(500);
    await page.getByLabel('Search').fill('');
    expect(await page.locator('tbody tr').count()).toBeLessThan(1000);
    await page.evaluate('window.scrollTo(0, document.body.scrollHeight)');
    await page.waitForFunction('document.querySelectorAll("tbody tr").length > 150');
    expect(faults).toEqual([]);
  }, 60_000);
  it('shows those too that none could be made of, with what is wrong, also where they have no id', () => {
    const { head, ...rest } = many(1);
    const at = { ...place('sites/stores.csv'), line: 7, cell: 'id' };
    const twice = error('csv-id-twice', at, {});
    const lost = [
      { store: 'elm', name: 'Elm', region: 'North', at, finding: twice },
      { store: 'elm', name: 'Elm Hill', at, finding: twice },
      { store: '', at, finding: error('csv-row-without-id', at, {}) },
    ];
    const words = { says: (f: Finding) => `says ${f.code}`, paperName: (paper: string) => paper, notMade: '' };
    const { texts, stores } = indexData({ ...rest, head: { ...head, lost } }, words);
    expect(stores.slice(1).map((s) => [s.name, s.region, s.documents, s.findings.flat().map((n) => texts[n])])).toEqual([
      ['Elm', 'North', [], ['error csv-id-twice', 'says csv-id-twice']],
      ['Elm Hill', '', [], ['error csv-id-twice', 'says csv-id-twice']],
      ['sites/stores.csv row 7', '', [], ['error csv-row-without-id', 'says csv-row-without-id']],
    ]);
  });
  it('holds no text twice', () => {
    const { texts } = indexData(many(10), { says: (f) => f.code, paperName: (p) => p, notMade: '' });
    expect(new Set(texts).size).toBe(texts.length);
  });
});
