/**
 * `nightrail calendar`: what a store's people do on real dates, as an iCalendar file.
 */
import { error, type Finding } from '../base/finding.js';
import { WEEKDAYS } from '../base/moment.js';
import { place } from '../base/place.js';
import { calendarOf } from '../fleet/calendar.js';
import { lackedIn, mayBuild, planOf, readerOf, type PlannedStore } from '../fleet/store-papers.js';
import { weeksOf } from '../fleet/store-weeks.js';
import { today } from '../host/clock.js';
import { writeWhole } from '../host/disk.js';
import { dayWritten, isoOf } from '../model/hours/index.js';
import { weeksHolding } from '../plan/week-dates.js';
import { storeSources, unknownStore } from '../read/stores.js';
import { EXIT } from './shared/exit.js';
import { openSession, type CommonOptions } from './shared/session.js';

export interface CalendarOptions extends CommonOptions {
  readonly from?: string;
  readonly weeks: number;
  readonly language?: string;
  readonly out?: string;
}

export const calendar = (storeId: string, options: CalendarOptions): number => {
  const session = openSession(options);
  const { terminal, opened } = session;
  const { workshop } = opened;
  const from = options.from ?? today();
  const first = dayWritten(from);
  if (first === undefined) {
    terminal.problem(`${from}: write a date like 2026-11-30`);
    return EXIT.usage;
  }
  // A slip must not write over a store's own file.
  if (options.out !== undefined && !/\.ics$/i.test(options.out)) {
    terminal.problem(`--out ${options.out}: write the name of a calendar file, like ${storeId}.ics`);
    return EXIT.usage;
  }
  /** Findings go beside a calendar that is written to the terminal, never into it. */
  const stop = (found: readonly Finding[]): number => {
    session.add(found);
    if (!options.json) return session.conclude();
    terminal.line(JSON.stringify({ findings: session.spoken() }, null, 2));
    return session.exitCode();
  };
  if (!workshop) return stop([]);
  const { stores } = storeSources(session.files);
  const ids = stores.map((store) => store.id);
  const source = stores.find((store) => store.id === storeId);
  if (!source) {
    return stop([unknownStore(storeId, ids)]);
  }
  const last = first + options.weeks * WEEKDAYS.length - 1;
  const dates = weeksHolding(first, last, workshop.shelf.chain.week_starts);
  const on = (iso: string, week = iso): PlannedStore => planOf(workshop, source.doc, source.bytes, iso, week);
  const planned = on(isoOf(dates[0]?.first ?? first));
  if (planned.source) session.sources.set(source.doc, planned.source);
  const { read, plan } = planned;
  if (!read || !plan) return stop(planned.findings);
  const weeks = weeksOf({ ...planned, read, plan }, on, dates);
  const found = weeks.flatMap(({ findings, week }) => [...findings, ...week.findings]);
  if (!mayBuild(found)) return stop(found);
  const lang = options.language ?? read.store.languages[0] ?? workshop.shelf.lang;
  const words = workshop.words.get(lang);
  if (!words || !workshop.languages.includes(lang) || !read.store.languages.includes(lang))
    return stop([error('no-language', read.originOf('languages').at, { wrote: lang, names: read.store.languages })]);
  const lacking = new Set<string>();
  const text = calendarOf({ read, weeks, speaker: readerOf(words, read, workshop.shelf, lacking) }, first, last);
  if (lacking.size > 0) return stop([error('calendar-lacks-words', place(`words/${lang}`), lackedIn(lang, lacking))]);
  if (options.out === undefined) {
    terminal.line(text.replace(/\r\n$/, '\r'));
    session.add(found);
    return session.exitCode();
  }
  writeWhole(options.out, text);
  return stop(found);
};
