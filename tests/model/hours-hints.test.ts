/**
 * What is proposed for opening hours that can't be read is read, and says of each end only what the writer may have meant: am and pm stay what they were, and
 * a figure of a 12-hour clock keeps its figure.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseHours, type ParsedHours } from '../../src/model/hours/index.js';
import { findingWords } from '../../src/say/findings.js';
import { speaker } from '../../src/say/speaker.js';
import { serious, STORE, tryChain } from '../support/chain.js';

const DAY = 1440;
const two = (n: number): string => String(n).padStart(2, '0');

/** One end as people write it, and the minutes of the day that it may mean: reckoned here by itself. */
interface End {
  readonly wrote: string;
  readonly may: readonly number[];
  readonly saysHalf: boolean;
}

const halves = (hour: number, minute: number): readonly number[] =>
  hour >= 1 && hour <= 12 ? [(hour % 12) * 60 + minute, (hour % 12) * 60 + minute + 720] : [(hour * 60 + minute) % DAY];

const minute = fc.constantFrom(0, 15, 30);
const figure = fc
  .tuple(fc.integer({ min: 0, max: 23 }), minute, fc.constantFrom('h', 'h:mm', 'hh:mm', '8h'))
  .map(([hour, min, form]): End => {
    const whole = form === 'h' ? 0 : min;
    const wrote = {
      h: `${hour}`,
      'h:mm': `${hour}:${two(min)}`,
      'hh:mm': `${two(hour)}:${two(min)}`,
      '8h': `${hour}h${min === 0 ? '' : two(min)}`,
    }[form];
    return { wrote, may: halves(hour, whole), saysHalf: false };
  });
const half = fc
  .tuple(fc.integer({ min: 1, max: 12 }), minute, fc.constantFrom('am', 'pm', 'a', 'p', ' a.m.', ' PM'))
  .map(([hour, min, word]): End => {
    const base = (hour % 12) * 60 + min;
    return {
      wrote: `${hour}${min === 0 ? '' : `:${two(min)}`}${word}`,
      may: [/p/i.test(word) ? base + 720 : base],
      saysHalf: true,
    };
  });
const word = fc.constantFrom<End>(
  { wrote: 'noon', may: [720], saysHalf: false },
  { wrote: 'midnight', may: [0], saysHalf: false },
);
const end = fc.oneof({ weight: 4, arbitrary: figure }, { weight: 3, arbitrary: half }, { weight: 1, arbitrary: word });

const mondays = (parsed: ParsedHours) => {
  if (!parsed.ok) throw new Error(parsed.fault);
  const [rule] = parsed.hours.rules;
  return rule?.spans?.[0] as { from: number; to: number };
};

const meant = ({ from, to }: { from: number; to: number }, opens: End, closes: End): void => {
  expect(opens.may).toContain(from % DAY);
  expect(closes.may).toContain(to % DAY);
  expect(to).toBeGreaterThan(from);
};

it.each(['\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212'])('reads the dash %j as a hyphen', (dash) => {
  expect(parseHours(`Mo${dash}Su 07:00${dash}22:00`)).toMatchObject({ ok: true });
});

it.each([
  // A spreadsheet keeps a time as a part of the day: 11 of 24 hours, 22 of 24.
  ['0.458333333333333', '11:00'],
  ['.9166666667', '22:00'],
  ['0,25', '06:00'],
])('says which time %s is', (part, time) => {
  expect(parseHours(part)).toMatchObject({ ok: false, fault: 'part-of-a-day', data: { part, time } });
});

it('proposes only what may have been meant', () => {
  let proposed = 0;
  fc.assert(
    fc.property(end, end, fc.constantFrom('', '; Su 11am-10pm', '; Sa 10-6'), (opens, closes, more) => {
      const parsed = parseHours(`Mo-Fr ${opens.wrote}-${closes.wrote}${more}`);
      if (parsed.ok) {
        meant(mondays(parsed), opens, closes);
        // After an am or pm, a closing of 1 to 12 says its own.
        expect(opens.saysHalf && closes.may.length > 1).toBe(false);
        return;
      }
      for (const text of [parsed.suggestion, parsed.other]) {
        if (text === undefined) continue;
        proposed += 1;
        meant(mondays(parseHours(text)), opens, closes);
        // Who writes am and pm is answered in them.
        if (opens.saysHalf) expect(text).toMatch(/^Mo-Fr [0-9:]+(am|pm| ?[ap]\.?m?\.?)/i);
      }
      // Of two openings the short one never stands alone where the other may be meant.
      if (parsed.fault === 'am-or-pm' && parsed.suggestion !== undefined && more === '') {
        const { from, to } = mondays(parseHours(parsed.suggestion));
        const later = closes.may
          .map((m) => (m <= from % DAY ? m + DAY : m))
          .some((m) => m > to && m <= DAY + 720 && m - from <= 1200);
        if (to - from < 360 && later) expect(parsed.other).toBeDefined();
      }
    }),
    { numRuns: 4000, seed: 20261127 },
  );
  expect(proposed).toBeGreaterThan(400);
});

it('tells both where the nearer closing would be a short opening', () => {
  expect(parseHours('10am-2')).toMatchObject({ suggestion: '10am-2pm', other: '10am-2am' });
  expect(parseHours('11-2; Sa 9-5')).toMatchObject({
    suggestion: '11:00-14:00; Sa 09:00-17:00',
    other: '11:00-02:00; Sa 09:00-17:00',
  });
});

it('tells what a proposal leaves out before any other fault', () => {
  expect(parseHours('Fr 11-11pm (summer 11-12); Su 12-9 (or so)')).toMatchObject({
    fault: 'in-brackets',
    data: { said: '(summer 11-12) (or so)' },
    suggestion: 'Fr 11am-11pm; Su 12:00-21:00',
  });
});

it.each([
  ['1030 to 2200 every day except Sun 1100 to 2000', '10:30-22:00 every day; Sun 11:00-20:00', undefined],
  ['daily 0700-2200', 'daily 07:00-22:00', undefined],
  ['1100-0100', '11:00-01:00', undefined],
  ['930-1000', '09:30-22:00', undefined],
  ['1000-200', '10:00-14:00', '10:00-02:00'],
  ['10am-2200', '10am-22:00', undefined],
  // It may be closed on Sundays, or open then alone.
  ['daily except Sun 11-22', undefined, undefined],
  ['1075-2200', undefined, undefined],
])('%s has its colons and its other days in what is proposed: %s', (wrote, suggestion, other) => {
  const read = parseHours(wrote);
  expect(read.ok ? read.readAs : [read.suggestion, read.other]).toEqual([suggestion, other]);
});

it('hours that are missing are asked for in one form or another, each in quotes', () => {
  const { findings, workshop } = tryChain({ 'sites/street.yaml': STORE.replace(/^hours: .*\n/m, '') });
  const missing = findings.find((f) => f.code === 'missing-key');
  const words = workshop?.words.get('en');
  if (!missing || !words) throw new Error('nothing is missing');
  const says = speaker(words, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon' });
  expect(findingWords(missing, words, says).hint).toBe(
    'add hours, written like "Mo-Th 06:30-22:00; Fr-Sa 06:30-00:30; Su off" or "24/7"',
  );
});

describe('a morning that may be a night', () => {
  const told = (hours: string) => {
    const tried = tryChain({ 'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', `'${hours}'`) });
    return { codes: serious(tried).join(), data: tried.findings.find((f) => f.code === 'hours-short-morning')?.data };
  };
  it('is a warning beside days that close in the evening', () => {
    const { codes, data } = told('Tue-Thu, Sun 10:30am-10:30pm; Fri-Sat 10:30-12:30; Mon closed');
    expect(codes).toContain('hours-short-morning sites/street.yaml:3:8');
    expect(data).toMatchObject({ days: ['fri', 'sat'], span: '10:30-12:30', night: '10:30-00:30', noon: '10:30am-12:30pm' });
  });
  it('is told of 12pm, which often means midnight', () => {
    expect(told('Mo-Th 11am-10pm; Fr-Sa 11am-12pm').data).toMatchObject({ days: ['fri', 'sat'] });
  });
  it.each([
    ['says pm', 'Mo-Th 10:30am-10:30pm; Fri-Sat 10:30am-12:30pm'],
    ['is one of two openings of its day', 'Mo-Th 10:00-22:00; Fr,Sa 10:00-12:30,17:00-22:00'],
    ['is what all days are', 'Mo-Sa 10:00-12:30'],
    ['is half a day', 'Mo-Fr 07:00-22:00; Sa 07:00-12:30'],
  ])('is none where it %s', (_, hours) => {
    expect(told(hours).data).toBeUndefined();
  });
});
