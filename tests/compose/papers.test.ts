/**
 * The papers beside poster, week, handout and card: what each has for which unit, what stays blank for a hand, and that nothing is lost on the way.
 */
import { describe, expect, it } from 'vitest';
import type { Block, Cell } from '../../src/compose/block.js';
import { textOf } from '../../src/base/run.js';
import { CHAIN, PAPERS, serious, STORE, TABLE, tryChain, type Tried } from '../support/chain.js';
import { cautionsOn, pagesOf, runsIn, type Made } from '../support/pages.js';

const BESIDE = PAPERS.filter((id) => !['poster', 'week', 'handout', 'card'].includes(id));
const chain = CHAIN.replace(/^papers: .*$/m, `papers: [${BESIDE.join(', ')}]`);

const made = (own: Readonly<Record<string, string>> = {}): { tried: Tried; page: (id: string) => Made } => {
  const tried = tryChain({ 'nightrail.yaml': chain, ...own });
  if (!tried.workshop) throw new Error(tried.told.join('\n'));
  const pages = pagesOf(tried.workshop, tried.stores);
  return {
    tried,
    page: (id) => {
      const found = pages.find((p) => p.paper.id === id);
      if (!found) throw new Error(`no ${id}`);
      return found;
    },
  };
};

const textIn = (one: Made): string => textOf(runsIn(one.page?.body ?? []).map((run) => ({ ...run, text: `${run.text} ` })));

const all = (blocks: readonly Block[]): readonly Block[] =>
  blocks.flatMap((b) => [
    b,
    ...('body' in b ? all(b.body) : []),
    ...(b.block === 'columns' ? b.columns.flatMap((c) => all(c.body)) : []),
    ...(b.block === 'cut-outs' ? b.items.flatMap(all) : []),
    ...(b.block === 'steps' ? b.items.flatMap((i) => all(i.body)) : []),
  ]);
const blocksOf = (one: Made): readonly Block[] => all(one.page?.body ?? []);

describe('a paragraph of a chain of its own', () => {
  it('stands on the paper whose empty partial it fills, and the empty one prints nothing', () => {
    const ids = ['handout', 'week', 'kit-lesson'];
    const filling = (text: (id: string) => string) =>
      made({
        'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${ids.join(', ')}]`),
        ...Object.fromEntries(ids.map((id) => [`templates/partials/${id}-own.md.hbs`, text(id)])),
      });
    const titled = filling((id) => `## Our filters\n\nFilters on Monday: ${id}.\n`);
    for (const id of ids) expect(textIn(titled.page(id))).not.toMatch(/From\s+Test Kitchens/);
    const [shipped, blank, filled] = [
      made({ 'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${ids.join(', ')}]`) }),
      filling(() => ''),
      filling((id) => `Filters on Monday: ${id}.\n`),
    ];
    for (const id of ids) {
      expect(blocksOf(shipped.page(id))).toEqual(blocksOf(blank.page(id)));
      expect(blocksOf(filled.page(id))).toHaveLength(blocksOf(shipped.page(id)).length + 2);
      expect(textIn(filled.page(id))).toMatch(new RegExp(`From\\s+Test Kitchens\\s+Filters on Monday: ${id}\\.`));
    }
  });
});
const cellsOf = (one: Made): readonly (readonly Cell[])[] => blocksOf(one).flatMap((b) => (b.block === 'table' ? b.rows : []));

const SEALED = {
  'equipment/table.yaml': `name: Cooler
sort: cooler
maker: { name: Test Works }
nameplate: { model: T-2, volts: 115, amps: 4, hertz: 60, circuits: [{ refrigerant: R-134a, charge: 4 oz, serves: [box] }] }
condensing: { place: in-unit, feed: capillary, receiver: false, ports: false }
control: { strategy: single-zone }
zones:
  box: { kind: merchandiser, probe: { where: a bottle on the top shelf }, shelves: { count: 5 } }
loading: [sealed-only]
`,
  'sites/street.yaml': STORE.replace(/ {4}food_goes_to.*\n/, ''),
};

describe('labels', () => {
  it('are cut-outs, with the cautions among them, and the clock by its settings', () => {
    const labels = made().page('labels');
    const cut = blocksOf(labels).flatMap((b) => (b.block === 'cut-outs' ? b.items : []));
    expect(cut.length).toBeGreaterThan(20);
    expect(cut.flatMap(cautionsOn)).toEqual(cautionsOn(labels.page?.body ?? []));
    expect(cut.flatMap(cautionsOn)).toContain('no-panels');
    expect(textIn(labels)).toMatch(/Clock of the top only\s+Off\s+\d\d:\d\d/);
    expect(textIn(labels)).toContain('Left so by, and when');
  });

  it('say who left it so, where somebody signed', () => {
    const own = { 'sites/street.yaml': `${STORE}    set_by: { who: A. Person, when: 2026-11-12 }\n` };
    expect(textIn(made(own).page('labels'))).toMatch(/Left so by\s+A\. Person/);
  });

  it('tell one switch for all where the top has none of its own', () => {
    const shared = {
      'equipment/table.yaml': TABLE.replace('kind: static-rail', 'kind: forced-air-rail')
        .replace(/ {4}rest:\n(?: {6}.*\n)+/, '')
        .replace('shared-low-pressure', 'one-thermostat')
        .replace(/ {2}pressure: \{.*\n/, ''),
    };
    const text = textIn(made(shared).page('labels'));
    expect(text).toContain('Top and bottom');
    expect(text).not.toContain('Clock of the top only');
  });
});

describe('the map of pans', () => {
  it('is made only for what has a rail', () => {
    const { tried } = made(SEALED);
    if (!tried.workshop) throw new Error('not opened');
    expect(pagesOf(tried.workshop, tried.stores).map((p) => p.paper.id)).not.toContain('pan-map');
  });
});

describe('the trouble sheet', () => {
  it('begins each step with who does it, and never offers time', () => {
    const { page } = made();
    for (const block of blocksOf(page('trouble')))
      if (block.block === 'steps')
        for (const { body } of block.items)
          expect(textOf(runsIn(body))).toMatch(/^(Everyone|Manager|Technician|\d+\s°F or colder|Warmer|Hard):/);
    expect(textIn(page('trouble'))).not.toMatch(/hours? from|within|at most \d+ h/);
  });

  it('tells of the clock what its kind does in a power cut', () => {
    expect(textIn(made().page('trouble'))).toContain('stood still');
    const seven = { 'equipment/table.yaml': TABLE.replace('kind: daily-dial, polarity: out-is-on', 'kind: seven-day-clock') };
    expect(textIn(made(seven).page('trouble'))).not.toContain('stood still');
  });
});

describe('the hand-over slip', () => {
  it('has what the profile and the store say, and blanks where a hand must write', () => {
    const own = {
      'sites/street.yaml': `${STORE}    found: { when: 2026-11-12, who: A. Person, pressure: { cut_in: 44 psig, cut_out: 28 psig } }\n`,
    };
    const slip = made(own).page('handover');
    const row = (label: RegExp) => cellsOf(slip).find(([first]) => label.test(textOf(first?.text ?? [])));
    expect(textOf(row(/^Cut-in/)?.[1]?.text ?? [])).toBe('44\u00a0psig');
    expect(
      row(/^Kitchen$/)
        ?.slice(2)
        .map((cell) => cell.hand),
    ).toEqual(['write', 'write']);
    expect(row(/warmest food/)?.[2]?.hand).toBe('write');
    expect(textIn(slip)).toMatch(/Trippers checked one by one:\s+a tripper pushed out is on/);
  });
});

describe('the kit', () => {
  it('asks the same questions on every sheet, in another order on each, and its keys follow', () => {
    const { page } = made();
    const asked = (id: string) => {
      const sheets: string[][] = [];
      for (const block of blocksOf(page(id))) {
        if (block.block === 'heading' && block.level === 1) sheets.push([]);
        if (block.block === 'steps')
          sheets
            .at(-1)
            ?.push(...block.items.map(({ body }) => textOf(body[0]?.block === 'paragraph' ? body[0].text.slice(0, 1) : [])));
      }
      return sheets;
    };
    const questions = asked('kit-questions');
    expect(questions).toHaveLength(3);
    expect(new Set(questions.map((q) => q.join())).size).toBe(3);
    expect(new Set(questions.map((q) => [...q].sort().join())).size).toBe(1);
    // Each sheet is handed to another person, who sees no other.
    const sheets: string[][] = [[]];
    for (const block of blocksOf(page('kit-questions')))
      if (block.block === 'new-sheet') sheets.push([]);
      else if ('cautions' in block && Array.isArray(block.cautions)) sheets.at(-1)?.push(...(block.cautions as string[]));
    const warned = sheets.filter((_, i) => i < questions.length).map((codes) => [...new Set(codes)].sort().join());
    expect(warned[0]).not.toBe('');
    expect(new Set(warned).size).toBe(1);
    expect(asked('kit-keys').map((sheet) => sheet.map((text) => text.slice(0, 20)))).toEqual(
      questions.map((sheet) => sheet.map((text) => text.slice(0, 20))),
    );
  });

  it('follows the seed of the store, and has no more orders than there are', () => {
    const seeded = (seed: string) => ({ 'sites/street.yaml': `${STORE}training: { seed: ${seed}, versions: 2 }\n` });
    const text = (seed: string) => textIn(made(seeded(seed)).page('kit-questions'));
    expect(text('autumn')).toBe(text('autumn'));
    expect(text('autumn')).not.toBe(text('spring'));
    const few = made(SEALED).tried.stores.get('street')?.plan?.units['line-1'];
    const orders = few?.kit.versions.map((v) => v.questions.map((q) => JSON.stringify(q.ask.value)).join()) ?? [];
    expect(new Set(orders).size).toBe(orders.length);
  });

  it('takes as long as a group of four needs to show its things, each part with its own minutes', () => {
    for (const [own, minutes] of [
      [{}, 24],
      [SEALED, 15],
    ] as const) {
      const one = made(own);
      const kit = one.tried.stores.get('street')?.plan?.units['line-1']?.kit;
      expect(kit?.takes.value.si).toBe(minutes * 60);
      expect(textIn(one.page('kit-lesson'))).toMatch(/At most\s+4\s+people at a time/);
      expect(kit?.parts.every((part) => part.takes.value.si >= 60)).toBe(true);
    }
  });

  it('has a picture or a number on each slide, and one idea', () => {
    for (const own of [{}, SEALED]) {
      const slides: Block[][] = [[]];
      for (const block of made(own).page('kit-slides').page?.body ?? [])
        if (block.block === 'new-sheet') slides.push([]);
        else slides.at(-1)?.push(block);
      expect(slides.length).toBeGreaterThanOrEqual(2);
      for (const slide of slides) {
        expect(slide.filter((b) => b.block === 'heading')).toHaveLength(1);
        const shown = slide.filter((b) => b.block === 'figure' || (b.block === 'paragraph' && b.role === 'signal'));
        expect(shown).toHaveLength(1);
      }
    }
  });

  it('shows what is predicted for the unit, and says of which unit nothing is', () => {
    const modelled = {
      'equipment/table.yaml': TABLE.replace('place: in-unit', 'power: 1/2 hp, place: in-unit').replace(
        'kind: refrigerated-base',
        'kind: refrigerated-base\n    shelves: { count: 4, volume: 16 cu ft }',
      ),
    };
    const nights = (one: Made) => blocksOf(one).filter((b) => b.block === 'figure' && b.drawing.name === 'two-nights');
    expect(nights(made(modelled).page('kit-slides'))).toHaveLength(1);
    const { tried, page } = made();
    expect(tried.told).toContain('not-modelled sites/street.yaml:5:3');
    expect(nights(page('kit-slides'))).toHaveLength(0);
  });

  it('has a line for each of two hundred people, and some for newcomers', () => {
    const people = Array.from({ length: 200 }, (_, i) => `Person ${i + 1}`);
    const { tried, page } = made({ 'sites/street.yaml': `${STORE}people: [${people.join(', ')}]\n` });
    expect(tried.told).toContain('long-roster sites/street.yaml:11:9');
    const rows = cellsOf(page('kit-sign-off'));
    expect(rows.map(([first]) => textOf(first?.text ?? [])).filter((name) => name !== '')).toEqual(people);
    expect(rows.length).toBeGreaterThan(200);
  });

  it('tells a person that stands twice', () => {
    const own = { 'nightrail.yaml': chain, 'sites/street.yaml': `${STORE}people: [A. Person, B. Person, A. Person]\n` };
    expect(serious(tryChain(own))).toEqual(['person-twice sites/street.yaml:11:32']);
  });
});

describe('makers of templates', () => {
  const withLog = (page: string) => {
    const tried = tryChain({ 'nightrail.yaml': chain, 'templates/log/page.md.hbs': page });
    if (!tried.workshop) throw new Error('not opened');
    return pagesOf(tried.workshop, tried.stores)
      .find((p) => p.paper.id === 'log')
      ?.findings.filter((f) => f.severity === 'error');
  };

  it('get a finding for a form whose lines are no columns', () => {
    expect(withLog('# A\n\n```form 3\nlog.when\n```\n')).toMatchObject([{ code: 'template-directive', at: { line: 3 } }]);
  });

  it('get a finding for a name inside of what is not there', () => {
    expect(withLog('# A\n\n{{unit.rail.pans}}\n')).toMatchObject([{ code: 'template-unknown-value', data: { wrote: 'rail' } }]);
  });

  it('get a finding for something to cut out that lies loose', () => {
    expect(withLog('# A\n\n::: cut-out\nx\n:::\n')).toMatchObject([
      { code: 'template-directive', data: { names: ['cut-outs'] } },
    ]);
  });
});

/** A top that stays on at night and is emptied before the crew leaves. */
const STAYS_ON = {
  'equipment/table.yaml': TABLE.replace('kind: static-rail', 'kind: forced-air-rail')
    .replace(/ {4}rest:\n(?: {6}.*\n)+/, '')
    .replace('shared-low-pressure', 'one-thermostat')
    .replace(/ {2}pressure: \{.*\n/, ''),
};

describe('the class at a top that no clock stops', () => {
  const texts = (own: Readonly<Record<string, string>>) => {
    const { page } = made({
      'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [handout, kit-slides, kit-keys]'),
      ...own,
    });
    return { handout: textIn(page('handout')), slides: textIn(page('kit-slides')), keys: textIn(page('kit-keys')) };
  };

  it('says when the top is empty, in handout, slides and answers', () => {
    for (const text of Object.values(texts(STAYS_ON))) expect(text).toMatch(/22:45/);
    expect(texts(STAYS_ON).keys).toContain('It is late and you are still busy.');
  });

  it('never says that it rests or goes off, nor that the bottom alone stays on', () => {
    const [on, rests] = [texts(STAYS_ON), texts({})];
    expect(rests.slides).toMatch(/and rests/);
    expect(rests.keys).toMatch(/What stays on all night\?\s+The bottom\./);
    expect(on.slides).not.toMatch(/rests/);
    expect(on.slides).toContain('Nor does the top');
    expect(on.keys).toMatch(/What stays on all night\?\s+All of it, top and bottom/);
  });

  it('has the steps of the night in the handout, as every rail', () => {
    for (const own of [{}, STAYS_ON]) {
      const { handout } = texts(own);
      for (const step of ['sanitize the probe', 'first date kept', 'The top is empty.', 'wrung-out sanitizer cloth'])
        expect(handout).toContain(step);
      expect(handout).not.toContain('in large print');
    }
  });
});
