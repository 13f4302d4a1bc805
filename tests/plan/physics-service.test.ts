/**
 * The technician's tables: the dial for another air, a dial left alone after a change of refrigerant, head pressure, and coils that can't be.
 */
import { describe, expect, it } from 'vitest';
import { demoFiles, STORE, TABLE, tryChain, tryFiles, type Tried } from '../support/chain.js';

const PSI = 6894.757293168361;
const f = (known: { readonly value: { readonly si: number } } | undefined): number => (known?.value.si ?? NaN) * 1.8 - 459.67;
const psig = (known: { readonly value: { readonly si: number } } | undefined): number => (known?.value.si ?? NaN) / PSI;
const pressureOf = (tried: Tried, store = 'street', unit = 'line-1') => {
  const found = tried.stores.get(store)?.plan?.units[unit]?.pressure;
  if (!found) throw new Error(tried.told.join('\n'));
  return found;
};
const demo = tryFiles(demoFiles());

describe('a dial left alone after a change of refrigerant', () => {
  it('means a warmer coil: 46/28 psig of R-404A in a unit that now holds R-448A', () => {
    const left = pressureOf(demo, 'old-ropewalk', 'line-2').left_alone;
    expect(left?.from.value.text).toBe('R-404A');
    expect(left?.rows.map((r) => psig(r.dial))).toEqual([46, 28].map((p) => expect.closeTo(p, 6) as number));
    expect(f(left?.rows[0]?.was)).toBeCloseTo(12.2, 0);
    // Dew would be 21.7 °F (CoolProp 8.0.0); the mean lies half the evaporator's glide under it.
    expect(f(left?.rows[0]?.is)).toBeGreaterThan(16);
    expect(f(left?.rows[0]?.is)).toBeLessThan(19);
  });
  it('is none of a unit that holds what it was made with', () => {
    expect(pressureOf(demo, 'copper-ferry').left_alone).toBeUndefined();
    expect(pressureOf(demo, 'magpie-lane').left_alone).toBeUndefined();
  });
});

describe('the dial for another air under the pans', () => {
  const table = TABLE.replace('condensing: { place', 'condensing: { power: 1/2 hp, place').replace(
    'senses: air }',
    'senses: air }\n    shelves: { count: 4, volume: 16 cu ft }',
  );
  it('is the dial of now for the air of now, higher for warmer air, and higher again up high', () => {
    const rows = pressureOf(tryChain({ 'equipment/table.yaml': table })).for_air;
    expect(f(rows[2]?.air)).toBeCloseTo(18, 6);
    expect(psig(rows[2]?.cut_in)).toBeCloseTo(46, 4);
    expect(rows.every((r, i) => i === 0 || psig(r.cut_in) > psig(rows[i - 1]?.cut_in))).toBe(true);
    const high = pressureOf(
      tryChain({ 'equipment/table.yaml': table, 'sites/street.yaml': `${STORE}altitude: 5280 ft\n` }),
    ).for_air;
    // 2.6 psi, told to the whole pounds that a dial can be set to.
    expect(psig(high[2]?.cut_in) - psig(rows[2]?.cut_in)).toBeCloseTo(3, 4);
    expect(psig(high[2]?.cut_in)).toBeCloseTo(49, 4);
  });
  it('is set in steps of 0.05 bar where a store measures in bar, in the table as at the head of the card', () => {
    const high = pressureOf(
      tryChain({ 'equipment/table.yaml': table, 'sites/street.yaml': `${STORE}altitude: 1600 m\nmeasure: si\n` }),
    );
    const set = [high.dial?.cut_in.set_here, high.dial?.cut_out.set_here];
    // The row of the air of now asks for the same coil, so it names the same dial.
    expect([high.for_air[2]?.cut_in, high.for_air[2]?.cut_out].map((k) => k?.value.si)).toEqual(set.map((k) => k?.value.si));
    for (const dial of [...set, ...high.for_air.flatMap((row) => [row.cut_in, row.cut_out])])
      expect((dial?.value.si ?? NaN) / 5000).toBeCloseTo(Math.round((dial?.value.si ?? NaN) / 5000), 9);
    expect((set[0]?.value.si ?? NaN) / PSI).toBeCloseTo(46 + 2.6, 0);
  });
  it('is none where thermostats hold the air', () => {
    expect(pressureOf(demo, 'assay-yard', 'line-2').for_air).toEqual([]);
  });
});

it('tells the head pressure from 60 to 110 °F, or from 15 to 40 °C, as the reader reads', () => {
  const table = pressureOf(demo, 'high-basin', 'prep-room').heads.filter(({ day }) => !day);
  expect(table.map((r) => Math.round(f(r.air)))).toEqual(expect.arrayContaining([60, 70, 80, 100, 110]));
  const celsius = pressureOf(demo, 'magpie-lane').heads.map((r) => Math.round(r.air.value.si - 273.15));
  expect(celsius).toEqual(expect.arrayContaining([15, 20, 25, 30, 35]));
  const [first] = pressureOf(demo, 'copper-ferry').heads;
  expect(f(first?.condensing)).toBeCloseTo(60 + 27, 6);
});

it('has the store’s own kitchens among these rows: coldest first, and no air twice', () => {
  for (const [id, { plan }] of demo.stores)
    for (const { pressure } of Object.values(plan?.units ?? {})) {
      const airs = pressure.heads.map((r) => f(r.air));
      expect(airs, id).toEqual(
        [...new Set(airs.map((air) => Math.round(air * 2) / 2))]
          .sort((a, b) => a - b)
          .map((air) => expect.closeTo(air, 0) as number),
      );
      const own = pressure.heads.filter(({ day }) => day).map(({ air }) => air.path);
      if (pressure.usual)
        expect(own, id).toEqual(['store.kitchen.usual', ...(pressure.hottest ? ['store.kitchen.hottest'] : [])]);
    }
  const round = tryChain({ 'sites/street.yaml': `${STORE}kitchen: { usual: 80 °F, hottest: 90 °F, humidity: 50 % }\n` });
  const heads = round.stores.get('street')?.plan?.units['line-1']?.pressure.heads ?? [];
  expect(heads.map(({ air, day }) => [Math.round(f(air)), day?.value.code])).toEqual([
    [60, undefined],
    [70, undefined],
    [80, 'card.head-usual'],
    [90, 'card.head-hottest'],
    [100, undefined],
  ]);
});

it('leaves out what lies over the curves, and says so', () => {
  // R-404A at 110 + 27 °F is nearer to its critical point than its curves go.
  const airs = pressureOf(demo, 'copper-ferry').heads.map((r) => Math.round(f(r.air)));
  expect(airs).toEqual(expect.arrayContaining([60, 70, 80, 90, 100]));
  expect(airs).not.toContain(110);
  const told = demo.stores.get('copper-ferry')?.findings.find((one) => one.code === 'outside-curves-head');
  expect(told).toMatchObject({ severity: 'note', data: { refrigerant: 'R-404A', air: { q: 'temperature' } } });
});

it.each([
  ['evaporating-over-kitchen', 'error', 'cut_in: 46 psig', 'cut_in: 230 psig'],
  ['coil-not-colder', 'warning', 'cut_out: 28 psig', 'cut_out: 44 psig'],
] as const)('%s is told with both figures', (code, severity, from, to) => {
  const table = TABLE.replace(from, to).replace(
    'air: 16 to 20 °F',
    code === 'coil-not-colder' ? 'air: 4 to 6 °F' : 'air: 16 to 20 °F',
  );
  const found = tryChain({ 'equipment/table.yaml': table }).findings.find((one) => one.code === code);
  expect(found?.severity).toBe(severity);
  expect(Object.values(found?.data ?? {})).toHaveLength(2);
});

it('tells a pump-down control that starts over what a thermostat asks for', () => {
  const table = TABLE.replace('strategy: shared-low-pressure', 'strategy: separate-thermostats')
    .replace('    covers:', '    control: { cut_in: 20 °F, cut_out: 14 °F, senses: air }\n    covers:')
    .replace('cut_in: 46 psig, cut_out: 28 psig', 'cut_in: 55 psig, cut_out: 8 psig');
  const most = (one: string) =>
    tryChain({ 'equipment/table.yaml': one }).findings.find(({ code }) => code === 'safety-over-box')?.data['most'];
  // The coldest thermostat stops at 14 °F. R-404A's mean coil is 19.46 °F at 55 psig (CoolProp 8.0.0, tests/outside/reference) and moves about 0.8 °F a psi there.
  expect(most(table)).toMatchObject({ unit: 'psig' });
  // The card's reader sees it too, beside the figures.
  const onCard = (one: string) =>
    Object.values(tryChain({ 'equipment/table.yaml': one }).stores.values().next().value?.plan?.units ?? {})[0];
  expect(onCard(table)?.pressure.over_box?.air.value.si).toBeCloseTo(273.15 - 10, 6);
  expect(onCard(TABLE)?.pressure.over_box).toBeUndefined();
  const { si } = most(table) as { si: number };
  expect(si / PSI).toBeGreaterThan(46.5);
  expect(si / PSI).toBeLessThan(48.5);
  expect(most(table.replace('55 psig', '3.8 bar(g)'))).toMatchObject({ unit: 'bar(g)' });
});

it('tells of a pump-down control that it could not be held against a thermostat that nobody knows', () => {
  const table = TABLE.replace('strategy: shared-low-pressure', 'strategy: separate-thermostats')
    .replace('    covers:', '    control: { cut_in: 20 °F, cut_out: 14 °F, senses: air }\n    covers:')
    .replace('cut_in: 46 psig, cut_out: 28 psig', 'cut_in: 55 psig, cut_out: 8 psig');
  const codes = (one: string): readonly string[] =>
    tryChain({ 'equipment/table.yaml': one })
      .findings.map(({ code }) => code)
      .filter((code) => code.startsWith('safety-'));
  expect(codes(table)).toEqual(['safety-over-box']);
  expect(codes(`${table}not_known: [zones.rail.control.cut_out]\n`)).toEqual(['safety-not-checked']);
});
