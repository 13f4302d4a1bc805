/**
 * A text in one language only, on a page of another: `check` tells of it by its file, and of all that a build would find on its pages.
 */
import { describe, expect, it } from 'vitest';
import { untranslated } from '../../src/fleet/untranslated.js';
import { PAPERS, CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

const files = (more: Readonly<Record<string, string>> = {}) => ({
  'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${PAPERS.join(', ')}]`)
    .replace('[en]', '[en, es]')
    .replace('the walk-in', '{ en: the walk-in, es: la cámara }'),
  'sites/street.yaml': STORE.replace('Line 1', '{ en: Line 1, es: Línea 1 }').replace(
    'by the door',
    '{ en: by it, es: junto a }',
  ),
  'equipment/table.yaml': TABLE.replace('sort: prep table', 'sort: { en: prep table, es: mesa }')
    .replace('where: top shelf', 'where: { en: top shelf, es: el estante de arriba }')
    .replace('where: top centre', 'where: { en: top centre, es: arriba al centro }'),
  ...more,
});

const told = (chain: Readonly<Record<string, string>>) => {
  const { stores, workshop } = tryChain(chain);
  const { plan, read } = stores.get('street') ?? {};
  if (!plan || !read || !workshop) throw new Error('no plan');
  return { findings: untranslated(plan, read.store.languages), stores, workshop };
};

describe('a text in one language only', () => {
  it('is told with its file and its key, once for each language that lacks it', () => {
    const { findings } = told(
      files({
        'equipment/table.yaml': files()['equipment/table.yaml'].replace(/where: { en: top centre[^}]*}/, 'where: top centre'),
      }),
    );
    expect(findings).toMatchObject([
      {
        code: 'text-untranslated',
        severity: 'warning',
        at: { doc: 'equipment/table.yaml', path: ['zones', 'rail', 'probe', 'where'] },
        data: { lang: 'es', what: ['zones.rail.probe.where'] },
      },
    ]);
  });

  it('is none where every language of the store has it', () => {
    expect(told(files()).findings).toEqual([]);
  });

  it('is told by check wherever a page would show it', () => {
    const bare = {
      'nightrail.yaml': files()['nightrail.yaml'],
      'sites/street.yaml': STORE,
      'equipment/table.yaml': `${TABLE}notes: [A note.]\n`,
    };
    const { findings, stores, workshop } = told(bare);
    const keys = findings.flatMap((f) => f.data['what'] as readonly string[]);
    const runs = pagesOf(workshop, stores)
      .filter(({ lang }) => lang === 'es')
      .flatMap(({ page }) => [...(page?.head ?? []), ...runsIn(page?.body ?? [])]);
    // A run that says its language is in another one than its page.
    const shown = [
      ...new Set(runs.filter(({ lang, value }) => lang === 'en' && value !== undefined).map(({ value }) => value as string)),
    ];
    expect(shown.length).toBeGreaterThan(4);
    for (const path of shown) {
      const key = path.replace(/^store\./, '').replace(/^units\.line-1\.(?!nickname|position)/, '');
      expect(
        keys.some((one) => one === key || one.endsWith(`.${key}`)),
        path,
      ).toBe(true);
    }
  });
});
