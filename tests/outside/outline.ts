/**
 * A document's outline as outside readers have it: a line for each heading, paragraph, list, item, table, row, cell and figure, in reading order.
 * Of a PDF from its tag tree (poppler, and pdf.js for what figures and marks stand for), of a page in Chromium from its accessibility tree.
 */
import { execFileSync } from 'node:child_process';
import type { Page } from 'playwright-core';
import { open, tagTree, type Tag } from '../print/pdf-read.js';

const clean = (text: string): string => text.replace(/\s+/g, ' ').trim();
const line = (depth: number, role: string, text?: string): string =>
  `${'  '.repeat(depth)}${role}${text === undefined || clean(text) === '' ? '' : ` ${clean(text)}`}`;

/** What a dot before an item says. */
const DOT = '\u2022';

/** An element of poppler's print of a tag tree. */
interface Struct {
  readonly tag: string;
  readonly depth: number;
  readonly texts: string[];
  readonly kids: Struct[];
  scope?: string;
}

const structOf = (printed: string): Struct => {
  const root: Struct = { tag: 'Root', depth: -1, texts: [], kids: [] };
  const path: Struct[] = [root];
  for (const row of printed.split('\n')) {
    const depth = row.search(/\S/);
    if (depth < 0) continue;
    const text = row.trim();
    const current = path.at(-1) as Struct;
    if (text.startsWith('"')) {
      const holder = path.findLast((s) => s.depth < depth) as Struct;
      // Poppler shows the hyphen that a line's end put there as a piece of its own.
      if (text !== '"-"') holder.texts.push(text.slice(1, -1));
    } else if (text.startsWith('/')) {
      if (text.startsWith('/Scope')) current.scope = text.split('/')[2] as string;
    } else {
      while ((path.at(-1) as Struct).depth >= depth) path.pop();
      const made: Struct = { tag: text.replace(/:$| \(.*\):?$/g, ''), depth, texts: [], kids: [] };
      (path.at(-1) as Struct).kids.push(made);
      path.push(made);
    }
  }
  return root.kids[0] as Struct;
};

const alternatives = (tag: Tag, roles: readonly string[]): readonly string[] => [
  ...(roles.includes(tag.role) && tag.alt !== undefined ? [tag.alt] : []),
  ...tag.kids.flatMap((kid) => alternatives(kid, roles)),
];

export const outlineOfPdf = async (file: string, bytes: Uint8Array): Promise<readonly string[]> => {
  const printed = execFileSync('pdfinfo', ['-struct-text', file], { encoding: 'utf8', maxBuffer: 64 << 20 });
  const doc = await open(bytes);
  const trees: Tag[] = [];
  for (let n = 1; n <= doc.numPages; n++) trees.push(await tagTree(doc, n));
  // In order: each figure, and each mark that stands for a character, is on one sheet.
  const figures = trees.flatMap((tree) => alternatives(tree, ['Figure']));
  const marks = trees.flatMap((tree) => alternatives(tree, ['Lbl', 'TD']));
  const textOf = (s: Struct): string => {
    const text = s.texts.join('');
    return clean(text) === '' && s.texts.length > 0 ? (marks.shift() ?? '') : text;
  };
  const lines = (s: Struct, depth: number): readonly string[] => {
    const kids = (d: number): readonly string[] => s.kids.flatMap((kid) => lines(kid, d));
    switch (s.tag) {
      case 'H1':
      case 'H2':
      case 'H3':
      case 'H4':
        return [line(depth, `heading ${s.tag[1]}`, s.texts.join(''))];
      case 'P':
        return [line(depth, 'paragraph', s.texts.join(''))];
      case 'Caption':
        return [line(depth, 'caption', s.texts.join(''))];
      case 'Figure':
        return [line(depth, 'figure', figures.shift())];
      case 'L':
        return [line(depth, 'list'), ...kids(depth + 1)];
      case 'LI': {
        const [label, ...rest] = s.kids;
        const mark = label?.tag === 'Lbl' ? textOf(label) : '';
        return [line(depth, 'item', mark === DOT ? '' : mark), ...rest.flatMap((kid) => lines(kid, depth + 1))];
      }
      case 'Table':
        return [line(depth, 'table'), ...kids(depth + 1)];
      case 'TR':
        return [line(depth, 'row'), ...kids(depth + 1)];
      case 'TH':
        return [line(depth, s.scope === 'Row' ? 'row head' : 'column head', s.texts.join(''))];
      case 'TD':
        return [line(depth, 'cell', textOf(s))];
      default:
        return kids(depth);
    }
  };
  return lines(structOf(printed), 0);
};

/** A node of Chromium's accessibility tree, as its debugger tells it. */
interface Node {
  readonly nodeId: string;
  readonly ignored: boolean;
  readonly role?: { readonly value: string };
  readonly name?: { readonly value: string };
  readonly description?: { readonly value: string };
  readonly properties?: readonly { readonly name: string; readonly value: { readonly value?: unknown } }[];
  readonly childIds?: readonly string[];
}

const BLOCKS = ['heading', 'paragraph', 'Figcaption', 'caption', 'list', 'table', 'image', 'img'];

export const outlineOfPage = async (page: Page): Promise<readonly string[]> => {
  const session = await page.context().newCDPSession(page);
  const { nodes } = (await session.send('Accessibility.getFullAXTree')) as { nodes: readonly Node[] };
  await session.detach();
  const byId = new Map(nodes.map((node) => [node.nodeId, node]));
  const kidsOf = (node: Node): readonly Node[] => (node.childIds ?? []).flatMap((id) => byId.get(id) ?? []);
  const roleOf = (node: Node): string => (node.ignored ? 'none' : (node.role?.value ?? 'none'));
  /** Its words, without those of blocks inside it where `own` is asked. */
  const textOf = (node: Node, own = false): string =>
    roleOf(node) === 'StaticText'
      ? (node.name?.value ?? '')
      : kidsOf(node)
          .filter((kid) => !own || !BLOCKS.includes(roleOf(kid)))
          .map((kid) => textOf(kid, own))
          .join('');
  const boxIn = (node: Node): Node | undefined => {
    for (const kid of kidsOf(node)) {
      const found = roleOf(kid) === 'checkbox' ? kid : BLOCKS.includes(roleOf(kid)) ? undefined : boxIn(kid);
      if (found) return found;
    }
    return undefined;
  };
  const BOX = '\u2610';
  const lines = (node: Node, depth: number): readonly string[] => {
    const kids = (d: number): readonly string[] => kidsOf(node).flatMap((kid) => lines(kid, d));
    switch (roleOf(node)) {
      case 'heading':
        return [line(depth, `heading ${String(node.properties?.find((p) => p.name === 'level')?.value.value)}`, textOf(node))];
      case 'paragraph':
      case 'Figcaption':
        return clean(textOf(node)) === '' ? [] : [line(depth, 'paragraph', textOf(node))];
      case 'caption':
        return [line(depth, 'caption', textOf(node))];
      case 'image':
      case 'img':
        return [line(depth, 'figure', `${node.name?.value ?? ''} ${node.description?.value ?? ''}`)];
      case 'list':
        return [line(depth, 'list'), ...kids(depth + 1)];
      case 'listitem': {
        // The words beside a box are its name, and are told with it.
        const box = boxIn(node);
        const words = box ? [line(depth + 1, 'paragraph', box.name?.value)] : [];
        return [line(depth, 'item', box ? BOX : textOf(node, true)), ...words, ...kids(depth + 1)];
      }
      case 'table':
        return [line(depth, 'table'), ...kids(depth + 1)];
      case 'row':
        return [line(depth, 'row'), ...kids(depth + 1)];
      case 'columnheader':
        return [line(depth, 'column head', textOf(node))];
      case 'rowheader':
        return [line(depth, 'row head', textOf(node))];
      case 'cell':
      case 'gridcell':
        return [line(depth, 'cell', clean(textOf(node)) === '' && boxIn(node) ? BOX : textOf(node))];
      default:
        return kids(depth);
    }
  };
  return lines(nodes[0] as Node, 0);
};
