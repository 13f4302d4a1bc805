/**
 * How long a page takes from plan to bytes, warm, on one core, against typst in this process and a headless Chromium that prints our own HTML:
 *   npx tsc -p . --noEmit false --outDir out/js; taskset -c 0 node out/js/bench/print.js [rounds]
 * Without Chromium it is left out. Nothing is asserted.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { compose, type Paper, type Subject } from '../src/compose/paper.js';
import type { Page, SheetSize } from '../src/compose/block.js';
import { readerOf } from '../src/fleet/store-papers.js';
import { readFaces } from '../src/host/disk.js';
import { withScenes } from '../src/plan/consequences/index.js';
import { planWeek } from '../src/plan/week.js';
import { weekOfIso } from '../src/plan/week-dates.js';
import { makeFaces, printHtml, printPdf, textWidth } from '../src/print/index.js';
import { openBrowser } from '../tests/support/browser.js';
import { demoFiles, tryFiles } from '../tests/support/chain.js';
import { typstOf } from './typst-page.js';

const ROUNDS = Number(process.argv[2] ?? 30);
const STORE = 'copper-ferry';

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[times.length >> 1] as number;
/** Median milliseconds of a round, after as many rounds to warm up as are a third of them. */
const measure = async (rounds: number, work: (round: number) => unknown): Promise<number> => {
  const times: number[] = [];
  for (let i = 0; i < rounds + Math.ceil(rounds / 3); i++) {
    const begun = performance.now();
    await work(i);
    times.push(performance.now() - begun);
  }
  return median(times.slice(-rounds));
};

const files = new Map([...demoFiles()].filter(([doc]) => !doc.startsWith('sites/') || doc === `sites/${STORE}.yaml`));
const { workshop, stores } = tryFiles(files);
const { plan, read } = stores.get(STORE) ?? {};
const words = workshop?.words.get('en');
if (!workshop || !plan || !read || !words) throw new Error('the demo does not open');
const fonts = readFaces();
const faces = makeFaces(fonts);
const width = textWidth(faces);
const unit = Object.values(plan.units)[0];
if (!unit) throw new Error('no unit');
const scenes = withScenes(workshop.shelf, read, plan, unit);
const week = planWeek(read, plan, weekOfIso('2026-W49', workshop.shelf.chain.week_starts) as { first: number });

const composed = (paper: Paper, sheet: SheetSize, round: number): Page => {
  const subject: Subject = {
    plan,
    ...(paper.spec.per === 'unit' ? { unit: paper.spec.scenes ? scenes : unit } : {}),
    ...(paper.spec.when === 'week' ? { week } : {}),
    date: '2026-11-16',
    sheet,
    // No two rounds print the same page.
    brand: { colour: `#1f4d${(round % 200).toString(16).padStart(2, '0')}` },
  };
  const { page } = compose(paper, subject, readerOf(words, read, workshop.shelf), width);
  if (!page) throw new Error(paper.id);
  return { ...page, title: `${page.title} ${round}` };
};

const typst = NodeCompiler.create({ fontArgs: [{ fontBlobs: Object.values(fonts).map((bytes) => Buffer.from(bytes)) }] });
const withTypst = (page: Page): Uint8Array => {
  const { text, pictures } = typstOf(page);
  for (const [name, svg] of pictures) typst.mapShadow(join(process.cwd(), name), Buffer.from(svg));
  // What it remembers of the page before would be no work.
  typst.evictCache(0);
  return typst.pdf({ mainFileContent: text });
};

const browser = await Promise.resolve()
  .then(openBrowser)
  .catch(() => undefined);
const work = mkdtempSync(join(tmpdir(), 'nightrail-bench-'));
const withChromium = async (page: Page): Promise<Uint8Array> => {
  const file = join(work, 'page.html');
  writeFileSync(file, printHtml(page).html);
  const tab = await (browser as NonNullable<typeof browser>).newPage();
  await tab.goto(`file://${file}`);
  const bytes = await tab.pdf({ preferCSSPageSize: true, tagged: true, printBackground: true });
  await tab.close();
  return bytes;
};

const sheets = (bytes: Uint8Array): number =>
  Buffer.from(bytes)
    .toString('latin1')
    .match(/\/Type\s*\/Page\b/g)?.length ?? 0;
const ms = (n: number): string => n.toFixed(1).padStart(7);

try {
  console.log(`Node ${process.version}, ${ROUNDS} rounds, milliseconds, medians; typst: its source text to bytes\n`);
  console.log('paper            sheets  compose   print  nightrail   typst  ratio  chromium  ratio');
  // On one large sheet a poster is set as designed; the pair on Letter is full, and its ladder is climbed: typst has none, and takes more sheets.
  for (const [id, sheet] of [
    ['poster', 'tabloid'],
    ['poster', 'letter'],
    ['week', 'letter'],
    ['handout', 'letter'],
  ] as const) {
    const paper = workshop.papers.find((p) => p.id === id);
    if (!paper) throw new Error(id);
    const page = composed(paper, sheet, 0);
    const made = (await printPdf(page, faces)).bytes;
    if (!made) throw new Error(`${id} does not fit`);
    writeFileSync(join(work, `${id}.typst.pdf`), withTypst(page));
    if (existsSync('out')) writeFileSync(join('out', `bench-${id}.typst.pdf`), readFileSync(join(work, `${id}.typst.pdf`)));
    const composing = await measure(ROUNDS, (i) => composed(paper, sheet, i));
    const ours = await measure(ROUNDS, async (i) => printPdf(composed(paper, sheet, i), faces));
    const theirs = await measure(ROUNDS, (i) => withTypst({ ...page, title: `${page.title} ${i}` }));
    const theirPages = sheets(readFileSync(join(work, `${id}.typst.pdf`)));
    const chromium = browser
      ? await measure(Math.ceil(ROUNDS / 4), (i) => withChromium({ ...page, title: `${page.title} ${i}` }))
      : NaN;
    console.log(
      `${`${id} ${sheet}`.padEnd(15)} ${`${sheets(made)}/${theirPages || '?'}`.padStart(7)}  ${ms(composing)} ${ms(ours - composing)}    ${ms(ours)} ${ms(theirs)}  ${(theirs / ours).toFixed(2).padStart(5)}  ${ms(chromium)}  ${(chromium / ours).toFixed(1).padStart(6)}`,
    );
  }
} finally {
  await browser?.close();
  rmSync(work, { recursive: true, force: true });
}
