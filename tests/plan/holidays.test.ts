/**
 * Dates of other hours: the chain's and a store's own beside each other, holidays that `hours` speaks of, and two answers for one date.
 */
import { describe, expect, it } from 'vitest';
import { planWeek } from '../../src/plan/week.js';
import { weekOfIso, type WeekDates } from '../../src/plan/week-dates.js';
import { CHAIN, serious, STORE, tryChain } from '../support/chain.js';

const CLOSED = 'exceptions: [{ date: 2026-12-25, hours: off, why: Christmas }, { date: 2027-01-01, hours: off }]';
const chain = (...defaults: readonly string[]) => `${CHAIN.trimEnd()}\n${defaults.map((line) => `  ${line}\n`).join('')}`;
const store = (hours: string, more = '') => STORE.replace('Mo-Su 07:00-22:00', hours) + more;

/** The week of Christmas: `25 closed`, `24 10:00-16:00`, for each date that is not as usual. */
const christmas = (files: Readonly<Record<string, string>>) => {
  const { plan, read } = tryChain(files).stores.get('street') ?? {};
  if (!plan || !read) return undefined;
  return planWeek(read, plan, weekOfIso('2026-W52', 'mon') as WeekDates).days.flatMap(({ date, open, openings, different }) => {
    if (open && openings.length === 0) return [];
    const hours = openings.map(({ opens, closes }) => `${opens.value.min / 60}-${closes.value.min / 60}`).join(' ');
    const why = different
      .flatMap(({ value }) => (value.q === 'told' && typeof value.text === 'string' ? [value.text] : []))
      .join();
    return [`${date.value.iso.slice(8)} ${open ? hours : 'closed'}${why && ` ${why}`}`];
  });
};

describe('dates of other hours', () => {
  it("are the chain's and the store's own together; of one date the store's", () => {
    const own = "exceptions: [{ date: 2026-12-24, hours: '10:00-16:00', why: Short day }]\n";
    const files = { 'nightrail.yaml': chain(CLOSED), 'sites/street.yaml': store('Mo-Su 07:00-22:00', own) };
    expect(christmas(files)).toEqual(['24 10-16 Short day', '25 closed Christmas']);
    const open = "exceptions: [{ date: 2026-12-25, hours: '12:00-18:00' }]\n";
    expect(christmas({ ...files, 'sites/street.yaml': store('Mo-Su 07:00-22:00', open) })).toEqual(['25 12-18']);
  });

  it('are told where each was written, whichever list it stands in', () => {
    const own = "exceptions: [{ date: 2026-12-24, hours: '10:00-16:00' }]\n";
    const files = { 'nightrail.yaml': chain(CLOSED), 'sites/street.yaml': store('Mo-Su 07:00-22:00', own) };
    const { read } = tryChain(files).stores.get('street') ?? {};
    const places = [0, 1, 2].map((i) => read?.originOf('exceptions', i, 'hours').at);
    expect(places.map((at) => `${at?.doc} ${at?.path.join('.')}`)).toEqual([
      'sites/street.yaml exceptions.0.hours',
      'nightrail.yaml defaults.exceptions.0.hours',
      'nightrail.yaml defaults.exceptions.1.hours',
    ]);
  });

  it('that say another thing than the hours of that date are an error, and the same thing is none', () => {
    const files = (hours: string) => ({ 'nightrail.yaml': chain(CLOSED), 'sites/street.yaml': store(hours) });
    const [first] = serious(tryChain(files("'Mo-Su 07:00-22:00; Dec 25 12:00-18:00'")));
    expect(first).toBe('hours-and-exception sites/street.yaml:3:8');
    expect(serious(tryChain(files("'Mo-Su 07:00-22:00; Dec 25 off'")))).toEqual([]);
    expect(serious(tryChain(files("'Mo-Su 07:00-22:00; May-Sep 07:00-23:00'"))).filter((f) => f.startsWith('hours-and'))).toEqual(
      [],
    );
  });
});

describe('public holidays in the hours', () => {
  const hours = "'Mo-Su 07:00-22:00; PH off'";

  it('that nobody lists are an error: what is said of them would never hold', () => {
    expect(serious(tryChain({ 'sites/street.yaml': store(hours) }))).toEqual(['holidays-unlisted sites/street.yaml:3:8']);
  });

  it("hold on the dates that the chain lists, or the store's own", () => {
    const files = { 'nightrail.yaml': chain('holidays: [2026-12-25]'), 'sites/street.yaml': store(hours) };
    expect(christmas(files)).toEqual(['25 closed']);
    expect(christmas({ ...files, 'sites/street.yaml': store(hours, 'holidays: [2026-12-26]\n') })).toEqual(['26 closed']);
    expect(christmas({ 'sites/street.yaml': store("'Mo-Su 07:00-22:00; PH 09:00-15:00'", 'holidays: [2026-12-25]\n') })).toEqual([
      '25 9-15',
    ]);
  });
});
