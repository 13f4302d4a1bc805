/**
 * docs/blocks.md against the program: every piece of template in it is one, has its picture, and nothing that a template can use is missing.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compose, paperSchema } from '../../src/compose/paper.js';
import { figureNames } from '../../src/draw/index.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { roughWidth } from '../support/pages.js';
import { snippetPaper, snippetsOf } from '../support/snippets.js';

const text = readFileSync('docs/blocks.md', 'utf8');
const snippets = snippetsOf(text);
const files = new Map([...demoFiles()].filter(([doc]) => !doc.startsWith('sites/') || doc === 'sites/copper-ferry.yaml'));
const { workshop, stores } = tryFiles(files);

describe('the page about blocks', () => {
  it.each(snippets.map((snippet) => [snippet.name, snippet] as const))(
    '%s is a template without a mistake, with its picture',
    (name, snippet) => {
      const { plan, read } = stores.get('copper-ferry') ?? {};
      const words = workshop?.words.get('en');
      if (!workshop || !plan || !read || !words) throw new Error('the demo does not open');
      const subject = {
        plan,
        unit: Object.values(plan.units)[0] as (typeof plan.units)[string],
        date: '2026-11-16',
        sheet: 'letter',
        brand: { colour: '#1f4d3a' },
      } as const;
      const { page, findings } = compose(
        snippetPaper(snippet, files),
        subject,
        readerOf(words, read, workshop.shelf),
        roughWidth,
      );
      expect(findings.filter((f) => f.code !== 'caution-added')).toEqual([]);
      expect(page?.body.some((block) => block.line > 0 || name === 'cautions')).toBe(true);
      expect(existsSync(`docs/pictures/blocks/${name}.png`)).toBe(true);
      expect(text).toContain(`](pictures/blocks/${name}.png)`);
    },
  );

  it('names every directive, helper, figure, grid and key', () => {
    const source = readFileSync('src/compose/markdown.ts', 'utf8');
    const holders = /const HOLDERS = \[([^\]]*)\]/.exec(source)?.[1]?.match(/[a-z-]+/g) ?? [];
    const alone = /names: \['figure', ([^\]]*)\]/.exec(source)?.[1]?.match(/[a-z-]+/g) ?? [];
    const helpers =
      /const HELPERS = \[([^\]]*)\]/.exec(readFileSync('src/compose/template.ts', 'utf8'))?.[1]?.match(/[a-z]+/g) ?? [];
    const grids = [...readFileSync('src/compose/grids.ts', 'utf8').matchAll(/name === '([a-z-]+)'/g)].map((m) => m[1] ?? '');
    expect(holders.length).toBeGreaterThan(10);
    expect(alone.length).toBeGreaterThan(4);
    expect(helpers.length).toBeGreaterThan(6);
    expect(grids.length).toBeGreaterThan(5);
    for (const name of [...holders, ...alone, ...helpers, ...grids, ...figureNames, ...Object.keys(paperSchema.shape)])
      expect(text, name).toMatch(new RegExp(`(^|[^a-z-])${name}([^a-z-]|$)`, 'm'));
  });

  it('shows no picture that is not there, and there is none that it does not show', () => {
    const shown = [...text.matchAll(/\(pictures\/blocks\/([a-z-]+\.png)\)/g)].map((m) => m[1]);
    expect([...shown].sort()).toEqual(readdirSync('docs/pictures/blocks').sort());
  });
});
