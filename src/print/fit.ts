/**
 * The fit ladder: a page set as designed, then tighter rung by rung, always from the first, until each part fits its sheet.
 * Never under a legible floor, never without a caution; when the last rung fails, a finding says how much too long it is and because of what.
 */
import { error, note, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import type { Distance, Page } from '../compose/block.js';
import { around, footOf, headOf, holeOf } from './furniture.js';
import type { Faces } from './faces.js';
import type { Hyphenator } from './hyphens.js';
import { layBlocks } from './layout.js';
import { headingLevels, walk } from './levels.js';
import { paginate, partsOf, settle, tallest } from './pages.js';
import type { Job, Rung, Setting } from './setting.js';
import { element, heightOf, type Element, type Sheet, type Slab } from './sheet.js';
import { MM, sheetOf, type Palette } from './theme.js';

const RUNGS: readonly Rung[] = [
  { gaps: 1, scale: 1, without: 4 },
  { gaps: 0.9, scale: 1, without: 4 },
  { gaps: 0.8, scale: 1, without: 4 },
  { gaps: 0.8, scale: 0.95, without: 4 },
  { gaps: 0.8, scale: 0.9, without: 4 },
  { gaps: 0.8, scale: 0.9, without: 3 },
  { gaps: 0.8, scale: 0.9, without: 2 },
  { gaps: 0.8, scale: 0.9, without: 1 },
];

/** A page set on its sheets, with the tag tree that its paint belongs to. */
export interface Fitted {
  readonly sheets: readonly Sheet[];
  readonly root: Element;
  readonly rung: Rung;
  readonly findings: readonly Finding[];
}

export interface Fitting {
  readonly page: Page;
  readonly faces: Faces;
  readonly palette: Palette;
  readonly hyphenator: (lang?: string) => Hyphenator;
  readonly at: Place;
}

interface Attempt extends Fitted {
  /** Points that the longest part is too long. */
  readonly over: number;
  /** The longest part, and the height that it has to fit in. */
  readonly longest: readonly Slab[];
  readonly room: number;
}

/** Head and foot are read close up. */
const furnitureDistance = (distance: Distance): Distance => (distance === 'room' ? 'unit' : distance);

const attempt = ({ page, faces, palette, hyphenator, at }: Fitting, rung: Rung): Attempt => {
  const { width, height, margin } = sheetOf(page);
  const findings: Finding[] = [];
  const job: Job = {
    faces,
    palette,
    hyphenator,
    rung,
    levels: headingLevels(page),
    levelWords: page.words.levels,
    at,
    findings,
    lay: layBlocks,
  };
  const root = element('Document');
  const setting: Setting = { job, distance: page.distance, x: margin, width: width - 2 * margin, parent: root, line: 0 };
  const aside = { ...setting, distance: furnitureDistance(page.distance) };

  const head = headOf(page, aside);
  const heads = element('Sect', root);
  const slabs = layBlocks(page.body, setting);
  const parts = partsOf(slabs);
  const wordsOf = (n: number): string => page.words.sheetOf.replace('{n}', String(n)).replace('{of}', String(n));
  const flow = (foot: number): readonly (readonly Slab[])[] => {
    const room = height - 2 * margin - head.height - foot - (foot > 0 ? around(aside) : 0);
    return page.length === 'one' ? parts : parts.flatMap((part) => paginate(part, room));
  };
  // The number of the sheet takes room in the foot only where there is more than one sheet.
  const bare = footOf(page, aside, '');
  const alone = flow(bare.height).length <= 1;
  const foot = alone ? bare : footOf(page, aside, wordsOf(88));
  const filled = flow(foot.height);
  const room = height - 2 * margin - head.height - foot.height - (foot.height > 0 ? around(aside) : 0);

  const feet = element('Sect', root);
  const top = margin + head.height;
  const sheets = filled.map((content, i): Sheet => {
    const settled = settle(content, top, room, page.length === 'one');
    const down = (by: number) => (paint: Sheet['paints'][number]) => ({ ...paint, y: paint.y + by });
    return {
      width,
      height,
      headings: settled.headings,
      paints: [
        ...holeOf(page, width, margin, palette.shape('rule')),
        ...head.paints(i === 0 ? heads : undefined, i + 1, filled.length).map(down(margin)),
        ...settled.paints,
        ...foot.paints(i === filled.length - 1 ? feet : undefined, i + 1, filled.length).map(down(height - margin - foot.height)),
      ],
    };
  });
  const longest = filled.reduce<readonly Slab[]>((a, b) => (heightOf(b) > heightOf(a) ? b : a), []);
  return { sheets, root, rung, findings, over: tallest(filled) - room, longest, room };
};

const millimetres = (points: number) => ({ q: 'length', si: Math.ceil(points / MM) / 1000 }) as const;

/** Heights by the template's lines, tallest first. Columns count by what they hold. */
const byLine = (slabs: readonly Slab[], sums = new Map<number, number>()): ReadonlyMap<number, number> => {
  for (const s of slabs) {
    if (s.columns) for (const column of s.columns) byLine(column, sums);
    else sums.set(s.line, (sums.get(s.line) ?? 0) + s.gap + s.height);
  }
  return sums;
};

const tooLong = (last: Attempt, at: Place): Finding => {
  const lines = [...byLine(last.longest)].sort((a, b) => b[1] - a[1] || a[0] - b[0]).slice(0, 3);
  const places = lines.map(([line]) => ({ ...at, line }));
  return error(
    'does-not-fit',
    places[0] ?? at,
    {
      over: millimetres(last.over),
      room: millimetres(last.room),
      largest: lines.map(([line, height]) => `${line}: ${Math.round(height / MM)} mm`),
    },
    places.slice(1),
  );
};

/** Optional blocks that the rung leaves out, so that no one wonders where they went. */
const leftOut = (page: Page, rung: Rung, at: Place): readonly Finding[] =>
  [...walk(page.body)].flatMap((block) =>
    block.block === 'optional' && block.rank >= rung.without
      ? [note('left-out', { ...at, line: block.line }, { rank: block.rank })]
      : [],
  );

/** Sets the page on the first rung that fits; without one, `sheets` is empty and the finding `does-not-fit` an error. */
export const fit = (fitting: Fitting): Fitted => {
  let last: Attempt | undefined;
  for (const rung of RUNGS) {
    last = attempt(fitting, rung);
    if (last.over <= 0.01) {
      return { ...last, findings: [...last.findings, ...leftOut(fitting.page, rung, fitting.at)] };
    }
  }
  const failed = last as Attempt;
  return { ...failed, sheets: [], findings: [...failed.findings, tooLong(failed, fitting.at)] };
};
