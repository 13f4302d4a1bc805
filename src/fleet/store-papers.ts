/**
 * One store, planned once, to all its finished papers. An error in the store's files stops all of them; a unit without a schedule loses its own.
 */
import { anyError, error, warning, type Finding } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { compose, concerns, type Paper, type Subject } from '../compose/paper.js';
import { officeSize, sheetSizes, type SheetSize } from '../base/sheet-size.js';
import type { Page } from '../compose/block.js';
import { withScenes } from '../plan/consequences/index.js';
import { checkZone } from '../plan/checks-of-hours.js';
import { asOf } from '../plan/as-of.js';
import { planStore, type StorePlan } from '../plan/index.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Week } from '../plan/week.js';
import type { WeekDates } from '../plan/week-dates.js';
import { printable } from '../print/characters.js';
import { textWidth, type Faces } from '../print/faces.js';
import { FORMATS, type OutputFormat } from '../print/formats.js';
import { readStore, type Glimpse, type ReadStore, type Shelf } from '../read/shelf.js';
import type { Source } from '../read/yaml.js';
import { askedDifferently } from '../say/questions.js';
import { speaker as speakerFor, type Speaker } from '../say/speaker.js';
import { isRefused, type Words } from '../say/words.js';
import type { Workshop } from './workshop.js';

export interface Order {
  /** At least one, in order of time; the first tells the season for standing papers. */
  readonly weeks: readonly WeekDates[];
  /** Names of print/formats. */
  readonly formats: readonly string[];
  /** Papers to make, or all that the chain names. */
  readonly only?: readonly string[];
  /** Languages to make them in, or all that a store asks for. */
  readonly languages?: readonly string[];
}

export interface PlannedStore {
  readonly read?: ReadStore;
  readonly plan?: StorePlan;
  /** What can be told of a store that could not be read. */
  readonly glimpse?: Glimpse;
  readonly findings: readonly Finding[];
  /** Days from which on more is signed or approved than in the week that was planned. */
  readonly later?: readonly string[];
  /** Absent for a row of a sheet. */
  readonly source: Source | undefined;
}

/** A store that could be read and planned. */
export type Planned = PlannedStore & Required<Pick<PlannedStore, 'read' | 'plan'>>;

/** A file of a store to its plan. @param on a date, for hours that change by season @param week the first day of the week for which is planned */
export const planOf = (workshop: Workshop, doc: string, bytes: Uint8Array, on?: string, week = on): PlannedStore => {
  const read = readStore(workshop.shelf, doc, bytes);
  if (!read.store) {
    const { glimpse, source } = read;
    const zone = glimpse?.timezone && checkZone(glimpse.timezone.wrote, glimpse.timezone.at);
    return { ...(glimpse ? { glimpse } : {}), findings: [...read.findings, ...(zone ?? [])], source };
  }
  const known = week === undefined ? { read: read.store, findings: [], later: [] } : asOf(read.store, week);
  const { plan, findings } = planStore(workshop.shelf, known.read, workshop.languages, on, week);
  const { approved } = workshop.shelf.chain;
  const later = approved && !plan.store.approved.value.is ? [...known.later, approved.from] : known.later;
  const lacking = languageGaps(workshop, read.store);
  return {
    read: known.read,
    plan,
    findings: [...read.findings, ...known.findings, ...lacking, ...findings],
    later,
    source: read.source,
  };
};

/** Languages of a store that lack sentences: its pages that say one of these are not made. */
const languageGaps = (workshop: Workshop, { store, originOf }: ReadStore): readonly Finding[] => [
  ...askedDifferently(store.languages.flatMap((lang) => workshop.words.get(lang) ?? [])),
  ...store.languages.flatMap((lang, i) => {
    const words = workshop.words.get(lang);
    const count = words ? [...words.lacks.keys()].filter((code) => !isRefused(words, code)).length : 0;
    if (!workshop.languages.includes(lang)) return [];
    const told = count === 0 ? [] : [warning('language-gaps', originOf('languages', i).at, { lang, count })];
    return [...told, ...(workshop.lacking.get(lang) ?? [])];
  }),
];

/** @param lacking takes the sentences that its language lacks (say/speaker) */
export const readerOf = (words: Words, store: ReadStore, shelf: Shelf, lacking?: Set<string>): Speaker =>
  speakerFor(
    words,
    {
      lang: words.lang,
      measure: store.store.measure,
      clockShows: store.store.clock_shows,
      weekStarts: shelf.chain.week_starts,
    },
    lacking,
  );

/** Errors of a schedule that can't be kept: they cost a unit its poster, not the store its sheets. */
const OF_SCHEDULE = /^(no-rest|date)-/;

/** Whether a store's papers may be written at all. */
export const mayBuild = (findings: readonly Finding[]): boolean =>
  !findings.some((f) => f.severity === 'error' && !OF_SCHEDULE.test(f.code));

/** What hangs at the unit takes the store's sheet; what is held in the hand or taught from is never larger than an office printer's. */
const sheetFor = ({ spec }: Paper, sheet: SheetSize): SheetSize =>
  spec.length === 'one' && spec.at_unit ? sheet : officeSize(sheet);

/** A week of a store, with the plan that holds in it: hours may change by season. */
export interface Dated {
  readonly plan: StorePlan;
  readonly week: Week;
}

interface Job {
  readonly paper: Paper;
  readonly dated: Dated;
  readonly unit?: UnitPlan;
}

const jobsOf = (workshop: Workshop, weeks: readonly Dated[], only: readonly string[] | undefined): readonly Job[] =>
  workshop.papers
    .filter((paper) => !only || only.includes(paper.id))
    .flatMap((paper): readonly Job[] =>
      (paper.spec.when === 'week' ? weeks : weeks.slice(0, 1)).flatMap((dated): readonly Job[] => {
        if (paper.spec.per === 'store') return [{ paper, dated }];
        return Object.values(dated.plan.units)
          .filter((unit) => concerns(paper.spec, unit) && !(paper.spec.needs_schedule && unit.is.unsolved.value.is))
          .map((unit) => ({ paper, dated, unit }));
      }),
    );

const firstDay = ({ week }: Dated): string => week.tree.from.value.iso;

/**
 * A standing sheet holds from its approval, the setting of its clock, or the day on which the store's hours became these: never from the day it was
 * printed, so that printing it again changes nothing, and the sheet of new hours bears another date than the one that it takes the place of.
 * One that has neither holds from no day, and carries none.
 */
const dateOf = (workshop: Workshop, { paper, dated, unit }: Job): string | undefined =>
  paper.spec.when === 'week'
    ? firstDay(dated)
    : [
        dated.plan.store.approved.value.is ? workshop.shelf.chain.approved?.from : undefined,
        unit?.set_by?.when.value.iso,
        dated.plan.since,
      ]
        .filter((d) => d !== undefined)
        .sort()
        .at(-1);

/** One document that a store should have, before it is made. */
export interface Wanted {
  /** Below the folder of all output: `larch-street/line-1-poster.en.pdf`. */
  readonly path: string;
  readonly paper: Paper;
  readonly unit?: string;
  readonly language: string;
  readonly format: string;
  readonly sheet: SheetSize;
  /** The date from which it holds; a draft holds from none. */
  readonly from?: string;
  readonly dated: Dated;
  readonly make: (faces: Faces) => Promise<MadeDocument>;
}

export interface MadeDocument {
  /** Absent when a finding of severity error says why. */
  readonly bytes?: Uint8Array;
  readonly sheets: number;
  readonly findings: readonly Finding[];
  /** Plan paths of texts that had to be printed in another language. */
  readonly untranslated: readonly string[];
}

interface Making {
  readonly job: Job;
  readonly words: Words;
  readonly speaker: Speaker;
  /** Sentences that were said and that the page's language lacks. */
  readonly lacking: ReadonlySet<string>;
  readonly format: string;
  readonly at: Place;
  readonly sheet: SheetSize;
  /** The page in one of the paper's arrangements, on the store's sheet unless told; the first one is shared by all formats. */
  readonly composed: (arrangement: 1 | 2, faces: Faces, sheet?: SheetSize) => ReturnType<typeof compose>;
}

/** What a finding tells of sentences that were said and that a language lacks. */
export const lackedIn = (lang: string, lacking: ReadonlySet<string>) => ({
  lang,
  count: lacking.size,
  keys: [...lacking].sort(),
});

/** Where a letter stands in a language's words: the first few sentences, as `words/pt/poster.yaml: night`. */
const sentencesWith = (words: Words, letter: string, most = 3): readonly string[] =>
  words.codes
    .filter((code) => printable(words.get(code) ?? '').includes(letter))
    .flatMap((code) => words.at(code) ?? [])
    .slice(0, most)
    .map(({ doc, path }) => `${doc}: ${path.join('.')}`);

/** A paper in each of its arrangements. */
const pagesOf = ({ job, composed }: Making, faces: Faces, sheet?: SheetSize) =>
  ([1, 2] as const).slice(0, job.paper.spec.arrangements ?? 1).map((one) => () => composed(one, faces, sheet).page);

/** Other sheets that would hold what is too long for the store's. */
const sheetsThatHold = async (making: Making, faces: Faces, print: OutputFormat, at: Place): Promise<readonly SheetSize[]> => {
  const others = new Set(sheetSizes.map((size) => sheetFor(making.job.paper, size)));
  others.delete(making.sheet);
  const held: SheetSize[] = [];
  for (const sheet of others) if ((await print({ pages: pagesOf(making, faces, sheet), faces, at })).bytes) held.push(sheet);
  return held;
};

const make = async (making: Making, faces: Faces): Promise<MadeDocument> => {
  const { job, words, speaker, lacking, format, at, composed } = making;
  const { paper } = job;
  const { lang } = speaker.reader;
  const where = place(paper.template.main.doc);
  const first = composed(1, faces);
  const untranslated = [...speaker.untranslated];
  /** Where all that lacks was refused, each with its own finding, that finding says enough. */
  const causes = (codes: readonly string[]) =>
    codes.every((code) => isRefused(words, code)) ? { told_at: `words/${lang}` } : {};
  const wordless = (): MadeDocument => {
    const told = error(
      'page-lacks-words',
      place(`words/${lang}`),
      { paper: paper.id, ...lackedIn(lang, lacking), ...causes([...lacking]) },
      [at],
    );
    return { sheets: 0, findings: [told], untranslated };
  };
  if (lacking.size > 0) return wordless();
  if (!first.page || anyError(first.findings)) {
    const traced = first.findings.map((f): Finding =>
      f.code === 'template-no-words' ? { ...f, data: { ...f.data, ...causes([f.data['code'] as string]) } } : f,
    );
    return { sheets: 0, findings: traced, untranslated };
  }
  const print = FORMATS[format];
  if (!print) throw new Error(`no format is called ${format}`);
  const printed = await print({ pages: pagesOf(making, faces), faces, at: where });
  // Another arrangement of the page may say more.
  if (lacking.size > 0) return wordless();
  const about = { paper: paper.id, lang, unit: (job.unit ?? job.dated.plan.store).id.value.text };
  const long = printed.findings.some((f) => f.code === 'does-not-fit');
  const sheets = long ? await sheetsThatHold(making, faces, print, where) : [];
  const findings = [
    ...first.findings,
    ...printed.findings.map((f): Finding => {
      const written = f.code === 'no-glyph' ? sentencesWith(words, f.data['glyph'] as string) : [];
      const named = {
        ...(written.length > 0 ? { sentences: written } : {}),
        ...(f.code === 'does-not-fit' && sheets.length > 0 ? { sheets } : {}),
      };
      return { ...f, also: [at, ...(f.also ?? [])], data: { ...f.data, ...about, ...named } };
    }),
    ...(printed.bytes || anyError(printed.findings) ? [] : [error('not-printed', where, about)]),
  ];
  return { ...(printed.bytes ? { bytes: printed.bytes } : {}), sheets: printed.sheets, findings, untranslated };
};

/** Every document of a store, in the chain's order of papers. Sheets of one week are named by their paper, sheets of several by their first day too. */
export const documentsOf = (
  workshop: Workshop,
  read: ReadStore,
  weeks: readonly Dated[],
  order: Order,
  look: Page['brand'],
): readonly Wanted[] =>
  jobsOf(workshop, weeks, order.only).flatMap((job) => {
    const { paper, unit, dated } = job;
    const { plan } = dated;
    const ofWeek = paper.spec.when === 'week';
    const date = dateOf(workshop, job);
    const subject: Subject = {
      plan,
      ...(unit ? { unit } : {}),
      ...(ofWeek ? { week: dated.week } : {}),
      ...(date === undefined ? {} : { date }),
      sheet: sheetFor(paper, read.store.sheet),
      brand: look,
    };
    const called = `${paper.id}${ofWeek && weeks.length > 1 ? `-${firstDay(dated)}` : ''}`;
    const at = unit ? read.originOf('units', unit.id.value.text).at : read.at;
    const languages = read.store.languages.filter((lang) => !order.languages || order.languages.includes(lang));
    return languages.flatMap((language) => {
      const words = workshop.words.get(language);
      if (!words) return [];
      const lacking = new Set<string>();
      const speaker = readerOf(words, read, workshop.shelf, lacking);
      let first: ReturnType<typeof compose> | undefined;
      const composed: Making['composed'] = (arrangement, faces, sheet) => {
        const compositor = (): ReturnType<typeof compose> => {
          const scenes = unit && paper.spec.scenes ? { unit: withScenes(workshop.shelf, read, plan, unit) } : {};
          return compose(paper, { ...subject, ...scenes, arrangement, ...(sheet ? { sheet } : {}) }, speaker, textWidth(faces));
        };
        return arrangement === 1 && !sheet ? (first ??= compositor()) : compositor();
      };
      const name = `${read.id}/${unit ? `${unit.id.value.text}-` : ''}${called}.${language}`;
      return order.formats.map((format): Wanted => ({
        path: `${name}.${format}`,
        paper,
        ...(unit ? { unit: unit.id.value.text } : {}),
        language,
        format,
        sheet: subject.sheet,
        ...(date === undefined ? {} : { from: date }),
        dated,
        make: (faces) => make({ job, words, speaker, lacking, format, at, sheet: subject.sheet, composed }, faces),
      }));
    });
  });
