/**
 * Whether a clock goes to summer time and back by itself. Electronic ones of seven days do or don't (common practice, no source); where nobody has said it, the
 * week of a change orders somebody to it.
 */
import { expect, it } from 'vitest';
import { planWeek } from '../../src/plan/week.js';
import { weekOfIso, type WeekDates } from '../../src/plan/week-dates.js';
import { TABLE, tryChain } from '../support/chain.js';

const notes = (clock: string, week: string): readonly string[] => {
  const table = TABLE.replace('kind: daily-dial, polarity: out-is-on', clock);
  const { plan, read } = tryChain({ 'equipment/table.yaml': table }).stores.get('street') ?? {};
  if (!plan || !read) throw new Error('no plan');
  return planWeek(read, plan, weekOfIso(week, 'mon') as WeekDates).tree.notes.map(
    ({ text, hand }) => `${text.value.code} ${hand ? 'hand' : 'look'}`,
  );
};

// In Chicago the clocks go back on 2027-11-07 and forward on 2027-03-14.
it.each(['2027-W44', '2027-W10'])('a clock of which nobody has said it is set by hand, in %s', (week) => {
  for (const clock of ['kind: seven-day-clock', 'kind: seven-day-clock, follows_dst: false', 'kind: controller'])
    expect(
      notes(clock, week).filter((note) => note.endsWith('hand')),
      clock,
    ).toHaveLength(1);
});

it.each(['2027-W44', '2027-W10'])('one that follows is looked at alone, in %s', (week) => {
  expect(notes('kind: seven-day-clock, follows_dst: true', week).filter((note) => note.endsWith('hand'))).toEqual([]);
});
