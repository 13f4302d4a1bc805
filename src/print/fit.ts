/**
 * The fit ladder: a page as designed, or on the first of its tighter rungs on which each part fits its sheet. The size of type is one for all; what is optional is left out part by part, so that a full sheet costs its neighbour nothing.
 * Never under a legible floor, never without a caution; when the last rung fails, a finding says how much too long it is and because of what.
 */
import { anyError, error, note, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { walk, type Block, type Distance, type Page } from '../compose/block.js';
import type { Faces } from './faces.js';
import { beginningOf } from './check.js';
import { footOf, headOf, holeOf, type Foot } from './furniture.js';
import type { Hyphenator } from './hyphens.js';
import { layBlocks } from './layout.js';
import { headingLevels } from './levels.js';
import { rememberLines, type RememberLines } from './lines.js';
import { measureWith, type Measure } from './measure.js';
import { paginate, partsOf, settle } from './pages.js';
import { placeIn, type Job, type Rung, type Setting } from './setting.js';
import { element, heightOf, type Element, type Sheet, type Slab } from './sheet.js';
import { MM, sheetOf, type Palette } from './theme.js';

interface Step extends Rung {
  /** True once type is as small as it should get before a part of the page may lose what is optional. */
  readonly sheds?: true;
}

/** White first, then size, then what may be left out, then size again down to the legible floors, and at last white once more. */
const RUNGS: readonly Step[] = [
  { gaps: 1, scale: 1, bands: 'none' },
  { gaps: 0.9, scale: 1, bands: 'none' },
  { gaps: 0.8, scale: 1, bands: 'none' },
  { gaps: 0.8, scale: 0.95, bands: 'none' },
  { gaps: 0.8, scale: 0.9, bands: 'none', sheds: true },
  { gaps: 0.8, scale: 0.85, bands: 'none', sheds: true },
  { gaps: 0.8, scale: 0.8, bands: 'none', sheds: true },
  { gaps: 0.8, scale: 0.75, bands: 'none', sheds: true },
  { gaps: 0.65, scale: 0.75, bands: 'none', sheds: true },
];

/**
 * Ways to set a page that flows, the best one first: one that takes fewer sheets wins. White, and then a twentieth of the type's size, is taken only where that
 * spares a sheet, and bands of a table come apart only where keeping them whole would cost one, long ones before short ones.
 */
const FLOWS: readonly Rung[] = [
  { gaps: 1, scale: 1, bands: 'all' },
  { gaps: 0.9, scale: 1, bands: 'all' },
  { gaps: 0.8, scale: 1, bands: 'all' },
  { gaps: 0.8, scale: 0.95, bands: 'all' },
  { gaps: 1, scale: 1, bands: 'short' },
  { gaps: 0.8, scale: 1, bands: 'short' },
  { gaps: 1, scale: 1, bands: 'none' },
  { gaps: 0.8, scale: 1, bands: 'none' },
  { gaps: 0.8, scale: 0.95, bands: 'none' },
];

export interface Fitting {
  readonly page: Page;
  readonly faces: Faces;
  readonly palette: Palette;
  readonly hyphenator: (lang?: string) => Hyphenator;
  /** Document that findings point into. */
  readonly at: Place;
}

type Optional = Extract<Block, { block: 'optional' }>;

/** A page set on its sheets, with the tag tree that its paint belongs to; no sheets when a finding says that it does not fit. */
export interface Fitted {
  readonly sheets: readonly Sheet[];
  readonly root: Element;
  readonly rung: Rung;
  /** What was left out so that it fits. */
  readonly left: readonly Optional[];
  readonly findings: readonly Finding[];
}

/** The blocks between two new sheets, laid. */
interface Part {
  /** Slabs of each of its sheets. */
  readonly sheets: readonly (readonly Slab[])[];
  readonly elements: readonly Element[];
  readonly left: readonly Optional[];
  readonly findings: readonly Finding[];
}

/** A page laid on one rung, before it is painted. */
interface Attempt {
  readonly parts: readonly Part[];
  /** Height that the slabs of a sheet have to fit in. */
  readonly room: number;
  readonly findings: readonly Finding[];
  readonly finish: () => Pick<Fitted, 'sheets' | 'root'>;
}

/** Rounding in sums of heights, points. */
const EPSILON = 0.01;

const isTooLong = ({ sheets }: Pick<Part, 'sheets'>, room: number): boolean =>
  sheets.some((slabs) => heightOf(slabs) > room + EPSILON);

/** Head and foot are read close up. */
const furnitureDistance = (distance: Distance): Distance => (distance === 'room' ? 'unit' : distance);

/** More sheets than any paper has: room for its number is kept in the foot. */
const MANY = 88;

/** Blocks between the marks of new sheets. */
const groupsOf = (blocks: readonly Block[]): readonly (readonly Block[])[] => {
  const groups: Block[][] = [[]];
  for (const block of blocks) {
    if (block.block === 'new-sheet') groups.push([]);
    else (groups.at(-1) as Block[]).push(block);
  }
  return groups;
};

/** By how much the figures that grow may do so: what is left of the one sheet, shared by their heights. */
const growthIn = ({ sheets }: Part, group: readonly Block[], room: number): number => {
  const [slabs = [], second] = sheets;
  const growing = new Set<Slab['at']>(group.filter((block) => block.block === 'figure' && block.grows));
  const height = slabs.reduce((sum, s) => sum + (growing.has(s.at) ? s.height : 0), 0);
  return second || height === 0 ? 1 : 1 + (room - heightOf(slabs)) / height;
};

/** Lays a part with everything and, where it may shed, rank by rank without what is optional, until it fits its sheet. */
const layPart = (group: readonly Block[], setting: Setting, page: Page, room: number, sheds: boolean): Part => {
  const optional = [...walk(group)].filter((block): block is Optional => block.block === 'optional');
  const ranks = sheds ? [...new Set(optional.map((block) => block.rank))].sort((a, b) => b - a) : [];
  const lay = (left: readonly Optional[], growth = 1): Part => {
    const root = element('Document');
    const findings: Finding[] = [];
    const job = { ...setting.job, left: new Set(left), growth, findings };
    const slabs = layBlocks(group, { ...setting, job, parent: root });
    const parts = partsOf(slabs);
    const sheets = page.length === 'one' ? parts : parts.flatMap((part) => paginate(part, room));
    return { sheets, elements: root.kids, left, findings };
  };
  let part = lay([]);
  for (const rank of ranks) {
    if (!isTooLong(part, room)) break;
    part = lay(optional.filter((block) => block.rank >= rank));
  }
  const growth = growthIn(part, group, room);
  return growth > 1 ? lay(part.left, growth) : part;
};

const attempt = (job: Job, page: Page, sheds: boolean): Attempt => {
  const { width, height, margin } = sheetOf(page);
  const setting: Setting = { job, distance: page.distance, x: margin, width: width - 2 * margin, line: 0 };
  const aside: Setting = { ...setting, distance: furnitureDistance(page.distance) };
  const head = headOf(page, aside);
  const groups = groupsOf(page.body);
  const filled = (foot: Foot): { readonly foot: Foot; readonly room: number; readonly parts: readonly Part[] } => {
    const room = height - 2 * margin - head.height - foot.height;
    return { foot, room, parts: groups.map((group) => layPart(group, setting, page, room, sheds)) };
  };
  const sheetsOf = (parts: readonly Part[]): readonly (readonly Slab[])[] => parts.flatMap((part) => part.sheets);
  const alone = filled(footOf(page, aside, 1));
  const numbered = footOf(page, aside, MANY);
  const many = sheetsOf(alone.parts).length > 1;
  const same = numbered.height === alone.foot.height;
  const { foot, room, parts } = !many ? alone : same ? { ...alone, foot: numbered } : filled(numbered);

  const finish = (): Pick<Fitted, 'sheets' | 'root'> => {
    const root = element('Document');
    const headTo = element('Sect', root);
    root.kids.push(...parts.flatMap((part) => part.elements));
    const footTo = element('Sect', root);
    const sheets = sheetsOf(parts);
    return {
      root,
      sheets: sheets.map((slabs, i): Sheet => {
        const settled = settle(slabs, margin + head.height, room, page.length === 'one');
        return {
          width,
          height,
          headings: settled.headings,
          paints: [
            ...holeOf(page, width, margin, job.palette.shape('rule')),
            ...head.paint(margin, i === 0 ? headTo : undefined),
            ...settled.paints,
            ...foot.paint(height - margin - foot.height, i === sheets.length - 1 ? footTo : undefined, i + 1, sheets.length),
          ],
        };
      }),
    };
  };
  return { parts, room, findings: [...job.findings, ...parts.flatMap((part) => part.findings)], finish };
};

const millimetres = (points: number) => ({ q: 'length', si: Math.ceil(points / MM) / 1000 }) as const;

/** Lines or a form to write on. */
const isWrittenOn = (at: Slab['at'] | Block): boolean =>
  'block' in at && (at.block === 'blank' || (at.block === 'table' && at.rows.some((row) => row.some((cell) => cell.hand))));

interface PartHeight {
  readonly place: Place;
  readonly height: number;
  /** For a hand. */
  readonly written: boolean;
}

/** Heights by where they were written, with the space before. Columns count by what they hold; what the program added stands in no line. */
const heightsByPlace = (
  slabs: readonly Slab[],
  at: Place,
  sums = new Map<string, PartHeight>(),
): ReadonlyMap<string, PartHeight> => {
  for (const s of slabs) {
    if (s.columns) for (const column of s.columns) heightsByPlace(column, at, sums);
    else if (s.at.line > 0) {
      const place = placeIn(at, s.at);
      const key = `${place.doc}:${s.at.line}`;
      const before = sums.get(key);
      sums.set(key, {
        place,
        height: (before?.height ?? 0) + s.gap + s.height,
        written: (before?.written ?? false) || isWrittenOn(s.at),
      });
    }
  }
  return sums;
};

const tooLong = ({ parts, room }: Attempt, at: Place, { length, sheet }: Page): Finding => {
  const longest = parts.flatMap((part) => part.sheets).reduce((a, b) => (heightOf(b) > heightOf(a) ? b : a), []);
  const largest = [...heightsByPlace(longest, at)]
    .sort(([a, { height: high }], [b, { height: higher }]) => higher - high || (a < b ? -1 : 1))
    .slice(0, 3);
  const [first = at, ...others] = largest.map(([, { place }]) => place);
  const data = {
    sheet,
    over: millimetres(heightOf(longest) - room),
    // In the unit of the parts: an inch hides what one line is too much.
    by: `${Math.ceil((heightOf(longest) - room) / MM)} mm`,
    room: millimetres(room),
    largest: largest.map(([key, { height }]) => `${key}: ${Math.round(height / MM)} mm`),
    // Lines to write on may go over to a second sheet.
    ...(length === 'one' && largest[0]?.[1].written ? { spec: at.doc.replace(/[^/]*$/, 'paper.yaml') } : {}),
  };
  return error('does-not-fit', first, data, others);
};

/** No way of setting takes more than this part of the white and heights of a page away. */
const SPARES = 0.17;

const fits = ({ parts, room, findings }: Attempt): boolean => !parts.some((part) => isTooLong(part, room)) && !anyError(findings);

/** Sheets that an attempt takes; no number of them holds what is too tall or too wide for one. */
const countSheets = (made: Attempt): number =>
  fits(made) ? made.parts.reduce((n, part) => n + part.sheets.length, 0) : Infinity;

/** As few sheets as the heights of an attempt could ever take. */
const leastSheets = ({ parts, room }: Attempt): number =>
  parts.reduce((n, { sheets }) => {
    const height = sheets.reduce((sum, slabs) => sum + heightOf(slabs), 0);
    return n + Math.max(1, Math.ceil(((1 - SPARES) * height) / room));
  }, 0);

/** Attempts by rung, each made when it is asked for. */
const attempts = (make: (rung: Step) => Attempt): ((rung: Step) => Attempt) => {
  const made = new Map<Step, Attempt>();
  return (rung) => {
    const known = made.get(rung) ?? make(rung);
    made.set(rung, known);
    return known;
  };
};

interface Way {
  readonly attempt: Attempt;
  readonly rung: Rung;
}

/** The best way to set a page that flows; none where something is too tall or too wide for a sheet, which is a matter for the ladder. */
const flow = (make: (rung: Step) => Attempt): Way | undefined => {
  const on = attempts(make);
  const [loosest, whitest, tightest] = [FLOWS[0], FLOWS.at(-2), FLOWS.at(-1)] as [Rung, Rung, Rung];
  /** Smaller type is no way where a figure's lettering would be too small in it. */
  const countOf = (way: Rung): number =>
    way.scale < 1 && on(way).findings.length > on(loosest).findings.length ? Infinity : countSheets(on(way));
  const open = countSheets(on(loosest));
  // Where the tightest ways spare no sheet, none between does.
  const least = open <= leastSheets(on(loosest)) ? open : Math.min(countOf(tightest), countOf(whitest));
  const rung = FLOWS.find((way) => countOf(way) <= least) ?? loosest;
  return countSheets(on(rung)) === Infinity ? undefined : { attempt: on(rung), rung };
};

/** The first rung of the ladder on which a page fits, found by halves: what fits on one fits on all below it. The last one where none does. */
const climb = (make: (rung: Step) => Attempt): Way => {
  const on = attempts(make);
  const step = (i: number): Step => RUNGS[i] as Step;
  let [low, high] = fits(on(step(0))) ? [0, 0] : [1, RUNGS.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (fits(on(step(middle)))) high = middle;
    else low = middle + 1;
  }
  const rung = step(Math.min(low, RUNGS.length - 1));
  return { attempt: on(rung), rung };
};

/** Head rows and furniture are laid more than once; what is wrong with them is said once. */
const once = (findings: readonly Finding[]): readonly Finding[] => [
  ...new Map(findings.map((f) => [JSON.stringify([f.code, f.at, f.data]), f])).values(),
];

/** What was left out is said, so that no one wonders where it went. */
const leftOut = (left: readonly Optional[], at: Place): readonly Finding[] =>
  left.map((block) => note('left-out', placeIn(at, block), { rank: block.rank, words: beginningOf(block.body) }));

interface Memory {
  readonly measure: Measure;
  readonly remember: RememberLines;
}

const memories = new WeakMap<Faces, Map<string, Memory>>();

/** What pages of one typeface and language remember of their texts. */
const memoryOf = (faces: Faces, lang: string): Memory => {
  const byLang = memories.get(faces) ?? new Map<string, Memory>();
  memories.set(faces, byLang);
  const known = byLang.get(lang) ?? { measure: measureWith(faces), remember: rememberLines() };
  byLang.set(lang, known);
  return known;
};

/**
 * Sets the page on the first rung on which each of its parts fits, with type of one size on all of them.
 * @returns without sheets when none does, and the finding `does-not-fit`, or `too-narrow` for a text that is wider than its place.
 */
export const fit = ({ page, faces, palette, hyphenator, at }: Fitting): Fitted => {
  const shared = {
    faces,
    ...memoryOf(faces, page.lang),
    palette,
    hyphenator,
    levels: headingLevels(page),
    levelWords: page.words.levels,
    at,
    left: new Set<Block>(),
    growth: 1,
    lay: layBlocks,
  };
  const set = (rung: Step): Attempt => attempt({ ...shared, rung, findings: [] }, page, rung.sheds ?? false);
  const settled = ({ attempt: found, rung }: Way): Fitted => {
    const left = found.parts.flatMap((part) => part.left);
    return { ...found.finish(), rung, left, findings: [...once(found.findings), ...leftOut(left, at)] };
  };
  const flowing = page.length === 'flow' ? flow(set) : undefined;
  if (flowing) return settled(flowing);
  const way = climb(set);
  const { attempt: last, rung } = way;
  if (fits(last)) return settled(way);
  const long = last.parts.some((part) => isTooLong(part, last.room));
  return {
    sheets: [],
    root: element('Document'),
    rung,
    left: [],
    findings: [...once(last.findings), ...(long ? [tooLong(last, at, page)] : [])],
  };
};
