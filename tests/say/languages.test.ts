/**
 * Every folder of words/ keeps to the same: all sentences under the same keys, with the same values, no figure of its own, and a glyph for every letter.
 * And a translator's slip is a finding with its line, never a page with a hole.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readWords } from '../../src/fleet/workshop.js';
import { makeReader } from '../../src/read/reader.js';
import type { Finding } from '../../src/base/finding.js';
import { printable } from '../../src/print/characters.js';
import { compareLanguages } from '../../src/say/compare.js';
import { asksFor, type Words } from '../../src/say/words.js';
import { faces } from '../print/faces.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { CHAIN, serious, shippedFiles, STORE, TABLE, tryChain, tryFiles } from '../support/chain.js';
import { LANGUAGES } from '../support/languages.js';

const all = readWords(makeReader(shippedFiles())).words;
const first = all.get('en') as Words;

it('reads a language from each folder', () => {
  expect([...all.keys()].sort()).toEqual(LANGUAGES);
  expect(LANGUAGES).toEqual(expect.arrayContaining(['en', 'es', 'fr']));
});

describe.each(LANGUAGES)('%s', (lang) => {
  const words = all.get(lang) as Words;
  const sentences = words.codes.map((code) => [code, words.get(code) as string] as const);

  it('has every sentence of English, each with its values, and no other', () => {
    expect([...words.lacks.keys()]).toEqual([]);
    expect(compareLanguages(new Map([[lang, words]]), first)).toEqual([]);
    expect(sentences.length).toBeGreaterThan(600);
  });

  it('has no figure that English has not', () => {
    const digits = (text: string | undefined): readonly string[] => (text?.match(/\d+/g) ?? []).sort();
    for (const [code, text] of sentences) expect(digits(text), code).toEqual(digits(first.get(code)));
  });

  it('closes what it makes strong', () => {
    for (const [code, text] of sentences) expect((text.match(/\*\*/g) ?? []).length % 2, code).toBe(0);
  });

  it('leaves no brace open', () => {
    for (const [code, text] of sentences)
      if (first.get(code) !== undefined) expect(text.replace(/\{[a-z_]+\}/g, ''), code).not.toMatch(/[{}]/);
  });

  it('is written in letters that every face has', () => {
    const lacking = [...new Set(sentences.map(([, text]) => printable(text)).join(''))].filter(
      (c) => !/\s/.test(c) && !Object.values(faces).every((face) => face.has(c.codePointAt(0) as number)),
    );
    expect(lacking).toEqual([]);
  });

  it('has its signal words, all different', () => {
    const signals = ['danger', 'warning', 'caution', 'notice'].map((level) => words.get(`levels.${level}`));
    expect(new Set(signals).size).toBe(4);
  });
});

// Lexique des règles typographiques en usage à l'Imprimerie nationale: a space that holds before : ; ? ! and inside « » (from memory).
describe('French', () => {
  const fr = all.get('fr') as Words;
  const texts = fr.codes.map((code) => [code, fr.get(code) as string] as const);

  it('sets a space that holds before : ; ? !, and no other', () => {
    for (const [code, text] of texts) {
      expect(text, code).not.toMatch(/[^\u00a0]\**[:;?!]\**(?=\s|$)/u);
      expect(text, code).not.toMatch(/ [:;?!»]|« /);
    }
    expect(texts.filter(([, text]) => text.includes('\u00a0:')).length).toBeGreaterThan(100);
  });

  it('has the apostrophe of print', () => {
    for (const [code, text] of texts) expect(text, code).not.toContain("'");
  });

  // Signal words of ISO 3864-2 and ANSI Z535 in their French editions (from memory).
  it('warns in the words of the standards', () => {
    expect(['danger', 'warning', 'caution', 'notice'].map((level) => fr.get(`levels.${level}`)?.toUpperCase())).toEqual([
      'DANGER',
      'AVERTISSEMENT',
      'ATTENTION',
      'AVIS',
    ]);
  });
});

describe('a slip of a translator', () => {
  const slip = (own: Readonly<Record<string, string>>, store = STORE) => tryChain({ ...own, 'sites/street.yaml': store });
  /** A shipped word list with one change. */
  const changed = (doc: string, from: string, to: string): Readonly<Record<string, string>> => {
    const text = readFileSync(doc, 'utf8');
    if (!text.includes(from)) throw new Error(`${doc} has no ${from}`);
    return { [doc]: text.replace(from, to) };
  };
  const only = (findings: readonly Finding[], code: string): readonly Finding[] => findings.filter((f) => f.code === code);

  it('is told file by file where sentences are missing, and hinders nobody who reads another language', () => {
    const tried = slip({ 'words/pt/poster.yaml': 'night: Noite\n' });
    const gap = only(tried.findings, 'words-missing').find((f) => f.at.doc === 'words/pt/poster.yaml');
    expect(gap).toMatchObject({ severity: 'warning', data: { lang: 'pt', file: 'poster' } });
    expect(gap?.data['keys']).toContain('morning');
    expect(gap?.data['keys']).not.toContain('night');
    expect(tried.findings.filter((f) => f.severity === 'error')).toEqual([]);
  });

  it('keeps the papers from a store that asks for a language with gaps', () => {
    const tried = slip({ 'words/pt/poster.yaml': 'night: Noite\n' }, `${STORE}languages: [en, pt]\n`);
    expect(serious(tried)).toContain('no-language sites/street.yaml:11:17');
  });

  it('is told where a text is still the English one, except where its words are the same in both', () => {
    const tried = (same: string) =>
      slip({
        'words/pt/language.yaml': `name: Português\nlocale: pt-BR\nsigns: close\n${same}`,
        'words/pt/kit-questions.yaml': 'name: Questions\ndate: Date\n',
      });
    const copied = (same: string): readonly unknown[] =>
      only(tried(same).findings, 'words-copied').map((f) => [f.at.doc, f.data['keys']]);
    expect(copied('')).toEqual([['words/pt/kit-questions.yaml', ['name', 'date']]]);
    expect(copied('same: [Questions]\n')).toEqual([['words/pt/kit-questions.yaml', ['date']]]);
    expect(copied('same: [questions, date]\n')).toEqual([]);
    expect(tried('').workshop?.words.get('pt')?.get('kit-questions.date')).toBeUndefined();
  });

  it('is none where a text is made of values alone', () => {
    const tried = slip({ 'words/pt/labels.yaml': 'call: "{service} {phone}"\n' });
    expect(only(tried.findings, 'words-copied')).toEqual([]);
    expect(tried.workshop?.words.get('pt')?.get('labels.call')).toBe('{service} {phone}');
  });

  it('is told by its line where a sentence names a value that it is not given', () => {
    const tried = slip(changed('words/fr/week.yaml', 'limit: "{limit} ou', 'limit: "{limite} ou'));
    expect(serious(tried).map((told) => told.replace(/:\d+:\d+$/, ''))).toEqual([
      'words-unknown-value words/fr/week.yaml',
      'words-lost-value words/fr/week.yaml',
    ]);
    expect(tried.findings.map((f) => f.at.path)).toContainEqual(['limit']);
    expect(only(tried.findings, 'words-unknown-value')[0]?.data).toEqual({ wrote: '{limite}', names: ['{limit}'] });
  });

  it('is told by its line where no sentence has the name', () => {
    const tried = slip(changed('words/fr/poster.yaml', 'night: ', 'nigth: '));
    expect(serious(tried)).toEqual(['words-missing words/fr/poster.yaml:1:1', 'words-unknown words/fr/poster.yaml:2:8']);
    expect(only(tried.findings, 'words-unknown')[0]?.data).toMatchObject({ wrote: 'nigth', nearest: 'night' });
  });

  it('is none where a template or a partial of the chain asks for a sentence that English lacks', () => {
    const own = (template: Readonly<Record<string, string>>): readonly string[] =>
      serious(slip({ 'words/es/ours.yaml': 'rule: Los lunes limpia el filtro.\n', ...template }));
    expect(own({})).toEqual(['words-unknown words/es/ours.yaml:1:7']);
    expect(own({ 'templates/partials/ours.md.hbs': '{{t "ours.rule"}}\n' })).toEqual([]);
    expect(own({ 'templates/rules/page.md.hbs': '```blank 2\nours.rule\n```\n' })).toEqual([]);
  });

  it("needs none of a chain's own sentences until a store asks for it, and prints no page without them then", () => {
    const tried = (languages: string, more: Readonly<Record<string, string>> = {}) => {
      const files = new Map([...shippedFiles()].map(([doc, bytes]) => [`${SHIPPED}${doc}`, bytes]));
      const own = {
        'nightrail.yaml': CHAIN.replace('languages: [en]', `languages: ${languages}`),
        'equipment/table.yaml': TABLE,
        'sites/street.yaml': STORE,
        'words/en/ours.yaml': 'rule: We clean the filter on Mondays.\n',
        'words/es/ours.yaml': 'rule: Los lunes limpiamos el filtro.\n',
        'templates/partials/week-own.md.hbs': '{{t "ours.rule"}}\n',
        ...more,
      };
      for (const [doc, text] of Object.entries(own)) files.set(doc, new TextEncoder().encode(text));
      return serious(tryFiles(files));
    };
    expect(tried('[en, es]')).toEqual([]);
    expect(tried('[en, fr]')).toEqual(['language-gaps nightrail.yaml:7:19', 'words-missing words/fr/ours.yaml']);
    expect(tried('[en, fr]', { 'words/fr/ours.yaml': 'rule: Le filtre se nettoie le lundi.\n' })).toEqual([]);
  });

  it('is told where a word list has a name by which nobody reads it', () => {
    expect(serious(slip({ 'words/fr-CA/poster.yaml': 'night: Nuit\n', 'words/fr/Poster.yaml': 'night: Nuit\n' }))).toEqual([
      'words-unread words/fr-CA/poster.yaml',
      'words-unread words/fr/Poster.yaml',
    ]);
  });

  it('holds a plain space before a sign that no line begins with', () => {
    const words = slip({ 'words/fr/poster.yaml': 'late: "Tard ? « Vite ! »"\n' }).workshop?.words.get('fr');
    expect(words?.get('poster.late')).toBe('Tard\u00a0? «\u00a0Vite\u00a0!\u00a0»');
    expect(asksFor(words?.get('poster.late') ?? '')).toEqual([]);
  });
});
