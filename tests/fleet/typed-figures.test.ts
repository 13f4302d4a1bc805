/**
 * A time or a temperature that a chain types where nothing computes it is told, and what the finding says to write instead works.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { typedInTemplates } from '../../src/fleet/typed-figures.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { CHAIN, serious, shippedFiles, STORE, TABLE, tryChain, tryFiles, type Tried } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

const papers = (some: string): string => CHAIN.replace(/^papers: .*$/m, `papers: [${some}]`).replace('[en]', '[en, es]');
const figures = ({ findings, told }: Tried) =>
  findings.flatMap((f, i) =>
    f.code === 'figure-typed' ? [`${f.severity} ${told[i]?.split(' ')[1]} ${f.data['figure'] as string}`] : [],
  );
const only = ({ findings }: Tried) => findings.filter(({ code }) => code === 'figure-typed');

const pages = (tried: Tried): ReadonlyMap<string, string> => {
  if (!tried.workshop) throw new Error(tried.told.join());
  const made = pagesOf(tried.workshop, tried.stores);
  expect(made.flatMap(({ findings }) => findings).filter(({ severity }) => severity === 'error')).toEqual([]);
  return new Map(made.map(({ paper, lang, page }) => [`${paper.id} ${lang}`, textOf(runsIn(page?.body ?? []))]));
};

const HANDOUT = 'templates/partials/handout-own.md.hbs';
const WEEK = 'templates/partials/week-own.md.hbs';

describe('typed straight into a template', () => {
  it('is told at its line and column, a figure at a time', () => {
    const text = 'Llame al 911.\n\nVacíe arriba antes de las 11:30 pm; 45 °F está bien.\n';
    const tried = tryChain({ 'nightrail.yaml': papers('handout'), [HANDOUT]: text });
    expect(figures(tried)).toEqual([`warning ${HANDOUT}:3:27 11:30 pm`, `warning ${HANDOUT}:3:37 45 °F`]);
  });

  it('is none within tags, comments, fences and directives, nor in what ships', () => {
    const text =
      '{{!-- 11:30 }} --}}{{! 45 °F }}\n::: columns 11:30\n:::\n```form 2\n11:30 pm\n```\n11{{x}}:30 {{t "a.b" c="45 °F"}}\n';
    expect(typedInTemplates(new Map([[HANDOUT, new TextEncoder().encode(text)]]))).toEqual([]);
    expect(typedInTemplates(shippedFiles())).toEqual([]);
  });

  it('is said by the plan as the finding shows, on a page of a unit and on one of the store', () => {
    const typed = only(tryChain({ 'nightrail.yaml': papers('handout, week'), [HANDOUT]: '11:30 pm\n\n45 °F\n' }));
    const write = (key: string): string => typed.map(({ data }) => data[key] as string).join('\n\n');
    const tried = tryChain({ 'nightrail.yaml': papers('handout, week'), [HANDOUT]: write('of_unit'), [WEEK]: write('of_store') });
    expect(only(tried)).toEqual([]);
    const said = pages(tried);
    for (const lang of ['en', 'es']) {
      expect(said.get(`handout ${lang}`)).toMatch(/22:00\s*41\s°F/);
      expect(said.get(`week ${lang}`)).toMatch(/Line 1: .*22:00\s*41\s°F/);
    }
  });
});

describe('typed into a question of a chain’s own', () => {
  const asked = (es: string): Tried =>
    tryChain({
      'nightrail.yaml': `${papers('handout')}questions:\n  - ask: { en: By when?, es: ¿Para cuándo? }\n    answer: { en: By the time on the poster., es: "${es}" }\n`,
    });

  it('is told at its text, in its language', () => {
    const tried = asked('Antes de las 11:30 pm y a 45 °F o menos.');
    expect(figures(tried)).toEqual(['warning nightrail.yaml:12:51 11:30 pm', 'warning nightrail.yaml:12:51 45 °F']);
    expect(only(tried).map(({ data }) => [data['value'], data['question'], data['lang']])).toEqual([
      ['{empty_by}, {off}', 'when-empty', 'es'],
      ['{limit}', 'warm-pan', 'es'],
    ]);
    expect(figures(asked('Llame al 911, entre 2 personas.'))).toEqual([]);
  });

  it('is said by the plan in one that ships, written anew as the finding shows', () => {
    const typed = only(asked('Antes de las 11:30 pm y a 45 °F o menos.'));
    const anew = typed.map(
      ({ data }) => `  ${data['question'] as string}:\n    ask: ¿Y ahora?\n    answer: "Así: ${data['value'] as string}."\n`,
    );
    const lesson = `questions:\n${anew.join('')}`;
    const beside = new Map([...shippedFiles()].map(([doc, bytes]) => [SHIPPED + doc, bytes]));
    const own = {
      'nightrail.yaml': papers('handout'),
      'equipment/table.yaml': TABLE,
      'sites/street.yaml': STORE,
      'words/es/lesson.yaml': lesson,
    };
    for (const [doc, text] of Object.entries(own)) beside.set(doc, new TextEncoder().encode(text));
    const tried = tryFiles(beside);
    // The sentence that ships names the law's rule too; that this one leaves it out is told.
    expect(serious(tried).filter((one) => !/^(text-untranslated|question-in-one|words-lost-value)/.test(one))).toEqual([]);
    expect(pages(tried).get('handout es')).toMatch(/Así: 22:00, 22:15\..*Así: 41\s°F\./);
  });
});
