/**
 * What a chain wrote for a page and no page prints is told: a template of a wrong name, place or ending, and sentences that nothing asks for.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openWorkshop } from '../../src/fleet/workshop.js';
import { unreadTemplates } from '../../src/fleet/unread-templates.js';
import { unsaid } from '../../src/fleet/unsaid.js';
import { readFiles } from '../../src/host/disk.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { CHAIN, shippedFiles, STORE, TABLE, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';

/** A chain beside what ships, as everybody has it. */
const chain = (own: Readonly<Record<string, string>>) => {
  const files = new Map([...shippedFiles()].map(([doc, bytes]) => [`${SHIPPED}${doc}`, bytes]));
  const all = {
    'nightrail.yaml': CHAIN.replace('[en]', '[en, es]'),
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
    ...own,
  };
  for (const [doc, text] of Object.entries(all)) files.set(doc, new TextEncoder().encode(text));
  return files;
};
const OWN = 'templates/partials/handout-own.md.hbs';
const SAID = { 'words/en/ours.yaml': 'close: Nobody closes alone.\n', 'words/es/ours.yaml': 'close: Nadie cierra a solas.\n' };

describe('a template that nobody reads', () => {
  it.each([
    ['templates/handout-own.md.hbs', OWN],
    ['templates/partials/handout-own.md', OWN],
    ['templates/partials/handout-own.md.hbs.txt', OWN],
    ['templates/partials/Handout-Own.md.hbs', OWN],
    ['templates/partials/handout_own.md.hbs', OWN],
    ['templates/Handout/page.md.hbs', 'templates/handout/page.md.hbs'],
    ['templates/handout/page.md', 'templates/handout/page.md.hbs'],
    ['templates/partials/own.md.hbs', undefined],
  ])('%s is told, with the one that may be meant', (doc, nearest) => {
    const told = unreadTemplates(chain({ [doc]: 'x' }));
    expect(told).toMatchObject([{ code: 'template-unread', severity: 'warning', at: { doc } }]);
    expect(told[0]?.data['nearest']).toBe(nearest);
    if (nearest === undefined) expect(told[0]?.data['names']).toContain(OWN);
  });

  it('is none among those that ship or that a page calls', () => {
    expect(unreadTemplates(chain({}))).toEqual([]);
    expect(unreadTemplates(shippedFiles())).toEqual([]);
    const called = { [OWN]: '{{> mine}}', 'templates/partials/mine.md.hbs': 'x', 'templates/rules/page.md.hbs': 'x' };
    expect(unreadTemplates(chain(called))).toEqual([]);
  });

  it('is found on the disk whatever its ending', () => {
    const folder = mkdtempSync(join(tmpdir(), 'templates-'));
    mkdirSync(join(folder, 'templates/partials'), { recursive: true });
    writeFileSync(join(folder, 'templates/partials/handout-own.md.hbs.txt'), 'x');
    writeFileSync(join(folder, 'templates/partials/photo.png'), 'x');
    expect(unreadTemplates(readFiles(folder, SHIPPED)).map(({ at }) => at.doc)).toEqual([
      'templates/partials/handout-own.md.hbs.txt',
    ]);
    rmSync(folder, { recursive: true });
  });
});

describe('sentences of a chain of its own', () => {
  const codes = (own: Readonly<Record<string, string>>) =>
    openWorkshop(chain(own))
      .findings.filter((f) => f.severity !== 'note')
      .map((f) => `${f.code} ${f.at.doc}`);

  it('are told where nothing prints them, also when every language has them', () => {
    expect(codes(SAID)).toEqual(['words-unknown-file words/en/ours.yaml', 'words-unknown-file words/es/ours.yaml']);
    expect(codes({ ...SAID, [OWN]: '{{t "ours.close"}}\n' })).toEqual([]);
  });

  it.each([
    ['one brace', '{t "ours.close"}', 'template-brace'],
    ['one brace too few', '{{t "ours.close"}', 'template-brace'],
    ['quotes of a word processor', '{{t \u201cours.close\u201d}}', 'template-quotes'],
  ])('are told where they are asked for with %s', (_, wrote, code) => {
    expect(codes({ ...SAID, [OWN]: `Hello\n${wrote}\n` })).toContain(`${code} ${OWN}`);
  });

  it('are missed by a check already, in English too, and by a page at the partial’s own line', () => {
    const own = { 'words/es/ours.yaml': SAID['words/es/ours.yaml'], [OWN]: 'Hello\n\n{{t "ours.close"}}\n' };
    const { workshop, stores, told } = tryFiles(chain(own));
    expect(told.filter((one) => one.startsWith('words-'))).toEqual(['words-missing words/en/ours.yaml']);
    if (!workshop) throw new Error('not opened');
    const handout = pagesOf(workshop, stores).find(({ paper, lang }) => paper.id === 'handout' && lang === 'en');
    expect(handout?.findings).toMatchObject([{ code: 'template-no-words', at: { doc: OWN, line: 3 } }]);
  });

  it('are missed by a check at the template that asks for one that no language has, with the one that may be meant', () => {
    const missed = (text: string) => {
      const files = chain({ ...SAID, [OWN]: text });
      const { workshop } = openWorkshop(files);
      if (!workshop) throw new Error('not opened');
      return unsaid(files, workshop);
    };
    const asks = '{{! {{t "ours.no"}} }}\n{{t "ours.close"}} {{t "ours.closes" a=unit.limit}}\n';
    expect(missed(asks)).toMatchObject([
      {
        code: 'template-no-words',
        severity: 'error',
        at: { doc: OWN, line: 2, column: 24 },
        data: { code: 'ours.closes', file: 'words/en/ours.yaml', nearest: 'ours.close' },
      },
    ]);
    expect(missed('{{t "theirs.filters"}}')[0]?.data['nearest']).toBeUndefined();
  });
});
