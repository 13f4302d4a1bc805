/**
 * Every code of a finding that the program may tell has its sentence: one without would be told as its bare name and data.
 */
import { expect, it } from 'vitest';
import { demoFiles, tryFiles } from '../support/chain.js';
import { sources } from '../support/sources.js';

/** Codes written out where a finding is made; those of hours by the fault that they tell. */
const TOLD = /\b(?:error|warning|note|tell|refuse)\(\s*'([a-z0-9-]+)'|\bfinding: '([a-z0-9-]+)'/g;
const FAULT = /\bnew Fault\(\s*'([a-z-]+)'/g;

it('the code of a finding has a sentence', () => {
  const codes = new Set(
    [...sources().values()].flatMap((text) => [
      ...[...text.matchAll(TOLD)].map(([, made, refused]) => made ?? refused ?? ''),
      ...[...text.matchAll(FAULT)].map(([, fault]) => `hours-${fault ?? ''}`),
    ]),
  );
  expect(codes.size).toBeGreaterThan(280);
  const english = tryFiles(demoFiles()).workshop?.words.get('en');
  expect([...codes].filter((code) => english?.get(`findings.${code}.says`) === undefined)).toEqual([]);
});
