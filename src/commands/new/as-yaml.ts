/**
 * Plain data as YAML that a person would have written: short things on one line, sections apart, a comment where a section begins.
 */
import { Document, isMap, isPair, isScalar, isSeq, parseDocument, type Node, visit } from 'yaml';

/** A map or list is on one line if it is no longer than this and holds nothing deep. */
const LINE = 96;

const depth = (node: unknown): number => {
  if (!isMap(node) && !isSeq(node)) return 0;
  return 1 + Math.max(0, ...node.items.map((item) => depth(isPair(item) ? item.value : item)));
};

const flowing = (node: Node): boolean =>
  depth(node) <= 2 &&
  new Document(node).toString({ lineWidth: 0, flowCollectionPadding: true, collectionStyle: 'flow' }).trim().length <= LINE;

/** A document as text: white inside of braces, none inside of brackets, and no line broken that nobody broke. */
export const textOfYaml = (doc: Document): string => {
  const text = doc.toString({ lineWidth: 0, flowCollectionPadding: true, indentSeq: true });
  const gaps: number[] = [];
  visit(parseDocument(text), {
    Seq: (_, node) => {
      const [from, to] = node.range ?? [0, 0];
      if (node.flow && text[from + 1] === ' ' && text[to - 2] === ' ') gaps.push(from + 1, to - 2);
    },
  });
  const gone = new Set(gaps);
  return text
    .split('')
    .filter((_, i) => !gone.has(i))
    .join('');
};

export interface Style {
  /** Lines above everything. */
  readonly head: readonly string[];
  /** Comments by the key of the section that they stand above. */
  readonly above: Readonly<Record<string, string>>;
  /** Comments by the list item that they stand beside: `not_known`'s facts. */
  readonly beside: (key: string, item: string) => string | undefined;
  /** Keys whose maps are never on one line. */
  readonly open: readonly string[];
}

export const asYaml = (value: unknown, style: Style): string => {
  const doc = new Document(value, { aliasDuplicateObjects: false });
  const root = doc.contents;
  if (isMap(root))
    root.items.forEach((pair, i) => {
      const key = isScalar(pair.key) ? pair.key : undefined;
      const name = typeof key?.value === 'string' ? key.value : '';
      const section = (isMap(pair.value) || isSeq(pair.value)) && (style.above[name] !== undefined || !flowing(pair.value));
      if (key && i > 0 && section) key.spaceBefore = true;
      const comment = style.above[name];
      if (key && comment !== undefined) key.commentBefore = ` ${comment}`;
      if (isSeq(pair.value))
        for (const item of pair.value.items) {
          const beside = isScalar(item) ? style.beside(name, String(item.value)) : undefined;
          if (isScalar(item) && beside !== undefined) item.comment = ` ${beside}`;
        }
    });
  visit(doc, {
    Collection: (_, node, path) => {
      if (path.length <= 1) return undefined;
      const pair = path.at(-1);
      const name = isPair(pair) && isScalar(pair.key) ? String(pair.key.value) : '';
      const commented =
        isSeq(node) && node.items.some((item) => isScalar(item) && item.comment !== undefined && item.comment !== null);
      if (style.open.includes(name) || commented || !flowing(node)) return undefined;
      node.flow = true;
      return visit.SKIP;
    },
  });
  const head = style.head.map((line) => `# ${line.replace(/\s+/g, ' ')}\n`).join('');
  return head + textOfYaml(doc);
};
