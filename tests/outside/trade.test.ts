/**
 * The plan's pressures against the trade: the altitude's effect on a bellows control, the condensing rule, capacities of pans.
 */
import { describe, expect, it } from 'vitest';
import { fromSI, type Amount } from '../../src/base/amount.js';
import { PAN_SIZES } from '../../src/trade/pans.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const unitAt = (store: string, table = TABLE) => {
  const tried = tryChain({ 'sites/street.yaml': store, 'equipment/table.yaml': table });
  const plan = tried.stores.get('street')?.plan;
  const unit = plan?.units['line-1'];
  if (!unit) throw new Error(tried.told.join('\n'));
  return { unit, findings: tried.findings };
};
const denver = `${STORE}altitude: 5280 ft\n`;
const f = (known: { value: { si: number } } | undefined): number => fromSI('°F', known?.value.si ?? NaN);
const psig = (known: { value: { si: number } } | undefined): number => fromSI('psig', known?.value.si ?? NaN);

describe('a bellows control in a store high up', () => {
  // R-404A at 46 / 28 psig: dew 12.5 / -4.9 °F; CoolProp 8.0.0. R-404A has next to no glide, so the mean lies within half a degree.
  it('stands at sea level for the coil that CoolProp gives', () => {
    const { dial } = unitAt(STORE).unit.pressure;
    expect(f(dial?.cut_in.coil?.dew)).toBeCloseTo(12.5, 0);
    expect(f(dial?.cut_out.coil?.dew)).toBeCloseTo(-4.9, 0);
    expect(psig(dial?.cut_in.set_here)).toBeCloseTo(46, 6);
  });
  // Standard atmosphere at 5280 ft: 2.60 psi below sea level (ASHRAE Fundamentals formula). Same dial, colder coil; raise the dial by as much to keep it.
  it('makes a colder coil at 5280 ft, and says to raise the dial by 2.60 psi, to the whole pound that a dial can be set to', () => {
    const sea = unitAt(STORE).unit.pressure.dial;
    const { unit, findings } = unitAt(denver);
    const { dial } = unit.pressure;
    expect(f(dial?.cut_in.mean)).toBeLessThan(f(sea?.cut_in.mean) - 1.5);
    expect(psig(dial?.cut_in.set_here)).toBeCloseTo(49, 6);
    expect(psig(dial?.cut_out.set_here)).toBeCloseTo(31, 6);
    // So set, the coil of the sea-level dial again, within the pound to which it is set: 12.5 / -4.9 °F at dew.
    expect(Math.abs(f(dial?.cut_in.coil?.dew) - 12.5)).toBeLessThan(1.2);
    expect(Math.abs(f(dial?.cut_out.coil?.dew) + 4.9)).toBeLessThan(1.2);
    expect(findings.map((x) => x.code)).toContain('dial-for-altitude');
  });
  it('leaves the dial alone where the difference is less than can be read', () => {
    const { unit, findings } = unitAt(`${STORE}altitude: 600 ft\n`);
    expect(psig(unit.pressure.dial?.cut_in.set_here)).toBe(46);
    expect(findings.map((x) => x.code)).not.toContain('dial-for-altitude');
  });
  it('leaves a sealed reference where it is', () => {
    const { unit, findings } = unitAt(denver, TABLE.replace('reference: atmosphere', 'reference: sealed'));
    expect(psig(unit.pressure.dial?.cut_in.set_here)).toBeCloseTo(46, 6);
    expect(findings.map((x) => x.code)).not.toContain('dial-for-altitude');
  });
});

describe('a control with a scale for the difference', () => {
  const byDifference = TABLE.replace('dial: cut-in-and-cut-out', 'dial: cut-in-and-difference');
  // Its cut-out follows: cut-in less difference. Both ends rise by what the air weighs less (see above), so the difference stays.
  it('is given the cut-in of this height and the difference of the maker', () => {
    const { unit, findings } = unitAt(denver, byDifference);
    const { dial } = unit.pressure;
    expect(dial?.by_difference.value.is).toBe(true);
    expect(fromSI('Δpsi', dial?.difference.value.si ?? NaN)).toBeCloseTo(18, 6);
    expect(fromSI('Δpsi', dial?.difference_here?.value.si ?? NaN)).toBeCloseTo(49 - 31, 6);
    const told = findings.find((x) => x.code === 'dial-for-altitude');
    expect(Object.keys(told?.data ?? {}).sort()).toEqual(['altitude', 'should_difference', 'should_in', 'store', 'unit']);
  });
});

describe('what stands on a scale for the difference', () => {
  const codes = (table: string, store = STORE) =>
    tryChain({ 'equipment/table.yaml': table, 'sites/street.yaml': store }).told.filter((told) => /difference/.test(told));
  const written = TABLE.replace('cut_out: 28 psig', 'cut_out: 18 psi').replace('cut-in-and-cut-out', 'cut-in-and-difference');
  // 46 psig less 18 psi is 28 psig.
  it('may be written as it stands there, and is taken from the cut-in', () => {
    expect(psig(unitAt(STORE, written).unit.pressure.dial?.cut_out.dial)).toBeCloseTo(28, 9);
    expect(codes(written)).toEqual([]);
  });
  it('is refused of a dial that has no such scale, and of a found control whose cut-in nobody read', () => {
    expect(codes(TABLE.replace('cut_out: 28 psig', 'cut_out: 18 psi'))).toEqual([
      expect.stringMatching(/^no-difference-scale equipment\/table\.yaml:8:/) as string,
    ]);
    const found = (pressure: string) => `${STORE}    found: { when: 2026-11-01, who: Somebody, pressure: { ${pressure} } }\n`;
    expect(codes(written, found('cut_out: 30 psi'))).toEqual([
      expect.stringMatching(/^found-difference-alone sites\/street\.yaml:11:/) as string,
    ]);
    const { unit } = unitAt(found('cut_in: 46 psig, cut_out: 30 psi'), written);
    expect(fromSI('psig', (unit.found?.pressure?.cut_out.value as Amount).si)).toBeCloseTo(16, 9);
  });
});

describe('condensing', () => {
  // Common practice, no source: a self-contained unit condenses 25 to 30 °F over its air, so 73 °F air gives 98 to 103 °F.
  it.each([25, 27, 30])('73 °F air and a split of %i °F', (split) => {
    const { unit } = unitAt(
      `${STORE}kitchen: { usual: 73 °F, hottest: 90 °F, humidity: 50 % }\n`,
      TABLE.replace('split: 27 °F', `split: ${split} °F`),
    );
    expect(f(unit.pressure.usual?.condensing)).toBeGreaterThanOrEqual(98 - 1e-6);
    expect(f(unit.pressure.usual?.condensing)).toBeLessThanOrEqual(103 + 1e-6);
  });
  // R-404A at 105 °F: bubble 254.2, dew 252.1 psig; CoolProp 8.0.0.
  it('78 °F air and 27 °F: head pressure of R-404A at 105 °F', () => {
    const { usual } = unitAt(`${STORE}kitchen: { usual: 78 °F, hottest: 90 °F, humidity: 50 % }\n`).unit.pressure;
    expect(psig(usual?.bubble)).toBeCloseTo(254.2, 0);
    expect(psig(usual?.dew)).toBeCloseTo(252.1, 0);
    expect(psig(usual?.mean)).toBeGreaterThan(psig(usual?.dew));
    expect(psig(usual?.mean)).toBeLessThan(psig(usual?.bubble));
  });
});

describe('pans', () => {
  // EN 631-1: GN 1/1 is 530 x 325 mm, 1/3 is 325 x 176 mm, 1/6 is 176 x 162 mm outside.
  it.each([
    ['gn-1-1', 530, 325],
    ['gn-1-3', 325, 176],
    ['gn-1-6', 176, 162],
  ] as const)('%s', (size, length, width) => {
    expect(PAN_SIZES[size].length * 1000).toBeCloseTo(length, 9);
    expect(PAN_SIZES[size].width * 1000).toBeCloseTo(width, 9);
  });
  const sixteen = TABLE.replace('count: 12', 'count: 16');
  // Common practice, no source: sixteen sixth-size pans in one layer take about 4.8 sq ft.
  it('sixteen sixths take about 4.8 sq ft', () => {
    expect(fromSI('sq ft', unitAt(STORE, sixteen).unit.room?.needs.value.si ?? NaN)).toBeCloseTo(4.8, 1);
  });
  // Common practice, no source: five minutes to wash hands and probe where the pans go, which nobody shares; then a minute to probe, cover and carry a pan,
  // and five to wipe the rail, shared by two people at most; in whole fives.
  it('sixteen take one person 26 minutes to move out at night and 16 to put back, two people 20 and 10, four no less', () => {
    const minutes = (crew: string) => {
      const { move } = unitAt(`${STORE}${crew}`, sixteen).unit;
      return [move?.one_person.empty, move?.one_person.load, move?.empty, move?.load].map((of) => (of?.value.si ?? 0) / 60);
    };
    expect(minutes('')).toEqual([26, 16, 30, 20]);
    expect(minutes('crew: { closers: 2, openers: 2 }\n')).toEqual([26, 16, 20, 10]);
    expect(minutes('crew: { closers: 4, openers: 4 }\n')).toEqual([26, 16, 20, 10]);
  });
});
