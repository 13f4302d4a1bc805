/**
 * Makes the pictures of the documentation again, from the demo and from the very text of docs/blocks.md: `npm run pictures`.
 * The same pictures from the same sources, by one renderer (PDFium).
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { PNG } from 'pngjs';
import type { Page } from '../src/compose/block.js';
import { compose, type Paper, type Subject } from '../src/compose/paper.js';
import { readerOf } from '../src/fleet/store-papers.js';
import { readFaces } from '../src/host/disk.js';
import { withScenes } from '../src/plan/consequences/index.js';
import { planWeek } from '../src/plan/week.js';
import { weekOfIso } from '../src/plan/week-dates.js';
import { makeFaces, printPdf, textWidth } from '../src/print/index.js';
import { demoFiles, tryFiles } from '../tests/support/chain.js';
import { snippetPaper, snippetsOf } from '../tests/support/snippets.js';

const STORE = 'copper-ferry';
const FOLDER = 'docs/pictures';

const files = new Map([...demoFiles()].filter(([doc]) => !doc.startsWith('sites/') || doc === `sites/${STORE}.yaml`));
const { workshop, stores } = tryFiles(files);
const { plan, read } = stores.get(STORE) ?? {};
const words = workshop?.words.get('en');
const unit = plan && Object.values(plan.units)[0];
if (!workshop || !plan || !read || !words || !unit) throw new Error('the demo does not open');
const faces = makeFaces(readFaces());
const week = planWeek(read, plan, weekOfIso('2026-W49', workshop.shelf.chain.week_starts) as { first: number });
const whole = withScenes(workshop.shelf, read, plan, unit);

const composed = (paper: Paper, more: Partial<Subject> = {}): Page => {
  const subject: Subject = {
    plan,
    ...(paper.spec.per === 'unit' ? { unit: whole } : {}),
    week,
    date: '2026-11-16',
    sheet: 'letter',
    brand: { colour: workshop.shelf.chain.brand.colour },
    ...more,
  };
  const { page, findings } = compose(paper, subject, readerOf(words, read, workshop.shelf), textWidth(faces));
  if (!page) throw new Error(JSON.stringify(findings));
  return page;
};

const library = await PDFiumLibrary.init();
/** Sheets of a page, so many dots an inch. */
const sheetsOf = async (page: Page, dpi: number): Promise<readonly PNG[]> => {
  const { bytes, findings } = await printPdf(page, faces);
  if (!bytes) throw new Error(JSON.stringify(findings));
  const document = await library.loadDocument(bytes);
  const sheets: PNG[] = [];
  for (const sheet of document.pages()) {
    const { data, width, height } = await sheet.render({ scale: dpi / 72, render: 'bitmap' });
    const png = new PNG({ width, height });
    png.data.set(data);
    sheets.push(png);
  }
  document.destroy();
  return sheets;
};

const isWhite = (png: PNG, x: number, y: number): boolean => {
  const i = 4 * (y * png.width + x);
  return png.data[i] === 255 && png.data[i + 1] === 255 && png.data[i + 2] === 255;
};

/** The part of a sheet that has ink, from a row on, with a little white around it. */
const cropped = (png: PNG, from: number): PNG => {
  const rows = Array.from({ length: png.height - from }, (_, i) => from + i).filter((y) => {
    for (let x = 0; x < png.width; x++) if (!isWhite(png, x, y)) return true;
    return false;
  });
  const [top = 0, bottom = 1] = [rows[0], rows.at(-1)];
  const around = 8;
  const [y, height] = [Math.max(from, top - around), bottom - top + 1 + 2 * around];
  const cut = new PNG({ width: png.width, height });
  cut.data.fill(255);
  PNG.bitblt(png, cut, 0, y, png.width, Math.min(height, png.height - y), 0, 0);
  return cut;
};

/** Sheets side by side on a grey ground. */
const beside = (sheets: readonly PNG[]): PNG => {
  const gap = 6;
  const width = sheets.reduce((sum, sheet) => sum + sheet.width + gap, gap);
  const all = new PNG({ width, height: Math.max(...sheets.map((sheet) => sheet.height)) + 2 * gap });
  for (let i = 0; i < all.data.length; i++) all.data[i] = i % 4 === 3 ? 255 : 200;
  let x = gap;
  for (const sheet of sheets) {
    PNG.bitblt(sheet, all, 0, 0, sheet.width, sheet.height, x, gap);
    x += sheet.width + gap;
  }
  return all;
};

/** Sixteen levels of each colour are enough for print on a screen, and make small files. */
const LEVEL = 17;

const save = (name: string, png: PNG): void => {
  for (let i = 0; i < png.data.length; i++) png.data[i] = Math.round((png.data[i] as number) / LEVEL) * LEVEL;
  const path = join(FOLDER, `${name}.png`);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, PNG.sync.write(png, { colorType: 2, deflateLevel: 9 }));
};

/** Rows at the top that hold the rule of the head. */
const HEAD = 37;

for (const snippet of snippetsOf(readFileSync('docs/blocks.md', 'utf8'))) {
  // Cautions are added to every page; a picture shows what its own lines print.
  const bare = snippet.text.includes('```cautions') ? whole : { ...whole, cautions: { staff: [], technician: [] } };
  const page = composed(snippetPaper(snippet, files), { unit: bare });
  const sheets = await sheetsOf({ ...page, head: [], foot: [] }, snippet.sheets ? 22 : 64);
  save(`blocks/${snippet.name}`, snippet.sheets ? beside(sheets) : cropped(sheets[0] as PNG, HEAD));
}

const paperOf = (id: string): Paper => {
  const paper = workshop.papers.find((p) => p.id === id);
  if (!paper) throw new Error(id);
  return paper;
};
/** The first sheets of a paper of the demo. */
const papers = { poster: 2, week: 1, handout: 2, card: 2 } as const;
for (const [id, count] of Object.entries(papers)) {
  const sheets = await sheetsOf(composed(paperOf(id)), 50);
  save(id, beside(sheets.slice(0, count)));
}
const [poster] = await sheetsOf(composed(paperOf('poster')), 24);
const [log] = await sheetsOf(composed(paperOf('log')), 24);
save('blocks/paper', beside([poster as PNG, log as PNG]));
library.destroy();
