/**
 * One store, planned once, to all its finished papers. An error in the store's files stops all of them; a unit without a schedule loses its own.
 */
import { anyError, error, warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { compose, concerns, type Paper, type Subject } from '../compose/paper.js';
import type { Logo, SheetSize } from '../compose/block.js';
import { planStore, type StorePlan } from '../plan/index.js';
import type { UnitPlan } from '../plan/unit.js';
import { planWeek, type Week, type WeekDates } from '../plan/week.js';
import { textWidth, type Faces } from '../print/faces.js';
import { printHtml } from '../print/html.js';
import { printPdf, type PrintedPdf } from '../print/print-pdf.js';
import { readStore, type ReadStore, type Shelf } from '../read/shelf.js';
import type { Source } from '../read/yaml.js';
import { speaker as speakerFor, type Speaker } from '../say/speaker.js';
import type { Words } from '../say/words.js';
import type { Workshop } from './workshop.js';

export type Format = 'pdf' | 'html';

export interface Order {
  readonly week: WeekDates;
  readonly formats: readonly Format[];
  /** Papers to make, or all that the chain names. */
  readonly only?: readonly string[];
}

export interface Document {
  /** Below the folder of all output: `larch-street/line-1-poster.en.pdf`. */
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly sheets: number;
}

export interface PlannedStore {
  readonly read?: ReadStore;
  readonly plan?: StorePlan;
  readonly findings: readonly Finding[];
  readonly source: Source;
}

/** A file of a store to its plan. @param on a date, for hours that change by season */
export const planOf = (workshop: Workshop, doc: string, bytes: Uint8Array, on?: string): PlannedStore => {
  const read = readStore(workshop.shelf, doc, bytes);
  if (!read.store) return { findings: read.findings, source: read.source };
  const { plan, findings } = planStore(workshop.shelf, read.store, [...workshop.words.keys()], on);
  return { read: read.store, plan, findings: [...read.findings, ...findings], source: read.source };
};

export const readerOf = (words: Words, store: ReadStore, shelf: Shelf): Speaker =>
  speakerFor(words, {
    lang: words.lang,
    measure: store.store.measure,
    clockShows: store.store.clock_shows,
    weekStarts: shelf.chain.week_starts,
  });

/** Errors of a schedule that can't be kept: they cost a unit its poster, not the store its sheets. */
const OF_SCHEDULE = /^(no-rest|date)-/;

/** Whether a store's papers may be written at all. */
export const mayBuild = (findings: readonly Finding[]): boolean =>
  !findings.some((f) => f.severity === 'error' && !OF_SCHEDULE.test(f.code));

/** Posters take the store's sheet; what is held in the hand is never larger than an office printer's. */
const sheetFor = (paper: Paper, sheet: SheetSize): SheetSize => {
  if (paper.spec.length === 'one') return sheet;
  return sheet === 'tabloid' ? 'letter' : sheet === 'a3' ? 'a4' : sheet;
};

interface Job {
  readonly paper: Paper;
  readonly unit?: UnitPlan;
  readonly week?: Week;
}

const jobsOf = (workshop: Workshop, plan: StorePlan, week: Week, only: readonly string[] | undefined): readonly Job[] =>
  workshop.papers
    .filter((paper) => !only || only.includes(paper.id))
    .flatMap((paper): readonly Job[] => {
      const dated = paper.spec.when === 'week' ? { week } : {};
      if (paper.spec.per === 'store') return [{ paper, ...dated }];
      return Object.values(plan.units)
        .filter((unit) => concerns(paper.spec, unit) && !(paper.spec.needs_schedule && unit.is.unsolved.value.is))
        .map((unit) => ({ paper, unit, ...dated }));
    });

/** A standing sheet holds from its approval, or from the setting of its clock: never from the day it was printed, so that printing it again changes nothing. */
const dateOf = (workshop: Workshop, job: Job, week: Week): string =>
  job.week
    ? week.tree.from.value.iso
    : ([workshop.shelf.chain.approved?.from, job.unit?.set_by?.when.value.iso]
        .filter((d) => d !== undefined)
        .sort()
        .at(-1) ?? week.tree.from.value.iso);

interface Making {
  readonly paper: Paper;
  readonly subject: Subject;
  readonly speaker: Speaker;
  readonly faces: Faces;
  readonly where: Place;
}

/** The PDF in the first arrangement that fits; where none does, what the first one says. */
const printFitting = async ({ paper, subject, speaker, faces, where }: Making): Promise<PrintedPdf> => {
  let first: PrintedPdf | undefined;
  for (const arrangement of paper.spec.arrangements === 2 ? ([1, 2] as const) : ([1] as const)) {
    const { page } = compose(paper, { ...subject, arrangement }, speaker, textWidth(faces));
    const printed = page && (await printPdf(page, faces, where));
    if (printed?.bytes) return printed;
    first ??= printed;
  }
  return first ?? { sheets: 0, findings: [] };
};

/** Makes every document of a store, one after another. */
export async function* papersOf(
  workshop: Workshop,
  read: ReadStore,
  plan: StorePlan,
  order: Order,
  faces: Faces,
  logo: Logo | undefined,
): AsyncGenerator<Document | Finding> {
  const week = planWeek(read, plan, order.week);
  const { colour } = workshop.shelf.chain.brand;
  const untranslated = new Map<string, Set<string>>();
  for (const job of jobsOf(workshop, plan, week, order.only)) {
    const { paper, unit } = job;
    const subject: Subject = {
      plan,
      ...(unit ? { unit } : {}),
      ...(job.week ? { week: job.week } : {}),
      date: dateOf(workshop, job, week),
      sheet: sheetFor(paper, read.store.sheet),
      brand: { colour, ...(logo ? { logo } : {}) },
    };
    const at = unit ? read.originOf('units', unit.id.value.text).at : read.at;
    const where = place(paper.template.main.doc);
    for (const lang of read.store.languages) {
      const words = workshop.words.get(lang);
      if (!words) continue;
      const speaker = readerOf(words, read, workshop.shelf);
      const { page, findings } = compose(paper, subject, speaker, textWidth(faces));
      yield* findings;
      untranslated.set(lang, new Set([...(untranslated.get(lang) ?? []), ...speaker.untranslated]));
      if (!page || anyError(findings)) continue;
      const name = `${read.id}/${unit ? `${unit.id.value.text}-` : ''}${paper.id}.${lang}`;
      if (order.formats.includes('pdf')) {
        const printed = await printFitting({ paper, subject, speaker, faces, where });
        const about = { paper: paper.id, lang, ...(unit ? { unit: unit.id.value.text } : {}) };
        for (const finding of printed.findings)
          yield { ...finding, also: [at, ...(finding.also ?? [])], data: { ...finding.data, ...about } };
        if (printed.bytes) yield { path: `${name}.pdf`, bytes: printed.bytes, sheets: printed.sheets };
        else if (!anyError(printed.findings)) yield error('not-printed', where, about);
      }
      if (order.formats.includes('html')) {
        const printed = printHtml(page, where);
        if (!order.formats.includes('pdf')) yield* printed.findings;
        if (printed.html) yield { path: `${name}.html`, bytes: new TextEncoder().encode(printed.html), sheets: 0 };
      }
    }
  }
  for (const [lang, paths] of untranslated)
    if (paths.size > 0) yield warning('untranslated', read.at, { what: [...paths], lang });
}
