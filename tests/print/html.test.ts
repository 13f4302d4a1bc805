import { createHash } from 'node:crypto';
import { parse, type DefaultTreeAdapterTypes } from 'parse5';
import { describe, expect, it } from 'vitest';
import { printHtml } from '../../src/print/html.js';
import { contrast } from '../../src/print/contrast.js';
import { callout, cell, drawing, everyBlock, list, page, paragraph } from './make.js';

type Html = DefaultTreeAdapterTypes.Element;

const all = (node: DefaultTreeAdapterTypes.Node): readonly Html[] => [
  ...('tagName' in node ? [node] : []),
  ...('childNodes' in node ? node.childNodes.flatMap(all) : []),
];
const elements = (html: string): readonly Html[] => all(parse(html));
const attribute = (node: Html | undefined, name: string): string | undefined => node?.attrs.find((a) => a.name === name)?.value;
const named = (html: string, tag: string): readonly Html[] => elements(html).filter((e) => e.tagName === tag);

const { html } = printHtml(everyBlock);

describe('an HTML page', () => {
  it('is well formed', () => {
    const faults: string[] = [];
    parse(html, { onParseError: (fault) => faults.push(fault.code) });
    expect(faults).toEqual([]);
  });

  it('asks nothing of anyone and runs nothing', () => {
    for (const e of elements(html)) {
      expect(['script', 'link', 'iframe', 'object', 'embed', 'base']).not.toContain(e.tagName);
      for (const { name, value } of e.attrs) {
        expect(name).not.toMatch(/^on/);
        if (['src', 'href', 'srcset', 'action', 'data'].includes(name)) expect(value).toMatch(/^(data|tel):/);
      }
    }
    expect(html).not.toMatch(/url\(|@import/);
    expect(html).toContain(`content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"`);
  });

  // WCAG 2.2: 2.4.2 title, 3.1.1 language, 1.3.1 landmarks and table headers, 4.1.2 names.
  it('has a title, a language, landmarks and a first heading', () => {
    expect(attribute(named(html, 'html')[0], 'lang')).toBe('en-US');
    expect(html).toContain('<title>A page</title>');
    for (const landmark of ['header', 'main', 'footer', 'h1']) expect(named(html, landmark)).toHaveLength(1);
  });

  it('gives every head cell its scope', () => {
    const heads = named(html, 'th');
    expect(heads.length).toBeGreaterThan(4);
    for (const th of heads) expect(['col', 'row']).toContain(attribute(th, 'scope'));
  });

  it('gives every box to tick a name', () => {
    const boxes = named(html, 'input');
    expect(boxes.length).toBe(2);
    const labels = named(html, 'label').map((label) => attribute(label, 'for'));
    for (const box of boxes) {
      const held = box.parentNode && 'tagName' in box.parentNode && box.parentNode.tagName === 'label';
      expect(held || labels.includes(attribute(box, 'id')) || (attribute(box, 'aria-label') ?? '') !== '').toBe(true);
    }
    expect(boxes.map((box) => attribute(box, 'aria-label'))).toContain('Lid on, Mon');
  });

  it('uses no id twice and points to none that is not there', () => {
    const twice = page([
      { block: 'figure', drawing, share: 1, line: 1 },
      { block: 'figure', drawing, share: 1, line: 2 },
      list('tick', 'One', 'Two'),
    ]);
    const found = elements(printHtml(twice).html);
    const ids = found.flatMap((e) => attribute(e, 'id') ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const e of found) {
      for (const name of ['for', 'aria-labelledby', 'aria-describedby']) {
        for (const id of (attribute(e, name) ?? '').split(' ').filter((part) => part !== '')) expect(ids).toContain(id);
      }
    }
  });

  it('tags a word in another language', () => {
    const p = page([{ block: 'paragraph', role: 'body', text: [{ text: 'Say ' }, { text: 'alto', lang: 'es' }], line: 1 }]);
    expect(printHtml(p).html).toContain('<span lang="es">alto</span>');
  });

  it('lets a phone call the numbers of the plan, and no other', () => {
    const numbers = [
      { text: '+52 (555) 0142', value: 'store.phones.number' },
      { text: '911', value: 'store.phones.emergency' },
      { text: '555-0199', value: 'store.name' },
      { text: 'ask', value: 'store.phones.number' },
      { text: '555-0108 / 555-0109', value: 'store.phones.manager' },
      { text: '030/555123', value: 'store.phones.manager' },
      { text: '1-555-555-0106 x22', value: 'store.phones.manager' },
      { text: '+44 (0)20 5550 0142', value: 'store.phones.manager' },
      { text: '555-0142/0143', value: 'store.phones.manager' },
      { text: '15 / 112', value: 'store.phones.emergency' },
      { text: '000/112', value: 'store.phones.emergency' },
      { text: '(030) / 555123', value: 'store.phones.manager' },
      { text: '020/555-0142/43', value: 'store.phones.manager' },
    ];
    const links = named(printHtml(page([{ block: 'paragraph', role: 'body', text: numbers, line: 1 }])).html, 'a');
    expect(links.map((a) => attribute(a, 'href'))).toEqual([
      'tel:+525550142',
      'tel:911',
      // Two numbers are two links, a code of a place is none, and an extension is dialled by the caller.
      'tel:5550108',
      'tel:5550109',
      'tel:030555123',
      'tel:15555550106',
      'tel:+442055500142',
      // Of the second number only its last figures stand there.
      'tel:5550142',
      'tel:15',
      'tel:112',
      'tel:000',
      'tel:112',
      'tel:030555123',
      'tel:0205550142',
    ]);
  });

  it('writes text from data as text', () => {
    const evil = `<img src=x onerror=alert(1)> & "quotes" </style></title>`;
    const p = page(
      [
        paragraph(evil),
        callout('danger', evil),
        {
          block: 'table',
          caption: [{ text: evil }],
          columns: [{ weight: 1, align: 'start' }],
          head: [[cell(evil)]],
          rows: [[cell('', { hand: 'tick' })]],
          line: 1,
        },
      ],
      {
        title: evil,
        head: [{ text: evil, lang: '"><script>' }],
      },
    );
    const found = elements(printHtml(p).html);
    expect(found.filter((e) => e.tagName === 'script' || e.tagName === 'img')).toEqual([]);
    expect(found.flatMap((e) => e.attrs.filter((a) => a.name.startsWith('on')))).toEqual([]);
  });

  it('leaves out nothing: a screen has no end', () => {
    const p = page([{ block: 'optional', rank: 3, body: [paragraph('Have both readings ready.')], line: 1 }], { length: 'one' });
    expect(printHtml(p).html).toContain('Have both readings ready.');
  });
});

describe('a dated sheet', () => {
  const dated = printHtml({ ...everyBlock, ticks: 'nightrail/Test & Co/street/week/2026-11-30' }).html;

  it('keeps its ticks by a script of its own, the only one that its rules let run', () => {
    const [script, ...others] = named(dated, 'script');
    expect(others).toEqual([]);
    const source = (script?.childNodes[0] as DefaultTreeAdapterTypes.TextNode).value;
    const hash = createHash('sha256').update(source).digest('base64');
    expect(dated).toContain(`script-src 'sha256-${hash}'`);
    expect(attribute(named(dated, 'html')[0], 'data-ticks')).toBe('nightrail/Test & Co/street/week/2026-11-30');
  });

  it('is otherwise the page that it would be without', () => {
    const rest = dated
      .replace(/<script>.*<\/script>\n/s, '')
      .replace(/; script-src [^"]*/, '')
      .replace(/ data-ticks="[^"]*"/, '');
    expect(rest).toBe(html);
  });
});

describe('in a dark room', () => {
  const dark = /prefers-color-scheme: dark\)[^}]*?--paper: (#\w+); --ink: (#\w+); --soft: (#\w+)[^}]*?--brand: (#\w+)/s.exec(
    html,
  );

  // WCAG 2.2, 1.4.6.
  it('text stands 7 to 1', () => {
    const [, paper, ...inks] = dark as unknown as readonly string[];
    expect(inks).toHaveLength(3);
    for (const ink of inks) expect(contrast(ink, paper as string)).toBeGreaterThanOrEqual(7);
  });
});
