/**
 * The same week sheets by others: a headless Chromium that prints our own HTML, and typst that sets a page of the same words, tables and typeface.
 * Either is left out where it isn't installed.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { defaultTreeAdapter as tree, parse, type DefaultTreeAdapterMap } from 'parse5';
import { readFaces } from '../src/host/disk.js';
import { openBrowser } from '../tests/support/browser.js';

type Node = DefaultTreeAdapterMap['node'];

export interface Peer {
  readonly name: string;
  readonly documents: number;
  readonly seconds: number;
}

/** Week sheets as HTML in a folder of outputs. */
export const sheetsIn = (out: string): readonly string[] =>
  readdirSync(out, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .flatMap((entry) => readdirSync(join(out, entry.name)).map((name) => resolve(out, entry.name, name)))
    .filter((path) => /\/week\.[a-z]+\.html$/.test(path) && existsSync(path));

export const chromium = async (sheets: readonly string[]): Promise<Peer | undefined> => {
  const browser = await Promise.resolve()
    .then(openBrowser)
    .catch(() => undefined);
  if (!browser) return undefined;
  const tab = await browser.newPage();
  const begun = performance.now();
  for (const path of sheets) {
    await tab.goto(pathToFileURL(path).href);
    await tab.pdf({ preferCSSPageSize: true, tagged: true });
  }
  const seconds = (performance.now() - begun) / 1000;
  await browser.close();
  return { name: 'Chromium prints the HTML', documents: sheets.length, seconds };
};

const escaped = (text: string): string => text.replace(/\s+/g, ' ').replace(/[\\#$*_`<>@=~[\]"'/+-]/g, (c) => `\\${c}`);

/** HTML to a source of the same words, headings, lists and tables. */
export const typstSource = (html: string): string => {
  const write = (node: Node): string => {
    if (tree.isTextNode(node)) return escaped(node.value);
    const kids = 'childNodes' in node ? node.childNodes : [];
    const inner = (): string => kids.map(write).join('');
    if (!tree.isElementNode(node)) return inner();
    const all = (tag: string, under: Node = node): readonly Node[] =>
      ('childNodes' in under ? under.childNodes : []).flatMap((kid) =>
        tree.isElementNode(kid) && kid.tagName === tag ? [kid] : all(tag, kid),
      );
    switch (node.tagName) {
      case 'head':
      case 'script':
      case 'style':
      case 'svg':
        return '';
      case 'h1':
      case 'h2':
      case 'h3':
        return `\n\n#heading(level: ${node.tagName.slice(1)})[${inner()}]\n\n`;
      case 'li':
        return `\n\n#list[${inner()}]\n\n`;
      case 'table': {
        const rows = all('tr').map((tr) => ('childNodes' in tr ? tr.childNodes : []).filter((kid) => tree.isElementNode(kid)));
        const spanOf = (cell: (typeof rows)[number][number]): number =>
          Number(cell.attrs.find(({ name }) => name === 'colspan')?.value ?? 1);
        const columns = Math.max(...rows.map((row) => row.reduce((sum, cell) => sum + spanOf(cell), 0)));
        const cells = rows.flat().map((cell) => `table.cell(colspan: ${spanOf(cell)})[${cell.childNodes.map(write).join('')}]`);
        return `\n\n#table(columns: (${'1fr,'.repeat(columns)}), stroke: 0.5pt, ${cells.join(', ')})\n\n`;
      }
      case 'p':
      case 'div':
      case 'section':
        return `\n\n${inner()}\n\n`;
      default:
        return inner();
    }
  };
  return `#set page(paper: "us-letter", flipped: true, margin: 12mm)
#set text(font: "Atkinson Hyperlegible Next", size: 9.5pt, hyphenate: true)
${write(parse(html))}
`;
};

export const typst = async (sheets: readonly string[]): Promise<Peer | undefined> => {
  const found = await import('@myriaddreamin/typst-ts-node-compiler').catch(() => undefined);
  if (!found) return undefined;
  const compiler = found.NodeCompiler.create({
    fontArgs: [{ fontBlobs: Object.values(readFaces()).map((bytes) => Buffer.from(bytes)) }],
  });
  const sources = sheets.map((path) => typstSource(readFileSync(path, 'utf8')));
  const begun = performance.now();
  for (const mainFileContent of sources) {
    // What it remembers of the page before would be no work.
    compiler.evictCache(0);
    compiler.pdf({ mainFileContent });
  }
  return { name: 'typst sets an equal page', documents: sheets.length, seconds: (performance.now() - begun) / 1000 };
};
