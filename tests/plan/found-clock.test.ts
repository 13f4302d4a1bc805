/**
 * A clock as it was found: what it did, on which days and at which minute, is told from the setting alone.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import type { Finding } from '../../src/base/finding.js';
import { findingWords } from '../../src/say/findings.js';
import { speaker } from '../../src/say/speaker.js';
import type { Words } from '../../src/say/words.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

/** Seven to ten; emptying may begin half an hour before closing: out by 21:50, power needed at 05:30 at the latest. */
const found = (off: string, on: string, more = '', hours = 'Mo-Su 07:00-22:00') => {
  const tried = tryChain({
    'sites/street.yaml': `${STORE.replace('Mo-Su 07:00-22:00', hours)}    found: { when: 2026-11-01, who: Somebody, clock: { off: '${off}', on: '${on}'${more} } }\n`,
  });
  const { plan, read } = tried.stores.get('street') ?? {};
  const words = tried.workshop?.words.get('en');
  if (!tried.workshop || !plan || !read || !words) throw new Error(tried.told.join('\n'));
  const speaker = readerOf(words, { ...read, store: { ...read.store, clock_shows: '24-hour' } }, tried.workshop.shelf);
  const did = plan.units['line-1']?.found?.clock?.did ?? [];
  return {
    codes: did.map((t) => t.text.value.code.slice('found.'.length)),
    told: did.map((t) => textOf(speaker.say(t.text).runs).replace(/\u00a0/g, ' ')),
    findings: tried.findings.filter((f) => f.at.path.includes('found')).map((f) => f.code),
  };
};

describe('a clock as found', () => {
  it('that is right is left alone', () => {
    expect(found('22:30', '05:00')).toEqual({ codes: [], told: [], findings: ['clock-found-right'] });
  });
  it('half a day out is recognised, with what it did at noon', () => {
    const { codes, told, findings } = found('10:30', '17:00');
    expect(codes).toEqual(['half-day-out', 'off-with-food', 'rests-too-short']);
    expect(told[1]).toBe('Mon–Sun: off with food in it from 10:30, for 6 h 30 min.');
    expect(findings).toEqual(['clock-found-wrong']);
  });
  it('an hour fast stops the top before it is empty', () => {
    expect(found('21:15', '04:00').told).toEqual(['Mon–Sun: off with food in it from 21:15, for 70 min.']);
  });
  it('that comes on late warms the first pan', () => {
    expect(found('22:30', '06:00').told).toEqual([
      'After the night of Mon–Sun: on only at 06:00, 30 min late for the first pan.',
    ]);
  });
  it('that stops too briefly gives no rest', () => {
    expect(found('00:00', '02:00').told).toEqual(['In the night of Mon–Sun: at rest for 2 h only.']);
  });
  it('names only the days on which it is wrong', () => {
    const { told } = found('22:30', '05:00', '', 'Mo-Fr 07:00-22:00; Sa 07:00-23:30; Su 07:00-22:00');
    expect(told).toEqual(['Sat: off with food in it from 22:30, for 85 min.']);
  });
  it('before it opens on a later day belongs to the night before', () => {
    const { told } = found('22:30', '08:00', '', 'Mo-Fr 10:00-22:00; Sa,Su 08:00-22:00');
    expect(told).toEqual([
      'After the night of Fri, Sat: on only at 08:00, 90 min late for the first pan.',
      'Sat, Sun: off with food in it from 07:30, for 30 min.',
    ]);
  });
  it('that is back on before the water is wiped away lets it freeze again, and is never called right', () => {
    const setting = (on: string) => {
      const tried = tryChain({
        'equipment/table.yaml': TABLE.replace('drains: by-itself', 'drains: by-hand'),
        'sites/street.yaml': `${STORE.replace('hours: Mo-Su 07:00', 'crew: { comes: 3 h before opening }\nhours: Mo-Su 10:00')}    found: { when: 2026-11-01, who: Somebody, clock: { off: '23:00', on: '${on}' } }\n`,
      });
      const { plan } = tried.stores.get('street') ?? {};
      if (!plan) throw new Error(tried.told.join('\n'));
      const codes = plan.units['line-1']?.found?.clock?.did.map((t) => t.text.value.code) ?? [];
      return { codes, findings: tried.findings.filter((f) => f.at.path.includes('found')).map((f) => f.code) };
    };
    expect(setting('05:00')).toEqual({ codes: ['found.on-unwiped'], findings: ['clock-found-wrong'] });
    expect(setting('08:00').codes).toEqual([]);
  });
  it('that was slow did everything later than its dial says, and is told by true time', () => {
    // Out by 21:50 at the earliest, in use until closing at 22:00 and half an hour of emptying: 22:00 on the dial is 22:40 by true time.
    expect(found('22:00', '05:00')).toMatchObject({ codes: ['off-with-food'] });
    const slow = found('22:00', '05:00', ', slow: 40 min');
    expect(slow.told).toEqual([
      'The clock was 40 min slow. By true time:',
      'After the night of Mon–Sun: on only at 05:40, 10 min late for the first pan.',
    ]);
    expect(slow.findings).toEqual(['clock-found-slow', 'clock-found-wrong']);
  });
  it('that is set right and shows the wrong time is not called right alone', () => {
    // It has to be set anyway, so what it was set to is no reason to keep its times.
    expect(found('22:30', '05:00', ', slow: 10 min')).toEqual({
      codes: ['slow-alone'],
      told: ['The clock was 10 min slow.'],
      findings: ['clock-found-slow', 'clock-found-other'],
    });
    const { codes, findings } = found('22:30', '05:00', ', fast: 2 h');
    expect(codes.slice(0, 2)).toEqual(['fast', 'off-with-food']);
    expect(findings).toEqual(['clock-found-fast', 'clock-found-wrong']);
  });
  it('is slow or fast, not both', () => {
    const tried = tryChain({
      'sites/street.yaml': `${STORE}    found: { when: 2026-11-01, who: Somebody, clock: { off: '22:30', on: '05:00', slow: 5 min, fast: 5 min } }\n`,
    });
    expect(tried.findings.map((f) => f.code)).toContain('found-slow-and-fast');
  });
  it('held by its override acts on nothing', () => {
    const { codes, findings } = found('22:30', '05:00', ", override: 'on'");
    expect(codes).toEqual(['override-on']);
    expect(findings).toEqual(['override-found', 'clock-found-right']);
  });
  it('with one time for both never turns', () => {
    expect(found('22:30', '22:30').codes).toEqual(['never-turns']);
  });
});

describe('a clock found with several settings', () => {
  const settings = (clock: string, kind = 'seven-day-clock') => {
    const tried = tryChain({
      'equipment/table.yaml': TABLE.replace('daily-dial, polarity: out-is-on', kind),
      'sites/street.yaml': `${STORE}    found: { when: 2026-11-01, who: Somebody, clock: ${clock} }\n`,
    });
    const did = tried.stores.get('street')?.plan?.units['line-1']?.found?.clock?.did ?? [];
    return {
      told: did.map((d) => {
        const { days, at, length } = d.figures as Record<
          string,
          { value: { days?: readonly string[]; min?: number; si?: number } }
        >;
        return [d.text.value.code.slice('found.'.length), days?.value.days?.join(), at?.value.min, (length?.value.si ?? 0) / 60];
      }),
      codes: tried.findings.map((f) => f.code).filter((code) => code.includes('found')),
    };
  };

  it('is walked day by day of the calendar', () => {
    // Out by 22:20, emptied from closing on. Friday's stop is an hour early; Saturday's of two hours is no rest.
    const { told, codes } = settings(
      "{ settings: [{ days: 'sun-thu', off: '22:30', on: '05:00' }, { days: fri, off: '21:30', on: '05:00' }, { days: sat, off: '23:00', on: '01:00' }] }",
    );
    expect(told).toEqual([
      ['off-with-food', 'fri', 21 * 60 + 30, 55],
      ['rests-too-short', 'sat', 0, 120],
    ]);
    expect(codes).toEqual(['clock-found-wrong-settings']);
  });
  it('with a stretch by day beside a right night stops food at noon', () => {
    const { told } = settings("{ settings: [{ off: '22:30', on: '05:00' }, { days: 'sat,sun', off: '12:00', on: '13:00' }] }");
    expect(told).toEqual([['off-with-food', 'sat,sun', 12 * 60, 60]]);
  });
  it('that are right is left alone', () => {
    expect(
      settings("{ settings: [{ days: 'mon-fri', off: '22:30', on: '05:00' }, { days: 'sat,sun', off: '22:45', on: '05:00' }] }")
        .codes,
    ).toEqual(['clock-found-right-settings']);
  });
  it('is told to be what no such clock can hold', () => {
    const dial = settings(
      "{ settings: [{ days: 'mon-fri', off: '22:30', on: '05:00' }, { days: 'sat,sun', off: '22:45', on: '05:00' }] }",
      'daily-dial',
    );
    expect(dial.codes).toEqual(['clock-found-other-settings']);
  });
  it.each([
    ['Mo-Th 07:00-22:00; Fr-Su 07:00-24:00', 'set it to Mon–Thu: off 22:25, on 05:25; Sat–Mon: off 00:00, on 05:25'],
    // After Sunday comes a closed day: it comes on again on Tuesday, and to set Monday would freeze what melted.
    ['Tu-Sa 07:00-22:00; Su 07:00-21:00', 'set it to Tue–Sat: off 22:25, on 05:25; Sun: off 21:50; on Tue 05:25'],
  ])('is told each setting that it should have (%s)', (hours, hint) => {
    const tried = tryChain({
      'equipment/table.yaml': TABLE.replace('daily-dial, polarity: out-is-on', 'seven-day-clock'),
      'sites/street.yaml': `${STORE.replace('Mo-Su 07:00-22:00', hours)}    found: { when: 2026-11-01, who: Somebody, clock: { off: '12:00', on: '18:00' } }\n`,
    });
    const words = tried.workshop?.words.get('en') as Words;
    const reader = { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon' } as const;
    const found = tried.findings.find((f) => f.code === 'clock-found-wrong') as Finding;
    expect(findingWords(found, words, speaker(words, reader)).hint).toBe(hint);
  });
  it('has off and on, or settings', () => {
    expect(settings("{ off: '22:30' }").codes).toEqual(['found-clock-times']);
    expect(settings("{ off: '22:30', on: '05:00', settings: [{ off: '22:30', on: '05:00' }] }").codes).toEqual([
      'found-clock-times',
    ]);
  });
});

it('a clock that was found where no schedule is safe goes on: it is told, and stands on the card', () => {
  const store = STORE.replace('Mo-Su 07:00-22:00', 'Mo-Su 07:00-03:30').replace(
    'position: by the door\n',
    "position: by the door\n    found: { when: 2026-11-12, who: A. B., clock: { off: '02:00', on: '04:00' } }\n",
  );
  const tried = tryChain({ 'sites/street.yaml': store });
  expect(store).toContain('found:');
  expect(tried.findings.map(({ code, at }) => `${code} ${at.path.join('.')}`)).toContain(
    'clock-runs-on units.line-1.found.clock',
  );
  const { found, is } = tried.stores.get('street')?.plan?.units['line-1'] ?? {};
  expect(is?.unsolved.value.is).toBe(true);
  expect(found?.clock?.settings.map(({ off, on }) => [off.value.min, on.value.min])).toEqual([[120, 240]]);
});
