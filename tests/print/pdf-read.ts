/** What an outside reader (pdf.js) finds in a PDF: its tag tree with the text of each element, its text items, its outline. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

export type Doc = Awaited<ReturnType<typeof getDocument>['promise']>;

export const open = (bytes: Uint8Array): Promise<Doc> => getDocument({ data: bytes.slice(), verbosity: 0 }).promise;

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly type?: string;
  readonly id?: string;
  readonly children?: readonly Node[];
}

export interface Tag {
  readonly role: string;
  /** Its text alternative, or what its mark stands for. */
  readonly alt?: string;
  readonly text: string;
  readonly kids: readonly Tag[];
}

const textsById = async (doc: Doc, n: number): Promise<ReadonlyMap<string, string>> => {
  const page = await doc.getPage(n);
  const { items } = await page.getTextContent({ includeMarkedContent: true });
  const texts = new Map<string, string>();
  const open: (string | undefined)[] = [];
  for (const item of items) {
    if ('type' in item) {
      if (item.type === 'endMarkedContent') open.pop();
      else open.push('id' in item && item.id ? item.id : open.at(-1));
    } else {
      const id = open.at(-1);
      if (id !== undefined) texts.set(id, (texts.get(id) ?? '') + item.str + (item.hasEOL ? ' ' : ''));
    }
  }
  return texts;
};

const tagOf = (node: Node, texts: ReadonlyMap<string, string>): Tag => {
  const children = node.children ?? [];
  return {
    role: node.role ?? '',
    // pdf.js shows an element beside its neighbours on sheets that hold nothing of it.
    ...(node.alt === undefined || children.length === 0 ? {} : { alt: node.alt }),
    text: children
      .map((child) => (child.type === 'content' ? (texts.get(child.id as string) ?? '') : ''))
      .join('')
      .trim(),
    kids: children.filter((child) => child.type === undefined).map((child) => tagOf(child, texts)),
  };
};

/** The tag tree of one page, from the document down. */
export const tagTree = async (doc: Doc, n = 1): Promise<Tag> => {
  const page = await doc.getPage(n);
  const root = (await page.getStructTree()) as Node;
  const tree = tagOf(root, await textsById(doc, n));
  return tree.role === 'Root' ? (tree.kids[0] as Tag) : tree;
};

export interface Item {
  readonly text: string;
  readonly size: number;
}

/** Every text on every page with its font size in points. */
export const itemsOf = async (doc: Doc): Promise<readonly Item[]> => {
  const items: Item[] = [];
  for (let n = 1; n <= doc.numPages; n++) {
    const { items: found } = await (await doc.getPage(n)).getTextContent();
    for (const item of found) {
      if ('str' in item && item.str.trim() !== '') {
        const [, , across, up] = item.transform as readonly number[];
        items.push({ text: item.str.trim(), size: Math.hypot(across ?? 0, up ?? 0) });
      }
    }
  }
  return items;
};

const PAINTING = new Set<number>([
  OPS.showText,
  OPS.showSpacedText,
  OPS.fill,
  OPS.eoFill,
  OPS.stroke,
  OPS.fillStroke,
  OPS.constructPath,
  OPS.paintImageXObject,
]);

/** Painting operators, and how many of them stand outside marked content. */
export const painting = async (doc: Doc): Promise<{ readonly all: number; readonly unmarked: number }> => {
  let [all, unmarked] = [0, 0];
  for (let n = 1; n <= doc.numPages; n++) {
    const { fnArray } = await (await doc.getPage(n)).getOperatorList();
    let depth = 0;
    for (const fn of fnArray) {
      if (fn === OPS.beginMarkedContent || fn === OPS.beginMarkedContentProps) depth++;
      else if (fn === OPS.endMarkedContent) depth--;
      else if (PAINTING.has(fn)) {
        all++;
        if (depth === 0) unmarked++;
      }
    }
  }
  return { all, unmarked };
};
