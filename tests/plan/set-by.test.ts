/**
 * A clock that somebody set for other hours: told, and no page says that it is set.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';

const SIGNED = 'who: A. Tech, when: 2026-11-13';
const clock = (to: string): string => `    set_by: { ${SIGNED}, clock: ${to} }\n`;
const RIGHT = "{ off: '22:30', on: '04:45' }";

const tried = (setBy: string, more: { hours?: string; table?: string } = {}) => {
  const made = tryChain({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [poster, card, labels]').replace('[en]', '[en, es, fr]'),
    'equipment/table.yaml': more.table ?? TABLE,
    'sites/street.yaml': STORE.replace('Mo-Su 07:00-22:00', more.hours ?? 'Mo-Su 07:00-22:00') + setBy,
  });
  const planned = made.stores.get('street');
  if (!made.workshop || !planned?.plan) throw new Error(made.told.join('\n'));
  const pages = pagesOf(made.workshop, made.stores);
  return {
    plan: planned.plan,
    codes: made.findings.filter((f) => f.at.path.includes('set_by')).map((f) => [f.severity, f.code]),
    findings: made.findings,
    foot: (paper: string, lang = 'en'): string => {
      const page = pages.find((p) => p.paper.id === paper && p.page?.lang === lang)?.page;
      return (page?.foot ?? [])
        .map(textOf)
        .join('\n')
        .replace(/\u00a0/g, ' ');
    },
    band: (paper: string, lang = 'en') => pages.find((p) => p.paper.id === paper && p.page?.lang === lang)?.page?.words.draft,
    text: (paper: string): string =>
      textOf(runsIn(pages.find((p) => p.paper.id === paper && p.page?.lang === 'en')?.page?.body ?? [])).replace(/\u00a0/g, ' '),
  };
};

const should = (made: ReturnType<typeof tried>) =>
  (made.plan.units['line-1']?.rest?.settings ?? []).map((s) => [s.off_days.value.days.length, s.off.value.min, s.on.value.min]);

const at = (minutes: number): string =>
  `'${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}'`;

describe('a clock that was set', () => {
  it('to what these hours need is signed for, whoever reads', () => {
    const bare = tried(`    set_by: { ${SIGNED} }\n`);
    const [[, off, on] = []] = should(bare);
    const made = tried(clock(`{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)} }`));
    expect(made.codes).toEqual([]);
    for (const paper of ['poster', 'card']) expect(made.foot(paper)).toContain('Clock and controls set by A. Tech, Nov 13, 2026');
    expect(bare.codes).toEqual([['warning', 'clock-set-not-told']]);
    expect(bare.foot('poster')).toEqual(made.foot('poster'));
    expect(made.band('poster')).toBeUndefined();
  });
  it('for other hours is told with both times, and pages sign for the controls alone', () => {
    const made = tried(clock(RIGHT), { hours: 'Mo-Su 07:00-23:00' });
    const [[days, off, on] = []] = should(made);
    expect(days).toBe(7);
    expect(made.codes).toEqual([['warning', 'clock-set-for-other-times']]);
    const finding = made.findings.find((f) => f.code === 'clock-set-for-other-times');
    expect(finding?.at.path).toEqual(['units', 'line-1', 'set_by', 'clock']);
    expect(finding?.data).toMatchObject({ who: 'A. Tech', off: { min: 1350 }, should_off: { min: off }, should_on: { min: on } });
    for (const paper of ['poster', 'card', 'labels']) {
      expect(made.foot(paper)).toContain('Clock not yet set. Controls set by A. Tech, Nov 13, 2026');
      expect(made.foot(paper)).not.toContain('Clock and controls');
      expect(made.foot(paper, 'es')).toContain('Reloj aún sin ajustar. Controles: A. Tech');
      expect(made.foot(paper, 'fr')).toContain('Horloge pas encore réglée. Réglages : A. Tech');
    }
    // Nobody laminates times at which the clock does not stand; the technician's card is what sets it.
    expect([made.band('poster'), made.band('labels', 'es'), made.band('card')]).toEqual([
      'NOT YET: its clock stands at other times',
      'AÚN NO: su reloj está en otras horas',
      undefined,
    ]);
    // The label of the thermostat stays signed, the clock's is for a hand.
    const labels = made.text('labels');
    const label = (from: string, to: string): string => labels.slice(labels.indexOf(from), labels.indexOf(to));
    expect(label('Thermostat:', 'Do not open a panel')).toContain('Left so by A. Tech');
    expect(label('Clock of the top only', 'Pressure control')).toContain('Left so by, and when');
  });
  it('as it was found stands until somebody signs: crews are told when no food may be in the top', () => {
    const found = (when: string, times: string): string => `    found: { when: ${when}, who: A. Tech, clock: ${times} }\n`;
    const wrong = "{ off: '18:00', on: '03:00' }";
    const stands = (unit: string) =>
      tried(unit).plan.units['line-1']?.clock_stands?.map((s) => [s.off.value.min, s.on.value.min]);
    expect(stands(found('2026-11-13', wrong))).toEqual([[18 * 60, 3 * 60]]);
    expect(tried(found('2026-11-13', wrong)).plan.units['line-1']?.clock_other?.value.is).toBe(true);
    const signed = (when: string): string => `    set_by: { who: A. Tech, when: ${when} }\n`;
    expect(stands(found('2026-11-13', wrong) + signed('2026-11-13'))).toBeUndefined();
    expect(stands(found('2026-11-13', wrong) + signed('2026-11-12'))).toEqual([[18 * 60, 3 * 60]]);
    // By the true time, whatever its dial showed; and one that is held on, once somebody lets go.
    expect(stands(found('2026-11-13', wrong.replace(' }', ', fast: 180 min }')))).toEqual([[15 * 60, 0]]);
    expect(stands(found('2026-11-13', wrong.replace(' }', ', slow: 7 h }')))).toEqual([[1 * 60, 10 * 60]]);
    expect(stands(found('2026-11-13', wrong.replace(' }', ', override: on }')))).toEqual([[18 * 60, 3 * 60]]);
    const [[, off, on] = []] = should(tried(''));
    expect(stands(found('2026-11-13', `{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)} }`))).toBeUndefined();
  });
  it('found again later is as it was found, whatever was signed before', () => {
    const before = `    set_by: { who: A. Old, when: 2026-01-10, clock: { off: '20:00', on: '03:00' } }\n`;
    const found = (clock: string): string => `    found: { when: 2026-11-13, who: A. Tech, clock: ${clock} }\n`;
    const [[, off, on] = []] = should(tried(''));
    const right = tried(before + found(`{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)} }`));
    expect(right.plan.units['line-1']?.clock_other).toBeUndefined();
    expect(right.codes.map(([, code]) => code)).not.toContain('clock-set-for-other-times');
    // Held off it cools nothing, at whatever times.
    const heldOff = tried(before + found(`{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)}, override: off }`)).plan.units['line-1'];
    expect([heldOff?.clock_held_off?.value.is, heldOff?.clock_other]).toEqual([true, undefined]);
    const feet = (made: ReturnType<typeof tried>) => ['poster', 'card', 'labels'].map((paper) => made.foot(paper));
    const dial = `    found: { when: 2026-11-13, who: A. Tech, pressure: { cut_in: 20 psig, cut_out: 5 psig } }\n`;
    for (const override of ['off', 'on'])
      for (const foot of feet(
        tried(
          before.replace(", clock: { off: '20:00', on: '03:00' }", '') +
            found(`{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)}, override: ${override} }`),
        ),
      ))
        expect(foot).not.toMatch(/Clock and controls set by/);
    for (const foot of feet(tried(before + dial))) expect(foot).not.toMatch(/controls set by/);
    // Who signed before did not leave it so.
    expect(right.text('card')).not.toContain('A. Old');
    const since = `    set_by: { who: A. New, when: 2026-11-14 }\n`;
    expect(tried(since + found(`{ off: ${at(off ?? 0)}, on: ${at(on ?? 0)} }`)).text('card')).toContain('A. New');
  });
  it('alone is no signature for controls that nobody looked at', () => {
    const made = tried(`    set_by: { ${SIGNED}, clock: ${RIGHT}, controls: false }\n`);
    for (const paper of ['poster', 'card', 'labels'])
      expect(made.foot(paper)).toContain('Clock set by A. Tech, Nov 13, 2026. Nobody has signed for the controls yet');
    expect(made.foot('poster', 'es')).toContain('Falta la firma de quien ajustó los controles');
    expect(made.foot('poster', 'fr')).toContain('Personne n’a encore signé pour les réglages');
    const labels = made.text('labels');
    const label = (from: string, to: string): string => labels.slice(labels.indexOf(from), labels.indexOf(to));
    expect(label('Clock of the top only', 'Pressure control')).toContain('Left so by A. Tech');
    expect(label('Thermostat:', 'Do not open a panel')).toContain('Left so by, and when');
    const late = tried(`    set_by: { ${SIGNED}, clock: ${RIGHT}, controls: false }\n`, { hours: 'Mo-Su 07:00-23:00' });
    expect(late.foot('poster')).toContain('Nobody has signed for the clock and the controls yet');
  });
  it('by days is held against each day', () => {
    const seven = TABLE.replace('kind: daily-dial, polarity: out-is-on', 'kind: seven-day-clock');
    const hours = { hours: 'Mo-Fr 07:00-22:00; Sa,Su 08:00-23:30', table: seven };
    const plan = tried('', hours).plan.units['line-1']?.rest?.settings ?? [];
    expect(plan.length).toBeGreaterThan(1);
    const rows = (late: number): string =>
      plan
        .map((s, i) => {
          const off = (s.off.value.min + (i === 0 ? late : 0)) % 1440;
          return `{ days: '${s.off_days.value.days.join(',')}', off: ${at(off)}, on: ${at(s.on.value.min)} }`;
        })
        .join(', ');
    expect(tried(clock(`{ settings: [${rows(0)}] }`), hours).codes).toEqual([]);
    // Off a quarter later keeps every rule: nobody is sent for it. An hour earlier stops food.
    expect(tried(clock(`{ settings: [${rows(15)}] }`), hours).codes).toEqual([]);
    expect(tried(clock(`{ settings: [${rows(-60)}] }`), hours).codes).toEqual([
      ['warning', 'clock-set-for-other-times-settings'],
    ]);
    expect(tried(clock(RIGHT), hours).codes).toEqual([['warning', 'clock-set-for-other-times-settings']]);
  });
  it('over a closed day is signed for with the day on which it ends, and only with that', () => {
    const week = { hours: 'Tu-Su 07:00-22:00', table: TABLE.replace('daily-dial', 'seven-day-clock') };
    const needed = tried('', week).plan.units['line-1']?.rest?.settings ?? [];
    const long = needed.find(({ off_days: days }) => days.value.days.includes('sun'));
    expect(long?.on_days.value.days).toContain('tue');
    const lines = needed.flatMap(({ off_days: days, off, on, on_days: onDays }) =>
      days.value.days.map((day) => {
        const until = day === 'sun' && onDays.value.days.includes('tue') ? ', on_day: tue' : '';
        return `{ days: ${day}, off: ${at(off.value.min)}, on: ${at(on.value.min)}${until} }`;
      }),
    );
    const signed = (wrote: readonly string[]) => {
      const made = tried(clock(`{ settings: [${wrote.join(', ')}] }`), week);
      const after = (made.plan.units['line-1']?.rest?.settings ?? []).flatMap(({ off_days: days, on_days: onDays }) =>
        days.value.days.includes('sun') ? onDays.value.days : [],
      );
      return { codes: made.codes, comesOnTuesday: after.includes('tue'), comesOnMonday: after.includes('mon') };
    };
    expect(signed(lines)).toEqual({ codes: [], comesOnTuesday: true, comesOnMonday: false });
    // Left out, it comes on a day earlier: the papers tell of the clock as it stands.
    expect(signed(lines.map((line) => line.replace(', on_day: tue', '')))).toMatchObject({ comesOnMonday: true });
    expect(() => tried(clock("{ settings: [{ days: sun-mon, off: '23:00', on: '05:00', on_day: tue }] }"), week)).toThrow(
      /on-day-of-several/,
    );
    expect(() => tried(clock("{ settings: [{ days: mon, off: '08:15', on: '08:00', on_day: mon }] }"), week)).toThrow(
      /on-day-before-off/,
    );
    // Another stop than the plan's is told, with its days.
    expect(signed(["{ days: wed, off: '01:30', on: '08:30', on_day: fri }"]).codes).toEqual([
      ['warning', 'clock-set-for-other-times-settings'],
    ]);
  });
  it('is none where a hand switches, and is read like a clock as found', () => {
    const hand = TABLE.replace('kind: daily-dial, polarity: out-is-on', 'kind: hand-switch');
    expect(tried(clock(RIGHT), { table: hand }).codes).toEqual([['warning', 'clock-set-of-none']]);
    expect(tryChain({ 'sites/street.yaml': STORE + clock("{ off: '22:30' }") }).findings.map((f) => f.code)).toContain(
      'found-clock-times',
    );
  });
});
