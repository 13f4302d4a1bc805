/**
 * A paper is a folder of templates/: paper.yaml says what it is for, page.md.hbs what it says. Here one paper of one plan becomes one page.
 */
import { z } from 'zod';
import type { Known } from '../base/basis.js';
import { error, warning, type Finding } from '../base/finding.js';
import { LEVELS } from '../base/level.js';
import type { Place } from '../base/place.js';
import { textOf, type Run } from '../base/run.js';
import { isLarge, type SheetSize } from '../base/sheet-size.js';
import type { Value } from '../base/value.js';
import type { TextWidth } from '../draw/drawing.js';
import { drawFigure } from '../draw/index.js';
import type { PlannedCaution } from '../plan/cautions.js';
import type { StorePlan } from '../plan/index.js';
import type { Tree } from '../plan/known.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Week } from '../plan/week.js';
import { NoWords, type Speaker } from '../say/speaker.js';
import { walk, type Block, type Logo, type Page } from './block.js';
import { makeForm } from './form.js';
import { makeGrid } from './grids.js';
import { Pot } from './leaf.js';
import { shareIn, toBlocks } from './markdown.js';
import type { Template } from './template.js';
import { late, viewOf, type View } from './view.js';

export const paperSchema = z
  .strictObject({
    /** One page for each unit, or one for the store with all its units. */
    per: z.enum(['unit', 'store']),
    /** `standing`: holds until the hours change; `week`: for seven dates. */
    when: z.enum(['standing', 'week']),
    reader: z.enum(['staff', 'technician']),
    /** Stands at the unit: then it carries the cautions that belong there too. */
    at_unit: z.boolean(),
    /** Teaches the unit: then it carries what nobody may unlearn by a changed question. */
    teaches: z.boolean().optional(),
    distance: z.enum(['room', 'unit', 'hand']),
    length: z.enum(['one', 'flow']),
    finish: z.enum(['laminated', 'plain']),
    orientation: z.enum(['portrait', 'landscape']),
    /** Asks for the unit's scenes: what the physics predicts if people don't (plan/consequences). */
    scenes: z.boolean().optional(),
    /** Not printed for a unit whose schedule can't be kept. */
    needs_schedule: z.boolean(),
    /** Only for units that have this: a map of pans is for what has a rail. */
    only_with: z.enum(['rail', 'box', 'timed']).optional(),
    /** Ways in which the template can arrange the page, tried in order until one fits; it asks `sheet.second`. */
    arrangements: z.union([z.literal(1), z.literal(2)]).optional(),
  })
  // A paper of the whole store is made whatever one of its units lacks.
  .superRefine(({ per, needs_schedule, only_with }, ctx) => {
    if (per === 'store' && (needs_schedule || only_with !== undefined))
      ctx.addIssue({ code: 'custom', path: ['per'], params: { finding: 'paper-of-store' } });
  });

export type PaperSpec = z.output<typeof paperSchema>;

export interface Paper {
  readonly id: string;
  readonly at: Place;
  readonly spec: PaperSpec;
  readonly template: Template;
}

/** Whether a paper is made for a unit. */
export const concerns = ({ only_with: needed }: PaperSpec, unit: UnitPlan): boolean =>
  needed === undefined || unit.is[needed].value.is;

/** What one page is made from. */
export interface Subject {
  readonly plan: StorePlan;
  readonly unit?: UnitPlan;
  readonly week?: Week;
  /** The date from which the sheet holds; a draft holds from none. */
  readonly date?: string;
  readonly sheet: SheetSize;
  /** Which of the paper's arrangements; the first unless told. */
  readonly arrangement?: 1 | 2;
  readonly brand: { readonly colour: string; readonly logo?: Logo };
}

/** Cautions as blocks: panels by level, what is never done as one list, lines of small type as one paragraph. */
const cautionBlocks = (cautions: readonly PlannedCaution[], speaker: Speaker): readonly Block[] => {
  const codes = (some: readonly PlannedCaution[]): readonly string[] => some.map((c) => c.code);
  const strong = (c: PlannedCaution): readonly Run[] =>
    speaker.say(c.title).runs.map((run) => ({ ...run, strong: true as const }));
  const both = (c: PlannedCaution): Block => ({
    block: 'paragraph',
    role: 'body',
    line: 0,
    text: [...strong(c), { text: c.as === 'never' ? ' ' : speaker.colon }, ...speaker.say(c.text).runs],
  });
  const panels = LEVELS.flatMap((level): readonly Block[] => {
    const some = cautions.filter((c) => c.as === 'panel' && c.level === level);
    const [only] = some;
    if (!only) return [];
    const alone = some.length === 1;
    const body: readonly Block[] = alone
      ? [{ block: 'paragraph', role: 'body', line: 0, text: speaker.say(only.text).runs }]
      : some.map(both);
    return [{ block: 'callout', level, line: 0, cautions: codes(some), title: alone ? speaker.say(only.title).runs : [], body }];
  });
  const nevers = cautions.filter((c) => c.as === 'never');
  const lines = cautions.filter((c) => c.as === 'line');
  return [
    ...(nevers.length > 0
      ? [
          {
            block: 'list' as const,
            mark: 'never' as const,
            line: 0,
            cautions: codes(nevers),
            items: nevers.map((c) => [both(c)]),
          },
        ]
      : []),
    ...panels,
    ...(lines.length > 0
      ? [
          {
            block: 'paragraph' as const,
            role: 'fine' as const,
            line: 0,
            cautions: codes(lines),
            text: lines.flatMap((c, i): readonly Run[] => [...(i > 0 ? [{ text: ' ' }] : []), ...speaker.say(c.text).runs]),
          },
        ]
      : []),
  ];
};

/** How many rows or lines a template asks for; no sheet holds more. */
const rowsOf = (wrote: string | undefined): number => Math.min(Math.max(Math.floor(Number(wrote ?? 1)) || 1, 1), 200);

/** Codes of all cautions that stand in some blocks. */
const codesIn = (blocks: readonly Block[]): readonly string[] =>
  [...walk(blocks)].flatMap((block) => ('cautions' in block && block.cautions) || []);

/** In the margin, why a sheet is not to be laminated yet: nobody has approved it, or it tells people times at which the unit's clock does not stand. */
const notYet = ({ plan, unit }: Subject, { spec }: Paper, speaker: Speaker): Pick<Page['words'], 'draft'> => {
  if (!isApproved(plan, speaker)) return { draft: speaker.word('foot.draft') };
  const otherwise = spec.reader === 'staff' && (unit?.clock_other ?? unit?.clock_held_off);
  return otherwise ? { draft: speaker.word('foot.clock-not-yet') } : {};
};

/** Whether somebody has approved the papers in this language: in one that ships by approving them, in a chain's own by naming it. */
const isApproved = ({ store: { approved, approved_in: languages } }: StorePlan, { isOwn, reader }: Speaker): boolean =>
  approved.value.is && (!isOwn || languages?.some(({ value }) => value.text === reader.lang) === true);

/** Which of its clock and its controls somebody has signed for. */
const signedFor = ({ rest, set_by: by, clock_unsigned: other, clock_alone: alone }: UnitPlan): string => {
  const clocked = rest !== undefined && !rest.by_hand.value.is;
  if (!by || (alone && (other || !clocked))) return clocked ? 'not-set' : 'not-set-controls';
  if (other) return 'set-by-but-clock';
  if (alone) return 'set-by-but-controls';
  return clocked ? 'set-by' : 'set-by-controls';
};

const footOf = (subject: Subject, paper: Paper, speaker: Speaker): readonly (readonly Run[])[] => {
  const { plan, unit, date } = subject;
  const t = speaker.phrase;
  const sheet = [plan.store.id.value.text, ...(unit ? [unit.id.value.text] : []), paper.id, speaker.reader.lang].join('-');
  const gap: readonly Run[] = [{ text: ' · ' }];
  const first =
    date === undefined ? t('foot.sheet-undated', { sheet }) : t('foot.sheet', { sheet, date: speaker.times.date(date) });
  const setBy = unit ? t(`foot.${signedFor(unit)}`, unit.set_by && { who: unit.set_by.who, when: unit.set_by.when }) : [];
  return [
    [...first, ...(setBy.length > 0 ? [...gap, ...setBy] : [])],
    ...(unit?.not_confirmed ? [t('foot.not-confirmed')] : []),
    [
      ...t(`foot.hours-changed${paper.spec.when === 'week' ? '-week' : ''}`),
      ...gap,
      ...t('foot.for-hours', { store: plan.store.name, hours: plan.open_hours }),
    ],
  ];
};

const ticksKey = (paper: Paper, { plan, unit }: Subject, week: Week): string => {
  const { chain, id } = plan.store;
  return [
    'nightrail',
    chain.value.text,
    id.value.text,
    ...(unit ? [unit.id.value.text] : []),
    paper.id,
    week.tree.from.value.iso,
  ].join('/');
};

/** The days of a dated sheet, to choose one from. */
const daysOf = ({ days }: Week, speaker: Speaker): NonNullable<Page['days']> => ({
  label: speaker.word('week.days'),
  all: speaker.word('week.all-days'),
  note: speaker.word('week.on-a-screen'),
  each: days.map(({ date, weekday }) => ({
    iso: date.value.iso,
    name: `${speaker.times.weekday(weekday)} ${speaker.times.shortDate(date.value.iso).replaceAll(' ', '\u00a0')}`,
  })),
});

/** All that is said on a page, in order, with plain spaces. */
const saidIn = (node: unknown): string => {
  if (Array.isArray(node)) return node.map(saidIn).join('');
  if (typeof node !== 'object' || node === null) return '';
  const { text } = node as { text?: unknown };
  return typeof text === 'string'
    ? text.replaceAll('\u00a0', ' ')
    : Object.values(node)
        .map((inner) => saidIn(inner))
        .join(' ');
};

/**
 * What the sheet at a unit must say, whoever wrote its template: what is never done there, and by when its top is empty. Whatever else a chain's own
 * words around them say, nothing can tell.
 */
const leftOut = (paper: Paper, { unit }: Subject, body: readonly Block[], speaker: Speaker): readonly string[] => {
  const { reader, at_unit, needs_schedule } = paper.spec;
  if (!unit || reader !== 'staff' || !at_unit || !needs_schedule) return [];
  const said = saidIn(body);
  const plain = (known: Known<Value>): string => textOf(speaker.say(known).runs).replaceAll('\u00a0', ' ');
  // A time's am or pm may be set apart from it.
  const times = unit.headline.times.map(({ time }) => /\d+:\d+/.exec(plain(time))?.[0] ?? plain(time));
  /** As a text of its own: 2:00 does not stand in 12:00. */
  const isSaid = (text: string): boolean =>
    said.split(text).some((after, i, all) => i > 0 && !/\d$/.test(all[i - 1] ?? '') && !/^\d/.test(after));
  return [...unit.never.map((rule) => plain(rule.do)), ...times].filter((text) => !isSaid(text));
};

export const compose = (
  paper: Paper,
  subject: Subject,
  speaker: Speaker,
  width: TextWidth,
): { page?: Page; findings: readonly Finding[] } => {
  const { plan, unit, week, sheet } = subject;
  const { signs } = speaker;
  const pot = new Pot();
  const findings: Finding[] = [];
  let name: string;
  try {
    name = textOf(speaker.phrase(`${paper.id}.name`));
  } catch (fault) {
    if (!(fault instanceof NoWords)) throw fault;
    return { findings: [error('template-no-words', paper.at, fault.data)] };
  }
  const large = isLarge(sheet);
  const said = (tree: Tree | undefined): View => viewOf(tree, speaker, pot, paper.spec.reader === 'technician');
  const view = late({
    store: () => said(plan.store),
    assumed: () => said(plan.assumed),
    unit: () => said(unit as Tree | undefined),
    units: () => said(plan.units as unknown as Tree),
    week: () => said(week?.tree),
    /** What a template may need to know of the sheet: a pair or one large one, and times that are longer by am and pm. */
    sheet: () => ({ pair: !large, large, second: subject.arrangement === 2, twelve: speaker.reader.clockShows === '12-hour' }),
  });
  const rendered = paper.template.render(view, speaker, pot);
  findings.push(...rendered.findings);
  if (rendered.findings.length > 0) return { findings };

  const required = (unit ? unit.cautions : plan.cautions)[paper.spec.reader].filter(
    ({ on }) => on === 'every' || paper.spec.teaches === true || (on === 'taught' && paper.spec.at_unit),
  );
  let placed: readonly string[] = [];
  const grids = new Set<string>();
  const { blocks, findings: faults } = toBlocks(rendered.text, paper.template.files, pot, signs, (name, words, body, line) => {
    switch (name) {
      case 'cautions': {
        // Those of the levels or forms named, or all; those that are left, or again.
        const named = words.filter((word) => word !== 'again');
        const chosen = required.filter(
          (c) =>
            (named.length === 0 || named.includes(c.level) || named.includes(c.as)) &&
            (named.length < words.length || !placed.includes(c.code)),
        );
        placed = [...placed, ...chosen.map((c) => c.code)];
        return cautionBlocks(chosen, speaker);
      }
      case 'figure': {
        const drawing = drawFigure(words[0] ?? '', {
          plan,
          ...(unit ? { unit } : {}),
          speaker,
          width,
        });
        if (drawing === 'unknown') return undefined;
        if (!drawing) return [];
        const grows = words.includes('grows') ? { grows: true as const } : {};
        return [{ block: 'figure', drawing, share: Number(shareIn(words) ?? 1), ...grows, line }];
      }
      case 'grid':
        grids.add(words[0] ?? '');
        return makeGrid(words[0] ?? '', subject, speaker, line);
      case 'form': {
        const people = words.includes('people') ? plan.store.people : [];
        const form = makeForm(rowsOf(words[0]), people, body, pot, speaker, line);
        return form && [form];
      }
      case 'blank':
        return [
          {
            block: 'blank',
            label: body.trim() === '' ? [] : speaker.phrase(body.trim()),
            lines: rowsOf(words[0]),
            line,
          },
        ];
      default:
        return undefined;
    }
  });
  findings.push(...faults);
  if (faults.some((f) => f.severity === 'error')) return { findings };

  // Small type is for the hand: what hangs farther off is not printed so.
  const small = [...walk(blocks)].find(
    (block) =>
      block.block === 'face' && block.distance === 'hand' && paper.spec.distance !== 'hand' && codesIn(block.body).length > 0,
  );
  if (small) {
    const at = { doc: small.doc ?? paper.template.main.doc, path: [], line: small.line, column: 1 };
    return { findings: [...findings, error('template-small-caution', at)] };
  }

  const missing = required.filter((c) => !codesIn(blocks).includes(c.code));
  const spot = { doc: paper.template.main.doc, path: [], line: 1, column: 1 };
  for (const caution of missing) findings.push(warning('caution-added', spot, { caution: caution.code, paper: paper.id }));
  const silent = leftOut(paper, subject, blocks, speaker);
  if (silent.length > 0) findings.push(warning('template-leaves-out', spot, { paper: paper.id, what: silent }));
  if (paper.id === 'week' && !grids.has('units')) findings.push(warning('week-without-units', spot));
  const head: readonly Run[] = unit
    ? speaker.phrase(unit.serial ? 'foot.unit' : 'foot.unit-unnumbered', {
        nickname: unit.nickname,
        position: unit.position,
        model: unit.nameplate.model,
        ...(unit.serial ? { serial: unit.serial } : {}),
      })
    : speaker.phrase('foot.store', { store: plan.store.name, chain: plan.store.chain });
  const about = unit ? `${textOf(speaker.say(unit.nickname).runs)}, ${plan.store.name.value.text}` : plan.store.name.value.text;
  const page: Page = {
    title: `${name}${speaker.colon}${about}`,
    lang: speaker.reader.lang,
    sheet,
    orientation: paper.spec.orientation,
    length: paper.spec.length,
    finish: paper.spec.finish,
    distance: paper.spec.distance,
    head,
    foot: footOf(subject, paper, speaker),
    body: [...blocks, ...cautionBlocks(missing, speaker)],
    ...(paper.spec.when === 'week' && week ? { ticks: ticksKey(paper, subject, week), days: daysOf(week, speaker) } : {}),
    brand: subject.brand,
    words: {
      sheetOf: speaker.word('foot.sheet-of'),
      levels: {
        danger: speaker.word('levels.danger'),
        warning: speaker.word('levels.warning'),
        caution: speaker.word('levels.caution'),
        notice: speaker.word('levels.notice'),
      },
      ...notYet(subject, paper, speaker),
    },
  };
  if (page.body.length === 0)
    findings.push(error('empty-page', { doc: paper.template.main.doc, path: [], line: 1, column: 1 }, { paper: paper.id }));
  return { page, findings };
};
