/**
 * Until somebody has approved a chain's papers each page says DRAFT, and a greyscale printer shows it.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHAIN } from '../support/chain.js';
import { memoryFolder, smallBuild, threeStores } from './small-build.js';

let work: string;
const draft = new Map<string, Uint8Array>();
const approved = new Map<string, Uint8Array>();

const build = (into: Map<string, Uint8Array>, chain: string, week?: string) =>
  smallBuild(threeStores({ 'nightrail.yaml': chain }), memoryFolder(into).out, {
    formats: ['pdf', 'html'],
    chosen: ['birch'],
    ...(week === undefined ? {} : { week }),
  });

const pdfs = (): readonly string[] => [...draft.keys()].filter((path) => path.endsWith('.pdf'));

const fileOf = (bytes: Uint8Array | undefined): string => {
  const path = join(work, 'page.pdf');
  writeFileSync(path, bytes ?? '');
  return path;
};

const pagesOf = (bytes: Uint8Array | undefined): readonly string[] =>
  execFileSync('pdftotext', [fileOf(bytes), '-'], { encoding: 'utf8' })
    .split('\f')
    .slice(0, -1);

interface Word {
  readonly word: string;
  readonly page: number;
  readonly box: readonly [number, number, number, number];
}

/** Where a word stands, in points from the top left. */
const wordsIn = (bytes: Uint8Array | undefined, word: RegExp): readonly Word[] => {
  const said = execFileSync('pdftotext', ['-bbox', fileOf(bytes), '-'], { encoding: 'utf8' });
  return said
    .split('<page ')
    .slice(1)
    .flatMap((page, i) =>
      [...page.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g)]
        .filter((found) => word.test(found[5] ?? ''))
        .map((found): Word => ({
          word: found[5] ?? '',
          page: i + 1,
          box: [Number(found[1]), Number(found[2]), Number(found[3]), Number(found[4])],
        })),
    );
};

/** The darkest and lightest grey in a box of a page printed without colour. */
const greysIn = (bytes: Uint8Array | undefined, { page, box }: Word): { darkest: number; lightest: number } => {
  const [x, y, right, bottom] = box.map(Math.round) as [number, number, number, number];
  const at = [
    '-r',
    '72',
    '-gray',
    '-f',
    String(page),
    '-l',
    String(page),
    '-x',
    String(x),
    '-y',
    String(y),
    '-W',
    String(right - x),
    '-H',
    String(bottom - y),
  ];
  execFileSync('pdftoppm', [...at, '-singlefile', fileOf(bytes), join(work, 'grey')]);
  const image = readFileSync(join(work, 'grey.pgm'));
  const header = /^P5\s+\d+\s+\d+\s+\d+\s/.exec(image.subarray(0, 40).toString('latin1'));
  const pixels = image.subarray(header?.[0].length);
  return { darkest: Math.min(...pixels), lightest: Math.max(...pixels) };
};

beforeAll(async () => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-draft-'));
  await build(draft, CHAIN.replace(/approved.*\n/, ''));
  await build(approved, CHAIN);
}, 120_000);
afterAll(() => rmSync(work, { recursive: true, force: true }));

const WORD = { en: /draft/i, es: /borrador/i };

describe('a chain that nobody has approved', () => {
  it('says so on every page of every paper, in each language', () => {
    expect(pdfs().length).toBeGreaterThan(6);
    for (const path of pdfs()) {
      const word = WORD[path.includes('.es.') ? 'es' : 'en'];
      for (const [i, text] of pagesOf(draft.get(path)).entries()) expect(text, `${path}, page ${i + 1}`).toMatch(word);
      for (const text of pagesOf(approved.get(path))) expect(text, path).not.toMatch(word);
    }
  });
  it('says so on every page for the screen', () => {
    for (const [path, bytes] of draft)
      if (/\/.*\.html$/.test(path)) expect(new TextDecoder().decode(bytes), path).toMatch(/class="draft"/);
  });
  it('takes no room from the page: what fits once it is approved fits as a draft, on as many sheets', () => {
    for (const path of pdfs()) {
      const [first, then] = [draft, approved].map((made) => pagesOf(made.get(path)).length);
      expect(first, path).toBe(then);
      // Below the band the words of the head stand where they stand without it.
      const [banded, plain] = [draft, approved].map((made) =>
        wordsIn(made.get(path), /./).find((w) => !/draft|borrador/i.test(w.word)),
      );
      expect(banded?.box, path).toEqual(plain?.box);
    }
  });
  it('in a way that a greyscale printer shows', () => {
    for (const path of pdfs()) {
      const words = wordsIn(draft.get(path), WORD[path.includes('.es.') ? 'es' : 'en']);
      expect(words.length, path).toBeGreaterThan(0);
      for (const word of words) {
        const { darkest, lightest } = greysIn(draft.get(path), word);
        expect(lightest - darkest, `${path}, page ${word.page}`).toBeGreaterThan(110);
      }
    }
  });
  it('makes no standing paper anew a week later: a draft holds from no day, and carries none', async () => {
    const before = new Map(draft);
    await build(draft, CHAIN.replace(/approved.*\n/, ''), '2026-W50');
    const anew = [...draft].filter(([path, bytes]) => before.get(path) !== bytes && path.includes('/')).map(([path]) => path);
    expect(anew.length).toBeGreaterThan(0);
    expect(anew.filter((path) => !/\/(week|log)\./.test(path))).toEqual([]);
  }, 60_000);
});
