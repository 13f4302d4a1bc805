/**
 * Makers of templates get findings with a line, and can reach nothing but the plan.
 */
import { describe, expect, it } from 'vitest';
import { CHAIN, shippedFiles, tryChain } from '../support/chain.js';
import { cautionsOn, pagesOf } from '../support/pages.js';

const withPoster = (page: string) => {
  const tried = tryChain({ 'templates/poster/page.md.hbs': page });
  const opened = tried.findings.filter((f) => f.at.doc.startsWith('templates/'));
  const made = tried.workshop ? pagesOf(tried.workshop, tried.stores).find((m) => m.paper.id === 'poster') : undefined;
  return { findings: [...opened, ...(made?.findings ?? [])], page: made?.page };
};

const told = (page: string) => withPoster(page).findings.map((f) => `${f.code}:${f.at.line ?? ''}`);

describe('a template with a mistake', () => {
  it.each([
    ['an unknown value', '# Hello\n\n{{unit.nicknam}}\n', 'template-unknown-value:3'],
    ['an unknown helper', 'a\n\n{{shout unit.nickname}}\n', 'template-helper:3'],
    ['a log', '{{log unit}}', 'template-helper:1'],
    ['a lookup', '{{lookup unit "id"}}', 'template-helper:1'],
    ['an unknown partial', '{{> nigth}}', 'template-partial:1'],
    ['a dynamic partial', '{{> (lookup unit "id")}}', 'template-partial:1'],
    ['the prototype', '{{unit.constructor}}', 'template-unknown-value:1'],
    ['a block left open', '{{#if unit}}\nx\n', 'template-syntax:3'],
    ['a directive left open', 'a\n\n::: face room\nx\n', 'template-open:3'],
    ['an unknown directive', 'a\n\n::: fase room\nx\n:::\n', 'template-directive:3'],
    ['words between two columns', '::: columns 1 1\n:::: column\na\n::::\nlost\n:::\n', 'template-loose:5'],
    ['an unknown figure', '```figure day-baar 1\n```\n', 'template-directive:1'],
    ['HTML', 'a <b>b</b>\n', 'template-markup:1'],
    ['a link', '[a](http://example.com)\n', 'template-markup:1'],
    ['a caution in a part that may go', '::: optional 3\n::: callout danger\nx\n:::\n:::\n', 'template-optional-safety'],
    ['a sentence that is not there', '{{t "poster.nothing"}}', 'template-no-words:1'],
    ['an empty page', '\n', 'caution-added:1'],
    [
      'each in each in each in each',
      '{{#each a}}{{#each b}}{{#each c}}{{#each d}}x{{/each}}{{/each}}{{/each}}{{/each}}',
      'template-too-deep:1',
    ],
  ])('%s', (_, page, expected) => {
    expect(told(page).some((t) => t.startsWith(expected))).toBe(true);
  });

  it.each([
    ['a form', '# A\n\n```form 1\n1 week.nothing\n```\n', 3],
    ['a line to write on', '# A\n\n```blank 1\nweek.nothing\n```\n', 3],
  ])('is told where %s names a sentence that is not there', (_, page, line) => {
    expect(told(page)).toContain(`template-no-words:${line}`);
  });

  it('is told that a paper of its own has no name yet', () => {
    const spec = new TextDecoder().decode(shippedFiles().get('templates/log/paper.yaml'));
    const own = { 'templates/rota/paper.yaml': spec, 'templates/rota/page.md.hbs': '# Rota\n' };
    const nameless = tryChain({ ...own, 'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [rota]') });
    const [made] = nameless.workshop ? pagesOf(nameless.workshop, nameless.stores) : [];
    expect(made?.findings).toMatchObject([
      { code: 'template-no-words', at: { doc: 'templates/rota/paper.yaml' }, data: { code: 'rota.name' } },
    ]);
  });

  it('refuses partials that lead back to themselves', () => {
    const tried = tryChain({
      'templates/partials/night.md.hbs': '{{> morning}}',
      'templates/partials/morning.md.hbs': '{{> night}}',
    });
    expect(tried.findings.map((f) => f.code)).toContain('template-cycle');
  });

  it('may end without the end of a line, in a partial too', () => {
    const { workshop, stores } = tryChain({ 'templates/partials/handout-own.md.hbs': 'Ours.' });
    const pages = workshop ? pagesOf(workshop, stores).filter(({ paper }) => paper.id === 'handout') : [];
    expect(pages.map(({ findings }) => findings.filter(({ severity }) => severity === 'error'))).toEqual([[]]);
  });

  it('cannot drop a caution', () => {
    const { page, findings } = withPoster('# Only this\n');
    expect(cautionsOn(page?.body ?? [])).toEqual(
      expect.arrayContaining(['no-panels', 'fire-and-sparks', 'no-chipping', 'hand-cannot-tell', 'local-rules-first']),
    );
    expect(findings.filter((f) => f.code === 'caution-added').length).toBeGreaterThanOrEqual(5);
  });
});
