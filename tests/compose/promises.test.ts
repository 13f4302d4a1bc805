/**
 * What must stay true of every page of the demo, in every language: cautions are there, digits are values, nothing is printed in a part that may be dropped.
 */
import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/compose/block.js';
import { demoFiles, tryFiles } from '../support/chain.js';
import { cautionsFor, cautionsOn, pagesOf, runsIn } from '../support/pages.js';

const tried = tryFiles(demoFiles());
if (!tried.workshop) throw new Error('the demo does not open');
const made = pagesOf(tried.workshop, tried.stores);

const blocksOf = (blocks: readonly Block[]): readonly Block[] =>
  blocks.flatMap((b) => [
    b,
    ...('body' in b ? blocksOf(b.body) : []),
    ...(b.block === 'columns' ? b.columns.flatMap((c) => blocksOf(c.body)) : []),
  ]);

describe('every page of the demo', () => {
  it('is there, for all papers, units and languages', () => {
    expect(made.length).toBeGreaterThan(100);
    expect(made.filter((m) => !m.page).map((m) => m.name)).toEqual([]);
  });

  it('carries every caution that belongs to it, placed by its template', () => {
    for (const { name, page, paper, unit, planned, findings } of made) {
      const required = cautionsFor(paper, unit ? unit.cautions : planned.plan?.cautions);
      expect(required.length, name).toBeGreaterThan(0);
      expect(cautionsOn(page?.body ?? []), name).toEqual(expect.arrayContaining(required));
      expect(
        findings.filter((f) => f.code === 'caution-added'),
        name,
      ).toEqual([]);
    }
  });

  it('says no digit that is not a value of the plan', () => {
    for (const { name, page } of made) {
      for (const run of runsIn(page?.body ?? [])) if (run.value === undefined) expect(run.text, name).not.toMatch(/\d/);
    }
  });

  it('keeps what protects people out of the parts that may be left out', () => {
    for (const { name, page } of made) {
      for (const block of blocksOf(page?.body ?? [])) {
        if (block.block !== 'optional') continue;
        expect(cautionsOn(block.body), name).toEqual([]);
        expect(
          blocksOf(block.body).some((b) => b.block === 'list' && b.mark === 'never'),
          name,
        ).toBe(false);
      }
    }
  });

  it('says the same things in each language: as many blocks of each kind', () => {
    const shape = (page: (typeof made)[number]['page']): string =>
      blocksOf(page?.body ?? [])
        .map((b) => b.block)
        .join(' ');
    for (const one of made) {
      const twin = made.find((m) => m.paper === one.paper && m.unit === one.unit && m.planned === one.planned && m.lang === 'en');
      if (twin) expect(shape(one.page), one.name).toBe(shape(twin.page));
    }
  });
});
