/**
 * `nightrail diff BEFORE AFTER`: what changed between two builds in plain words, so that only what changed is sent.
 */
import { error } from '../base/finding.js';
import { daysLater, moment, WEEKDAYS } from '../base/moment.js';
import { place } from '../base/place.js';
import { textOf } from '../base/run.js';
import { diffOf, type Change, type Why } from '../fleet/diff.js';
import type { Ledger } from '../fleet/ledger.js';
import { speaker as speakerFor, type Speaker } from '../say/speaker.js';
import { EXIT } from './shared/exit.js';
import { ledgerAt } from './shared/ledger-file.js';
import { openSession, type CommonOptions } from './shared/session.js';

const phrase = (speaker: Speaker, code: string, values: Readonly<Record<string, string>> = {}): string =>
  textOf(speaker.phrase(`diff.${code}`, values));

/** A fact by its path in the plan: the words for it, or the path. */
const factWord = (speaker: Speaker, path: string, known: (code: string) => boolean): string => {
  const code = `fact.${path.replace(/^(store|units\.[^.]+)\./, '').replace(/\./g, '-')}`;
  return known(code) ? phrase(speaker, code) : path;
};

const whyWords = (why: readonly Why[], speaker: Speaker, known: (code: string) => boolean): string =>
  why
    .map((one) => {
      if ('moved' in one) return phrase(speaker, 'because-moved', { what: phrase(speaker, `time.${one.moved}`) });
      if ('other' in one) return phrase(speaker, 'because-other');
      const code = one.from === '' ? 'because-fact-new' : one.to === '' ? 'because-fact-gone' : 'because-fact';
      return phrase(speaker, code, { what: factWord(speaker, one.fact, known), from: one.from, to: one.to });
    })
    .join(` ${phrase(speaker, 'and')} `);

/** `line-1-poster (en, es), week (en)`: papers with their languages, whatever the formats. */
const papersOf = (documents: readonly string[]): string => {
  const papers = new Map<string, Set<string>>();
  for (const document of documents) {
    const [base = '', language = ''] = document.slice(document.indexOf('/') + 1).split('.');
    papers.set(base, (papers.get(base) ?? new Set()).add(language));
  }
  return [...papers].map(([base, languages]) => `${base} (${[...languages].join(', ')})`).join(', ');
};

const words = (
  change: Change,
  speaker: Speaker,
  unitName: (unit: string) => string,
  known: (code: string) => boolean,
): string => {
  switch (change.change) {
    case 'time': {
      const [day] = change.days;
      const at = (min: number | undefined): string => {
        if (min === undefined || !day) return '';
        const m = moment(min);
        if (change.days.length === 1 || daysLater(m) === 0) return speaker.times.momentOf(day, m);
        return phrase(speaker, 'day-after', { at: speaker.times.moment(m) });
      };
      const code = change.from === undefined ? 'appeared' : change.to === undefined ? 'vanished' : 'moved';
      const values = { what: phrase(speaker, `time.${change.time}`), days: speaker.times.days(change.days) };
      const moved = phrase(speaker, code, { ...values, from: at(change.from), to: at(change.to) });
      const of = change.unit === undefined ? moved : phrase(speaker, 'of-unit', { unit: unitName(change.unit), what: moved });
      const why = whyWords(change.why, speaker, known);
      const itself = change.why.length === 1 && change.unit === undefined && ['opens', 'closes'].includes(change.time);
      return itself ? of : phrase(speaker, 'because', { says: of, why });
    }
    case 'set-clock': {
      const to = change.clock.map(({ days, off, on }) =>
        phrase(speaker, days.length === WEEKDAYS.length ? 'clock-set' : 'clock-set-on', {
          days: speaker.times.days(days),
          off: speaker.times.moment(moment(off)),
          on: speaker.times.moment(moment(on)),
        }),
      );
      return phrase(speaker, 'set-clock', { unit: unitName(change.unit), to: to.join('; ') });
    }
    case 'send':
    case 'take-down':
      return phrase(speaker, change.change, { papers: papersOf(change.documents) });
    case 'unit-new':
    case 'unit-gone':
    case 'schedule-lost':
    case 'schedule-found':
      return phrase(speaker, change.change, { unit: unitName(change.unit) });
    default:
      return phrase(speaker, change.change);
  }
};

export const diff = (before: string, after: string, options: CommonOptions): number => {
  const session = openSession(options);
  const { terminal } = session;
  const { workshop } = session.opened;
  const ledgers = [before, after].map((path) => {
    const ledger = ledgerAt(path);
    if (!ledger) session.add([error('no-ledger', place(path), {})]);
    return ledger;
  });
  const [old, now] = ledgers as [Ledger | undefined, Ledger | undefined];
  const english = workshop?.words.get('en');
  if (!old || !now || !workshop || !english) return session.conclude();
  const changes = diffOf(old, now);
  if (options.json) {
    terminal.line(JSON.stringify({ changes }, null, 2));
    return EXIT.fine;
  }
  const speaker = speakerFor(english, {
    lang: 'en',
    measure: 'us',
    clockShows: '24-hour',
    weekStarts: workshop.shelf.chain.week_starts,
  });
  const known = (code: string): boolean => english.get(`diff.${code}`) !== undefined;
  for (const change of changes) {
    const record = now.stores.get(change.store) ?? old.stores.get(change.store);
    const unitName = (unit: string): string => record?.units.find((u) => u.unit === unit)?.nickname ?? unit;
    terminal.line(`${record?.store.name ?? change.store}: ${words(change, speaker, unitName, known)}`);
  }
  if (changes.length === 0) terminal.line(phrase(speaker, 'same'));
  return EXIT.fine;
};
