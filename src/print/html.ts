/**
 * A page as one HTML file that asks nothing of anyone: no request, the same blocks, order and heading levels as the PDF, and no script but the one
 * that keeps the ticks of a dated sheet (print/ticks).
 */
import type { Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { textOf, type Run } from '../base/run.js';
import { walk, type Block, type Cell, type Logo, type Page } from '../compose/block.js';
import { badCharacters } from './check.js';
import { styleOf } from './html-style.js';
import { headingLevels } from './levels.js';
import type { Paint } from './sheet.js';
import { alertSymbol, alertWidth, prohibition, put } from './signs.js';
import { drawingToSvg, escapeMarkup } from './svg.js';
import { TICKS_HASH, TICKS_SCRIPT } from './ticks.js';
import { PANELS, paletteOf, type Palette } from './theme.js';

export interface PrintedHtml {
  /** Empty when a finding of severity error says why the page can't be written. */
  readonly html: string;
  readonly findings: readonly Finding[];
}

interface Writer {
  readonly palette: Palette;
  readonly levels: ReadonlyMap<Block, number>;
  readonly levelWords: Page['words']['levels'];
  /** A number that no one else in the file has. */
  readonly next: () => number;
}

/** The plan's own leaves that are numbers to call. */
const CALLED = /(^|\.)(phones\.(manager|number|emergency)|maker\.support)$/;

/** The code of a place, before the slash that parts it from its number. */
const PLACE = /^\s*\(?0\d{1,5}\)?\s*$/;

const digitsOf = (text: string): string => text.replace(/\D/g, '');

const linked = (text: string): string => {
  // Without an extension, and without the 0 that is dialled inside a country alone.
  const digits = text
    .replace(/x.*$/, '')
    .replace(/(\+[\d ]*)\(0\)/, '$1')
    .replace(/[^\d+]/g, '');
  const [, before = '', shown = '', after = ''] = /^(\s*)(.*?)(\s*)$/.exec(text) ?? [];
  return digits.length < 2 ? escapeMarkup(text) : `${before}<a href="tel:${digits}">${escapeMarkup(shown)}</a>${after}`;
};

/**
 * A number to call is a link for the phone's own dialler, of several each its own; letters in it are left to the eye.
 * @param each whether each part is a number: emergency numbers have no code of a place
 */
const dialled = (text: string, each: boolean): string => {
  const parts = text.split('/');
  const [code = '', number, ...others] = parts;
  const numbers = !each && number !== undefined && PLACE.test(code) ? [`${code}/${number}`, ...others] : parts;
  const [first = ''] = numbers;
  // 0142/43: of the second only its last figures.
  const isWhole = (part: string): boolean => each || digitsOf(part).length >= Math.min(6, digitsOf(first).length);
  return numbers.map((part, i) => (i === 0 || isWhole(part) ? linked(part) : escapeMarkup(part))).join('/');
};

const called = ({ text, value = '' }: Run): string =>
  CALLED.test(value) ? dialled(text, value.endsWith('.emergency')) : escapeMarkup(text);

const inline = (runs: readonly Run[]): string =>
  runs
    .map((run) => {
      const text = called(run);
      const attributes = `${run.value === undefined ? '' : ' class="value"'}${run.lang === undefined ? '' : ` lang="${escapeMarkup(run.lang)}"`}`;
      const inner = attributes === '' ? text : `<span${attributes}>${text}</span>`;
      return run.strong ? `<strong>${inner}</strong>` : inner;
    })
    .join('');

/** A decorative picture made of our own marks. */
const sign = (paints: readonly Paint[], width: number, height: number): string => {
  const paths = paints.map((paint) =>
    paint.kind === 'path'
      ? `<path d="${paint.d}" fill="${paint.fill ?? 'none'}"${paint.stroke === undefined ? '' : ` stroke="${paint.stroke}" stroke-width="${paint.width ?? 1}"`}/>`
      : '',
  );
  return `<svg aria-hidden="true" viewBox="0 0 ${Math.round(width * 100) / 100} ${height}">${paths.join('')}</svg>`;
};

const element = (tag: string, classes: string, content: string, more = ''): string =>
  `<${tag}${classes === '' ? '' : ` class="${classes}"`}${more}>${content}</${tag}>`;

/** A browser that brings a page back as it was left would show the ticks of another week. */
const BOX = '<input type="checkbox" autocomplete="off"';

const list = (block: Extract<Block, { block: 'list' }>, writer: Writer): string => {
  const items = block.items.map((item) => {
    const [first, ...rest] = item;
    if (block.mark === 'tick') {
      const id = `tick-${writer.next()}`;
      const labelled =
        first?.block === 'paragraph'
          ? [`<p><label for="${id}">${inline(first.text)}</label></p>`, ...write(rest, writer)]
          : write(item, writer);
      const name = first?.block === 'paragraph' ? '' : ` aria-labelledby="${id}-words"`;
      return `<li>${BOX} id="${id}"${name}><div id="${id}-words">${labelled.join('\n')}</div></li>`;
    }
    const mark =
      block.mark === 'never'
        ? `${sign(put(0, 0, prohibition(24, writer.palette.shape('danger'), '#ffffff')), 24, 24)}<span class="hidden">\u2717 </span>`
        : '';
    return `<li><span class="mark">${mark}</span><div>${write(item, writer).join('\n')}</div></li>`;
  });
  return element('ul', block.mark, `\n${items.join('\n')}\n`, ' role="list"');
};

const steps = (block: Extract<Block, { block: 'steps' }>, writer: Writer): string => {
  const items = block.items.map(({ when, body }) => {
    const time = when && when.length > 0 ? [element('p', 'when', inline(when))] : [];
    return `<li><div>${[...time, ...write(body, writer)].join('\n')}</div></li>`;
  });
  return element('ol', '', `\n${items.join('\n')}\n`, ' role="list"');
};

/** From so many columns on a table is set anew on a narrow screen: a row's cells one after another, each under its column's head. */
const WIDE = 7;

const table = (block: Extract<Block, { block: 'table' }>): string => {
  const wide = block.columns.length >= WIDE;
  const classes = [...(wide ? ['wide'] : []), ...(block.byDay ? ['by-day'] : [])].join(' ');
  // What a style sheet sets otherwise than as a table stays one for who hears it.
  const role = (name: string): string => (wide ? ` role="${name}"` : '');
  const heads = block.head.at(-1) ?? [];
  const headOf = (column: number): string => {
    let at = 0;
    for (const cell of heads) {
      at += cell.span ?? 1;
      if (column < at) return textOf(cell.text);
    }
    return '';
  };
  const cellOf = (cell: Cell, column: number, head: boolean, row: readonly Cell[]): string => {
    const classes = [block.columns[column]?.align ?? 'start', ...(cell.tone && cell.tone !== 'plain' ? [cell.tone] : [])].join(
      ' ',
    );
    const span = cell.span !== undefined && cell.span > 1 ? ` colspan="${cell.span}"` : '';
    const text = inline(cell.text);
    if (head) return element('th', classes, text, ` scope="col"${role('columnheader')}${span}`);
    const name = [textOf(row.find((c) => c.head)?.text ?? []), headOf(column)].filter((part) => part !== '').join(', ');
    const content =
      cell.hand === 'tick'
        ? cell.text.length > 0
          ? `<label>${BOX}><span>${text}</span></label>`
          : `${BOX} aria-label="${escapeMarkup(name)}">`
        : cell.hand === 'write'
          ? `${text}<span class="write"></span>`
          : cell.tone === 'mute'
            ? `<span>${text}</span>`
            : text;
    if (cell.head) return element('th', classes, content, ` scope="row"${role('rowheader')}${span}`);
    const under = wide ? ` data-head="${escapeMarkup(headOf(column))}"` : '';
    return element('td', classes, content, `${role('cell')}${under}${span}`);
  };
  const rowOf = (cells: readonly Cell[], head: boolean): string => {
    let column = 0;
    const written = cells.map((cell) => {
      const at = column;
      column += cell.span ?? 1;
      return cellOf(cell, at, head, cells);
    });
    return `<tr${role('row')}>${written.join('')}</tr>`;
  };
  const caption = block.caption ? element('caption', '', inline(block.caption)) : '';
  const head =
    block.head.length > 0 ? `<thead${role('rowgroup')}>${block.head.map((row) => rowOf(row, true)).join('\n')}</thead>` : '';
  const body = `<tbody${role('rowgroup')}>\n${block.rows.map((row) => rowOf(row, false)).join('\n')}\n</tbody>`;
  // A wide table scrolls by itself, also from the keyboard.
  return `<div class="scroll" tabindex="0">\n<table${classes === '' ? '' : ` class="${classes}"`}${role('table')}>${caption}${head}${body}</table>\n</div>`;
};

const callout = (block: Extract<Block, { block: 'callout' }>, writer: Writer): string => {
  const { ground, letters, alert } = PANELS[block.level];
  const symbol = alert ? sign(put(0, 0, alertSymbol(24, letters, ground)), alertWidth(24), 24) : '';
  const word = escapeMarkup(writer.levelWords[block.level].toUpperCase());
  return [
    `<section class="callout ${block.level}">`,
    `<p class="word">${symbol}<span>${word}</span></p>`,
    ...(block.title.length > 0 ? [element('p', 'title', inline(block.title))] : []),
    ...write(block.body, writer),
    '</section>',
  ].join('\n');
};

const figure = (block: Extract<Block, { block: 'figure' }>, writer: Writer): string => {
  const svg = drawingToSvg(block.drawing, writer.palette, `${block.drawing.name}-${writer.next()}`);
  const caption = block.caption ? `\n<figcaption>${inline(block.caption)}</figcaption>` : '';
  return `<figure style="--share: ${Math.round(block.share * 100)}%">\n${svg}${caption}\n</figure>`;
};

const writeBlock = (block: Block, writer: Writer): string => {
  const level = writer.levels.get(block);
  switch (block.block) {
    case 'heading':
      return element(`h${level ?? block.level}`, `level-${block.level}`, inline(block.text));
    case 'paragraph':
      return element(level === undefined ? 'p' : `h${level}`, block.role === 'body' ? '' : block.role, inline(block.text));
    case 'list':
      return list(block, writer);
    case 'steps':
      return steps(block, writer);
    case 'table':
      return table(block);
    case 'callout':
      return callout(block, writer);
    case 'figure':
      return figure(block, writer);
    case 'columns': {
      const weights = block.columns.map((column) => `minmax(0, ${column.weight}fr)`).join(' ');
      const columns = block.columns.map((column) => element('section', '', `\n${write(column.body, writer).join('\n')}\n`));
      return element('div', 'columns', `\n${columns.join('\n')}\n`, ` style="--columns: ${weights}"`);
    }
    case 'cut-outs': {
      const items = block.items.map((item) => element('section', 'cut-out', `\n${write(item, writer).join('\n')}\n`));
      return element('div', 'cut-outs', `\n${items.join('\n')}\n`, ` style="--across: ${block.across}"`);
    }
    case 'optional':
      return write(block.body, writer).join('\n');
    case 'face':
      return element('section', `face ${block.distance}`, `\n${write(block.body, writer).join('\n')}\n`);
    case 'blank':
      return element('div', 'blank', element('p', 'label', inline(block.label)) + '<div></div>'.repeat(block.lines));
    case 'new-sheet':
      return '<div class="new-sheet"></div>';
  }
};

const write = (blocks: readonly Block[], writer: Writer): readonly string[] => blocks.map((block) => writeBlock(block, writer));

const base64 = (bytes: Uint8Array): string => btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));

const logoOf = (logo: Logo | undefined): string => {
  if (!logo) return '';
  if (logo.kind === 'image') return `<img alt="" src="data:image/${logo.type};base64,${base64(logo.bytes)}">`;
  const paths = logo.paths
    .map(({ d, fill, evenOdd }) => `<path d="${d}" fill="${fill}"${evenOdd ? ' fill-rule="evenodd"' : ''}/>`)
    .join('');
  return `<svg aria-hidden="true" viewBox="0 0 ${logo.width} ${logo.height}" width="${logo.width}" height="${logo.height}">${paths}</svg>`;
};

/** Days to choose from: a phone then shows the chosen one's column alone (print/html-style). */
const dayList = (days: Page['days']): readonly string[] => {
  if (!days) return [];
  const link = (id: string, name: string, more = ''): string => `<li><a href="#${id}"${more}>${escapeMarkup(name)}</a></li>`;
  const links = [...days.each.map(({ iso, name }) => link(`day-${iso}`, name, ` data-day="${iso}"`)), link('days', days.all)];
  return [
    `<nav id="days" aria-label="${escapeMarkup(days.label)}"><ul role="list">`,
    ...links,
    `</ul><p>${escapeMarkup(days.note)}</p></nav>`,
  ];
};

/** Without the sheets that are for who holds the paper; a caution that stands on one stays. */
const onScreen = (body: readonly Block[]): readonly Block[] => {
  let printed = false;
  return body.filter((block) => {
    if (block.block === 'new-sheet') printed = block.printed === true;
    return !printed || [...walk([block])].some((inner) => 'cautions' in inner && (inner.cautions ?? []).length > 0);
  });
};

/** Where the list of days leads: past the head of the page, to its first part. */
const writeBody = ({ body: whole, days }: Page, writer: Writer): readonly string[] => {
  const body = onScreen(whole);
  if (!days) return write(body, writer);
  const part = Math.max(
    0,
    body.findIndex((block) => block.block === 'heading' && block.level === 2),
  );
  const marks = days.each.map(({ iso }) => `<span id="day-${iso}"></span>`).join('');
  return [...write(body.slice(0, part), writer), marks, ...write(body.slice(part), writer)];
};

/**
 * Writes a page as HTML. A screen has no end, so optional blocks are always there; only sheets that are for who holds the paper are left out.
 * @param at the template, for findings.
 * @returns the finding `control-character` (error).
 */
export const printHtml = (page: Page, at: Place = place('page')): PrintedHtml => {
  const refused = badCharacters(page, at);
  if (refused.length > 0) return { html: '', findings: refused };
  const palette = paletteOf(page.brand.colour);
  let count = 0;
  const writer: Writer = { palette, levels: headingLevels(page), levelWords: page.words.levels, next: () => ++count };
  const draft = page.words.draft === undefined ? [] : [element('p', 'draft', escapeMarkup(page.words.draft))];
  const scripts = page.ticks === undefined ? '' : `; script-src '${TICKS_HASH}'`;
  const html = [
    '<!doctype html>',
    `<html lang="${escapeMarkup(page.lang)}"${page.ticks === undefined ? '' : ` data-ticks="${escapeMarkup(page.ticks)}"`}>`,
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:${scripts}">`,
    `<title>${escapeMarkup(page.title)}</title>`,
    `<style>${styleOf(page, palette)}</style>`,
    '</head>',
    `<body class="${page.distance}">`,
    ...draft,
    `<header>${page.head.length > 0 ? element('p', '', inline(page.head)) : ''}${logoOf(page.brand.logo)}</header>`,
    ...dayList(page.days),
    '<main>',
    ...writeBody(page, writer),
    '</main>',
    `<footer>${page.foot.map((runs) => element('p', '', inline(runs))).join('\n')}</footer>`,
    ...(page.ticks === undefined ? [] : [`<script>${TICKS_SCRIPT}</script>`]),
    '</body>',
    '</html>',
    '',
  ].join('\n');
  return { html, findings: [] };
};
