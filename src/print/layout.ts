/**
 * Blocks to slabs: each kind of block measured in its frame, with its paint and its elements of the tag tree.
 * Nothing here knows where a sheet ends; lists, steps, tables and callouts have files of their own.
 */
import { warning } from '../base/finding.js';
import { textOf } from '../base/run.js';
import type { Block } from '../compose/block.js';
import { onOneLine } from './characters.js';
import { layCallout } from './callout.js';
import { layCutOuts } from './cut-outs.js';
import { layList, laySteps } from './list.js';
import { placeOf, space, typeAt, type Setting } from './setting.js';
import { element, heightOf, slab, type Painting, type Slab } from './sheet.js';
import { bar, put } from './signs.js';
import { layTable } from './table.js';
import { setText, textSlabs } from './text.js';
import { FIGURE_FLOOR, MM } from './theme.js';

type Of<K extends Block['block']> = Extract<Block, { block: K }>;

const HEADING_ROLE = { 1: 'h1', 2: 'h2', 3: 'h3', 4: 'h4' } as const;
const HEADING_TAG = { 1: 'H1', 2: 'H2', 3: 'H3', 4: 'H4' } as const;

const tagOf = (block: Block, setting: Setting): 'H1' | 'H2' | 'H3' | 'H4' | 'P' => {
  const level = setting.job.levels.get(block);
  return level === undefined ? 'P' : HEADING_TAG[level as 1 | 2 | 3 | 4];
};

const marked = (slabs: readonly Slab[], block: Of<'heading' | 'paragraph'>, setting: Setting): readonly Slab[] => {
  const level = setting.job.levels.get(block);
  const first = slabs[0];
  if (level === undefined || !first) return slabs;
  return [{ ...first, heading: { level, text: onOneLine(textOf(block.text)) } }, ...slabs.slice(1)];
};

const SPACE_BEFORE_HEADING = { 1: 1, 2: 1.15, 3: 0.9, 4: 0.7 } as const;

const layHeading = (block: Of<'heading'>, setting: Setting): readonly Slab[] => {
  const style = typeAt(setting, HEADING_ROLE[block.level]);
  const of = element(tagOf(block, setting), setting.parent);
  const { palette } = setting.job;
  const text = setText(block.text, style, setting, { colour: palette.text('ink'), balance: true, of });
  const gap = space(setting, SPACE_BEFORE_HEADING[block.level]);
  const slabs = marked(textSlabs(text, block, gap, true), block, setting);
  if (block.level !== 2) return slabs;
  const thick = style.size * 0.13;
  const rule = slab(block, gap, thick, (top) => put(setting.x, top, [bar(setting.width, thick, palette.shape('ink'))]), true);
  return [rule, ...slabs.map((s, i) => (i === 0 ? { ...s, gap: style.size * 0.22 } : s))];
};

/** Lines of running text are at most this many em long, some 78 characters, so that the eye finds the next one (WCAG 2.2, 1.4.8: 80 at most). */
const MEASURE = 40;

const SPACE_BEFORE = { signal: 0.5, message: 0.55, body: 0.5, fine: 0.45, label: 0.7 } as const;

const layParagraph = (block: Of<'paragraph'>, setting: Setting): readonly Slab[] => {
  const { palette } = setting.job;
  const { role } = block;
  const of = element(tagOf(block, setting), setting.parent);
  const large = role === 'signal' || role === 'message';
  const style = typeAt(setting, role);
  const options = {
    colour: palette.text(role === 'fine' ? 'soft-ink' : 'ink'),
    ...(role === 'signal' ? { valueColour: palette.text('brand') } : {}),
    ...(large ? { balance: true as const } : {}),
    of,
  };
  const within = large ? setting : { ...setting, width: Math.min(setting.width, MEASURE * style.size) };
  const measured = setText(block.text, style, within, options);
  // No eye has to find the next line of a text that one line holds.
  const whole = measured.lines === 2 && !large ? setText(block.text, style, setting, options) : measured;
  const text = whole.lines === 1 ? whole : measured;
  return marked(
    textSlabs(text, block, space(setting, SPACE_BEFORE[role]), role === 'label' || role === 'signal'),
    block,
    setting,
  );
};

const layFigure = (block: Of<'figure'>, setting: Setting): readonly Slab[] => {
  const { drawing } = block;
  const { job } = setting;
  const wanted = block.share * job.rung.scale * (block.grows ? job.growth : 1);
  const scale = (setting.width * Math.min(1, wanted)) / drawing.width;
  const sizes = drawing.marks.flatMap((mark) => (mark.mark === 'text' ? [mark.size] : []));
  const smallest = Math.min(...sizes) * scale * job.faces.regular.capHeight;
  const floor = FIGURE_FLOOR[setting.distance];
  if (smallest < floor - 0.01) {
    const length = (points: number): string => `${(Math.floor((points / MM) * 10) / 10).toFixed(1)} mm`;
    job.findings.push(
      warning('figure-too-small', placeOf(setting), { figure: drawing.name, capitals: length(smallest), least: length(floor) }),
    );
  }
  const langs = new Set(drawing.alt.map((run) => run.lang));
  const [lang] = langs;
  const of = element('Figure', setting.parent, {
    alt: onOneLine(textOf(drawing.alt)),
    ...(langs.size === 1 && lang !== undefined ? { lang } : {}),
  });
  const picture = slab(
    block,
    space(setting, 0.7),
    drawing.height * scale,
    (top) => [{ kind: 'drawing', x: setting.x, y: top, scale, drawing, of }],
    block.caption !== undefined,
  );
  if (!block.caption) return [picture];
  const caption = setText(block.caption, typeAt(setting, 'fine'), setting, {
    colour: job.palette.text('soft-ink'),
    of: element('P', setting.parent),
  });
  return [picture, ...textSlabs(caption, block, space(setting, 0.25))];
};

/** White between two columns: so many body sizes, but no more than large type needs. */
const GUTTER = 1.5;
const WIDEST_GUTTER = 9 * MM;

const layColumns = (block: Of<'columns'>, setting: Setting): readonly Slab[] => {
  const gutter = Math.min(WIDEST_GUTTER, GUTTER * typeAt(setting, 'body').size);
  const weights = block.columns.reduce((sum, column) => sum + column.weight, 0);
  const free = setting.width - gutter * (block.columns.length - 1);
  let x = setting.x;
  const columns = block.columns.map((column) => {
    const width = (free * column.weight) / weights;
    const parent = element('Sect', setting.parent);
    const slabs = layBlocks(column.body, { ...setting, x, width, parent });
    x += width + gutter;
    return slabs;
  });
  const height = Math.max(0, ...columns.map(heightOf));
  return [{ ...slab(block, space(setting, 1), height), columns }];
};

/** True when what comes first brings a rule of its own: a heading of level 2, also at the head of columns. */
const opensWithRule = ([first]: readonly Block[]): boolean =>
  first !== undefined &&
  ((first.block === 'heading' && first.level === 2) ||
    (first.block === 'columns' && first.columns.every((column) => opensWithRule(column.body))) ||
    (first.block === 'optional' && opensWithRule(first.body)));

const layFace = (block: Of<'face'>, setting: Setting, first: boolean): readonly Slab[] => {
  const inner = { ...setting, distance: block.distance, parent: element('Sect', setting.parent) };
  const slabs = layBlocks(block.body, inner);
  if (first || slabs.length === 0) return slabs;
  const gap = space(inner, 1.4);
  const apart = (before: number): readonly Slab[] => slabs.map((s, i) => (i === 0 ? { ...s, gap: before } : s));
  if (opensWithRule(block.body)) return apart(gap);
  const thick = 1.2 * MM;
  const rule: Painting = (top) => put(setting.x, top, [bar(setting.width, thick, setting.job.palette.shape('brand'))]);
  return [slab(block, gap, thick, rule, true), ...apart(gap * 0.7)];
};

/** Room for handwriting (common practice, no source). */
const WRITING_LINE = { room: 12 * MM, unit: 10 * MM, hand: 8.5 * MM } as const;

const layBlank = (block: Of<'blank'>, setting: Setting): readonly Slab[] => {
  const { palette } = setting.job;
  const label = setText(block.label, typeAt(setting, 'label'), setting, {
    colour: palette.text('ink'),
    of: element('P', setting.parent),
  });
  const slabs = [...textSlabs(label, block, space(setting, 0.7), true)];
  const pitch = WRITING_LINE[setting.distance];
  const rule: Painting = (top) => put(setting.x, top + pitch - 0.4, [bar(setting.width, 0.8, palette.shape('rule'))]);
  for (let i = 0; i < block.lines; i++) slabs.push(slab(block, 0, pitch, rule, i < block.lines - 1));
  return slabs;
};

const layBlock = (block: Block, { doc: _, ...outer }: Setting, first: boolean): readonly Slab[] => {
  const setting: Setting = { ...outer, line: block.line, ...(block.doc === undefined ? {} : { doc: block.doc }) };
  switch (block.block) {
    case 'heading':
      return layHeading(block, setting);
    case 'paragraph':
      return layParagraph(block, setting);
    case 'list':
      return layList(block, setting);
    case 'steps':
      return laySteps(block, setting);
    case 'table':
      return layTable(block, setting);
    case 'callout':
      return layCallout(block, setting);
    case 'figure':
      return layFigure(block, setting);
    case 'columns':
      return layColumns(block, setting);
    case 'cut-outs':
      return layCutOuts(block, setting);
    case 'optional':
      return setting.job.left.has(block) ? [] : layBlocks(block.body, setting);
    case 'face':
      return layFace(block, setting, first);
    case 'blank':
      return layBlank(block, setting);
    case 'new-sheet':
      return [{ ...slab(block, 0, 0), fresh: true }];
  }
};

/** Kinds that stand free: what follows one keeps away from it. */
const FREE: ReadonlySet<Block['block']> = new Set(['callout', 'figure', 'table', 'columns', 'cut-outs', 'blank']);

/** Paragraphs that begin a sheet alone, right before a heading, look lost if they have no more slabs than these. */
const LONE = 2;

/** Blocks that no tail of a text may leave: the next one begins something else. */
const begins = (block: Block | undefined): boolean =>
  block === undefined || block.block === 'heading' || block.block === 'new-sheet';

/** Lays blocks one under the other in the frame. */
export const layBlocks = (blocks: readonly Block[], setting: Setting): readonly Slab[] => {
  const laid: Slab[] = [];
  blocks.forEach((block, i) => {
    const before = blocks[i - 1]?.block;
    const next = blocks[i + 1];
    const slabs = layBlock(block, setting, before === undefined || before === 'new-sheet');
    const least = before !== undefined && FREE.has(before) ? space(setting, 0.8) : 0;
    const last = laid.at(-1);
    if (last && block.block === 'paragraph' && slabs.length <= LONE && begins(next))
      laid[laid.length - 1] = { ...last, keep: true };
    // What says how a table is filled in, or what its signers answer for, is read above it.
    const leads = block.block === 'paragraph' && next?.block === 'table';
    laid.push(...slabs.map((s, k) => ({ ...s, gap: k === 0 ? Math.max(s.gap, least) : s.gap, keep: s.keep || leads })));
  });
  return laid;
};
