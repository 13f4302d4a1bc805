/**
 * The pages of two stores as people open them on a phone, a tablet and a desk: nothing that axe knows to be wrong, nothing wider than the screen,
 * no fault in the console and no request, in light and dark and in print. WCAG 2.2 A and AA, by axe-core in a real Chromium.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { parse } from 'yaml';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../support/browser.js';

const STORES = ['copper-ferry', 'pilot-steps'];
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const { papers } = parse(readFileSync('nightrail.yaml', 'utf8')) as { papers: string[] };
/** Longest names first: `kit-lesson` is no unit's `lesson`. */
const NAMES = [...papers].sort((a, b) => b.length - a.length).join('|');
const PAPER = new RegExp(`^(?:[a-z0-9-]+?-)?(${NAMES})\\.(..)\\.html$`);

let browser: Browser;
let work: string;

const build = (week: string): string => {
  const out = join(work, week);
  execFileSync(process.execPath, [resolve('dist/cli.js'), 'build', ...STORES, '--format', 'html', '--week', week, '--out', out], {
    stdio: 'pipe',
  });
  return out;
};

let out: string;
const files: string[] = [];
beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-a11y-'));
  browser = await openBrowser();
  out = build('2026-W49');
  for (const store of STORES) {
    // One unit's papers stand for those of the others: the templates are the same.
    const papers = new Map(readdirSync(join(out, store)).flatMap((f) => (PAPER.test(f) ? [[f.replace(PAPER, '$1 $2'), f]] : [])));
    for (const file of papers.values()) files.push(`${store}/${file}`);
  }
}, 240_000);
afterAll(async () => {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
});

/** What axe finds on the page as it is shown now. */
const violations = (page: Page): Promise<readonly string[]> =>
  page.evaluate(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(RULES)} }, resultTypes: ['violations'] }).then((r) =>
      r.violations.flatMap((v) => v.nodes.map((n) => v.id + ' ' + n.target.join(' ') + ' ' + (n.any[0]?.message ?? ''))))`,
  );

const VIEWS = [320, 768, 1280].flatMap((width) =>
  (['light', 'dark'] as const).map((scheme) => ({ width, scheme, media: 'screen' as const })),
);

/** Everything that is wrong with a page, each with the view in which it is. */
const faultsOf = async (page: Page, url: string): Promise<readonly string[]> => {
  const faults: string[] = [];
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('pageerror', (fault) => faults.push(String(fault)));
  page.on('console', (message) => faults.push(`console: ${message.text()}`));
  await page.goto(url);
  // The page's own rules let no script in from elsewhere; the test's comes in through the debugger.
  await page.evaluate(axe);
  for (const { width, scheme, media } of [...VIEWS, { width: 1280, scheme: 'light' as const, media: 'print' as const }]) {
    await page.setViewportSize({ width, height: 900 });
    await page.emulateMedia({ media, colorScheme: scheme });
    const view = `${media} ${width} ${scheme}`;
    const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
    if (wide > width) faults.push(`${view}: ${wide} px wide`);
    faults.push(...(await violations(page)).map((v) => `${view}: ${v}`));
  }
  // axe takes a table without heads for one that has none.
  const tables = await page.evaluate<string[]>(
    `[...document.querySelectorAll('table')].filter((t) => !t.querySelector('th') || [...t.querySelectorAll('th')].some((th) => !/^(col|row)$/.test(th.scope))).map((t) => t.textContent.slice(0, 60))`,
  );
  faults.push(...tables.map((t) => `a table without th[scope]: ${t}`));
  return [...faults, ...asked.filter((a) => a !== url).map((a) => `asks for ${a}`)];
};

describe('every paper of two stores, in each language', () => {
  it('is there', () => {
    const all = papers.flatMap((paper) => [`${paper} en`, `${paper} es`]).sort();
    for (const store of STORES) {
      const found = files.flatMap((f) => (f.startsWith(`${store}/`) ? [f.slice(store.length + 1).replace(PAPER, '$1 $2')] : []));
      expect(found.sort()).toEqual(all);
    }
  });

  it('would not pass with a fault: the check sees one', async () => {
    const page = await browser.newPage();
    const url =
      'data:text/html,<table><tr><td>x</table><img src="http://127.0.0.1:9/x.png"><p style="width:2000px;color:%23ccc;background:%23fff">pale';
    const faults = (await faultsOf(page, url)).join('\n');
    await page.close();
    for (const fault of ['image-alt', 'color-contrast', 'html-has-lang', '320 light: 2', 'without th[scope]', 'asks for'])
      expect(faults).toContain(fault);
  });

  it('has no fault that axe knows, on any screen, in light and dark and print', async () => {
    const context = await browser.newContext();
    const wrong: string[] = [];
    for (const file of files) {
      const page = await context.newPage();
      wrong.push(...(await faultsOf(page, `file://${join(out, file)}`)).map((fault) => `${file} ${fault}`));
      await page.close();
    }
    await context.close();
    expect(wrong).toEqual([]);
  }, 240_000);
});

describe('the days of a dated sheet on a phone', () => {
  /** The weekday columns that are seen of the first rows with boxes or lines. */
  const seen = (page: Page): Promise<string[]> =>
    page.evaluate<string[]>(
      `[...new Set([...document.querySelectorAll('.by-day td[data-head]:not([colspan])')].filter((td) => td.checkVisibility()).map((td) => td.dataset.head.replace(/ (closed|cerrado)$/, '')))]`,
    );

  it('are a list for a thumb at the top; one that is chosen stands alone, and all can be had again', async () => {
    for (const lang of ['en', 'es']) {
      const phone = await browser.newContext({ viewport: { width: 320, height: 640 }, hasTouch: true });
      const page = await phone.newPage();
      // Past midnight it is still Wednesday's night.
      await page.clock.setFixedTime(new Date(2026, 11, 3, 1, 30));
      await page.goto(`file://${join(out, `copper-ferry/week.${lang}.html`)}`);
      const links = page.locator('nav a');
      const boxes = await page.evaluate<number[]>(
        `[...document.querySelectorAll('nav a')].flatMap((a) => { const b = a.getBoundingClientRect(); return [b.width, b.height]; })`,
      );
      // WCAG 2.2, 2.5.5 (AAA): 44 by 44 CSS pixels.
      expect(Math.min(...boxes)).toBeGreaterThanOrEqual(44);
      expect(await links.count()).toBe(8);
      // A phone keeps no record: it says where to write.
      expect(await page.locator('nav p').innerText()).toMatch(lang === 'en' ? /paper sheet/ : /hoja de papel/);
      expect(await page.locator('[aria-current]').getAttribute('href')).toBe('#day-2026-12-02');
      expect(await seen(page)).toHaveLength(7);
      const whole = await page.evaluate<number>('document.documentElement.scrollHeight');
      await page.locator('[aria-current]').tap();
      expect(await seen(page)).toHaveLength(1);
      expect((await seen(page))[0]?.replaceAll('\u00a0', ' ')).toBe(
        (await page.locator('[aria-current]').textContent())?.replaceAll('\u00a0', ' '),
      );
      expect(await page.evaluate<number>('document.documentElement.scrollHeight')).toBeLessThan(0.7 * whole);
      expect(await page.evaluate<number>(`document.querySelector('h2').getBoundingClientRect().top`)).toBeLessThan(100);
      await links.last().tap();
      expect(await seen(page)).toHaveLength(7);
      await phone.close();
    }
  });

  it('are all printed, and all seen on a wide screen, whichever was chosen', async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`file://${join(out, 'copper-ferry/week.en.html')}#day-2026-12-02`);
    for (const media of ['screen', 'print'] as const) {
      await page.emulateMedia({ media });
      expect(await seen(page), media).toHaveLength(7);
      expect(await page.locator('nav').isVisible(), media).toBe(false);
    }
    await page.close();
  });
});

describe('boxes on a phone', () => {
  const ticked = (page: Page): Promise<boolean[]> =>
    page.evaluate<boolean[]>(`[...document.querySelectorAll('input[type=checkbox]')].map((b) => b.checked)`);

  it('are seen for every day, with nothing to scroll aside, and labels stay in their pictures where our typeface is missing', async () => {
    const phone = await browser.newContext({ viewport: { width: 360, height: 640 }, hasTouch: true });
    const page = await phone.newPage();
    await page.goto(`file://${join(out, 'copper-ferry/week.es.html')}`);
    expect(
      await page.evaluate(`[...document.querySelectorAll('.scroll')].filter((s) => s.scrollWidth > s.clientWidth).length`),
    ).toBe(0);
    const heads = await page.evaluate<string[]>(
      `[...document.querySelector('td input').closest('tr').querySelectorAll('td')].map((td) => getComputedStyle(td, '::before').content)`,
    );
    expect(new Set(heads).size).toBe(7);
    await page.goto(`file://${join(out, 'copper-ferry/line-1-poster.es.html')}`);
    const labels = await page.evaluate<{ out: string[]; all: number }>(
      `(() => { const all = [...document.querySelectorAll('svg text')]; return { all: all.length, out: all.filter((t) => { const b = t.getBBox(); const v = t.ownerSVGElement.viewBox.baseVal; return b.x < -1 || b.x + b.width > v.width + 1; }).map((t) => t.textContent) }; })()`,
    );
    await phone.close();
    expect(labels.all).toBeGreaterThan(10);
    expect(labels.out).toEqual([]);
  });

  it('stay ticked on that phone, for that dated sheet alone', async () => {
    const next = build('2026-W50');
    const phone = await browser.newContext({ viewport: { width: 320, height: 640 }, hasTouch: true });
    const page = await phone.newPage();
    const open = (folder: string, file: string) => page.goto(`file://${join(folder, file)}`);
    const sheet = 'copper-ferry/week.en.html';
    await open(out, sheet);
    const boxes = page.locator('input[type=checkbox]');
    expect(await ticked(page)).not.toContain(true);
    await boxes.nth(0).tap();
    await boxes.nth(9).tap();
    await boxes.nth(11).tap();
    await boxes.nth(11).tap();
    await page.reload();
    const kept = await ticked(page);
    expect(kept.flatMap((on, i) => (on ? [i] : []))).toEqual([0, 9]);

    // Neither the next week's crew, nor another store, nor another paper meets them.
    for (const [folder, file] of [
      [next, sheet],
      [out, 'pilot-steps/week.en.html'],
      [out, 'copper-ferry/line-1-handout.en.html'],
    ] as const) {
      await open(folder, file);
      const others = await ticked(page);
      expect(others.length, file).toBeGreaterThan(0);
      expect(others, file).not.toContain(true);
    }
    await open(out, sheet);
    expect(await ticked(page)).toEqual(kept);
    const another = await browser.newContext();
    const elsewhere = await another.newPage();
    await elsewhere.goto(`file://${join(out, sheet)}`);
    expect(await ticked(elsewhere)).not.toContain(true);
    await Promise.all([phone.close(), another.close()]);
  }, 120_000);

  it('of a row that was changed since are empty', async () => {
    const phone = await browser.newContext();
    const page = await phone.newPage();
    await page.goto(`file://${join(out, 'copper-ferry/week.en.html')}`);
    const timed = (time: string) => page.locator(`tr:has(input):has-text("${time}")`).first();
    await timed('08:00').locator('input').first().check();
    // The sheet comes anew with another time in that row.
    await phone.route('**/week.en.html', (route) =>
      route.fulfill({
        contentType: 'text/html',
        body: readFileSync(join(out, 'copper-ferry/week.en.html'), 'utf8').replaceAll('08:00', '08:05'),
      }),
    );
    await page.reload();
    expect(await timed('08:05').locator('input').count()).toBeGreaterThan(0);
    expect(await ticked(page)).not.toContain(true);
    await phone.close();
  });

  it('of a standing page are not kept', async () => {
    const phone = await browser.newContext();
    const page = await phone.newPage();
    await page.goto(`file://${join(out, 'copper-ferry/line-1-handout.en.html')}`);
    await page.locator('input[type=checkbox]').first().check();
    await page.reload();
    expect(await ticked(page)).not.toContain(true);
    expect(await page.evaluate<number>('localStorage.length')).toBe(0);
    await phone.close();
  });

  it('can be read and ticked where no script may run', async () => {
    const phone = await browser.newContext({ javaScriptEnabled: false });
    const page = await phone.newPage();
    await page.goto(`file://${join(out, 'copper-ferry/week.en.html')}`);
    const box = page.locator('input[type=checkbox]').first();
    await box.check();
    expect(await box.isChecked()).toBe(true);
    expect(await page.locator('h1').first().textContent()).toContain('Copper Ferry');
    await phone.close();
  });
});
