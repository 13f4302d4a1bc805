/**
 * Food law: each limit of our tables against the figure and the section that the source named beside it gives.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { fromSI } from '../../src/base/amount.js';
import { lawSchema } from '../../src/model/law.js';

const law = (id: string) => lawSchema.parse(parse(readFileSync(`equipment/tables/law/${id}.yaml`, 'utf8')));

const COLD = [
  // FDA Food Code 2022, 3-501.16(A)(2): 5 °C (41 °F) or less. Read in the adoptions of Washington, Michigan and Georgia.
  ['us-food-code-2022', 5, 41, '3-501.16(A)(2)'],
  // Ontario Regulation 493/17, section 27: 4 °C or lower. From memory.
  ['canada-ontario', 4, 39, 'section 27'],
  // Australia New Zealand Food Standards Code, Standard 3.2.2: 5 °C or below. From memory.
  ['australia-new-zealand', 5, undefined, 'clauses 6 and 8'],
  // The Food Safety and Hygiene (England) Regulations 2013, Schedule 4: 8 °C or below. From memory.
  ['england', 8, undefined, 'Schedule 4 paragraph 2'],
] as const;

describe('cold holding', () => {
  it('has a row here for each law that ships', () => {
    const ship = readdirSync('equipment/tables/law').map((file) => file.replace(/\.yaml$/, ''));
    expect(COLD.map(([id]) => id).sort()).toEqual(ship.sort());
  });
  it.each(COLD)('%s: %i °C', (id, c, f, section) => {
    const { cold } = law(id);
    expect(fromSI('°C', cold.at_most.si)).toBeCloseTo(c, 9);
    expect(cold.at_most.printed['°C']).toBe(c);
    expect(cold.at_most.printed['°F']).toBe(f);
    expect(cold.section).toBe(section);
    // Nobody has held any of these against the law's own text yet; whoever does sets it to true, with the text at hand.
    expect(cold.checked).toBe(false);
  });
});

describe('cooling', () => {
  // FDA Food Code 2022, 3-501.14(A): 57 °C to 21 °C within 2 h, to 5 °C within 6 h in all. Read in the adoptions of Delaware, Minnesota and Tennessee.
  it('United States', () => {
    expect(law('us-food-code-2022').cooling).toMatchObject({
      from: { f: 135, c: 57 },
      through: { f: 70, c: 21, hours: 2 },
      to: { f: 41, c: 5, hours: 6 },
      section: '3-501.14(A)',
    });
  });
});
