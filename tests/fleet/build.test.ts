/**
 * A build does what changed and nothing else: held against building everything afresh.
 */
import { describe, expect, it } from 'vitest';
import { INDEX, makeIndex } from '../../src/fleet/index-page/index.js';
import { LEDGER, ledgerFrom, type Ledger } from '../../src/fleet/ledger.js';
import { leftFindings } from '../../src/fleet/left-over.js';
import { CHAIN, shippedFiles, STORE, TABLE } from '../support/chain.js';
import { hash, memoryFolder, openedOf, smallBuild, threeStores, type SmallOptions } from './small-build.js';

type Folder = Map<string, Uint8Array>;

const clean = async (files: ReadonlyMap<string, Uint8Array>, options: SmallOptions = {}): Promise<Folder> => {
  const folder: Folder = new Map();
  await smallBuild(files, memoryFolder(folder).out, options);
  return folder;
};

const shown = (folder: Folder): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...folder].sort(([a], [b]) => (a < b ? -1 : 1)).map(([path, bytes]) => [path, new TextDecoder().decode(bytes)]),
  );

const first = threeStores();
const shipped = (doc: string): string => new TextDecoder().decode(shippedFiles().get(doc));
const ofStore = (store: string) => (path: string) => path.startsWith(`${store}/`);

describe('a second build with nothing changed', () => {
  it('writes nothing and says the same', async () => {
    const folder: Folder = new Map();
    const one = await smallBuild(first, memoryFolder(folder).out);
    const before = shown(folder);
    const again = memoryFolder(folder);
    const two = await smallBuild(first, again.out);
    expect(one.written).toBe(16);
    expect(again.operations()).toBe(0);
    expect(two.jobs).toEqual([]);
    expect(two.findings).toEqual(one.findings);
    expect(shown(folder)).toEqual(before);
  });
  it('says the same of a store with errors and of one without a schedule', async () => {
    const files = threeStores({
      'sites/alder.yaml': STORE.replace('serial:', 'serail:'),
      'sites/cedar.yaml': STORE.replace('07:00-22:00', '02:00-22:00'),
    });
    const folder: Folder = new Map();
    const one = await smallBuild(files, memoryFolder(folder).out);
    const again = memoryFolder(folder);
    const two = await smallBuild(files, again.out);
    expect(one.findings.map((f) => f.code)).toEqual(expect.arrayContaining(['unknown-key', expect.stringMatching(/^no-rest-/)]));
    expect(two.findings).toEqual(one.findings);
    expect(again.operations()).toBe(0);
  });
  it('makes again what somebody took away, and what has another size', async () => {
    const folder: Folder = new Map();
    await smallBuild(first, memoryFolder(folder).out);
    const before = shown(folder);
    folder.delete('alder/week.en.html');
    folder.set('cedar/week.en.html', new Uint8Array(3));
    const { written, jobs } = await smallBuild(first, memoryFolder(folder).out);
    expect([written, jobs]).toEqual([2, ['alder', 'cedar']]);
    expect(shown(folder)).toEqual(before);
  });
  it('notices other bytes of the same size when asked to look', async () => {
    const folder: Folder = new Map();
    await smallBuild(first, memoryFolder(folder).out);
    const before = shown(folder);
    folder.set('alder/week.en.html', (folder.get('alder/week.en.html') as Uint8Array).slice().fill(32));
    expect((await smallBuild(first, memoryFolder(folder).out)).written).toBe(0);
    expect((await smallBuild(first, memoryFolder(folder).out, { verify: true })).written).toBe(1);
    expect(shown(folder)).toEqual(before);
  });
});

interface Change {
  readonly what: string;
  readonly files?: Readonly<Record<string, string | undefined>>;
  readonly options?: SmallOptions;
  /** Which documents it may write; the rest stay untouched. */
  readonly writes: (path: string) => boolean;
}

const everything = (): boolean => true;
const nothing = (): boolean => false;
const week = (path: string): boolean => path.includes('/week.');

const CHANGES: readonly Change[] = [
  {
    what: "one store's hours",
    files: { 'sites/alder.yaml': STORE.replace('Test Street', 'Alder').replace('22:00', '21:00') },
    writes: ofStore('alder'),
  },
  {
    what: "one store's name",
    files: { 'sites/cedar.yaml': STORE.replace('Test Street', 'Cedar Hill') },
    writes: ofStore('cedar'),
  },
  {
    what: "a comment in a store's file",
    files: { 'sites/alder.yaml': `# words\n${STORE.replace('Test Street', 'Alder')}` },
    writes: nothing,
  },
  { what: 'a region', files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}region: North\n` }, writes: nothing },
  {
    what: "a store's languages",
    files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}languages: [en, es]\n` },
    writes: (p) => ofStore('alder')(p) && p.includes('.es.'),
  },
  {
    what: "a store's sheet",
    files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}sheet: a4\n` },
    writes: ofStore('alder'),
  },
  {
    what: "a store's units of measure",
    files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}measure: si\n` },
    writes: ofStore('alder'),
  },
  {
    what: 'a value written that was only assumed',
    files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}altitude: 0 ft\n` },
    writes: ofStore('alder'),
  },
  {
    what: 'an exception in that week',
    files: { 'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}exceptions: [{ date: 2026-12-02, hours: off }]\n` },
    writes: ofStore('alder'),
  },
  { what: 'a profile', files: { 'equipment/table.yaml': TABLE.replace('by-itself', 'by-hand') }, writes: everything },
  { what: 'a comment in a profile', files: { 'equipment/table.yaml': `# words\n${TABLE}` }, writes: nothing },
  { what: 'a profile that nobody has', files: { 'equipment/other.yaml': TABLE }, writes: nothing },
  {
    what: 'a template',
    files: { 'templates/week/page.md.hbs': `${shipped('templates/week/page.md.hbs')}\nThe end\n` },
    writes: week,
  },
  {
    what: 'what a paper is for',
    files: {
      'templates/week/paper.yaml': shipped('templates/week/paper.yaml').replace(
        'orientation: landscape',
        'orientation: portrait',
      ),
    },
    writes: week,
  },
  {
    what: 'a sentence in Spanish',
    files: { 'words/es/week.yaml': shipped('words/es/week.yaml').replace(/^name: .*/m, 'name: Hoja') },
    writes: (p) => p.startsWith('birch/') && p.includes('.es.'),
  },
  {
    what: 'a sentence that only the terminal says',
    files: { 'words/en/findings.yaml': `${shipped('words/en/findings.yaml')}\nnew-code:\n  says: new\n` },
    writes: nothing,
  },
  {
    what: "the law's table",
    files: {
      'equipment/tables/law/us-food-code-2022.yaml': shipped('equipment/tables/law/us-food-code-2022.yaml').replace(
        'cold: { f: 41, c: 5',
        'cold: { f: 40, c: 4',
      ),
    },
    writes: everything,
  },
  { what: "the chain's name", files: { 'nightrail.yaml': CHAIN.replace('Test Kitchens', 'Other Kitchens') }, writes: everything },
  { what: "the chain's colour", files: { 'nightrail.yaml': CHAIN.replace('#1f4d3a', '#3a1f4d') }, writes: everything },
  { what: 'the approval', files: { 'nightrail.yaml': CHAIN.replace(/approved.*\n/, '') }, writes: everything },
  {
    what: 'the first day of the week',
    files: { 'nightrail.yaml': CHAIN.replace('week_starts: mon', 'week_starts: sun') },
    writes: everything,
  },
  { what: 'one paper less', files: { 'nightrail.yaml': CHAIN.replace('handout, ', '') }, writes: nothing },
  { what: 'another week', options: { week: '2026-W50' }, writes: week },
  { what: 'another engine', options: { engine: 'other' }, writes: nothing },
  { what: 'a new store', files: { 'sites/dogwood.yaml': STORE }, writes: ofStore('dogwood') },
  {
    what: 'a unit more',
    files: {
      'sites/alder.yaml': `${STORE.replace('Test Street', 'Alder')}  line-2: { profile: table, nickname: Line 2, position: back, serial: X2, food_goes_to: { zone: base, free_shelf: 6 sq ft, height: 6 in } }\n`,
    },
    writes: ofStore('alder'),
  },
];

describe('a build after a change', () => {
  it.each(CHANGES)('gives what building all of it gives, and touches no more: $what', async ({ files, options, writes }) => {
    const after = threeStores(files);
    const folder = await clean(first);
    const before = new Map(folder);
    const { finished, findings } = await smallBuild(after, memoryFolder(folder).out, options);
    const afresh: Folder = new Map();
    const other = await smallBuild(after, memoryFolder(afresh).out, options);
    const left = finished.left.map((l) => l.left);
    const documents = (f: Folder): Readonly<Record<string, string>> =>
      shown(new Map([...f].filter(([path]) => path !== LEDGER && path !== INDEX && !left.includes(path))));
    expect(documents(folder)).toEqual(documents(afresh));
    expect(findings).toEqual(other.findings);
    const written = [...folder]
      .filter(([path, bytes]) => path !== LEDGER && path !== INDEX && before.get(path) !== bytes)
      .map(([path]) => path);
    expect(written.filter((path) => !writes(path))).toEqual([]);
    expect(written.length > 0).toBe(writes !== nothing);
  });
});

describe('a change of the physics data alone', () => {
  const foods = 'equipment/tables/foods.yaml';
  /** What a unit needs to be modelled, so that its scenes have figures. */
  const modelled = TABLE.replace('condensing: {', 'condensing: { power: 1/2 hp,').replace(
    'senses: air }',
    'senses: air }\n    shelves: { count: 4, volume: 16 cu ft }',
  );
  const scenic = (path: string): boolean => /line-1-(card|handout)\./.test(path);
  const keysIn = (folder: Folder): ReadonlyMap<string, string> =>
    new Map(
      [...(ledgerFrom(folder.get(LEDGER), hash) as Ledger).stores.values()].flatMap(({ documents }) =>
        documents.map((d) => [d.document, d.key] as const),
      ),
    );

  const tried = async (change: (text: string) => string) => {
    const text = shipped(foods);
    expect(change(text)).not.toBe(text);
    const folder = await clean(threeStores({ 'equipment/table.yaml': modelled }));
    const [files, keys] = [new Map(folder), keysIn(folder)];
    const after = threeStores({ 'equipment/table.yaml': modelled, [foods]: change(text) });
    await smallBuild(after, memoryFolder(folder).out);
    expect(shown(folder)).toEqual(shown(await clean(after)));
    return {
      scenic: [...keys.keys()].filter(scenic),
      moved: [...keysIn(folder)].filter(([path, key]) => keys.get(path) !== key).map(([path]) => path),
      written: [...files].filter(([path, bytes]) => path !== LEDGER && folder.get(path) !== bytes).map(([path]) => path),
    };
  };

  it('looks again at the papers with scenes and at no other where no leaf of the plan moved', async () => {
    const { scenic: wanted, moved, written } = await tried((text) => `# words\n${text}`);
    expect(wanted).toHaveLength(8);
    expect(moved).toEqual(wanted);
    expect(written).toEqual([]);
  });
  it('writes the papers with scenes and no other where their figures move', async () => {
    // A wetter food: it warms a little slower.
    const { scenic: wanted, written } = await tried((text) =>
      text.replace('water: 0.63, protein: 0.16', 'water: 0.68, protein: 0.11'),
    );
    expect(written.sort()).toEqual(wanted);
  });
  it('writes posters and week sheets too where a top becomes one that is read more often', async () => {
    // Air in the food: it warms far faster.
    const { scenic: wanted, written } = await tried((text) => text.replace(/(tuna-salad:\n.*\n\s+porosity: )[\d.]+/, '$10.5'));
    expect(written).toEqual(expect.arrayContaining(wanted));
    expect(written).toEqual(expect.arrayContaining(['alder/line-1-poster.en.html', 'alder/week.en.html']));
  });
});

describe('the page of all stores', () => {
  const page = (folder: Folder): string => new TextDecoder().decode(folder.get(INDEX));
  const alder = STORE.replace('Test Street', 'Alder');

  it.each([
    ['one store changed', { 'sites/alder.yaml': alder.replace('Alder', 'Alder Hill').replace('07:00-22:00', '02:00-22:00') }],
    ['one store mended, with texts that only it had', { 'sites/birch.yaml': STORE.replace('Test Street', 'Birch') }],
    ['a store gone', { 'sites/birch.yaml': undefined }],
    ['a store more', { 'sites/aspen.yaml': `${STORE.replace('Test Street', 'Aspen')}region: North\n` }],
    [
      'one gone, one more and one changed',
      { 'sites/alder.yaml': undefined, 'sites/zelkova.yaml': STORE, 'sites/cedar.yaml': 'name: 7' },
    ],
  ] as const)('made from the old one is what it is when made afresh: %s', async (_, changes) => {
    const begin = {
      'sites/birch.yaml': `${STORE.replace('Test Street', 'Birch').replace('07:00-22:00', '02:00-22:00')}languages: [en, es]\n`,
    };
    const folder = await clean(threeStores(begin), { only: ['week'] });
    const before = page(folder);
    const after = threeStores({ ...begin, ...changes });
    await smallBuild(after, memoryFolder(folder).out, { only: ['week'], prune: true });
    expect(page(folder)).not.toBe(before);
    expect(page(folder)).toBe(page(await clean(after, { only: ['week'] })));
    expect(makeIndex(ledgerFrom(folder.get(LEDGER), hash) as Ledger, openedOf(after))).toBe(page(folder));
  });
});

describe('files that nobody needs any more', () => {
  const without = threeStores({ 'sites/cedar.yaml': undefined });
  const gone = ['cedar/line-1-card.en.html', 'cedar/line-1-handout.en.html', 'cedar/line-1-poster.en.html', 'cedar/week.en.html'];
  it('are listed, stay listed, and stay', async () => {
    const folder = await clean(first);
    for (let i = 0; i < 2; i++) {
      const { finished } = await smallBuild(without, memoryFolder(folder).out);
      expect(finished.left.map((l) => [l.left, l.why])).toEqual(gone.map((path) => [path, 'store-gone']));
      expect([...folder.keys()]).toEqual(expect.arrayContaining(gone));
    }
  });
  it('go on request, and nothing else goes', async () => {
    const folder = await clean(first);
    folder.set('cedar/notes.txt', new Uint8Array(1));
    folder.set('cedar/week.en.html', new Uint8Array(5));
    const { finished } = await smallBuild(without, memoryFolder(folder).out, { prune: true });
    expect(finished.removed).toEqual(gone.slice(0, 3));
    expect(finished.changed.map((l) => l.left)).toEqual(['cedar/week.en.html']);
    expect([...folder.keys()].filter(ofStore('cedar'))).toEqual(['cedar/week.en.html', 'cedar/notes.txt']);
    expect([...(await clean(without)).keys()].every((path) => folder.has(path))).toBe(true);
  });
  it('are wanted again when their store comes back', async () => {
    const folder = await clean(first);
    await smallBuild(without, memoryFolder(folder).out);
    const { finished } = await smallBuild(first, memoryFolder(folder).out);
    expect(finished.left).toEqual([]);
    expect(shown(folder)).toEqual(shown(await clean(first)));
  });
  it('are the papers of a store whose file has errors now', async () => {
    const folder = await clean(first);
    const { finished } = await smallBuild(threeStores({ 'sites/cedar.yaml': 'name: 7' }), memoryFolder(folder).out);
    expect(finished.left.map((l) => l.why)).toEqual(gone.map(() => 'store-has-errors'));
    // A slip of the finger makes no sheet useless: that is told otherwise, and pruning leaves it.
    expect(leftFindings(finished.left, 'out').map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'note left-of-unread',
    ]);
    const pruned = await smallBuild(threeStores({ 'sites/cedar.yaml': 'name: 7' }), memoryFolder(folder).out, { prune: true });
    expect(pruned.finished).toMatchObject({ removed: [], changed: [] });
    expect(gone.every((path) => folder.has(path))).toBe(true);
    expect(leftFindings([{ left: 'a', store: 'b', why: 'store-gone' }], 'out').map((f) => f.code)).toEqual(['left-over']);
  });
});

describe('part of an order', () => {
  it('leaves what it does not speak of, and the ledger still knows it', async () => {
    const folder = await clean(first);
    const { finished, jobs } = await smallBuild(
      threeStores({ 'sites/alder.yaml': STORE.replace('22:00', '21:00') }),
      memoryFolder(folder).out,
      { chosen: ['alder'], only: ['week'] },
    );
    expect([jobs, finished.left]).toEqual([['alder'], []]);
    const ledger = new TextDecoder().decode(folder.get(LEDGER));
    expect(ledger.match(/^\{"document"/gm)).toHaveLength(16);
    const all = await smallBuild(threeStores({ 'sites/alder.yaml': STORE.replace('22:00', '21:00') }), memoryFolder(folder).out);
    expect(all.written).toBe(3);
  });
  it('of one language makes that one alone and keeps the others, even when it prunes', async () => {
    const files = threeStores({ 'sites/birch.yaml': STORE.replace('22:00', '21:00').concat('languages: [en, es]\n') });
    const folder = await clean(first);
    const { written, finished } = await smallBuild(files, memoryFolder(folder).out, { languages: ['es'], prune: true });
    expect([written, finished.left, finished.removed]).toEqual([4, [], []]);
    const now = await clean(files);
    const kept = [...folder.keys()].filter((path) => /^birch\/.*\.html$/.test(path));
    expect(kept).toHaveLength(8);
    for (const path of kept)
      expect(folder.get(path), path).toEqual((path.endsWith('.es.html') ? now : await clean(first)).get(path));
  });
});

describe('several weeks', () => {
  // Winter hours begin with the third of these weeks.
  const seasonal = STORE.replace('Test Street', 'Cedar').replace(
    /^hours: .*$/m,
    'hours: Mar 01-Dec 13 07:00-22:00; Dec 14-Feb 29 08:00-20:00',
  );
  const files = threeStores({ 'sites/cedar.yaml': seasonal });
  const only = ['week', 'card'] as const;
  const sheets = (folder: Folder): readonly string[] => [...folder.keys()].filter((path) => path.includes('/week')).sort();

  it('are each what a build of that week alone makes, in the season that holds in it', async () => {
    const folder = await clean(files, { only, weeks: 3 });
    expect(sheets(folder).filter(ofStore('cedar'))).toEqual([
      'cedar/week-2026-11-30.en.html',
      'cedar/week-2026-12-07.en.html',
      'cedar/week-2026-12-14.en.html',
    ]);
    for (const [iso, from] of [
      ['2026-W49', '2026-11-30'],
      ['2026-W51', '2026-12-14'],
    ] as const) {
      const alone = await clean(files, { only, week: iso });
      expect(folder.get(`cedar/week-${from}.en.html`)).toEqual(alone.get('cedar/week.en.html'));
    }
    expect(folder.get('cedar/week-2026-12-14.en.html')).not.toEqual(folder.get('cedar/week-2026-11-30.en.html'));
    expect(new TextDecoder().decode(folder.get(INDEX))).toContain('2026-12-07');
  });
  it('move on: only the new week is made, and the one that is over is listed', async () => {
    const folder = await clean(files, { only: ['week'], weeks: 2 });
    const { written, finished } = await smallBuild(files, memoryFolder(folder).out, {
      only: ['week'],
      week: '2026-W50',
      weeks: 2,
    });
    const over = sheets(folder).filter((path) => path.includes('2026-11-30'));
    expect([written, finished.left.map((l) => l.left)]).toEqual([over.length, over]);
    await smallBuild(files, memoryFolder(folder).out, { only: ['week'], week: '2026-W50', weeks: 2, prune: true });
    expect(sheets(folder)).toEqual(sheets(await clean(files, { only: ['week'], week: '2026-W50', weeks: 2 })));
  });
});

describe('a ledger', () => {
  it('that was cut or changed is none, and everything is looked at again', async () => {
    const folder = await clean(first, { only: ['week'] });
    const goal = shown(folder);
    const whole = folder.get(LEDGER) as Uint8Array;
    const changed = whole.slice();
    changed[whole.length >> 1] = 32;
    for (const bad of [
      whole.slice(0, whole.length >> 1),
      changed,
      new Uint8Array(),
      new TextEncoder().encode('{"ledger":1}\n'),
    ]) {
      folder.set(LEDGER, bad);
      const { jobs } = await smallBuild(first, memoryFolder(folder).out, { only: ['week'] });
      expect(jobs).toHaveLength(3);
      expect(shown(folder)).toEqual(goal);
    }
  });
});
