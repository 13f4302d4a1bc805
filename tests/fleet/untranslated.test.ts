/**
 * A text in one language only, on a page of another: `check` tells of it by its file, and of all that a build would find on its pages.
 */
import { describe, expect, it } from 'vitest';
import { untranslated } from '../../src/fleet/untranslated.js';
import { LEDGER, ledgerFrom, type Ledger } from '../../src/fleet/ledger.js';
import { reportOf } from '../../src/fleet/report.js';
import { planOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import { openWorkshop } from '../../src/fleet/workshop.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { storeSources } from '../../src/read/stores.js';
import { PAPERS, CHAIN, shippedFiles, STORE, TABLE, tryChain, tryFiles } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';
import { hash, memoryFolder, smallBuild, threeStores } from './small-build.js';

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

  it('of a sheet names the columns that would hold it', () => {
    const sheet = [
      'id,name,timezone,hours,languages,unit,unit.profile,unit.nickname,unit.position.en,unit.serial,unit.food_goes_to.zone,unit.food_goes_to.free_shelf,unit.food_goes_to.height',
      'elm,Elm,America/Chicago,Mo-Su 07:00-22:00,"en, es",line-1,table,Line 1,by the door,X1,base,6 sq ft,6 in',
    ];
    const all = threeStores({ 'sites/stores.csv': sheet.join('\n') });
    const { workshop } = openWorkshop(all);
    const elm = storeSources(all).stores.find(({ id }) => id === 'elm');
    if (!workshop || !elm) throw new Error('no elm');
    const { plan, read } = planOf(workshop, elm.doc, elm.bytes) as Required<PlannedStore>;
    const [told] = untranslated(plan, read.store.languages).filter(({ at }) => at.cell !== undefined);
    expect(told?.data['columns']).toEqual(['unit.nickname.es', 'unit.position.es']);
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

  it('is told by a build as check tells it: by file and key, never by a path of the plan', async () => {
    const { findings } = await smallBuild(threeStores(), memoryFolder(new Map()).out);
    const some = findings.filter((f) => /untranslated/.test(f.code));
    expect(new Set(some.map((f) => f.code))).toEqual(new Set(['text-untranslated']));
    expect(some.map((f) => f.at.doc)).toEqual(expect.arrayContaining(['equipment/table.yaml', 'sites/birch.yaml']));
    // Birch alone has a second language, and a build has no key that check has not.
    const { plan, read } = tryFiles(threeStores()).stores.get('birch') as Required<PlannedStore>;
    const known = untranslated(plan, read.store.languages).flatMap((f) => f.data['what'] as readonly string[]);
    for (const key of some.flatMap((f) => f.data['what'] as readonly string[])) expect(known).toContain(key);
  });

  it('names why a date has other hours by its key', async () => {
    const birch = new TextDecoder().decode(threeStores().get('sites/birch.yaml'));
    const listed = `${birch}exceptions: [{ date: 2026-12-02, hours: 'off', why: Founders day }]\n`;
    const folder = memoryFolder(new Map()).out;
    const { findings } = await smallBuild(threeStores({ 'sites/birch.yaml': listed }), folder, { week: '2026-W49' });
    const keys = findings.flatMap((f) => (f.code === 'text-untranslated' ? (f.data['what'] as readonly string[]) : []));
    expect(keys).toContain('exceptions.0.why');
    expect(keys.filter((key) => key.startsWith('week.'))).toEqual([]);
  });
});

describe('a sentence of the chain’s own that a language lacks', () => {
  it('holds back the papers that would print it, and no other', async () => {
    const folder = new Map<string, Uint8Array>();
    const own = {
      'words/en/ours.yaml': 'rule: We clean the filter on Mondays.\n',
      'templates/partials/week-own.md.hbs': '{{t "ours.rule"}}\n',
    };
    const shipped = shippedFiles();
    const files = new Map([...shipped].map(([doc, bytes]) => [`${SHIPPED}${doc}`, bytes]));
    for (const [doc, bytes] of threeStores(own)) if (!shipped.has(doc) || doc in own) files.set(doc, bytes);
    const { findings } = await smallBuild(files, memoryFolder(folder).out);
    const errors = findings.filter((f) => f.severity === 'error');
    expect(errors.map((f) => [f.code, f.data['paper'], f.data['lang'], f.data['keys']])).toEqual([
      ['page-lacks-words', 'week', 'es', ['ours.rule']],
    ]);
    expect(findings.find((f) => f.code === 'words-missing')?.data).toMatchObject({
      lang: 'es',
      file: 'ours',
      keys: ['rule'],
    });
    const papers = [...folder.keys()].filter((path) => path.startsWith('birch/'));
    expect(papers).toContain('birch/week.en.html');
    expect(papers).not.toContain('birch/week.es.html');
    expect(papers).toContain('birch/line-1-poster.es.html');
    const told = reportOf(ledgerFrom(folder.get(LEDGER), hash) as Ledger, (f) => ({ says: f.code, hint: undefined }));
    expect(told.filter((r) => r.says === 'page-lacks-words').map((r) => r.topic)).toEqual(['failed']);
  });
});
