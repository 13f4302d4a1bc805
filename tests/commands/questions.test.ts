/**
 * The questions of an interview: their order, their examples, and what an answer may look like.
 */
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { dateOf } from '../../src/commands/new/date.js';
import { equipmentQuestions } from '../../src/commands/new/equipment.js';
import { nameOf, read, type Question } from '../../src/commands/new/question.js';
import { storeQuestions } from '../../src/commands/new/store.js';
import { profileSchema } from '../../src/model/profile.js';
import { storeSchema } from '../../src/model/store.js';
import { TABLE } from '../support/chain.js';

const draft: unknown = parse(TABLE);
const ofUnit = equipmentQuestions(draft, { refrigerants: ['R-404A'], sensors: [] });
const ofStore = storeQuestions({}, { name: 'Larch', timezone: 'America/Denver', hours: 'Mo-Su 07:00-22:00' }, {});
const named = (all: readonly Question[], name: string): Question => {
  const found = all.find(({ path }) => nameOf(path) === name);
  if (!found) throw new Error(`nobody asks for ${name}`);
  return found;
};

it('go zone by zone, after the machine and its controls', () => {
  const places = ofUnit.map(({ path }) => (path[0] === 'zones' ? String(path[1]) : 'machine'));
  expect(places.filter((place, i) => place !== places[i - 1])).toEqual(['machine', 'rail', 'base']);
});

it('show the air of a rail without a fan as such a rail has it, and of a box as a box has it', () => {
  expect(named(ofUnit, 'zones.rail.air').example).toBe('16 to 20 °F');
  expect(named(ofUnit, 'zones.base.air').example).toBe('33 to 37 °F');
});

it.each([
  ['115 V', 115],
  ['115', 115],
  ['208VAC', 208],
])('take %s for volts', (wrote, volts) => {
  expect(read(named(ofUnit, 'nameplate.volts'), wrote, draft, profileSchema)).toMatchObject({ ok: true, as: volts });
});

it('take what stands on a scale for the difference, and refuse it of a dial that has none', () => {
  const question = named(ofUnit, 'control.pressure.cut_out');
  const byDifference: unknown = parse(TABLE.replace('cut-in-and-cut-out', 'cut-in-and-difference'));
  expect(read(question, '20 psi', byDifference, profileSchema)).toMatchObject({ ok: true, as: '20 psi' });
  expect(read(question, '20 psi', draft, profileSchema)).toMatchObject({
    ok: false,
    findings: [{ code: 'no-difference-scale' }],
  });
});

it('refuse a word for volts, with the question’s own example', () => {
  const answer = read(named(ofUnit, 'nameplate.volts'), 'mains', draft, profileSchema);
  expect(answer).toMatchObject({ ok: false, findings: [{ code: 'wrong-type', data: { forms: ['115'] } }] });
});

it('refuse what is no time zone where it is asked', () => {
  const zone = named(ofStore, 'timezone');
  expect(read(zone, 'Mountain', {}, storeSchema)).toMatchObject({ ok: false, findings: [{ code: 'bad-zone' }] });
  expect(read(zone, 'America/Denver', {}, storeSchema)).toMatchObject({ ok: true });
});

it('ask for the sheet of the posters and the way of writing times', () => {
  expect(ofStore.map(({ path }) => nameOf(path))).toEqual(expect.arrayContaining(['sheet', 'clock_shows']));
});

it.each([
  ['2026-11-24', '2026-11-24'],
  [' Today', '2026-11-26'],
  ['11/24/2026', '2026-11-24'],
  ['24.11.2026', '2026-11-24'],
  ['7/7/2026', '2026-07-07'],
  ['11/12/2026', undefined],
  ['13/13/2026', undefined],
  ['2026-02-30', undefined],
  ['soon', undefined],
])('read the date %s as %s, and none that may be two', (wrote, iso) => {
  expect(dateOf(wrote, '2026-11-26')).toBe(iso);
});
