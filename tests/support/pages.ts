/**
 * Composed pages of the demo or of a test's chain: every paper, unit and language.
 */
import type { Block, Page } from '../../src/compose/block.js';
import { compose, concerns, type Paper, type Subject } from '../../src/compose/paper.js';
import type { Finding } from '../../src/base/finding.js';
import type { Run } from '../../src/base/run.js';
import type { TextWidth } from '../../src/draw/drawing.js';
import { readerOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import type { Workshop } from '../../src/fleet/workshop.js';
import type { PlannedCaution } from '../../src/plan/cautions.js';
import { withScenes } from '../../src/plan/consequences/index.js';
import type { UnitPlan } from '../../src/plan/unit.js';
import { planWeek } from '../../src/plan/week.js';
import { weekOfIso } from '../../src/plan/week-dates.js';

export interface Made {
  readonly name: string;
  readonly paper: Paper;
  readonly unit: UnitPlan | undefined;
  readonly planned: PlannedStore;
  readonly lang: string;
  readonly page: Page | undefined;
  readonly findings: readonly Finding[];
}

/** A stand-in for the typeface: half an em a letter. */
export const roughWidth = (text: string, size: number): number => text.length * size * 0.55;

/** @param width of a text in a figure: a rough one unless told @param week that is printed */
export const pagesOf = (
  workshop: Workshop,
  stores: ReadonlyMap<string, PlannedStore>,
  width: TextWidth = roughWidth,
  week = '2026-W49',
): readonly Made[] =>
  [...stores].flatMap(([id, planned]) => {
    const { plan, read } = planned;
    if (!plan || !read) return [];
    const dated = planWeek(read, plan, weekOfIso(week, workshop.shelf.chain.week_starts) as { first: number });
    return workshop.papers.flatMap((paper) =>
      (paper.spec.per === 'store' ? [undefined] : Object.values(plan.units).filter((unit) => concerns(paper.spec, unit))).flatMap(
        (unit) =>
          read.store.languages.map((lang): Made => {
            const subject: Subject = {
              plan,
              ...(unit ? { unit: paper.spec.scenes ? withScenes(workshop.shelf, read, plan, unit) : unit } : {}),
              week: dated,
              date: '2026-11-16',
              sheet: read.store.sheet,
              brand: { colour: '#1f4d3a' },
            };
            const words = workshop.words.get(lang);
            if (!words) throw new Error(`no words for ${lang}`);
            const made = compose(paper, subject, readerOf(words, read, workshop.shelf), width);
            return {
              name: `${id} ${unit ? `${unit.id.value.text} ` : ''}${paper.id} ${lang}`,
              paper,
              unit,
              planned,
              lang,
              page: made.page,
              findings: made.findings,
            };
          }),
      ),
    );
  });

/** Every run of text on a page, in order. */
export const runsIn = (blocks: readonly Block[]): readonly Run[] =>
  blocks.flatMap((block): readonly Run[] => {
    switch (block.block) {
      case 'heading':
      case 'paragraph':
        return block.text;
      case 'list':
        return block.items.flatMap(runsIn);
      case 'steps':
        return block.items.flatMap((item) => [...(item.when ?? []), ...runsIn(item.body)]);
      case 'table':
        return [...(block.caption ?? []), ...[...block.head, ...block.rows].flat().flatMap((cell) => cell.text)];
      case 'callout':
        return [...block.title, ...runsIn(block.body)];
      case 'figure':
        return [...block.drawing.alt, ...(block.caption ?? [])];
      case 'columns':
        return block.columns.flatMap((column) => runsIn(column.body));
      case 'cut-outs':
        return block.items.flatMap(runsIn);
      case 'optional':
      case 'face':
        return runsIn(block.body);
      case 'blank':
        return block.label;
      case 'new-sheet':
        return [];
    }
  });

/** Codes of the cautions that a paper must carry: by its reader, where it stands, and whether it teaches. */
export const cautionsFor = (
  { spec }: Paper,
  all: Readonly<Record<Paper['spec']['reader'], readonly PlannedCaution[]>> | undefined,
): string[] => {
  const [stands, teaches] = [spec.at_unit, spec.teaches === true];
  const belongs = { every: true, unit: stands, taught: stands || teaches, teaching: teaches };
  return (all?.[spec.reader] ?? []).filter(({ on }) => belongs[on]).map(({ code }) => code);
};

/** Codes of the cautions that stand on a page. */
export const cautionsOn = (blocks: readonly Block[]): readonly string[] =>
  blocks.flatMap((block): readonly string[] => {
    const own = 'cautions' in block ? (block.cautions ?? []) : [];
    if (block.block === 'columns') return block.columns.flatMap((c) => cautionsOn(c.body));
    if (block.block === 'list' || block.block === 'cut-outs') return [...own, ...block.items.flatMap(cautionsOn)];
    if (block.block === 'steps') return block.items.flatMap((i) => cautionsOn(i.body));
    if ('body' in block) return [...own, ...cautionsOn(block.body)];
    return own;
  });
