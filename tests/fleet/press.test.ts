/**
 * What a print shop gets: each page as it is in its own document, every document on a front, and nothing old.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LEDGER, ledgerFrom, type Ledger } from '../../src/fleet/ledger.js';
import { notMade, pressJob, pressJobs, type PressJob, type PressShop } from '../../src/fleet/press.js';
import { joinPdfs } from '../../src/print/pdf-join.js';
import { PdfFault, readPdf } from '../../src/print/pdf-objects.js';
import { STORE } from '../support/chain.js';
import { hash, memoryFolder, smallBuild, threeStores } from './small-build.js';

let work: string;
let ledger: Ledger;
const folder = new Map<string, Uint8Array>();
const made = new Map<string, Uint8Array>();
let open = 0;

/** The poster of another store stands in for the sheet between stores: any PDF of ours will do. */
const shop = (): PressShop => ({
  outside: { out: memoryFolder(folder).out, hash },
  open: (name) => {
    const parts: Uint8Array[] = [];
    open++;
    return {
      write: (bytes) => void parts.push(bytes.slice()),
      finish: () => void made.set(name, Buffer.concat(parts)),
      abandon: () => void open--,
    };
  },
  separator: () => Promise.resolve(folder.get('alder/week.en.pdf') as Uint8Array),
});

const pagesOf = (bytes: Uint8Array): readonly string[] => {
  const path = join(work, 'one.pdf');
  writeFileSync(path, bytes);
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' })
    .split('\f')
    .slice(0, -1)
    .map((text) => text.trim());
};

const concat = (parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts));

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-press-'));
  const files = threeStores({
    'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}region: South\n`,
    'sites/birch.yaml': `${STORE.replace('Test Street', 'Birch')}region: North\nlanguages: [en, es]\n`,
    'sites/cedar.yaml': `${STORE.replace('Test Street', 'Cedar')}sheet: tabloid\nregion: North\n`,
  });
  await smallBuild(files, memoryFolder(folder).out, { formats: ['pdf'] });
  ledger = ledgerFrom(folder.get(LEDGER), hash) as Ledger;
}, 120_000);
afterAll(() => rmSync(work, { recursive: true, force: true }));

const jobNamed = (name: string): PressJob => pressJobs(ledger).find((job) => job.name === name) as PressJob;

describe('the order for a print shop', () => {
  it('has a file for each paper, finish and size of sheet, stores by region and name', () => {
    expect(pressJobs(ledger).map((job) => [job.name, job.stores.map((s) => s.store.store)])).toEqual([
      ['card-plain-letter', ['birch', 'cedar', 'alder']],
      ['handout-plain-letter', ['birch', 'cedar', 'alder']],
      ['poster-laminated-letter', ['birch', 'alder']],
      ['poster-laminated-tabloid', ['cedar']],
      ['week-plain-letter', ['birch', 'cedar', 'alder']],
    ]);
  });
  it('names papers that could not be made of stores that have others', () => {
    expect(notMade(ledger)).toEqual([]);
    const birch = ledger.stores.get('birch');
    if (!birch) throw new Error('no birch');
    const documents = birch.documents.map(({ made, ...d }) => ({ ...d, ...(made && d.paper !== 'poster' ? { made } : {}) }));
    const stores = new Map([...ledger.stores, ['birch', { store: birch.store, units: birch.units, documents }]]);
    expect(notMade({ ...ledger, stores })).toEqual(['Birch: line-1 poster (en)', 'Birch: line-1 poster (es)']);
    expect(notMade({ ...ledger, stores }, { only: ['week'] })).toEqual([]);
    expect(notMade({ ...ledger, stores }, { stores: ['elm'] })).toEqual([]);
  });
  it('can leave out what the stores have already', () => {
    const stores = new Map(ledger.stores);
    const cedar = stores.get('cedar');
    if (!cedar) throw new Error('no cedar');
    stores.set('cedar', {
      ...cedar,
      documents: cedar.documents.map((d) => (d.paper === 'week' && d.made ? { ...d, made: { ...d.made, hash: 'another' } } : d)),
    });
    const jobs = pressJobs(ledger, { ...ledger, stores });
    expect(jobs.flatMap((job) => job.stores.flatMap((s) => s.documents.map((d) => d.document)))).toEqual(['cedar/week.en.pdf']);
    expect(pressJobs(ledger, ledger)).toEqual([]);
    const some = pressJobs(ledger, undefined, { stores: ['birch'] });
    expect([...new Set(some.flatMap((job) => job.stores.map((s) => s.store.store)))]).toEqual(['birch']);
    expect(some.length).toBeGreaterThan(1);
  });
  it('is whole for other readers, shows each page as its own document does, and starts each document on a front', async () => {
    const job = jobNamed('handout-plain-letter');
    const { lines, findings } = await pressJob(job, shop());
    expect(findings).toEqual([]);
    const bytes = made.get('handout-plain-letter.pdf') as Uint8Array;
    const path = join(work, 'joined.pdf');
    writeFileSync(path, bytes);
    expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors');
    expect(execFileSync('pdffonts', [path], { encoding: 'utf8' })).not.toMatch(/ no +(yes|no) +(yes|no) +\d/);
    const pages = pagesOf(bytes);
    const separator = pagesOf(folder.get('alder/week.en.pdf') as Uint8Array);
    const expected: string[] = [];
    const add = (some: readonly string[]): void => void expected.push(...some, ...(some.length % 2 === 1 ? [''] : []));
    for (const { documents } of job.stores) {
      add(separator);
      for (const d of documents) add(pagesOf(folder.get(d.document) as Uint8Array));
    }
    expect(pages).toEqual(expected);
    expect(lines.map((l) => [l.store, l.documents])).toEqual([
      ['birch', 2],
      ['cedar', 1],
      ['alder', 1],
    ]);
  });
  it('prints no page of a poster on the back of another', async () => {
    const { lines } = await pressJob(jobNamed('poster-laminated-letter'), shop());
    const pages = pagesOf(made.get('poster-laminated-letter.pdf') as Uint8Array);
    const pair = pagesOf(folder.get('alder/line-1-poster.en.pdf') as Uint8Array);
    expect(pair).toHaveLength(2);
    expect(pages.slice(-4)).toEqual([pair[0], '', pair[1], '']);
    expect(lines.at(-1)).toMatchObject({ store: 'alder', sheets: 2 });
  });
  it('sends nothing that is not as the last build left it', async () => {
    const path = 'cedar/week.en.pdf';
    const before = folder.get(path) as Uint8Array;
    for (const bytes of [undefined, before.slice(0, -1), concat([before, new Uint8Array([10])])]) {
      if (bytes) folder.set(path, bytes);
      else folder.delete(path);
      made.clear();
      open = 0;
      const { findings } = await pressJob(jobNamed('week-plain-letter'), shop());
      expect(findings).toMatchObject([{ code: 'press-unfit', at: { doc: path } }]);
      expect([made.size, open]).toEqual([0, 0]);
    }
    folder.set(path, before);
  });
});

describe('joining', () => {
  it('writes a font that two documents share once', () => {
    const poster = folder.get('alder/line-1-poster.en.pdf') as Uint8Array;
    const joined = (times: number): number => {
      let size = 0;
      const joining = joinPdfs('x', (bytes) => void (size += bytes.length), hash);
      for (let i = 0; i < times; i++) joining.add(poster, false);
      joining.finish();
      return size;
    };
    expect(joined(10)).toBeLessThan(joined(1) * 1.5);
  });
  it('hands bytes on as they come, and keeps no page', () => {
    let written = 0;
    const joining = joinPdfs('x', (bytes) => void (written += bytes.length), hash);
    const week = folder.get('alder/week.en.pdf') as Uint8Array;
    let least = Infinity;
    for (const store of ['alder', 'birch', 'cedar']) {
      const before = written;
      joining.add(folder.get(`${store}/week.en.pdf`) as Uint8Array, false);
      least = Math.min(least, written - before);
    }
    expect(least).toBeGreaterThan(week.length * 0.05);
  });
  it.each([
    ['nothing', ''],
    ['no PDF', 'hello'],
    ['a table of objects of another kind', '%PDF-1.7\n1 0 obj\n<</Type /XRef>>\nendobj\nstartxref\n9\n%%EOF\n'],
  ])('refuses %s', (_, text) => expect(() => readPdf(new TextEncoder().encode(text))).toThrow(PdfFault));
  it('reads texts with brackets, references that only look like some, and hexadecimal ones', () => {
    const objects = [
      '<</Type /Catalog /Pages 2 0 R>>',
      '<</Kids [3 0 R] /Count 1>>',
      '<</Type /Page /Note (a \\) 9 0 R (b) >>) /Hex <39 20 30> /Six 6 /List [1 2 3] /Name /1>>',
    ];
    let text = '%PDF-1.7\n';
    const offsets = objects.map((object, i) => {
      const at = text.length;
      text += `${i + 1} 0 obj\n${object}\nendobj\n`;
      return at;
    });
    const start = text.length;
    text += `xref\n0 4\n0000000000 65535 f \n${offsets.map((o) => `${String(o).padStart(10, '0')} 00000 n \n`).join('')}trailer\n<</Size 4 /Root 1 0 R>>\nstartxref\n${start}\n%%EOF\n`;
    const file = readPdf(new TextEncoder().encode(text));
    expect(file.pages).toEqual([3]);
    const { value } = file.object(3);
    expect(value.is === 'dict' && [...value.entries].map(([key, v]) => [key, v.is === 'atom' ? v.text : v.is])).toEqual([
      ['/Type', '/Page'],
      ['/Note', '(a \\) 9 0 R (b) >>)'],
      ['/Hex', '<39 20 30>'],
      ['/Six', '6'],
      ['/List', 'array'],
      ['/Name', '/1'],
    ]);
  });
});
