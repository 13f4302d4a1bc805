/**
 * A fact that nobody knows takes the side that asks more of the crew, or is not printed as a setting; it never loosens a paper.
 */
import { describe, expect, it } from 'vitest';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const planOf = (table: string, store = STORE) => {
  const tried = tryChain({ 'equipment/table.yaml': table, 'sites/street.yaml': store });
  const { plan } = tried.stores.get('street') ?? {};
  const unit = plan?.units['line-1'];
  return { plan, unit, codes: tried.findings.map((f) => f.code), told: tried.told };
};

const REACHABLE = TABLE.replace('reachable: false', 'reachable: true');

describe('melt water', () => {
  it('is wiped up by hand until somebody knows that it drains by itself', () => {
    const late = STORE.replace('hours: Mo-Su 07:00', 'crew: { comes: 3 h before opening }\nhours: Mo-Su 10:00');
    const left = planOf(TABLE.replace(/\n.*drains: by-itself/, ''), late);
    expect(left.codes, left.told.join('\n')).toContain('safe-side-drains');
    expect(left.unit?.is.drains_by_hand.value.is).toBe(true);
    const open = planOf(`${TABLE}not_known: [zones.rail.drains]\n`, late);
    expect(open.codes).toContain('safe-side-drains');
    expect(open.unit?.is.drains_by_hand.value.is).toBe(true);
    const known = planOf(TABLE, late);
    expect(known.codes).not.toContain('safe-side-drains');
    expect(known.unit?.is.drains_by_hand.value.is).toBe(false);
  });
  it('is known, and no longer listed, where a store says it of its own unit', () => {
    const table = `${TABLE}not_known: [zones.rail.drains, maker.support]\n`;
    const looked = planOf(table, `${STORE}    differs: { zones: { rail: { drains: by-itself } } }\n`);
    expect(looked.codes, looked.told.join('\n')).not.toContain('safe-side-drains');
    expect([planOf(table).unit?.not_known.length, looked.unit?.not_known.length]).toEqual([2, 1]);
  });
});

describe('a clock', () => {
  it('is left to a technician until somebody knows that it needs no tool', () => {
    const known = planOf(REACHABLE);
    expect(known.unit?.rest?.in_reach.value.is, known.told.join('\n')).toBe(true);
    const open = planOf(`${REACHABLE}not_known: [zones.rail.rest.clock.reachable]\n`);
    expect(open.unit?.rest?.in_reach.value.is).toBe(false);
    expect(open.codes).toContain('safe-side-reachable');
    const silent = planOf(`${TABLE.replace('reachable: false, ', '')}not_known: [zones.rail.rest.clock.reachable]\n`);
    expect(silent.unit?.rest?.in_reach.value.is, silent.told.join('\n')).toBe(false);
    expect(silent.codes).toContain('safe-side-reachable');
  });
});

describe('a pressure control of which nobody knows what its dial counts from', () => {
  const high = `${STORE}altitude: 5100 ft\n`;
  const table = `${TABLE}not_known: [control.pressure.reference]\n`;
  it('is told with both dials, none of them as the one to set', () => {
    const { unit, told } = planOf(table, high);
    expect(unit?.pressure.dial, told.join('\n')).toBeUndefined();
    const { cut_in: cutIn, cut_out: cutOut } = unit?.pressure.either ?? {};
    // A sealed dial reads as at sea level; a bellows has the local air behind it. ISO 2533: 101.325 kPa at sea level, 83.97 kPa at 5,100 ft (1,554 m).
    const psi = (si = NaN): number => si / 6894.757;
    expect(psi(cutIn?.sealed?.value.si)).toBeCloseTo(psi(cutIn?.dial.value.si), 1);
    expect(Math.abs(psi(cutIn?.bellows?.value.si) - psi(cutIn?.dial.value.si) - (101325 - 83970) / 6894.757)).toBeLessThan(0.6);
    expect(cutOut?.bellows?.value.si).toBeGreaterThan(cutOut?.dial.value.si ?? NaN);
  });
});

it('a figure that its plate does not show any more is told as not known, and the plan goes on', () => {
  const { unit, told } = planOf(`${TABLE.replace('amps: 8, ', '')}not_known: [nameplate.amps]\n`);
  expect(unit?.rest?.off, told.join('\n')).toBeDefined();
  expect(unit?.nameplate.amps).toMatchObject({ value: { code: 'card.no-amps' }, basis: { how: 'practice' } });
  expect(unit?.nameplate.volts.value).toMatchObject({ q: 'voltage' });
});

it('a fact that is listed as not known is marked as nobody’s, wherever it is printed', () => {
  const { unit } = planOf(`${TABLE}not_known: [condensing.feed]\n`);
  expect(unit?.condensing.feed.basis).toMatchObject({ confirmed: false });
  expect(unit?.not_confirmed).toBeDefined();
  // Nothing is printed of a fact that is not there, so nothing is marked.
  expect(planOf(`${TABLE}not_known: [condensing.superheat]\n`).unit?.not_confirmed).toBeUndefined();
  expect(planOf(TABLE).unit?.condensing.feed.basis).not.toMatchObject({ confirmed: false });
});

describe('how full the pans may be', () => {
  const without = TABLE.replace(', load_line: 1 in', '');
  const UNKNOWN = `${without}not_known: [zones.rail.pans.load_line]\n`;
  it('must be told or listed', () => {
    expect(tryChain({ 'equipment/table.yaml': without }).findings.map((f) => f.code)).toContain('missing-key');
  });
  it('is on the safe side where nobody knows: half of the pan', () => {
    const tried = tryChain({ 'equipment/table.yaml': UNKNOWN, 'sites/street.yaml': STORE });
    expect(tried.findings.map((f) => f.code)).toContain('safe-side-load_line');
    expect(tried.findings.filter((f) => f.severity === 'error')).toEqual([]);
    const line = (profile: string) =>
      tryChain({ 'equipment/table.yaml': profile, 'sites/street.yaml': STORE }).stores.get('street')?.plan?.units['line-1']?.rail
        ?.pans?.load_line.value.si;
    expect(line(UNKNOWN)).toBeCloseTo(0.0508, 9);
    expect(line(UNKNOWN.replace('depth: 4 in', 'depth: 6 in'))).toBeCloseTo(3 * 0.0254, 9);
    // What stands there all the same is no figure.
    expect(line(`${TABLE}not_known: [zones.rail.pans.load_line]\n`)).toBeCloseTo(0.0508, 9);
  });
});

it('no loading rule is known: listed, papers are made without; left out in silence, it is told', () => {
  const none = TABLE.replace(/^loading: .*\n/m, '');
  expect(tryChain({ 'equipment/table.yaml': none }).findings.map((f) => f.code)).toContain('missing-key');
  const { plan, unit, codes } = planOf(`${none}not_known: [loading]\n`);
  expect(codes).not.toContain('missing-key');
  expect(plan).toBeDefined();
  expect(unit?.loading).toEqual([]);
});

describe('room for the food at night', () => {
  it('that nobody has measured is told with what it takes, and papers are made', () => {
    const tried = tryChain({
      'equipment/table.yaml': TABLE,
      'sites/street.yaml': STORE.replace(', free_shelf: 6 sq ft, height: 6 in', ''),
    });
    const [told] = tried.findings.filter((f) => f.code === 'room-not-measured');
    expect(told).toMatchObject({ severity: 'warning', data: { unit: 'line-1', keys: ['free_shelf', 'height'] } });
    expect(tried.findings.filter((f) => f.severity === 'error')).toEqual([]);
    expect(tried.stores.get('street')?.plan?.units['line-1']?.rest?.empty_by).toBeDefined();
  });
  it('is still held against what was measured', () => {
    const low = tryChain({
      'equipment/table.yaml': TABLE,
      'sites/street.yaml': STORE.replace('free_shelf: 6 sq ft, height: 6 in', 'height: 3 in'),
    });
    expect(low.findings.map((f) => f.code)).toEqual(expect.arrayContaining(['room-not-measured', 'no-height-for-food']));
  });
});
