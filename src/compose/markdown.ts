/**
 * Markdown with sentinels to blocks. Only the lexer of the library is used; what it would write as HTML never exists here.
 * Directives: `::: name words` ... `:::` for what holds other blocks (longer fences nest), a code fence ```` ```name words ```` for what stands alone.
 */
import { Marked, type Token, type Tokens } from 'marked';
import { error, type Finding } from '../base/finding.js';
import { nearest, suggestion } from '../base/spelling.js';
import { textOf, type Run } from '../base/run.js';
import { LEVELS, type Level } from '../base/level.js';
import { figureNames } from '../draw/index.js';
import { NoWords, type Speaker } from '../say/speaker.js';
import type { Block, Distance, Role, Written } from './block.js';
import { LINE_CLOSE, LINE_OPEN, VALUE_CLOSE, VALUE_OPEN, type Payload, type Pot } from './leaf.js';
import { strengthen, tidy } from './runs.js';
import type { TemplateFile } from './template.js';

/** A block that code makes: a figure, a table of the week, the cautions. Undefined for a name that it doesn't know. */
export type Maker = (name: string, words: readonly string[], body: string, line: number) => readonly Block[] | undefined;

interface Directive extends Tokens.Generic {
  readonly type: 'directive';
  readonly name: string;
  /** What follows the name on its line. */
  readonly label: string;
  readonly closed: boolean;
  readonly tokens: Token[];
}

const HOLDERS = [
  'columns',
  'column',
  'cut-outs',
  'cut-out',
  'face',
  'optional',
  'callout',
  'signal',
  'message',
  'fine',
  'label',
  'never',
  'call',
  'ticks',
  'own',
] as const;

/** A figure that takes less of the width is no figure any more. */
const LEAST_SHARE = 0.1;
/** What protects people: never in a part that may be left out. */
const KEPT: readonly string[] = ['never', 'call', 'callout'];
/** Columns, or things to cut out, that one sheet has beside each other; how often one column is as wide as another. */
const MOST_WEIGHT = 20;
const MARK = new RegExp(`${LINE_OPEN}(\\d+):(\\d+)${LINE_CLOSE}`, 'g');
const PIECE = new RegExp(`${VALUE_OPEN}(\\d+)${VALUE_CLOSE}`, 'g');

const lexer = new Marked({ gfm: true }).use({
  extensions: [
    {
      name: 'directive',
      level: 'block',
      start: (source: string) => source.match(/^:{3,}/m)?.index,
      tokenizer(source: string) {
        const open = /^(:{3,})[ \t]*([a-z-]+)([^\n]*)\n/.exec(source);
        if (!open) return undefined;
        const [head, fence, name, label] = open as unknown as [string, string, string, string];
        const rest = source.slice(head.length);
        const end = new RegExp(`^${fence}[ \\t]*$`, 'm').exec(rest);
        const body = end ? rest.slice(0, end.index) : rest;
        const raw = head + body + (end ? end[0] : '');
        return { type: 'directive', raw, name, label, closed: end !== null, tokens: this.lexer.blockTokens(body, []) };
      },
    },
  ],
});

/** What a figure's words say of its share of the width, if they do. */
export const shareIn = (words: readonly string[]): string | undefined => words.slice(1).find((word) => word !== 'grows');

export interface Blocks {
  readonly blocks: readonly Block[];
  readonly findings: readonly Finding[];
}

/** @param signs how the reader's language sets the signs of a template's own text */
export const toBlocks = (
  markdown: string,
  files: readonly TemplateFile[],
  pot: Pot,
  signs: Speaker['signs'],
  make: Maker,
): Blocks => {
  const findings: Finding[] = [];
  let last = { file: 0, line: 1 };
  let optional = 0;
  const at = () => ({ doc: (files[last.file] ?? files[0])?.doc ?? '', path: [], line: last.line, column: 1 });
  /** Where the block at hand was written. */
  const here = (): Written => {
    const doc = last.file === 0 ? undefined : files[last.file]?.doc;
    return { line: last.line, ...(doc === undefined ? {} : { doc }) };
  };
  const refuse = (code: string, data: Finding['data']): void => void findings.push(error(code, at(), data));

  /** Takes line marks out of a text, remembering the last. */
  const unmarked = (text: string): string =>
    text.replace(MARK, (_, file: string, line: string) => {
      last = { file: Number(file), line: Number(line) };
      return '';
    });

  const wordsOf = (label: string): readonly string[] => unmarked(label).trim().split(/\s+/).filter(Boolean);

  /** Text with sentinels to payloads. */
  const pieces = (text: string): readonly Payload[] => {
    const found: Payload[] = [];
    let from = 0;
    const clean = signs(unmarked(text));
    for (const piece of clean.matchAll(PIECE)) {
      if (piece.index > from) found.push({ runs: [{ text: clean.slice(from, piece.index) }] });
      found.push(pot.get(Number(piece[1])));
      from = piece.index + piece[0].length;
    }
    if (from < clean.length) found.push({ runs: [{ text: clean.slice(from) }] });
    return found;
  };

  const inline = (tokens: readonly Token[] | undefined, strong = false): readonly Payload[] =>
    (tokens ?? []).flatMap((token): readonly Payload[] => {
      switch (token.type) {
        case 'text':
          if ('tokens' in token) return inline(token.tokens, strong);
          return strengthen(pieces(token.raw), strong);
        case 'escape':
          return strengthen(pieces((token as Tokens.Escape).text), strong);
        case 'strong':
          return inline((token as Tokens.Strong).tokens, true);
        case 'br':
          return [{ runs: [{ text: ' ' }] }];
        default:
          refuse('template-markup', { wrote: unmarked(token.raw).slice(0, 40) });
          return [];
      }
    });

  /** A time that is set out before a step's words stands among the words anywhere else: it is never lost. */
  const runsOf = (payloads: readonly Payload[]): readonly Run[] =>
    tidy(payloads.flatMap((p) => (p.when ? [...strengthen([p], true).flatMap(({ runs }) => runs), { text: ' ' }] : p.runs)));

  const paragraph = (tokens: readonly Token[] | undefined, role: Role): readonly Block[] => {
    const text = runsOf(inline(tokens));
    return textOf(text).trim() === '' ? [] : [{ block: 'paragraph', role, text, ...here() }];
  };

  const items = (list: Tokens.List, role: Role): readonly { when?: readonly Run[]; body: readonly Block[] }[] =>
    list.items.map((item) => {
      const [first, ...rest] = item.tokens;
      const head =
        first && (first.type === 'text' || first.type === 'paragraph')
          ? inline(first.type === 'text' && !first.tokens ? [first] : (first as Tokens.Paragraph).tokens)
          : [];
      const set = list.ordered ? head.find((p) => p.when) : undefined;
      const when = set?.runs;
      const text = runsOf(head.filter((p) => p !== set));
      const start: readonly Block[] = textOf(text).trim() === '' ? [] : [{ block: 'paragraph', role, text, ...here() }];
      return { ...(when ? { when } : {}), body: [...start, ...blocks(head.length > 0 ? rest : item.tokens, role)] };
    });

  /** A number that a template writes behind a name, if it writes one: over nothing, and no larger than a page could use. */
  const positive = (wrote: string | undefined, otherwise: number, whole = false): number => {
    if (wrote === undefined) return otherwise;
    const n = Number(wrote);
    if (n > 0 && n <= MOST_WEIGHT && (!whole || Number.isInteger(n))) return n;
    refuse('template-number', { wrote, most: MOST_WEIGHT });
    return otherwise;
  };

  /** The parts of what holds only parts of one kind; whatever else stands there would be lost. */
  const partsIn = (tokens: readonly Token[], part: string): readonly Directive[] =>
    tokens.flatMap((token): readonly Directive[] => {
      if (token.type === 'directive' && (token as Directive).name === part) return [token as Directive];
      const text = unmarked(token.raw).trim();
      if (token.type !== 'space' && text !== '' && !/^<!--[\s\S]*-->$/.test(text))
        refuse('template-loose', { wrote: text.split('\n')[0]?.slice(0, 40) ?? '', part });
      return [];
    });

  const holder = (directive: Directive, role: Role): readonly Block[] => {
    const { name, tokens } = directive;
    const words = wordsOf(directive.label);
    const written = here();
    const known = HOLDERS.find((h) => h === name);
    if (!known) {
      refuse('template-directive', { wrote: name, ...suggestion(name, HOLDERS) });
      return [];
    }
    if (optional > 0 && KEPT.includes(known)) refuse('template-optional-safety', { wrote: known });
    switch (known) {
      case 'columns': {
        const inside = partsIn(tokens, 'column');
        return [
          {
            block: 'columns',
            ...written,
            columns: inside.map((column, i) => ({ weight: positive(words[i], 1), body: blocks(column.tokens, role) })),
          },
        ];
      }
      case 'cut-outs': {
        const inside = partsIn(tokens, 'cut-out');
        const across = positive(words[0], 2, true);
        return [{ block: 'cut-outs', ...written, across, items: inside.map((item) => blocks(item.tokens, role)) }];
      }
      case 'column':
      case 'cut-out':
        refuse('template-directive', { wrote: known, names: [`${known}s`] });
        return [];
      case 'face': {
        const distance = (['room', 'unit', 'hand'] as const).find((d): d is Distance => d === words[0]);
        if (!distance)
          refuse('template-directive', { wrote: `face ${words[0] ?? ''}`, names: ['face room', 'face unit', 'face hand'] });
        return [{ block: 'face', distance: distance ?? 'hand', ...written, body: blocks(tokens, role) }];
      }
      case 'optional': {
        const rank = ([1, 2, 3] as const).find((r) => String(r) === words[0]) ?? 1;
        optional += 1;
        const body = blocks(tokens, role);
        optional -= 1;
        return [{ block: 'optional', rank, ...written, body }];
      }
      case 'own': {
        // Its heading stands for a text that may be empty, and gives way to one that the text brings itself.
        const [heading, ...body] = blocks(tokens, role);
        return heading?.block !== 'heading'
          ? [...(heading ? [heading] : []), ...body]
          : body[0]?.block === 'heading' || body.length === 0
            ? body
            : [heading, ...body];
      }
      case 'callout': {
        const level = LEVELS.find((l): l is Level => l === words[0]);
        if (!level) refuse('template-directive', { wrote: `callout ${words[0] ?? ''}`, names: LEVELS });
        const [first, ...rest] = blocks(tokens, role);
        const title = first?.block === 'heading' ? first.text : [];
        return [
          {
            block: 'callout',
            level: level ?? 'notice',
            ...written,
            title,
            body: first?.block === 'heading' ? rest : first ? [first, ...rest] : [],
          },
        ];
      }
      case 'call':
        return blocks(tokens, role);
      case 'never':
      case 'ticks':
        return blocks(tokens, role).map((block) =>
          // What is never done stays so, whatever holds it.
          block.block === 'list' && !block.cautions ? { ...block, mark: known === 'never' ? 'never' : 'tick' } : block,
        );
      default:
        return blocks(tokens, known);
    }
  };

  const alone = (token: Tokens.Code): readonly Block[] => {
    const [name = '', ...words] = wordsOf(token.lang ?? '');
    if (name === 'new-sheet') return [{ block: 'new-sheet', ...(words[0] === 'printed' ? { printed: true } : {}), ...here() }];
    if (optional > 0 && name === 'cautions') refuse('template-optional-safety', { wrote: name });
    const share = name === 'figure' ? shareIn(words) : undefined;
    if (share !== undefined && !(Number(share) >= LEAST_SHARE && Number(share) <= 1)) {
      refuse('template-share', { wrote: share, least: LEAST_SHARE });
      return [];
    }
    let made: ReturnType<Maker>;
    try {
      made = make(name, words, unmarked(token.text), last.line);
    } catch (fault) {
      if (!(fault instanceof NoWords)) throw fault;
      refuse('template-no-words', fault.data);
      return [];
    }
    if (!made && name === 'figure') {
      const near = nearest(words[0] ?? '', figureNames);
      refuse('template-directive', {
        wrote: `figure ${words[0] ?? ''}`,
        ...(near ? { nearest: `figure ${near}` } : { names: figureNames }),
      });
    } else if (!made)
      refuse('template-directive', { wrote: name, names: ['figure', 'grid', 'form', 'cautions', 'blank', 'new-sheet'] });
    const written = here();
    return (made ?? []).map((block) => ({ ...written, ...block }));
  };

  const table = (token: Tokens.Table): Block => {
    const cell = (c: Tokens.TableCell) => ({ text: runsOf(inline(c.tokens)) });
    // Its line is that of its head row, which carries a mark.
    const head = token.header.map(cell);
    const [, rule = ''] = token.raw.split('\n');
    const dashes = rule.match(/-+/g) ?? [];
    return {
      block: 'table',
      ...here(),
      // As wide as its dashes are many, as Markdown's readers of pipe tables have it.
      columns: token.align.map((align, i) => ({
        weight: dashes[i]?.length ?? 1,
        align: align === 'right' ? 'end' : align === 'center' ? 'middle' : 'start',
      })),
      head: head.some((c) => c.text.length > 0) ? [head] : [],
      rows: token.rows.map((row) => row.map((c, i) => ({ ...cell(c), ...(i === 0 ? { head: true as const } : {}) }))),
    };
  };

  const blocks = (tokens: readonly Token[], role: Role = 'body'): readonly Block[] =>
    tokens.flatMap((token): readonly Block[] => {
      switch (token.type) {
        case 'space':
        case 'def':
          return [];
        case 'heading': {
          const text = runsOf(inline((token as Tokens.Heading).tokens));
          const level = Math.min(4, (token as Tokens.Heading).depth) as 1 | 2 | 3 | 4;
          return textOf(text).trim() === '' ? [] : [{ block: 'heading', level, text, ...here() }];
        }
        case 'paragraph':
          return paragraph((token as Tokens.Paragraph).tokens, role);
        case 'text':
          return paragraph((token as Tokens.Text).tokens ?? [token], role);
        case 'list': {
          const list = token as Tokens.List;
          const found = items(list, role);
          return [
            list.ordered
              ? { block: 'steps', ...here(), items: found }
              : { block: 'list', mark: 'dot', ...here(), items: found.map((item) => item.body) },
          ];
        }
        case 'table':
          return [table(token as Tokens.Table)];
        case 'code':
          return alone(token as Tokens.Code);
        case 'directive': {
          const directive = token as Directive;
          wordsOf(directive.label);
          if (!directive.closed) refuse('template-open', { wrote: directive.name });
          return holder(directive, role);
        }
        case 'html':
          // A comment is for the template's makers; anything else would be markup.
          if (!/^<!--[\s\S]*-->\s*$/.test(unmarked(token.raw).trim()))
            refuse('template-markup', { wrote: unmarked(token.raw).slice(0, 40) });
          return [];
        default:
          refuse('template-markup', { wrote: unmarked(token.raw).slice(0, 40) });
          return [];
      }
    });

  try {
    return { blocks: blocks(lexer.lexer(markdown.replace(/\r\n?/g, '\n'))), findings };
  } catch (fault) {
    // Thousands of quotes or lists within each other are more than the stack holds.
    if (!(fault instanceof RangeError)) throw fault;
    refuse('template-too-nested', {});
    return { blocks: [], findings };
  }
};
