/**
 * Mutated stores, profiles and chains from a fixed seed: whatever a file says, the answer is findings or a plan, never a crash, and each finding has a place.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planOf } from '../../src/fleet/store-papers.js';
import { locate } from '../../src/read/locate.js';
import { readShelf } from '../../src/read/shelf.js';
import { CHAIN, demoFiles, STORE, TABLE, tryChain } from '../support/chain.js';

const PIECES = [
  '',
  ' ',
  '\n',
  '\t',
  ':',
  '- ',
  '{',
  '}',
  '[',
  ']',
  '"',
  "'",
  '#',
  '|',
  '>',
  '&a ',
  '*a',
  '!!js/function x',
  '%',
  '@',
  '`',
  'null',
  '~',
  '-1',
  '0',
  '1e999',
  '.nan',
  '99999999999',
  '24:61',
  '°F',
  '-500 °F',
  'psi',
  '\u0000',
  '\u202e',
  '\ue000',
  '{{x}}',
  '../..',
  '__proto__',
  'constructor',
  'x'.repeat(300),
];

/** A text with a few of its stretches cut out, doubled or replaced. */
const mutated = (text: string) =>
  fc
    .array(fc.tuple(fc.nat(text.length), fc.nat(30), fc.constantFrom(...PIECES), fc.boolean()), { minLength: 1, maxLength: 4 })
    .map((cuts) =>
      cuts.reduce(
        (t, [at, length, piece, double]) =>
          t.slice(0, at) + piece + (double ? t.slice(at, at + length) : '') + t.slice(at + length * (double ? 0 : 1)),
        text,
      ),
    );

const seeded = { seed: 20261124, numRuns: 600 };
const bytes = (text: string) => new TextEncoder().encode(text);

describe('whatever a file says', () => {
  const { workshop } = tryChain();
  if (!workshop) throw new Error('not opened');

  it('a store', () => {
    fc.assert(
      fc.property(mutated(STORE), (text) => {
        const planned = planOf(workshop, 'sites/street.yaml', bytes(text));
        if (!planned.plan) expect(planned.findings.some((f) => f.severity === 'error')).toBe(true);
        for (const finding of planned.findings)
          if (finding.at.doc === 'sites/street.yaml') expect(locate(finding.at, planned.source)?.line).toBeGreaterThan(0);
      }),
      seeded,
    );
  });

  it('a profile or a chain', () => {
    const shipped = new Map([...demoFiles()].filter(([doc]) => doc.startsWith('equipment/tables/')));
    fc.assert(
      fc.property(mutated(TABLE), mutated(CHAIN), fc.boolean(), (table, chain, both) => {
        const files = new Map(shipped);
        files.set('equipment/table.yaml', bytes(table));
        files.set('nightrail.yaml', bytes(both ? chain : CHAIN));
        const read = readShelf(files);
        if (read.shelf) {
          const planned = planOf({ ...workshop, shelf: read.shelf }, 'sites/street.yaml', bytes(STORE));
          if (!planned.plan) expect([...read.findings, ...planned.findings].some((f) => f.severity === 'error')).toBe(true);
        } else expect(read.findings.some((f) => f.severity === 'error')).toBe(true);
      }),
      { ...seeded, numRuns: 300 },
    );
  });
});
