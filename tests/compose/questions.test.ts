/**
 * Questions of a chain's own, and the one limit that a class is taught.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { textOf } from '../../src/base/run.js';
import { untranslated } from '../../src/fleet/untranslated.js';
import { CHAIN, serious, STORE, tryChain } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

const PAPERS = ['handout', 'kit-questions', 'kit-keys'];
const chain = (questions: string): Readonly<Record<string, string>> => ({
  'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${PAPERS.join(', ')}]`).replace('[en]', '[en, es]') + questions,
});
const texts = (questions: string) => {
  const tried = tryChain(chain(questions));
  if (!tried.workshop) throw new Error(tried.told.join());
  const pages = pagesOf(tried.workshop, tried.stores);
  const text = (id: string, lang: string): string =>
    textOf(runsIn(pages.find((p) => p.paper.id === id && p.lang === lang)?.page?.body ?? []));
  return { tried, text };
};
const ONE = (of: string, es = ', es: ¿Dónde queda la hoja?'): string =>
  `questions:\n  - ask: { en: Where does the sheet go?${es} }\n    answer: { en: Into the box., es: En la caja. }\n${of}`;

describe('a question of a chain of its own', () => {
  it('is asked on every sheet, and answered in the keys, in each language', () => {
    const { text, tried } = texts(ONE('    of: rail\n'));
    expect(serious(tried)).toEqual([]);
    for (const id of ['handout', 'kit-questions']) {
      expect(text(id, 'en')).toContain('Where does the sheet go?');
      expect(text(id, 'es')).toContain('¿Dónde queda la hoja?');
    }
    expect(text('kit-keys', 'es')).toMatch(/¿Dónde queda la hoja\?\s*En la caja/);
  });

  it('is asked of no unit without its trait', () => {
    expect(texts(ONE('    of: frozen\n')).text('handout', 'en')).not.toContain('Where does the sheet go?');
  });

  it('wants an answer, told at the question, and is told once where a language lacks it', () => {
    const two = ONE('').replace('questions:', '') + '  - ask: And the key?\n';
    expect(serious(tryChain(chain(`questions:${two}`)))).toEqual(['missing-key nightrail.yaml:13:5']);
    const second = STORE.slice(STORE.indexOf('  line-1:')).replaceAll('ine-1', 'ine-2').replaceAll('ine 1', 'ine 2');
    const units = tryChain({ ...chain(ONE('', '')), 'sites/street.yaml': STORE + second });
    const plan = units.stores.get('street')?.plan;
    if (!plan) throw new Error('no plan');
    expect(Object.keys(plan.units)).toEqual(['line-1', 'line-2']);
    const told = untranslated(plan, ['es']).find(({ at }) => at.doc === 'nightrail.yaml');
    expect([told?.code, told?.data['what']]).toEqual(['text-untranslated', ['defaults.backup', 'question 1: ask']]);
  });
});

it.each([
  [`  - { ask: A?, answer: B. }\n`.repeat(7), 'too-many nightrail.yaml:11:3', { key: 'questions', has: 7, most: 6, over: 1 }],
  [`  - { ask: A?, answer: ${'b'.repeat(601)} }\n`, 'too-long nightrail.yaml:11:24', { has: 601, most: 600, over: 1 }],
])('says by how much it is too much', (questions, told, data) => {
  const tried = tryChain(chain(`questions:\n${questions}`));
  expect(serious(tried)).toEqual([told]);
  expect(tried.findings.find(({ severity }) => severity === 'error')?.data).toEqual(data);
});

it('lists every question that ships, as it asks', () => {
  const { questions } = parse(readFileSync('words/en/lesson.yaml', 'utf8')) as { questions: Record<string, { ask: string }> };
  const doc = readFileSync('docs/templates.md', 'utf8');
  const listed = [...doc.matchAll(/^\| `([a-z-]+)` +\| (.*?) +\|$/gm)].map(([, name, ask]) => [name, ask]);
  expect(listed).toEqual(Object.entries(questions).map(([name, { ask }]) => [name, ask]));
});

it('teaches one limit, and says what a reading between it and a good one asks for', () => {
  const { text } = texts('');
  for (const [lang, words] of [
    [
      'en',
      /One limit: 41\s°F\. .*39\s°F or colder.*tell the manager, and probe again with another probe.*Over 41\s°F then: stop/,
    ],
    [
      'es',
      /Un solo límite: 41\s°F\. .*39\s°F o menos.*avise al gerente y mida otra vez con otro termómetro.*Más de 41\s°F\? Pare/,
    ],
  ] as const)
    expect(text('handout', lang)).toMatch(words);
});
