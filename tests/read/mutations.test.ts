/**
 * Mutated stores, profiles and chains from a fixed seed: whatever a file says, the answer is findings or a plan, never a crash, and each finding has a place.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planOf } from '../../src/fleet/store-papers.js';
import { locate } from '../../src/read/locate.js';
import { readShelf } from '../../src/read/shelf.js';
import type { Finding } from '../../src/base/finding.js';
import { place } from '../../src/base/place.js';
import { paperSchema } from '../../src/compose/paper.js';
import { makeTemplate } from '../../src/compose/template.js';
import { readSvg } from '../../src/fleet/logo/svg.js';
import { storeSources } from '../../src/read/stores.js';
import { readYaml } from '../../src/read/yaml.js';
import { gatherWords } from '../../src/say/gather-words.js';
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
    .map((cuts) => {
      tried++;
      return cuts.reduce(
        (t, [at, length, piece, double]) =>
          t.slice(0, at) + piece + (double ? t.slice(at, at + length) : '') + t.slice(at + length * (double ? 0 : 1)),
        text,
      );
    });

const seeded = { seed: 20261124, numRuns: 600 };
const bytes = (text: string) => new TextEncoder().encode(text);

/** Inputs tried, counted as each is made. */
let tried = 0;
const count = <T>(numRuns: number, property: fc.IProperty<T>): void => {
  fc.assert(property, { ...seeded, numRuns });
};

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

  /** Each finding says at least which file it is of, and has a code. */
  const placed = (findings: readonly Finding[]): void => {
    for (const { code, at } of findings) expect([code, at.doc]).not.toContain('');
  };

  it('a sheet of stores', () => {
    const sheet = `id,name,timezone,hours,unit,unit.profile\n${'larch,Larch,America/Chicago,"Mo-Su 07:00-22:00",line-1,table\n'.repeat(3)}`;
    count(
      2500,
      fc.property(mutated(sheet), (text) => placed(storeSources(new Map([['sites/a.csv', bytes(text)]])).findings)),
    );
  });

  it('a logo', () => {
    const logo = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><g transform="translate(1 2)"><rect width="40" height="20" rx="4" fill="#123a5a"/><path d="M1 2L3 4C1 2 3 4 5 6A1 2 0 0 1 3 4Z"/></g></svg>`;
    count(
      3500,
      fc.property(mutated(logo), (text) => {
        const read = readSvg(text, place('brand/logo.svg'));
        placed(read.findings);
        expect(read.logo !== undefined || read.findings.length > 0).toBe(true);
        expect(JSON.stringify(read.logo ?? null)).not.toMatch(/NaN|Infinity|<|script/);
      }),
    );
  });

  it('a word list', () => {
    const list = 'night: Night\nempty-by: Top empty by {time}\nnever:\n  warm: "**Never** put in warm food."\n';
    count(
      2000,
      fc.property(mutated(list), (text) => {
        const { value, findings } = readYaml('words/en/ours.yaml', bytes(text));
        placed(findings);
        if (value !== undefined) placed(gatherWords('en', [{ name: 'ours', doc: 'words/en/ours.yaml', value }]).findings);
        else expect(findings.some((f) => f.severity === 'error')).toBe(true);
      }),
    );
  });

  it('a paper: what it is for, and its page', () => {
    const spec = new TextDecoder().decode(demoFiles().get('templates/log/paper.yaml'));
    const page =
      '# {{t "log.name"}}\n\n{{#if unit}}{{> partials/call}}{{/if}}\n{{#each units}}- {{nickname}}\n{{/each}}\n{{#with store}}{{name}}{{/with}}\n';
    count(
      1500,
      fc.property(mutated(spec), mutated(page), (paper, text) => {
        const read = readYaml('templates/log/paper.yaml', bytes(paper));
        placed(read.findings);
        if (read.value !== undefined) paperSchema.safeParse(read.value);
        const made = makeTemplate({ doc: 'templates/log/page.md.hbs', text }, new Map());
        placed(made.findings);
        expect(made.template !== undefined || made.findings.length > 0).toBe(true);
      }),
    );
  });

  it('ten thousand in all', () => {
    expect(tried).toBeGreaterThanOrEqual(10_000);
  });
});
