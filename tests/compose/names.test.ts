/**
 * Text from data is data by construction: names that look like markup, code or paths come out letter for letter, in blocks and in HTML.
 */
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { printHtml } from '../../src/print/html.js';
import { CHAIN, PAPERS, STORE, tryChain } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

const HOSTILE = [
  'A&B "Grill" <b>',
  '| # *x*',
  '../../etc',
  '{{unit.serial}} {{{x}}}',
  '::: face room',
  '`code` [link](javascript:x) ![i](x)',
  '</title><script>alert(1)</script>',
  '1. **bold** _it_ ~s~',
  '&lt; &amp; \\* \\',
  '=HYPERLINK("x")',
  '<!-- -->',
];

const quoted = (name: string): string => JSON.stringify(name);

const withName = (name: string) =>
  tryChain({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${PAPERS.join(', ')}]`),
    'sites/street.yaml': STORE.replace('name: Test Street', `name: ${quoted(name)}`)
      .replace('nickname: Line 1', `nickname: ${quoted(name)}`)
      .replace('serial: X1', `serial: ${quoted(name.slice(0, 40))}`),
  });

interface Node {
  readonly nodeName: string;
  readonly value?: string;
  readonly childNodes?: readonly Node[];
}

const textIn = (node: Node): string =>
  node.nodeName === '#text' ? (node.value ?? '') : node.nodeName === 'style' ? '' : (node.childNodes ?? []).map(textIn).join('');
const elements = (node: Node): readonly string[] => [node.nodeName, ...(node.childNodes ?? []).flatMap(elements)];

describe('hostile names', () => {
  it.each(HOSTILE)('%s', (name) => {
    const tried = withName(name);
    expect(tried.findings.filter((f) => f.severity === 'error')).toEqual([]);
    if (!tried.workshop) throw new Error('not opened');
    const plain = pagesOf(tried.workshop, withName('Test Street').stores);
    const made = pagesOf(tried.workshop, tried.stores);
    expect(made).toHaveLength(plain.length);
    made.forEach(({ page, paper, findings }, i) => {
      expect(findings.filter((f) => f.severity === 'error')).toEqual([]);
      if (!page) throw new Error(`no ${paper.id}`);
      // The same blocks as with a plain name: nothing of it became structure.
      expect(page.body.map((b) => b.block)).toEqual(plain[i]?.page?.body.map((b) => b.block));
      // A dated sheet has a script of its own, which is no one's name.
      const { ticks: _, ...still } = page;
      const { html } = printHtml(still);
      const document = parse(html) as unknown as Node;
      expect(elements(document).filter((e) => ['script', 'b', 'iframe', 'img'].includes(e))).toEqual([]);
      // The only links are numbers to call, and the days of a dated sheet.
      for (const [, href] of html.matchAll(/<a [^>]*?href="([^"]*)"/g)) expect(href).toMatch(/^(tel:\d+|#days|#day-[\d-]+)$/);
      expect(textIn(document)).toContain(name);
      expect(page.title).toContain(name);
      if (!['poster', 'kit-slides'].includes(paper.id)) expect(textOf(runsIn(page.body))).toContain(name);
    });
  });
});
