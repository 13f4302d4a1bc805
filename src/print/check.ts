/**
 * What a page says, piece by piece with the line that wrote it, checked before it is printed: no controls, and a glyph for every character.
 */
import { error, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { textOf, type Run } from '../base/run.js';
import { walk, type Block, type Page, type Written } from '../compose/block.js';
import { codeOf, controlIn, onOneLine, printable } from './characters.js';
import type { Faces } from './faces.js';
import { OURS, placeIn } from './setting.js';

interface Said {
  readonly at: Written;
  readonly runs: readonly Run[];
  /** False for what is read by machines only: the text alternative of a figure. */
  readonly seen: boolean;
}

const said = (at: Written, ...texts: readonly (readonly Run[])[]): readonly Said[] =>
  texts.map((runs) => ({ at, runs, seen: true }));

const saidBy = (block: Block): readonly Said[] => {
  switch (block.block) {
    case 'heading':
    case 'paragraph':
      return said(block, block.text);
    case 'steps':
      return said(block, ...block.items.map((item) => item.when ?? []));
    case 'table':
      return said(block, block.caption ?? [], ...[...block.head, ...block.rows].flatMap((row) => row.map((cell) => cell.text)));
    case 'callout':
      return said(block, block.title);
    case 'figure':
      return [
        ...said(
          block,
          block.caption ?? [],
          ...block.drawing.marks.flatMap((mark) => (mark.mark === 'text' ? [[{ text: mark.text }]] : [])),
        ),
        { at: block, runs: block.drawing.alt, seen: false },
      ];
    case 'blank':
      return said(block, block.label);
    case 'list':
    case 'columns':
    case 'cut-outs':
    case 'optional':
    case 'face':
    case 'new-sheet':
      return [];
  }
};

const BEGINNING = 60;

/** The first words that some blocks say, for a person to know them by. */
export const beginningOf = (blocks: readonly Block[]): string => {
  const texts = [...walk(blocks)].flatMap(saidBy).map(({ runs }) => onOneLine(textOf(runs)));
  const all = texts.filter((text) => text !== '').join(' · ');
  return all.length <= BEGINNING ? all : `${all.slice(0, all.lastIndexOf(' ', BEGINNING)).trimEnd()} …`;
};

const everything = (page: Page): readonly Said[] => {
  const { words } = page;
  const own = [words.sheetOf, words.draft ?? '', ...Object.values(words.levels).map((word) => word.toUpperCase())].map((text) => [
    { text },
  ]);
  return [
    { at: OURS, runs: [{ text: page.title }], seen: false },
    ...said(OURS, page.head),
    ...[...walk(page.body)].flatMap(saidBy),
    ...said(OURS, ...page.foot, ...own),
  ];
};

/** Languages that a page's texts are in, its own first. */
export const langsOf = (page: Page): ReadonlySet<string> =>
  new Set([page.lang, ...everything(page).flatMap(({ runs }) => runs.flatMap((run) => run.lang ?? []))]);

/** A finding names the first characters of the text, so that it can be found. */
const EXCERPT = 40;

const inAll = (faces: Faces, character: string): boolean => {
  const codePoint = character.codePointAt(0) as number;
  return faces.regular.has(codePoint) && faces.strong.has(codePoint) && faces.heavy.has(codePoint);
};

/**
 * `control-character` and, where faces are given, `no-glyph`: one finding for each character of each text.
 * A glyph must be in every face, since a theme may set any text in any of them.
 */
export const badCharacters = (page: Page, at: Place, faces?: Faces): readonly Finding[] =>
  everything(page).flatMap(({ at: written, runs, seen }) => {
    const text = runs.map((run) => run.text).join('');
    const where = written.line === 0 ? at : placeIn(at, written);
    const data = (character: string) => ({ character: codeOf(character), text: [...printable(text)].slice(0, EXCERPT).join('') });
    const control = controlIn(text);
    if (control !== undefined) return [error('control-character', where, { ...data(control), text: '' })];
    if (!seen || !faces) return [];
    const missing = new Set<string>();
    for (const c of printable(text)) if (!inAll(faces, c) && !/\s/.test(c)) missing.add(c);
    return [...missing].map((c) => error('no-glyph', where, { ...data(c), glyph: c }));
  });
