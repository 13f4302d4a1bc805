/**
 * Questions of a chain's own, and the one limit that a class is taught.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { textOf } from '../../src/base/run.js';
import { walk } from '../../src/compose/block.js';
import { untranslated } from '../../src/fleet/untranslated.js';
import { CHAIN, serious, STORE, TABLE, tryChain } from '../support/chain.js';
import { cautionsOn, pagesOf, runsIn } from '../support/pages.js';

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
      /One limit: 41\s°F\. Food over it: set it apart, marked DO NOT USE, write it down.*39\s°F or colder.*tell the manager, and probe again with another probe.*Over 41\s°F then: set it apart too/,
    ],
    [
      'es',
      /Un solo límite: 41\s°F\. Lo que marca más: apártelo, marcado NO USAR, anótelo.*39\s°F o menos.*avise al gerente y mida otra vez con otro termómetro.*Más de 41\s°F\? Apártelo también/,
    ],
  ] as const)
    expect(text('handout', lang)).toMatch(words);
});

it('gives food over the limit one order, and names the rule that the manager then goes by', () => {
  const papers = 'papers: [handout, kit-keys, kit-manager, trouble, kit-questions]';
  const law = (name: string) => {
    const tried = tryChain({
      'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, papers).replace('[en]', '[en, es, fr]'),
      'sites/street.yaml': `${STORE}law: ${name}\n`,
    });
    if (!tried.workshop) throw new Error(tried.told.join());
    return pagesOf(tried.workshop, tried.stores).map(({ paper, lang, page }) => ({
      id: paper.id,
      lang,
      text: textOf(runsIn(page?.body ?? [])).replaceAll('\u00a0', ' '),
    }));
  };
  const none = {
    en: /no time over the limit is allowed/,
    es: /ningún tiempo sobre el límite/,
    fr: /aucun temps au-dessus de la limite/,
  };
  const mark = { en: /DO NOT USE/, es: /NO USAR/, fr: /NE PAS UTILISER/ };
  for (const { id, lang, text } of law('us-food-code-2022')) {
    if (id === 'kit-questions') continue;
    expect(text, `${id} ${lang}`).toMatch(mark[lang as keyof typeof mark]);
    expect(text, `${id} ${lang}`).toMatch(none[lang as keyof typeof none]);
  }
});

it('has two lines for each answer and a place for how many were right, however many questions there are', () => {
  const six = `  - { ask: { en: 'A?', es: '¿A?' }, answer: { en: B., es: B. } }\n`.repeat(6);
  const tried = tryChain(chain(`questions:\n${six}`));
  if (!tried.workshop) throw new Error(tried.told.join());
  const page = pagesOf(tried.workshop, tried.stores).find((p) => p.paper.id === 'kit-questions' && p.lang === 'en')?.page;
  expect(page?.length).toBe('flow');
  const blanks = [...walk(page?.body ?? [])].filter((b) => b.block === 'blank');
  expect(blanks.length).toBeGreaterThan(0);
  expect(blanks.every(({ lines }) => lines === 2)).toBe(true);
  expect(textOf(runsIn(page?.body ?? []))).toContain('Right');
});

it('teaches a hiss wherever it teaches the unit: everyone out first, then from outside', () => {
  const tried = tryChain({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [handout, kit-lesson, kit-slides]').replace('[en]', '[en, es, fr]'),
  });
  if (!tried.workshop) throw new Error(tried.told.join());
  for (const { paper, lang, page } of pagesOf(tried.workshop, tried.stores)) {
    expect(cautionsOn(page?.body ?? []), `${paper.id} ${lang}`).toContain('gas-leak');
    const text = textOf(runsIn(page?.body ?? []));
    expect(text, `${paper.id} ${lang}`).toMatch({ en: /All out/, es: /Salgan todos/, fr: /Tous dehors/ }[lang as 'en']);
    // Nobody looks for the manager while gas hisses.
    expect(text, `${paper.id} ${lang}`).not.toMatch(
      /let the gas out\. Tell the manager|el gas se sale\. Avise|sortir le gaz\. Prévenez/,
    );
  }
});

it('says how often something is cleaned as people say it', () => {
  const tasks = ['gaskets, every: 1 day', 'rail-and-board, every: 2 weeks', 'inside, every: 1 month'];
  const cleaning = tasks.map((task) => `  - { task: ${task}, by: staff }\n`).join('');
  const tried = tryChain({ ...chain(''), 'equipment/table.yaml': `${TABLE}cleaning:\n${cleaning}` });
  if (!tried.workshop) throw new Error(tried.told.join());
  const page = pagesOf(tried.workshop, tried.stores).find((p) => p.paper.id === 'handout' && p.lang === 'en')?.page;
  const text = textOf(runsIn(page?.body ?? [])).replaceAll('\u00a0', ' ');
  expect(text).toMatch(/Every day:.*Every 2 weeks\s*:.*wash, rinse and sanitize the board.*Every month:/s);
});
