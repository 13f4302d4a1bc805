/**
 * Every folder of words/ keeps to the same: all sentences under the same keys, with the same values, no figure of its own, and a glyph for every letter.
 * And a translator's slip is a finding with its line, never a page with a hole.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readWords } from '../../src/fleet/workshop.js';
import { locate } from '../../src/read/locate.js';
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
    expect(copied('same: Questions, date\n')).toEqual([]);
    expect(tried('').workshop?.words.get('pt')?.get('kit-questions.date')).toBeUndefined();
  });

  /** A chain's own words over those that ship, as everybody has them. */
  const over = (own: Readonly<Record<string, string>>) => {
    const files = new Map(
      [...shippedFiles()].filter(([doc]) => /^words\/(en|es)\//.test(doc)).map(([doc, bytes]) => [`${SHIPPED}${doc}`, bytes]),
    );
    for (const [doc, text] of Object.entries(own)) files.set(doc, new TextEncoder().encode(text));
    const reader = makeReader(files);
    const { words } = readWords(reader);
    const findings = [...reader.findings, ...compareLanguages(words, words.get('en') as Words)];
    const told = findings.map((f) => {
      const spot = locate(f.at, reader.sources.get(f.at.doc));
      return `${f.code} ${f.at.doc}${spot ? `:${spot.line}:${spot.column}` : ''}`;
    });
    return { words, findings, told };
  };
  const sentence = (tried: ReturnType<typeof over>, lang: string, code: string) => tried.words.get(lang)?.get(code);
  const shippedSays = (lang: string, code: string) => all.get(lang)?.get(code);

  it.each([
    ['an empty title', 'no-chipping: { title: "" }', 'words-empty', 'no-chipping.title'],
    ['an empty text', 'no-chipping: { text: " " }', 'words-empty', 'no-chipping.text'],
    ['a value alone', 'fire-and-sparks: { text: "{emergency}" }', 'words-too-few', 'fire-and-sparks.text'],
    ['hardly a word', 'gas-leak: { text: "XX {emergency} {service} {phone}" }', 'words-too-few', 'gas-leak.text'],
    ['a lost number', 'fire-and-sparks: { text: Get out. Call for help. }', 'words-lost-value', 'fire-and-sparks.text'],
  ])('takes no caution away, in English as in any language: %s', (_, list, code, key) => {
    for (const lang of ['en', 'es']) {
      const tried = over({ [`words/${lang}/cautions.yaml`]: `${list}\n` });
      expect(tried.told.map((told) => told.split(':')[0])).toEqual([`${code} words/${lang}/cautions.yaml`]);
      expect(tried.findings.find((f) => f.code === code)?.severity).toBe('error');
      expect(sentence(tried, lang, `cautions.${key}`)).toBe(shippedSays(lang, `cautions.${key}`));
    }
  });

  it('is an error where a value is lost on which people act, and a warning elsewhere', () => {
    const severity = (doc: string, text: string) =>
      over({ [doc]: text }).findings.find((f) => f.code === 'words-lost-value')?.severity;
    expect(severity('words/en/headline.yaml', 'cold: or colder\n')).toBe('error');
    expect(severity('words/es/call.yaml', 'pans-warm: Hay varios recipientes calientes.\n')).toBe('error');
    expect(severity('words/es/poster.yaml', 'call: "Llame a {service}"\n')).toBe('error');
    expect(severity('words/es/week.yaml', 'limit: o menos\n')).toBe('error');
    expect(severity('words/es/times.yaml', 'night-of: la noche\n')).toBe('error');
    expect(severity('words/es/card.yaml', 'title: "{model}"\n')).toBe('warning');
  });

  it.each([
    ['{ phone }', '{phone}'],
    ['{{phone}}', '{phone}'],
    ['{phone', '{phone}'],
    ['{Phone}', '{phone}'],
    ['{phon-e}', '{phone}'],
  ])('is an error where braces name no value: %s', (wrote, nearest) => {
    const tried = over({ 'words/es/poster.yaml': `call: "{service} al ${wrote}"\n` });
    expect(tried.told).toEqual(['words-brace words/es/poster.yaml:1:7']);
    expect(only(tried.findings, 'words-brace')[0]?.data).toEqual({ wrote, nearest });
    expect(sentence(tried, 'es', 'poster.call')).toBe(shippedSays('es', 'poster.call'));
  });

  it('costs that sentence alone, and is told alone', () => {
    const tried = over({ 'words/es/poster.yaml': 'night:\nmorning: [a]\ntonight: Esta noche\n' });
    expect(tried.told).toEqual(['words-not-text words/es/poster.yaml:1:7', 'words-not-text words/es/poster.yaml:2:10']);
    expect(sentence(tried, 'es', 'poster.night')).toBe(shippedSays('es', 'poster.night'));
    expect(sentence(tried, 'es', 'poster.tonight')).toBe('Esta noche');
    const alone = slip({ ...changed('words/fr/headline.yaml', '\nbusy: ', '\nbusy: # ') });
    expect(serious(alone)).toEqual(['words-not-text words/fr/headline.yaml:6:7']);
  });

  it('costs its file alone where that is no YAML, and is told alone', () => {
    const tried = slip(changed('words/fr/never.yaml', 'unit-off:', 'unit-off: "'));
    expect(new Set(serious(tried).map((told) => told.split(':')[0]))).toEqual(new Set(['yaml-syntax words/fr/never.yaml']));
  });

  it('is told where a figure stands in a sentence: an error in one that ships, for the plan has it', () => {
    const figures = (own: Readonly<Record<string, string>>) =>
      only(over(own).findings, 'words-figure').map((f) => [f.severity, f.data['figures']]);
    expect(figures({ 'words/es/headline.yaml': 'stays-on: Se queda encendido 24 horas.\n' })).toEqual([['error', ['24']]]);
    expect(figures({ 'words/en/headline.yaml': 'off-at: "off at {off}, or 23:00"\n' })).toEqual([['error', ['23', '00']]]);
    expect(figures({ 'words/en/ours.yaml': 'rule: Wait 5 minutes.\n' })).toEqual([['warning', ['5']]]);
  });

  it('is an error where a figure of a chain’s own sentence reads as a time or a temperature, with how the plan’s is asked for', () => {
    const told = (lang: string, rule: string) =>
      only(
        over({ 'words/en/ours.yaml': 'rule: Nobody closes alone.\n', [`words/${lang}/ours.yaml`]: `rule: ${rule}\n` }).findings,
        'words-figure',
      ).map((f) => [f.severity, f.data['call'], f.data['says']]);
    const time = [['error', '{{t "ours.rule" time=unit.rest.empty_by}}', undefined]];
    const limit = [['error', '{{t "ours.rule" limit=unit.limit}}', undefined]];
    for (const wrote of ['A las 9:40 pm está vacía.', 'A las 9 pm está vacía.', 'Vacía a las 21.40.'])
      expect(told('es', wrote)).toEqual(time);
    for (const wrote of ['Más de 41 °F no.', 'Más de 5 grados no.', 'Más de 41F no.']) expect(told('es', wrote)).toEqual(limit);
    for (const lang of ['en', 'es']) expect(told(lang, 'Cuente 20 segundos.')).toEqual([['warning', undefined, undefined]]);
  });

  it.each([
    ['locale: pt_BR', 'words-bad-locale', { wrote: 'pt_BR', nearest: 'pt-BR' }],
    ['locale: português', 'words-bad-locale', { wrote: 'português', lang: 'pt' }],
    ['locale: en-US', 'words-other-locale', { wrote: 'en-US', lang: 'pt' }],
    ['signs: junto', 'unknown-value', { wrote: 'junto', names: ['close', 'spaced'] }],
  ])('is told by its line where language.yaml says what no language can: %s', (line, code, data) => {
    const good = { name: 'name: Português', locale: 'locale: pt-BR', signs: 'signs: close' };
    const text = Object.values({ ...good, [line.split(':')[0] as string]: line }).join('\n');
    const tried = slip({ 'words/pt/language.yaml': `${text}\n` }, `${STORE}languages: [en, pt]\n`);
    expect(only(tried.findings, code)).toMatchObject([{ severity: 'error', at: { doc: 'words/pt/language.yaml' }, data }]);
    expect(only(tried.findings, 'no-language')).toHaveLength(1);
  });

  it('is told by the form that is missing: a word has one, or two', () => {
    const missing = (units: string): unknown => {
      const { findings } = over({
        'words/pt/units.yaml': `s: s\nh: h\nmin: minuto\nin: pol\nft: pé\nsq-ft: pé²\ncu-ft: pé³\nto: a\n${units}`,
      });
      return only(findings, 'words-missing').find((f) => f.at.doc === 'words/pt/units.yaml')?.data['keys'];
    };
    const two = 'days: { one: dia, other: dias }\nweeks: { one: semana, other: semanas }\n';
    expect(missing(`${two}months: { one: mês, other: meses }\n`)).toBeUndefined();
    expect(missing(`${two}months: { one: mês }\n`)).toEqual(['months.other']);
    expect(missing(`${two}months: mês\n`)).toBeUndefined();
    expect(missing(two)).toEqual(['months.one', 'months.other']);
  });

  it.each([
    ['h: min', { wrote: 'min', name: 'h', others: ['min'] }],
    ['in: cm', { wrote: 'cm', name: 'in', others: ['cm'] }],
    ['days: { one: semana, other: días }', { wrote: 'semana', name: 'days', others: ['weeks'] }],
  ])('is an error where two units read alike, or one as another sign: %s', (line, data) => {
    const tried = over({ 'words/es/units.yaml': `${line}\n` });
    expect(only(tried.findings, 'units-alike')).toMatchObject([{ severity: 'error', data }]);
    expect(sentence(tried, 'es', 'units.h')).toBe('h');
    expect(sentence(tried, 'es', 'units.in')).toBe('pulg');
  });

  it('is an error where two signal words read alike, and what ships stands in their place', () => {
    const tried = over({ 'words/es/levels.yaml': 'warning: Cuidado\ncaution: cuidado\n' });
    const words = tried.words.get('es');
    expect(only(tried.findings, 'levels-alike').map((f) => [f.severity, f.at.path, f.data['others']])).toEqual([
      ['error', ['warning'], ['caution']],
      ['error', ['caution'], ['warning']],
    ]);
    expect([words?.get('levels.warning'), words?.get('levels.caution')]).toEqual(['Advertencia', 'Precaución']);
    expect(only(over({ 'words/es/levels.yaml': 'notice: Peligro\n' }).findings, 'levels-alike')).toMatchObject([
      { data: { name: 'notice', others: ['danger'] } },
    ]);
    const pt = over({ 'words/pt/levels.yaml': 'danger: Perigo\nwarning: Atenção\ncaution: Atenção\nnotice: Aviso\n' });
    expect(only(pt.findings, 'levels-alike')).toHaveLength(2);
    expect(pt.words.get('pt')?.get('levels.danger')).toBe('Perigo');
    expect(pt.words.get('pt')?.get('levels.caution')).toBeUndefined();
    expect(over({ 'words/es/levels.yaml': 'caution: Cuidado\n' }).findings.map((f) => [f.code, f.data])).toEqual([
      ['caution-reworded', { keys: ['caution'], ships: 'Precaución' }],
    ]);
  });

  it('points at the first sentence that is still in English', () => {
    const tried = slip({ 'words/pt/kit-questions.yaml': 'name: Perguntas\n# words\ndate: Date\n' });
    expect(tried.told).toContain('words-copied words/pt/kit-questions.yaml:3:7');
  });

  it('is told once of all the lists that nobody has begun', () => {
    const { findings } = over({ 'words/pt/poster.yaml': 'night: Noite\n' });
    expect(findings.map((f) => `${f.code} ${f.at.doc}`)).toEqual([
      'words-not-begun words/pt',
      'words-missing words/pt/poster.yaml',
    ]);
    expect(findings[0]?.data['files']).toEqual(expect.arrayContaining(['card', 'week']));
    expect(findings[0]?.data['files']).not.toContain('poster');
  });

  it('is told once where no list has the name of its file', () => {
    const tried = over({ 'words/es/cartel.yaml': 'name: Cartel\nnight: Noche\n', 'words/es/postre.yaml': 'night: Noche\n' });
    expect(tried.told).toEqual(['words-unknown-file words/es/cartel.yaml:1:1', 'words-unknown-file words/es/postre.yaml:1:1']);
    const [cartel, postre] = tried.findings.map((f) => f.data);
    expect(cartel?.['names']).toHaveLength(3);
    expect(cartel?.['names']).not.toContain('findings');
    expect(cartel?.['call']).toBe('{{t "cartel.night"}}');
    expect(postre).toEqual({ wrote: 'postre', nearest: 'poster' });
  });

  it.each([
    ['call: Llame: ya', '"Llame: ya"'],
    ['late: **Tarde?** Ya.', '"**Tarde?** Ya."'],
    ['night: {off} ya', '"{off} ya"'],
  ])('is told to put a sentence in quotes: %s', (line, quoted) => {
    const tried = over({ 'words/es/poster.yaml': `${line}\n` });
    expect(tried.findings[0]).toMatchObject({ severity: 'error', at: { line: 1 }, data: { quoted } });
    expect(tried.findings).toHaveLength(1);
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
    const far = slip(changed('words/fr/headline.yaml', 'off-at: ', 'ocupado: '));
    expect(only(far.findings, 'words-unknown')[0]?.data).toEqual({ wrote: 'ocupado' });
  });

  it('is none but the gap in English where a template or a partial of the chain asks for a sentence that English lacks', () => {
    const own = (template: Readonly<Record<string, string>>): readonly string[] =>
      serious(slip({ 'words/es/ours.yaml': 'rule: Los lunes limpia el filtro.\n', ...template }));
    expect(own({})).toEqual(['words-unknown-file words/es/ours.yaml:1:1']);
    const gap = ['words-missing words/en/ours.yaml'];
    const asking = slip({ 'words/es/ours.yaml': 'rule: a\n', 'templates/partials/week-own.md.hbs': '{{t "ours.rule"}}\n' });
    expect(only(asking.findings, 'words-missing')[0]?.data['from']).toBe('words/es/ours.yaml');
    expect(own({ 'templates/partials/week-own.md.hbs': '{{t "ours.rule"}}\n' })).toEqual(gap);
    expect(own({ 'templates/rules/page.md.hbs': '```blank 2\nours.rule\n```\n' })).toEqual(gap);
  });

  it("needs none of a chain's own sentences until a store asks for it, and warns of them then", () => {
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
      'words-unread words/fr/Poster.yaml',
      'words-folder words/fr-CA',
    ]);
  });

  it('is told once for a folder that no language has', () => {
    const list = 'night: Noite\n';
    const tried = slip({ 'words/pt-BR/poster.yaml': list, 'words/pt-BR/week.yaml': list, 'words/Portuguese/week.yaml': list });
    expect(serious(tried)).toEqual(['words-folder words/Portuguese', 'words-folder words/pt-BR']);
    expect(only(tried.findings, 'words-folder').map((f) => f.data)).toEqual([
      { wrote: 'Portuguese' },
      { wrote: 'pt-BR', lang: 'pt', locale: 'pt-BR' },
    ]);
  });

  it('holds a plain space before a sign that no line begins with', () => {
    const words = slip({ 'words/fr/poster.yaml': 'late: "Tard ? « Vite ! »"\n' }).workshop?.words.get('fr');
    expect(words?.get('poster.late')).toBe('Tard\u00a0? «\u00a0Vite\u00a0!\u00a0»');
    expect(asksFor(words?.get('poster.late') ?? '')).toEqual([]);
  });
});
