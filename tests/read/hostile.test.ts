/**
 * Files that were made to hurt: each is refused by a finding with a place, in little time, without the words of the program's own insides.
 */
import { describe, expect, it } from 'vitest';
import { place } from '../../src/base/place.js';
import { readSvg } from '../../src/fleet/logo/svg.js';
import { readCsv } from '../../src/read/csv.js';
import { readYaml } from '../../src/read/yaml.js';
import { TABLE } from '../support/chain.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const within = <T>(seconds: number, run: () => T): T => {
  const from = performance.now();
  const value = run();
  expect(performance.now() - from).toBeLessThan(seconds * 1000);
  return value;
};

describe('a file', () => {
  it.each([
    ['flow lists', `notes: ${'['.repeat(9_900)}${']'.repeat(9_900)}\n`],
    ['lists on one line', `notes:\n  ${'- '.repeat(9_900)}x\n`],
    ['lists that the parser still reads', `notes: ${'['.repeat(500)}${']'.repeat(500)}\n`],
  ])('that nests too deep: %s', (_, text) => {
    const { value, findings } = within(20, () => readYaml('equipment/table.yaml', bytes(text + TABLE)));
    expect(value).toBeUndefined();
    expect(findings.find((f) => f.code === 'yaml-too-deep')?.at.line).toBeGreaterThan(0);
    expect(JSON.stringify(findings)).not.toContain('call stack');
  });

  it('with a line of a hundred thousand signs is refused before anything looks through it', () => {
    const { value, findings } = within(20, () =>
      readYaml('equipment/table.yaml', bytes(`name: x\nnotes: ${'['.repeat(100_000)}\n`)),
    );
    expect([value, findings.map((f) => [f.code, f.at.line])]).toEqual([undefined, [['line-too-long', 2]]]);
  });

  it('with a sheet of a hundred thousand columns', () => {
    const header = ['id', ...Array.from({ length: 100_000 }, (_, i) => `c${i}`)].join(',');
    const { csv, findings } = within(20, () => readCsv('sites/many.csv', bytes(`${header}\nx,1\n`)));
    expect([csv, findings.map((f) => f.code)]).toEqual([undefined, ['csv-too-many-columns']]);
  });
});

describe('a logo', () => {
  const svg = (inside: string) =>
    within(20, () => readSvg(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">${inside}</svg>`, place('logo.svg')));
  const RECT = '<rect width="9" height="9"/>';
  it.each([
    ['groups in groups', `${'<g>'.repeat(50_000)}${RECT}${'</g>'.repeat(50_000)}`, 'logo-nested'],
    ['strange tags in strange tags', `${'<x:g xmlns:x="urn:x">'.repeat(5000)}${'</x:g>'.repeat(5000)}`, 'logo-nested'],
    ['a size beyond numbers', `<g transform="scale(1e300)"><g transform="scale(1e300)">${RECT}</g></g>`, 'logo-not-plain'],
    ['a script', `<script>x()</script>${RECT}`, 'logo-active'],
    ['a picture of elsewhere', `<image href="file:///x"/>${RECT}`, 'logo-active'],
  ])('with %s', (_, inside, code) => {
    const { logo, findings } = svg(inside);
    expect(logo).toBeUndefined();
    expect(findings.find((f) => f.code === code)?.at.line).toBeGreaterThan(0);
  });
});
