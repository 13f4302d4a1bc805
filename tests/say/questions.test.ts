/**
 * A question and its answer stay together, in every language, and what must never be unlearned hangs on no question.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readWords } from '../../src/fleet/workshop.js';
import { locate } from '../../src/read/locate.js';
import { makeReader } from '../../src/read/reader.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { askedDifferently } from '../../src/say/questions.js';
import type { Words } from '../../src/say/words.js';
import { CHAIN, shippedFiles, tryChain } from '../support/chain.js';
import { cautionsOn, pagesOf } from '../support/pages.js';

/** A chain's own lesson.yaml over the one that ships. */
const over = (own: Readonly<Record<string, string>>) => {
  const shipped = [...shippedFiles()].filter(([doc]) => /^words\/(en|es)\//.test(doc));
  const files = new Map(shipped.map(([doc, bytes]) => [`${SHIPPED}${doc}`, bytes]));
  for (const [lang, text] of Object.entries(own)) files.set(`words/${lang}/lesson.yaml`, new TextEncoder().encode(text));
  const reader = makeReader(files);
  const { words } = readWords(reader);
  const told = reader.findings.map((f) => {
    const spot = locate(f.at, reader.sources.get(f.at.doc));
    return `${f.severity} ${f.code} ${f.at.doc}:${spot?.line}`;
  });
  return { told, findings: reader.findings, of: (lang: string) => words.get(lang) as Words };
};
const question = (name: string, parts: string): string => `questions:\n  ${name}:\n${parts}`;
const says = (words: Words, part: string) => words.get(`lesson.questions.ice.${part}`);
const [ASK, ANSWER] = ['    ask: Where does the sheet go?\n', '    answer: Into the box by the door.\n'];

describe('a question of a chain of its own', () => {
  it('does not stand with the answer to the old one', () => {
    const tried = over({ en: question('ice', ASK) });
    expect(tried.told).toEqual(['error question-without-answer words/en/lesson.yaml:3']);
    expect(tried.findings[0]?.data).toMatchObject({ name: 'ice', keys: ['answer'] });
    expect(says(tried.of('en'), 'ask')).toBe(says(over({}).of('en'), 'ask'));
  });

  it('wants every answer that may be printed', () => {
    expect(over({ en: question('what-stays-on', ASK + ANSWER) }).findings[0]?.data).toMatchObject({
      keys: ['answer-elsewhere', 'answer-all'],
      ships:
        'answer-elsewhere: "The bottom, and where the food of the top is: {destination}."; answer-all: "All of it, top and bottom: nobody switches anything off. The food of the top is here: {destination}."',
    });
  });

  it('is answered where its answer is written beside it, also in the words of the old one', () => {
    const answer = `    answer: ${says(over({}).of('en'), 'answer') ?? ''}\n`;
    const tried = over({ en: question('ice', ASK + answer) });
    expect(tried.told).toEqual([]);
    expect(says(tried.of('en'), 'ask')).toBe('Where does the sheet go?');
    const example = /^```yaml\n(questions:\n {2}[a-z-]+:\n[\s\S]*?)^```/m.exec(readFileSync('docs/templates.md', 'utf8'))?.[1];
    expect(example).toContain('open-food');
    expect(over({ en: example ?? '' }).told).toEqual([]);
  });

  it('is no other one where it asks the same', () => {
    const same = `    ask: ${says(over({}).of('en'), 'ask') ?? ''}\n`;
    expect(over({ en: question('ice', same) }).told).toEqual([]);
    expect(over({ en: question('ice', same + ANSWER) }).told).toEqual([]);
  });

  it('is told where only its answer is new', () => {
    expect(over({ en: question('ice', ANSWER) }).told).toEqual(['warning answer-without-question words/en/lesson.yaml:3']);
  });

  it('falls as a whole where half of it is refused', () => {
    const tried = over({ en: question('ice', '    ask: ""\n' + ANSWER) });
    expect(tried.told).toEqual(['error words-empty words/en/lesson.yaml:3']);
    expect(says(tried.of('en'), 'answer')).toBe(says(over({}).of('en'), 'answer'));
  });

  it('stands with its answer, and is told where another language of the store still asks the old one', () => {
    const tried = over({ es: question('ice', ASK + ANSWER) });
    expect(tried.told).toEqual([]);
    expect(says(tried.of('es'), 'answer')).toBe('Into the box by the door.');
    const told = (langs: readonly string[]) => askedDifferently(langs.map((lang) => tried.of(lang)));
    expect(told(['es', 'en'])).toMatchObject([
      { code: 'question-in-one-language', at: { doc: 'words/es/lesson.yaml' }, data: { lang: 'en', other: 'es' } },
    ]);
    expect(told(['es'])).toEqual([]);
  });
});

it('forbids to chip ice on every paper that teaches, whatever is asked', () => {
  const papers = ['handout', 'kit-lesson', 'kit-slides'];
  const { workshop, stores } = tryChain({ 'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${papers.join(', ')}]`) });
  if (!workshop) throw new Error('not opened');
  const pages = pagesOf(workshop, stores);
  expect(pages.map(({ paper }) => paper.id)).toEqual(papers);
  for (const { page } of pages) expect(cautionsOn(page?.body ?? [])).toContain('no-chipping');
});
