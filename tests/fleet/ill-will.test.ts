/**
 * Files of somebody who means ill, or of a damaged disk: no caution is lost, nothing is written elsewhere, nothing hangs, and each refusal has a place.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LEDGER, ledgerFrom } from '../../src/fleet/ledger.js';
import { openSink } from '../../src/host/sink.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { CHAIN, shippedFiles, STORE, TABLE, tryChain, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';
import { hash, memoryFolder, smallBuild, threeStores } from './small-build.js';

/** A chain's own file beside the one that ships. */
const beside = (doc: string, change: (text: string) => string): string => {
  const files = new Map([...shippedFiles()].map(([name, bytes]) => [SHIPPED + name, bytes]));
  const text = new TextDecoder().decode(files.get(SHIPPED + doc));
  const own = { 'nightrail.yaml': POSTER, 'equipment/table.yaml': TABLE, 'sites/street.yaml': STORE, [doc]: change(text) };
  for (const [name, content] of Object.entries(own)) files.set(name, new TextEncoder().encode(content));
  return tryFiles(files).told.join();
};

const POSTER = CHAIN.replace(/^papers: .*$/m, 'papers: [poster]');
const told = (own: Readonly<Record<string, string>>) => tryChain({ 'nightrail.yaml': POSTER, ...own }).told;

const onPages = (own: Readonly<Record<string, string>>) => {
  const { workshop, stores } = tryChain({ 'nightrail.yaml': POSTER, ...own });
  if (!workshop) throw new Error('no workshop');
  return pagesOf(workshop, stores).flatMap((made) => made.findings);
};

describe('no caution is lost', () => {
  it('by a place that may be left out', () => {
    const findings = onPages({
      'templates/poster/page.md.hbs': '{{> headline}}\n\n::: optional 3\n```cautions\n```\n:::\n',
    });
    expect(findings.map((f) => [f.severity, f.code, f.data['wrote']])).toContainEqual([
      'error',
      'template-optional-safety',
      'cautions',
    ]);
  });
  it.each([
    ['at_unit: true', 'at_unit: false'],
    ['reader: staff', 'reader: technician'],
  ])('by a paper.yaml of a name that ships: %s', (is, other) => {
    const doc = 'templates/poster/paper.yaml';
    expect(beside(doc, (text) => text.replace(is, other))).toContain(`paper-drops-cautions ${doc}`);
    expect(beside(doc, (text) => text)).not.toContain('paper-drops-cautions');
  });
});

it('a template that Handlebars refuses is told at its file, and ends no build', () => {
  const findings = onPages({
    'nightrail.yaml': POSTER,
    'templates/poster/page.md.hbs': '{{#if unit unit}}x{{/if}}\n',
  });
  expect(findings.map((f) => [f.code, f.at.doc])).toContainEqual(['template-failed', 'templates/poster/page.md.hbs']);
});

it.each([
  [
    'a line break in a name',
    { 'sites/street.yaml': STORE.replace('name: Test Street', 'name: "A\\nBEGIN:VEVENT"') },
    'name-line-break sites/street.yaml:1',
  ],
  [
    'a date in no year of ours',
    { 'sites/street.yaml': `${STORE}exceptions: [{ date: 9999-12-31, hours: off, why: End }]\n` },
    'bad-date sites/street.yaml',
  ],
])('%s is refused at its place', (_, own, finding) => {
  expect(told(own as Readonly<Record<string, string>>).join()).toContain(finding);
});

describe('what is too long is refused at once', () => {
  it('a line', () => {
    expect(told({ 'equipment/table.yaml': `${TABLE}notes: ["${'x'.repeat(30_000)}"]\n` }).join()).toMatch(
      /line-too-long equipment\/table\.yaml:\d+/,
    );
  });
  it('an amount', () => {
    const digits = '1'.repeat(10_000);
    expect(told({ 'equipment/table.yaml': TABLE.replace('least: 5 h', `least: "${digits}"`) }).join()).toMatch(
      /amount-\S+ equipment\/table\.yaml:\d+/,
    );
  });
});

it('a thermostat that starts over the law’s limit is told', () => {
  expect(told({ 'equipment/table.yaml': TABLE.replace('cut_in: 37 °F', 'cut_in: 60 °F') }).join()).toContain(
    'control-starts-over-limit equipment/table.yaml',
  );
  expect(told({}).join()).not.toContain('control-starts-over-limit');
});

it('a ledger with a damaged end is none', async () => {
  const files = new Map<string, Uint8Array>();
  await smallBuild(threeStores(), memoryFolder(files).out);
  const bytes = files.get(LEDGER) as Uint8Array;
  expect(ledgerFrom(bytes, hash)).toBeDefined();
  const text = new TextDecoder().decode(bytes);
  const last = text.lastIndexOf('\n', text.length - 2) + 1;
  expect(ledgerFrom(new TextEncoder().encode(`${text.slice(0, last)}{"end":garbage\n`), hash)).toBeUndefined();
});

it('a file of the press lies in its folder', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightrail-sink-'));
  expect(() => openSink(join(folder, 'press'), '../../evil.pdf')).toThrow(/no name of a file/);
  rmSync(folder, { recursive: true });
});
