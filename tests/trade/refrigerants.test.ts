/**
 * What burns is of a class that says so: cautions for staff and technicians hang on it.
 * R-454C, R-455A and R-290: listed among flammable refrigerants by EPA SNAP Rule 26 (89 FR 50410, 13 June 2024). All classes: ASHRAE 34, from memory.
 */
import { expect, it } from 'vitest';
import { demoFiles, tryFiles } from '../support/chain.js';

const CLASSES: Readonly<Record<string, string>> = {
  'R-22': 'A1',
  'R-134a': 'A1',
  'R-290': 'A3',
  'R-404A': 'A1',
  'R-407A': 'A1',
  'R-407C': 'A1',
  'R-410A': 'A1',
  'R-448A': 'A1',
  'R-449A': 'A1',
  'R-452A': 'A1',
  'R-454C': 'A2L',
  'R-455A': 'A2L',
  'R-507A': 'A1',
  'R-513A': 'A1',
  'R-600a': 'A3',
  'R-744': 'A1',
};

it('each refrigerant that ships is of its class', () => {
  const { workshop } = tryFiles(demoFiles());
  const ships = [...(workshop?.shelf.refrigerants ?? [])].map(([name, { value }]) => [name, value.safety]);
  expect(Object.fromEntries(ships)).toEqual(CLASSES);
});
