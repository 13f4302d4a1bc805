/**
 * The fit ladder: a page set as designed, then tighter rung by rung, always from the first, until each part fits its sheet.
 * Never under a legible floor, never without a caution; when the last rung fails, a finding says how much too long it is and because of what.
 */
import { anyError, error, note, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Distance, Page } from '../compose/block.js';
import type { Faces } from './faces.js';
import { footOf, headOf, holeOf } from './furniture.js';
import type { Hyphenator } from './hyphens.js';
import { layBlocks } from './layout.js';
import { headingLevels, walk } from './levels.js';
import { measureWith } from './measure.js';
import { paginate, partsOf, settle } from './pages.js';
import type { Job, Rung, Setting } from './setting.js';
import { element, heightOf, type Element, type Paint, type Sheet, type Slab } from './sheet.js';
import { MM, sheetOf, type Palette } from './theme.js';

/** White first, then size, then what may be left out, then size again down to the legible floors, and at last white once more. */
const RUNGS: readonly Rung[] = [
  { gaps: 1, scale: 1, without: 4 },
  { gaps: 0.9, scale: 1, without: 4 },
  { gaps: 0.8, scale: 1, without: 4 },
  { gaps: 0.8, scale: 0.95, without: 4 },
  { gaps: 0.8, scale: 0.9, without: 4 },
  { gaps: 0.8, scale: 0.9, without: 3 },
  { gaps: 0.8, scale: 0.9, without: 2 },
  { gaps: 0.8, scale: 0.9, without: 1 },
  { gaps: 0.8, scale: 0.85, without: 1 },
  { gaps: 0.8, scale: 0.8, without: 1 },
  { gaps: 0.8, scale: 0.75, without: 1 },
  { gaps: 0.65, scale: 0.75, without: 1 },
];

export interface Fitting {
  readonly page: Page;
  readonly faces: Faces;
  readonly palette: Palette;
  readonly hyphenator: (lang?: string) => Hyphenator;
  /** Document that findings point into. */
  readonly at: Place;
}

/** A page set on its sheets, with the tag tree that its paint belongs to; no sheets when a finding says that it does not fit. */
export interface Fitted {
  readonly sheets: readonly Sheet[];
  readonly root: Element;
  readonly rung: Rung;
  readonly findings: readonly Finding[];
}

/** A page laid on one rung, before it is put on sheets. */
interface Attempt {
  /** Slabs of each sheet, and the height that they have to fit in. */
  readonly sheets: readonly (readonly Slab[])[];
  readonly room: number;
  readonly findings: readonly Finding[];
  readonly finish: () => Omit<Fitted, 'rung' | 'findings'>;
}

/** Head and foot are read close up. */
const furnitureDistance = (distance: Distance): Distance => (distance === 'room' ? 'unit' : distance);

/** More sheets than any paper has: room for its number is kept in the foot. */
const MANY = 88;

const attempt = (job: Job, page: Page): Attempt => {
  const { width, height, margin } = sheetOf(page);
  const root = element('Document');
  const setting: Setting = { job, distance: page.distance, x: margin, width: width - 2 * margin, parent: root, line: 0 };
  const aside: Setting = { ...setting, distance: furnitureDistance(page.distance) };

  const headTo = element('Sect', root);
  const parts = partsOf(layBlocks(page.body, setting));
  const footTo = element('Sect', root);

  const head = headOf(page, aside);
  const filled = (foot: { readonly height: number }): { room: number; sheets: readonly (readonly Slab[])[] } => {
    const room = height - 2 * margin - head.height - foot.height;
    return { room, sheets: page.length === 'one' ? parts : parts.flatMap((part) => paginate(part, room)) };
  };
  const bare = footOf(page, aside, 1);
  const alone = filled(bare).sheets.length <= 1;
  const foot = alone ? bare : footOf(page, aside, MANY);
  const { room, sheets } = alone ? filled(bare) : filled(foot);

  const finish = (): Omit<Fitted, 'rung' | 'findings'> => ({
    root,
    sheets: sheets.map((slabs, i): Sheet => {
      const settled = settle(slabs, margin + head.height, room, page.length === 'one');
      const moved = (paints: readonly Paint[], by: number): readonly Paint[] => paints.map((p) => ({ ...p, y: p.y + by }));
      return {
        width,
        height,
        headings: settled.headings,
        paints: [
          ...holeOf(page, width, margin, job.palette.shape('rule')),
          ...moved(head.paints(i === 0 ? headTo : undefined), margin),
          ...settled.paints,
          ...moved(
            foot.paints(i === sheets.length - 1 ? footTo : undefined, i + 1, sheets.length),
            height - margin - foot.height,
          ),
        ],
      };
    }),
  });
  return { sheets, room, findings: job.findings, finish };
};

/** Rounding in sums of heights, points. */
const EPSILON = 0.01;

const isTooLong = ({ sheets, room }: Attempt): boolean => sheets.some((slabs) => heightOf(slabs) > room + EPSILON);

const millimetres = (points: number) => ({ q: 'length', si: Math.ceil(points / MM) / 1000 }) as const;

/** Heights by the template's lines, with the space before. Columns count by what they hold. */
const heightsByLine = (slabs: readonly Slab[], sums = new Map<number, number>()): ReadonlyMap<number, number> => {
  for (const s of slabs) {
    if (s.columns) for (const column of s.columns) heightsByLine(column, sums);
    else sums.set(s.line, (sums.get(s.line) ?? 0) + s.gap + s.height);
  }
  return sums;
};

const tooLong = ({ sheets, room }: Attempt, at: Place): Finding => {
  const longest = sheets.reduce((a, b) => (heightOf(b) > heightOf(a) ? b : a), []);
  const largest = [...heightsByLine(longest)].sort(([a, high], [b, higher]) => higher - high || a - b).slice(0, 3);
  const [first = at, ...others] = largest.map(([line]) => ({ ...at, line }));
  const data = {
    over: millimetres(heightOf(longest) - room),
    room: millimetres(room),
    largest: largest.map(([line, height]) => `${line}: ${Math.round(height / MM)} mm`),
  };
  return error('does-not-fit', first, data, others);
};

/** Head rows and furniture are laid more than once; what is wrong with them is said once. */
const once = (findings: readonly Finding[]): readonly Finding[] => [
  ...new Map(findings.map((f) => [JSON.stringify([f.code, f.at.line, f.data]), f])).values(),
];

/** Optional blocks that the rung leaves out, so that no one wonders where they went. */
const leftOut = (page: Page, rung: Rung, at: Place): readonly Finding[] =>
  [...walk(page.body)].flatMap((block) =>
    block.block === 'optional' && block.rank >= rung.without
      ? [note('left-out', { ...at, line: block.line }, { rank: block.rank })]
      : [],
  );

/**
 * Sets the page on the first rung that fits.
 * @returns without sheets when none does, and the finding `does-not-fit`, or `too-narrow` for a text that is wider than its place.
 */
export const fit = ({ page, faces, palette, hyphenator, at }: Fitting): Fitted => {
  const levels = headingLevels(page);
  const measure = measureWith(faces);
  const levelWords = page.words.levels;
  let last: Attempt | undefined;
  for (const rung of RUNGS) {
    const job: Job = { faces, measure, palette, hyphenator, rung, levels, levelWords, at, findings: [], lay: layBlocks };
    last = attempt(job, page);
    if (!isTooLong(last) && !anyError(job.findings)) {
      const { sheets, root } = last.finish();
      return { sheets, root, rung, findings: [...once(job.findings), ...leftOut(page, rung, at)] };
    }
  }
  const failed = last as Attempt;
  return {
    sheets: [],
    root: element('Document'),
    rung: RUNGS.at(-1) as Rung,
    findings: [...once(failed.findings), ...(isTooLong(failed) ? [tooLong(failed, at)] : [])],
  };
};
