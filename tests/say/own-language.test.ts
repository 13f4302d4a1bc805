/**
 * A language that a chain wrote itself: nobody else has read what it tells people to do, so its pages are drafts until the chain says that they were read.
 */
import { expect, it } from 'vitest';
import { SHIPPED } from '../../src/read/reader.js';
import { CHAIN, shippedFiles, STORE, TABLE, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';

const APPROVED = 'approved: { by: A. Reader, from: 2026-11-16 }';

const tried = (approved: string) => {
  const ships = [...shippedFiles()];
  const files = new Map(ships.map(([doc, bytes]) => [SHIPPED + doc, bytes]));
  // All of Spanish, as the chain's own Portuguese.
  for (const [doc, bytes] of ships) {
    const name = /^words\/es\/(.*)$/.exec(doc)?.[1];
    const text = new TextDecoder().decode(bytes).replace(/^locale: .*$/m, 'locale: pt-BR');
    if (name !== undefined) files.set(`words/pt/${name}`, new TextEncoder().encode(text));
  }
  const own = {
    'nightrail.yaml': `${CHAIN.replace(/^papers: .*$/m, 'papers: [poster]')
      .replace('[en]', '[en, pt]')
      .replace(/^approved: .*\n/m, '')}${approved}\n`,
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
  };
  for (const [doc, text] of Object.entries(own)) files.set(doc, new TextEncoder().encode(text));
  const { workshop, stores, findings } = tryFiles(files);
  if (!workshop) throw new Error('no workshop');
  const drafts = pagesOf(workshop, stores).map(({ lang, page }) => [lang, page?.words.draft !== undefined]);
  return {
    drafts: Object.fromEntries(drafts) as unknown,
    told: findings.filter(({ code }) => code === 'language-own').map(({ data }) => data['lang']),
  };
};

it.each([
  ['', { en: true, pt: true }, ['pt']],
  [APPROVED, { en: false, pt: true }, ['pt']],
  [APPROVED.replace(' }', ', languages: [en, pt] }'), { en: false, pt: false }, []],
  [APPROVED.replace(' }', ', languages: [pt] }'), { en: false, pt: false }, []],
])('is a draft until it is approved by name: %j', (approved, drafts, told) => {
  expect(tried(approved)).toEqual({ drafts, told });
});
