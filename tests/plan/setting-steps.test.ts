/**
 * How to set each kind of clock, in words: which way its trippers go, which day of the calendar it counts, and who may.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { STORE, TABLE, tryChain } from '../support/chain.js';

const steps = (clock: string, hours = 'Mo-Su 07:00-22:00', lang = 'en'): readonly string[] => {
  const tried = tryChain({
    'equipment/table.yaml': TABLE.replace('kind: daily-dial, polarity: out-is-on, reachable: false', clock),
    'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', hours),
  });
  const { plan, read } = tried.stores.get('street') ?? {};
  const words = tried.workshop?.words.get(lang);
  if (!tried.workshop || !plan || !read || !words) throw new Error(tried.told.join('\n'));
  const speaker = readerOf(words, { ...read, store: { ...read.store, clock_shows: '24-hour' } }, tried.workshop.shelf);
  return (plan.units['line-1']?.rest?.set ?? []).map((s) => textOf(speaker.say(s.text).runs));
};

describe('a dial with trippers', () => {
  it('says which way they go, and is a technician’s where it is behind a panel', () => {
    const said = steps('kind: daily-dial, polarity: out-is-on, reachable: false');
    expect(said[0]).toMatch(/^Only a technician opens this box/);
    expect(said[1]).toBe('Push every tripper out: the top is on all day.');
    expect(said[2]).toMatch(/^Push in the trippers from 22:\d\d to 0\d:\d\d: the top is off then\.$/);
    expect(said.join(' ')).toContain('stands still in a power cut');
    expect(said.join(' ')).toContain('does not change when the clocks do');
  });
  it('goes the other way with the other polarity', () => {
    expect(steps('kind: daily-dial, polarity: out-is-off, reachable: true')[2]).toMatch(/^Push out the trippers from /);
  });
  it('of unknown polarity is found out first', () => {
    expect(steps('kind: daily-dial, reachable: true')[1]).toMatch(/^First find out which way a tripper acts/);
  });
  it.each(['true', 'false'])('is set and turned dead, and its box shut before power comes back (reachable: %s)', (reachable) => {
    const said = steps(`kind: daily-dial, polarity: out-is-on, reachable: ${reachable}`);
    const at = (begins: RegExp): number => said.findIndex((s) => begins.test(s));
    expect(at(/^Only a technician opens this box\. Isolate/)).toBe(0);
    const power = at(/^Close the box\. Then restore power/);
    for (const byHand of [/^Push every/, /^Push in/, /^Still dead: turn the dial/, /^Turn the dial/, /^Put the override/]) {
      expect(at(byHand)).toBeGreaterThan(0);
      expect(at(byHand)).toBeLessThan(power);
    }
    expect(said.slice(power + 1).join(' ')).not.toMatch(/by hand|turn the dial/i);
  });
  it('with a weekend of its own names the days of each', () => {
    const said = steps(
      'kind: weekday-weekend-clock, polarity: out-is-on, reachable: true',
      'Mo-Fr 07:00-21:00; Sa,Su 10:00-23:00',
    );
    expect(said.filter((s) => /^On the dial of (Mon–Fri|Sat, Sun), push in the trippers/.test(s))).toHaveLength(2);
  });
});

describe('a clock with figures', () => {
  it('counts the days of the calendar: what goes off past midnight is entered on the next day', () => {
    const said = steps('kind: seven-day-clock, reachable: true', 'Mo-Th 11:00-22:00; Fr 11:00-24:00; Sa,Su 11:00-22:00');
    const late = said.filter((s) => s.includes('at 00:'));
    expect(late).toHaveLength(1);
    expect(late[0]).toMatch(/^Enter: Sat at 00:\d\d, off; Sat at \d\d:\d\d, on/);
  });
  it('has no tripper and no dial, and behind keys that anybody reaches no box', () => {
    expect(steps('kind: seven-day-clock, reachable: true').join(' ')).not.toMatch(/tripper|dial|box/);
    expect(steps('kind: seven-day-clock, reachable: false').join(' ')).not.toMatch(/tripper|dial/);
    expect(steps('kind: seven-day-clock, reachable: false')[0]).toMatch(/^Only a technician opens this box/);
  });
});

it('a hand switch has nothing to set', () => {
  expect(steps('kind: hand-switch, reachable: true', 'Mo-Su 11:00-22:00')).toEqual([]);
});

it('is said in Spanish too', () => {
  expect(steps('kind: daily-dial, polarity: out-is-on, reachable: false', 'Mo-Su 07:00-22:00', 'es')[2]).toMatch(
    /^Meta las pestañas de 22:/,
  );
});

describe('the step of a clock', () => {
  const tried = (step: string) =>
    tryChain({
      'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', "'Mo-Su 07:00-21:50'"),
      'equipment/table.yaml': TABLE.replace('kind: daily-dial,', `kind: daily-dial, ${step}`),
    });
  const settings = (step: string) => {
    const unit = tried(step).stores.get('street')?.plan?.units['line-1'];
    return unit?.rest?.settings.map(({ off, on }) => [off.value.min, on.value.min]);
  };

  it('is that of its profile: off up and on down to it, read within half of it', () => {
    expect(settings('')).toEqual(settings('step: 15 min,'));
    for (const [off, on] of settings('step: 30 min,') ?? []) expect([(off as number) % 30, (on as number) % 30]).toEqual([0, 0]);
    // Half a step of reading more: the top is empty that much earlier before its off.
    const emptied = (step: string): number => {
      const rest = tried(step).stores.get('street')?.plan?.units['line-1']?.rest;
      return (rest?.off?.value.at.mon?.min ?? 0) - (rest?.empty_by?.value.at.mon?.min ?? 0);
    };
    expect(emptied('step: 60 min,')).toBeGreaterThanOrEqual(emptied('') + 22);
  });

  it.each([
    ['7 min', '6 min'],
    ['25 min', '24 min'],
    ['90 s', '1 min'],
    ['0 min', '1 min'],
    ['5 h', '288 min'],
  ])('of %s does not divide the day: %s is offered', (wrote, offered) => {
    const { findings, told } = tried(`step: ${wrote},`);
    const found = findings.find((f) => f.code === 'clock-step');
    expect(found?.data['suggestion']).toBe(offered);
    expect(told.filter((t) => t.startsWith('clock-step'))).toEqual(['clock-step equipment/table.yaml:22:40']);
  });
});
