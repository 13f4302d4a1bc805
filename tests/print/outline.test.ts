/** The same page, as an outside reader hears it from the PDF's tag tree (pdf.js) and from the HTML (parse5): role, level and text, in order. */
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import { describe, expect, it } from 'vitest';
import type { Page } from '../../src/compose/block.js';
import { printHtml } from '../../src/print/html.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { faces } from './faces.js';
import { everyBlock, face, heading, list, page, paragraph, runs } from './make.js';
import { open, tagTree, type Tag } from './pdf-read.js';

type Line = string;
const clean = (text: string): string =>
  text
    .replace(/\u00AD/g, '')
    .replace(/\s+/g, ' ')
    .trim();
const line = (depth: number, role: string, text = ''): Line =>
  `${'  '.repeat(depth)}${role}${text === '' ? '' : ` "${clean(text)}"`}`;

/** Roles whose text is their own; the others hold roles. */
const LEAVES = new Set(['H1', 'H2', 'H3', 'H4', 'P', 'TH', 'TD', 'Caption']);

const ofPdf = (tag: Tag, depth = 0): readonly Line[] => {
  if (tag.role === 'Figure' || tag.role === 'Lbl' || LEAVES.has(tag.role)) return [line(depth, tag.role, tag.alt ?? tag.text)];
  return [line(depth, tag.role), ...tag.kids.flatMap((kid) => ofPdf(kid, depth + 1))];
};

type Html = DefaultTreeAdapterTypes.Element;
const attribute = (node: Html, name: string): string | undefined => node.attrs.find((a) => a.name === name)?.value;
const kidsOf = (node: Html): readonly Html[] => node.childNodes.filter((n): n is Html => 'tagName' in n);
const textOf = (node: DefaultTreeAdapterTypes.Node): string =>
  node.nodeName === '#text'
    ? (node as DefaultTreeAdapterTypes.TextNode).value
    : 'childNodes' in node
      ? node.childNodes.map(textOf).join('')
      : '';

const ROLES: Readonly<Record<string, string>> = {
  h1: 'H1',
  h2: 'H2',
  h3: 'H3',
  h4: 'H4',
  p: 'P',
  figcaption: 'P',
  caption: 'Caption',
  th: 'TH',
  td: 'TD',
  table: 'Table',
  thead: 'THead',
  tbody: 'TBody',
  tr: 'TR',
  section: 'Sect',
  header: 'Sect',
  footer: 'Sect',
  ul: 'L',
  ol: 'L',
};

const holds = (node: Html, what: (node: Html) => boolean): boolean => kidsOf(node).some((kid) => what(kid) || holds(kid, what));
const isBox = (node: Html): boolean => node.tagName === 'input' && attribute(node, 'type') === 'checkbox';
/** The number of a step, or what the mark of an item stands for. */
const labelOf = (item: Html): string => {
  const parent = item.parentNode as Html;
  if (parent.tagName === 'ol') return String(kidsOf(parent).indexOf(item) + 1);
  if (holds(item, isBox)) return '\u2610';
  const mark = kidsOf(item).find((kid) => attribute(kid, 'class') === 'mark');
  return (mark && textOf(mark).trim()) || (attribute(parent, 'class') === 'dot' ? '\u2022' : '');
};

const ofHtml = (node: Html, depth: number): readonly Line[] => {
  const kids = (d: number): readonly Line[] => kidsOf(node).flatMap((kid) => ofHtml(kid, d));
  if (node.tagName === 'svg') {
    if (attribute(node, 'role') !== 'img') return [];
    const [title, desc] = ['title', 'desc'].map((name) => kidsOf(node).find((kid) => kid.tagName === name));
    return [line(depth, 'Figure', [title, desc].map((n) => (n ? textOf(n) : '')).join(' '))];
  }
  if (node.tagName === 'li')
    return [line(depth, 'LI'), line(depth + 1, 'Lbl', labelOf(node)), line(depth + 1, 'LBody'), ...kids(depth + 2)];
  const role = ROLES[node.tagName];
  if (role === undefined) return kids(depth);
  if (LEAVES.has(role)) return [line(depth, role, textOf(node) === '' && holds(node, isBox) ? '\u2610' : textOf(node))];
  return [line(depth, role), ...kids(depth + 1)];
};

const both = async (p: Page): Promise<{ pdf: readonly Line[]; html: readonly Line[] }> => {
  const { bytes, sheets } = await printPdf(p, faces);
  expect(sheets).toBe(1);
  const tree = await tagTree(await open(bytes as Uint8Array));
  const root = parse(printHtml(p).html).childNodes.find((n): n is Html => 'tagName' in n) as Html;
  const body = kidsOf(root).find((kid) => kid.tagName === 'body') as Html;
  return { pdf: ofPdf(tree), html: [line(0, 'Document'), ...kidsOf(body).flatMap((kid) => ofHtml(kid, 1))] };
};

const oneSheet: Page = { ...everyBlock, sheet: 'a3', body: everyBlock.body.filter((block) => block.block !== 'new-sheet') };

describe('the outline', () => {
  it('is the same in PDF and HTML for every kind of block', async () => {
    const { pdf, html } = await both(oneSheet);
    expect(pdf.length).toBeGreaterThan(60);
    expect(html).toEqual(pdf);
  });

  it('is what was written', async () => {
    const p = page([
      face('unit', paragraph('Top empty by {22:45}', 'signal')),
      heading(2, 'Never'),
      list('never', 'Chip ice.'),
      { block: 'steps', items: [{ when: runs('{22:15}'), body: [paragraph('Wash & rinse.')] }], line: 1 },
    ]);
    const { pdf, html } = await both(p);
    expect(pdf).toEqual([
      'Document',
      '  Sect',
      '    P "Sandwich line 2, north wall"',
      '  Sect',
      '    H1 "Top empty by 22:45"',
      '  H2 "Never"',
      '  L',
      '    LI',
      '      Lbl "\u2717"',
      '      LBody',
      '        P "Chip ice."',
      '  L',
      '    LI',
      '      Lbl "1"',
      '      LBody',
      '        P "22:15"',
      '        P "Wash & rinse."',
      '  Sect',
      '    P "Your local health rules come first."',
    ]);
    expect(html).toEqual(pdf);
  });

  // PDF/UA-1 (ISO 14289-1) 7.4.2: the first heading is H1, and none is skipped on the way down.
  it('never skips a level of heading', async () => {
    const { pdf, html } = await both(page([heading(3, 'a'), heading(4, 'b'), heading(2, 'c'), heading(4, 'd'), heading(1, 'e')]));
    const headings = (lines: readonly Line[]): readonly Line[] => lines.filter((l) => /^ *H\d/.test(l)).map((l) => l.trim());
    expect(headings(pdf)).toEqual(['H1 "a"', 'H2 "b"', 'H1 "c"', 'H2 "d"', 'H1 "e"']);
    expect(html).toEqual(pdf);
  });

  it("holds a word that a line's end divided", async () => {
    const narrow: Page['body'][number] = {
      block: 'columns',
      columns: [
        { weight: 1, body: [paragraph('Extraordinarily incomprehensible')] },
        { weight: 6, body: [paragraph('Wide.')] },
      ],
      line: 1,
    };
    const { pdf, html } = await both(page([narrow]));
    expect(pdf.join('')).toMatch(/\w-/);
    expect(pdf.join('').replace(/-\s?/g, '')).toContain('Extraordinarily incomprehensible');
    expect(html.join('')).toContain('Extraordinarily incomprehensible');
  });
});
