/**
 * The scenes of the demo's units: what each condemns, that none allows, and that a paper which asks for them says them in every language.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { compose } from '../../src/compose/paper.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { withAllScenes, withScenes } from '../../src/plan/consequences/index.js';
import { leaves, type Tree } from '../../src/plan/known.js';
import { demoFiles, STORE, tryChain, tryFiles, type Tried } from '../support/chain.js';
import { roughWidth, runsIn } from '../support/pages.js';

const HOUR = 3600;
const tried = tryFiles(demoFiles());
const { workshop } = tried;
if (!workshop) throw new Error('the demo does not open');
const stores = [...tried.stores].flatMap(([id, { plan, read }]) =>
  plan && read ? [{ id, read, plan: withAllScenes(workshop.shelf, read, plan) }] : [],
);
const scenesOf = (store: string, unit: string) => {
  const found = stores.find((s) => s.id === store)?.plan.units[unit]?.scenes;
  if (!found) throw new Error(`${store} ${unit} has no scenes`);
  return found;
};
/** °F, as a reader thinks of them. */
const f = (known: { readonly value: { readonly si: number } } | undefined): number => (known?.value.si ?? NaN) * 1.8 - 459.67;

describe('a night with the food left in', () => {
  it('ends where the trade says: at about 45 to 50 °F after six to eight hours', () => {
    for (const [store, unit] of [
      ['high-basin', 'line-1'],
      ['copper-ferry', 'line-1'],
      ['tannery-row', 'line-1'],
      ['switchyard', 'line-1'],
    ] as const) {
      const { nights } = scenesOf(store, unit);
      expect(f(nights?.mean)).toBeGreaterThan(45);
      expect(f(nights?.mean)).toBeLessThan(50);
      expect(f(nights?.warmest)).toBeGreaterThan(f(nights?.mean));
      // As the picture shows it: within the night, while the rail is off.
      expect(nights?.over.value.si).toBeGreaterThan(2 * HOUR);
      expect(nights?.over.value.si).toBeLessThan((nights?.curves.holds.on ?? 0) - (nights?.curves.holds.off ?? 0));
    }
  });
  it('is warmer after a longer night', () => {
    expect(f(scenesOf('wren-stair', 'line-1').nights?.mean)).toBeGreaterThan(f(scenesOf('assay-yard', 'line-2').nights?.mean));
  });
  it('is none of a rail that shares the base’s air, or rests by itself: no figure says that food may stay', () => {
    expect(scenesOf('assay-yard', 'sandwich').nights).toBeUndefined();
    expect(scenesOf('assay-yard', 'pizza').nights).toBeUndefined();
  });
});

describe('what a technician measured at one unit of the demo', () => {
  const unit = tried.stores.get('switchyard')?.plan?.units['line-1'];
  const from = (path: string | undefined) => expect.objectContaining({ path: `units.line-1.${path ?? ''}` }) as unknown;
  it('wins over the computed pull-down, and the plan shows both', () => {
    const { pull_down: pullDown, pull } = unit?.needs ?? {};
    expect(pullDown?.value.si).toBe(50 * 60);
    expect(pull?.planned.value.si).toBe(60 * 60);
    expect(pull?.fastest.value.si).toBeLessThan(50 * 60);
    expect(pullDown?.basis).toMatchObject({ rule: 'written-wins', from: [from('needs.usual'), from('needs.pull.planned')] });
  });
  it('is what its model is fitted to, in place of the middle of the targets', () => {
    expect(f(unit?.physics?.air)).toBeCloseTo(17, 6);
    expect(unit?.physics?.air?.basis).toMatchObject({
      rule: 'reading-wins',
      from: [from('physics.air_read'), from('physics.air_target')],
    });
    expect(f(unit?.physics?.kitchen)).toBeCloseTo(79, 6);
  });
});

describe('warm food, against the law’s own limits on cooling', () => {
  it('misses both steps of the law by hours', () => {
    const [cooked, room] = scenesOf('copper-ferry', 'line-1').warm;
    expect(f(cooked?.from)).toBeCloseTo(134.6, 1);
    expect(cooked?.within.value.si).toBe(2 * HOUR);
    expect(cooked?.takes.value.si).toBeGreaterThan(6 * HOUR);
    expect(room?.within.value.si).toBe(4 * HOUR);
    expect(room?.takes.value.si).toBeGreaterThan(8 * HOUR);
  });
  it('prints the law’s own pair of figures', () => {
    expect(scenesOf('copper-ferry', 'line-1').warm[0]?.from.value.printed).toEqual({ '°C': 57, '°F': 135 });
    expect(scenesOf('magpie-lane', 'line-1').warm[0]?.from.value.printed).toEqual({ '°C': 60 });
  });
  it('is silent where the law gives none', () => {
    const files = demoFiles();
    const doc = 'sites/copper-ferry.yaml';
    files.set(doc, new TextEncoder().encode(`${new TextDecoder().decode(files.get(doc))}\nlaw: england\n`));
    const other = tryFiles(files);
    const { plan, read } = other.stores.get('copper-ferry') ?? {};
    if (!plan || !read || !other.workshop) throw new Error('no store');
    expect(withAllScenes(other.workshop.shelf, read, plan).units['line-1']?.scenes?.warm).toEqual([]);
  });
});

describe('a base that never satisfies', () => {
  const row = (store: string, unit: string, fault: string) => {
    const found = scenesOf(store, unit).never.find((r) => r.fault.value.code === fault);
    if (!found) throw new Error(fault);
    return found;
  };
  const baseOf = ({ base }: ReturnType<typeof row>): number => (base ? f(base) : Number.NaN);
  it('with its fan stopped has no average of its base, which is warm near its top', () => {
    expect(row('copper-ferry', 'line-1', 'fault-fan-stopped').base).toBeUndefined();
  });
  it('runs the rail colder on a shared control, by the unit’s own strategy', () => {
    expect(f(row('copper-ferry', 'line-1', 'fault-stuck-calling').rail)).toBeLessThan(
      f(row('copper-ferry', 'line-1', 'fault-fan-stopped').rail),
    );
    expect(baseOf(row('copper-ferry', 'line-1', 'fault-stuck-calling'))).toBeLessThan(25);
  });
  it('is lessened, not cured, by separate controls', () => {
    const drop = (unit: string): number =>
      f(row('assay-yard', unit, 'fault-none').rail) - f(row('assay-yard', unit, 'fault-stuck-calling').rail);
    expect(baseOf(row('assay-yard', 'line-2', 'fault-stuck-calling'))).toBeLessThan(25);
    expect(drop('line-2')).toBeLessThan(drop('line-1') - 0.5);
  });
  it('with its drain blocked is told by its water where the figures are a sound day’s, and only there', () => {
    for (const { plan } of stores)
      for (const { scenes } of Object.values(plan.units)) {
        const [sound, ...faults] = scenes?.never ?? [];
        const drain = faults.find((r) => r.fault.value.code.startsWith('fault-drain'));
        if (!sound || !drain) continue;
        const like =
          Math.abs(baseOf(drain) - baseOf(sound)) < 1.8 &&
          Math.abs(f(drain.rail) - f(sound.rail)) < 1.8 &&
          Math.abs(drain.runs.value.si - sound.runs.value.si) < 0.05;
        expect(drain.fault.value.code).toBe(like ? 'fault-drain-water-only' : 'fault-drain-blocked');
      }
    expect(row('copper-ferry', 'line-1', 'fault-drain-water-only').base).toBeDefined();
  });
  it('with its door ajar runs more and warms', () => {
    expect(row('copper-ferry', 'line-1', 'fault-door-ajar').runs.value.si).toBeGreaterThan(
      row('copper-ferry', 'line-1', 'fault-fan-stopped').runs.value.si,
    );
  });
});

it('loses the food of open covers on a hot day, and holds its warmest spot in no hotter kitchen than its mean', () => {
  const { hot, holds } = scenesOf('copper-ferry', 'line-1');
  expect(hot?.after?.value.si).toBeLessThan(8 * HOUR);
  expect(f(holds?.warmest_shut)).toBeLessThan(f(holds?.mean_open) + 1e-6);
});

it('never tells what would reassure: each figure that is told lies past a limit', () => {
  for (const { plan } of stores)
    for (const { scenes, limit } of Object.values(plan.units)) {
      if (!scenes) continue;
      if (scenes.nights) expect(scenes.nights.mean.value.si).toBeGreaterThan(limit.value.si);
      for (const { takes, within } of scenes.warm) expect(takes.value.si).toBeGreaterThan(within.value.si);
      for (const sentence of scenes.says)
        expect(sentence.value.code).toMatch(/^scenes\.(usual-over|night-left|rest-skipped|warm-|hot-)/);
    }
});

it('can say every leaf in every language, and why', () => {
  for (const { plan, read } of stores)
    for (const words of workshop.words.values()) {
      const speaker = readerOf(words, read, workshop.shelf);
      for (const [path, known] of leaves(plan as unknown as Tree)) {
        if (!path.includes('.scenes.')) continue;
        expect(known.path, path).not.toBe('');
        expect(textOf(speaker.say(known).runs), path).not.toMatch(/undefined|NaN|\{/);
        if (known.basis.how === 'computed')
          expect(workshop.words.get('en')?.get(`why.${known.basis.rule}`), known.basis.rule).toBeDefined();
      }
    }
});

describe('papers that ask for them', () => {
  const papers = workshop.papers.filter((paper) => paper.spec.scenes);
  it('are the handout and the card, and what teaches from them', () => {
    expect(papers.map((p) => p.id)).toEqual(expect.arrayContaining(['handout', 'card']));
  });
  it('say them in each language, no digit without a value', () => {
    for (const { plan, read, id } of stores)
      for (const unit of Object.values(plan.units))
        for (const paper of papers)
          for (const [lang, words] of workshop.words) {
            const name = `${id} ${unit.id.value.text} ${paper.id} ${lang}`;
            const subject = { plan, unit, date: '2026-11-16', sheet: read.store.sheet, brand: { colour: '#1f4d3a' } };
            const { page, findings } = compose(paper, subject, readerOf(words, read, workshop.shelf), roughWidth);
            expect(findings, name).toEqual([]);
            const runs = runsIn(page?.body ?? []);
            for (const run of runs) if (run.value === undefined) expect(run.text, name).not.toMatch(/\d/);
            if (unit.scenes && unit.scenes.says.length > 0 && paper.id === 'handout')
              expect(textOf(runs), name).toContain(textOf(readerOf(words, read, workshop.shelf).phrase('scenes.predicted')));
          }
  });
});

it('gives a unit the same scenes, whatever was computed before it', () => {
  const figures = (t: Tried): string => {
    const { plan, read } = t.stores.get('high-basin') ?? {};
    const unit = plan?.units['line-1'];
    if (!plan || !read || !unit || !t.workshop) throw new Error('no store');
    return JSON.stringify(
      [...leaves(withScenes(t.workshop.shelf, read, plan, unit).scenes as unknown as Tree)].map(([p, k]) => [
        p,
        k.value.q === 'phrase' ? k.value.code : k.value,
      ]),
    );
  };
  expect(figures(tryFiles(demoFiles()))).toBe(figures(tried));
});

it('throws for no kitchen, and tells no figure that is none', () => {
  const table = new TextDecoder().decode(demoFiles().get('equipment/prep-table-60.yaml'));
  const between = (min: number, max: number) => fc.integer({ min, max });
  fc.assert(
    fc.property(
      between(20, 139),
      between(20, 139),
      between(0, 100),
      between(0, 35000),
      between(4, 11),
      between(13, 27),
      (usual, hottest, humidity, feet, opens, closes) => {
        const t = tryChain({
          'equipment/table.yaml': table,
          'sites/street.yaml': `${STORE.replace('Mo-Su 07:00-22:00', `Mo-Su ${String(opens).padStart(2, '0')}:00-${String(closes % 24).padStart(2, '0')}:00`)}kitchen: { usual: ${Math.min(usual, hottest)} °F, hottest: ${Math.max(usual, hottest)} °F, humidity: ${humidity} % }\naltitude: ${feet} ft\n`,
        });
        const { plan, read } = t.stores.get('street') ?? {};
        if (!plan || !read || !t.workshop) return;
        const { scenes, limit } = withAllScenes(t.workshop.shelf, read, plan).units['line-1'] ?? {};
        for (const [path, { value }] of leaves(scenes)) if ('si' in value) expect(Number.isFinite(value.si), path).toBe(true);
        if (scenes?.nights) expect(scenes.nights.mean.value.si).toBeGreaterThan(limit?.value.si ?? Infinity);
      },
    ),
    { seed: 13, numRuns: 40 },
  );
});
