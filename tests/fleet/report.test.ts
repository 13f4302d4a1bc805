/**
 * What head office reads after a build: what to do, and what changed since the last one.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assumedIn } from '../../src/fleet/assumed.js';
import { diffOf } from '../../src/fleet/diff.js';
import { WHENS } from '../../src/plan/steps.js';
import { LEDGER, ledgerFrom, type Ledger, type UnitEntry } from '../../src/fleet/ledger.js';
import { hasErrors, reportCsv, reportOf, storesIn, subjectsIn, TOPICS } from '../../src/fleet/report.js';
import { findingWords } from '../../src/say/findings.js';
import { speaker } from '../../src/say/speaker.js';
import type { Words } from '../../src/say/words.js';
import { STORE, TABLE } from '../support/chain.js';
import { hash, memoryFolder, openedOf, smallBuild, threeStores } from './small-build.js';

type Files = Parameters<typeof threeStores>[0];

const ledgerOf = async (changes: Files = {}, folder = new Map<string, Uint8Array>()): Promise<Ledger> => {
  await smallBuild(threeStores(changes), memoryFolder(folder).out);
  return ledgerFrom(folder.get(LEDGER), hash) as Ledger;
};

const ALDER = STORE.replace('Test Street', 'Alder');

describe('two builds compared', () => {
  it('have a word for each time that they keep', () => {
    const words = openedOf(threeStores()).words.get('en');
    for (const time of [...WHENS, 'opens', 'closes', 'comes', 'leaves'])
      expect(words?.get(`diff.time.${time}`), time).toBeTruthy();
  });
  it('that are the same differ in nothing', async () =>
    expect(diffOf(await ledgerOf(), await ledgerOf({ 'sites/alder.yaml': `# words\n${ALDER}` }))).toEqual([]));
  it('say which time moved, on which days, and that opening moved it', async () => {
    const changes = diffOf(
      await ledgerOf(),
      await ledgerOf({ 'sites/alder.yaml': ALDER.replace('Mo-Su 07:00-22:00', 'Mo-Th,Sa-Su 07:00-22:00; Fr 07:30-22:00') }),
    );
    expect(changes.filter((c) => 'store' in c && c.store !== 'alder')).toEqual([]);
    expect(changes).toContainEqual({
      change: 'time',
      store: 'alder',
      time: 'first_pan',
      days: ['fri'],
      from: 405,
      to: 435,
      why: [{ moved: 'opens' }],
    });
    expect(changes).toContainEqual({
      change: 'time',
      store: 'alder',
      unit: 'line-1',
      time: 'cold_by',
      days: ['fri'],
      from: expect.any(Number) as number,
      to: expect.any(Number) as number,
      why: [{ moved: 'first_pan' }],
    });
    expect(changes.at(-1)).toMatchObject({ change: 'send', store: 'alder' });
  });
  it('say which written fact moved a time', async () => {
    const changes = diffOf(await ledgerOf(), await ledgerOf({ 'equipment/table.yaml': TABLE.replace('count: 12', 'count: 8') }));
    const start = changes.find((c) => c.change === 'time' && c.time === 'start');
    expect(start).toMatchObject({
      unit: 'line-1',
      why: [{ fact: expect.stringMatching(/pans$/) as string, from: '12', to: '8' }],
    });
  });
  it('say to what somebody sets a clock before the new papers hang, and nothing of a top that a hand switches', async () => {
    const later = { 'sites/alder.yaml': ALDER.replace('07:00-22:00', '07:00-23:00') };
    const [before, after] = [await ledgerOf(), await ledgerOf(later)];
    const clock = after.stores.get('alder')?.units[0]?.clock ?? [];
    expect(clock[0]?.days).toHaveLength(7);
    const set = diffOf(before, after).filter((c) => c.change === 'set-clock');
    expect(set).toEqual([{ change: 'set-clock', store: 'alder', unit: 'line-1', clock }]);
    // The dial stays where an hour of the crew moves alone.
    const crew = { 'sites/alder.yaml': `${ALDER}crew: { closers: 2 }\n` };
    expect(diffOf(before, await ledgerOf(crew)).map((c) => c.change)).not.toContain('set-clock');
    const table = TABLE.replace('kind: daily-dial, polarity: out-is-on', 'kind: hand-switch');
    const byHand = diffOf(
      await ledgerOf({ 'equipment/table.yaml': table }),
      await ledgerOf({ ...later, 'equipment/table.yaml': table }),
    );
    expect(byHand.map((c) => c.change)).toContain('time');
    expect(byHand.map((c) => c.change)).not.toContain('set-clock');
  });
  it('tell of a clock by its times, where the older ledger kept none', async () => {
    const bare = (ledger: Ledger): Ledger => ({
      ...ledger,
      stores: new Map(
        [...ledger.stores].map(([id, { store, units, documents }]) => [
          id,
          {
            store,
            documents,
            units: units.map((unit): UnitEntry => {
              const { clock, ...rest } = unit;
              expect(clock).toBeDefined();
              return rest;
            }),
          },
        ]),
      ),
    });
    const old = bare(await ledgerOf());
    expect(diffOf(old, await ledgerOf())).toEqual([]);
    const after = await ledgerOf({ 'sites/alder.yaml': ALDER.replace('07:00-22:00', '07:00-23:00') });
    expect(diffOf(old, after).filter((c) => c.change === 'set-clock')).toHaveLength(1);
  });
  it('say of a new store, too, to what a technician sets its clock', async () => {
    const changes = diffOf(await ledgerOf({ 'sites/cedar.yaml': undefined }), await ledgerOf());
    expect(changes.filter(({ store }) => store === 'cedar').map(({ change }) => change)).toEqual([
      'store-new',
      'set-clock',
      'send',
    ]);
  });
  it('tell stores, units and schedules that came and went', async () => {
    const after = await ledgerOf({
      'sites/alder.yaml': ALDER.replace('07:00-22:00', '02:00-22:00'),
      'sites/birch.yaml': 'name: 7',
      'sites/cedar.yaml': undefined,
      'sites/dogwood.yaml': STORE,
    });
    const codes = diffOf(await ledgerOf(), after).map((c) => `${c.store} ${c.change}`);
    expect(codes).toEqual(
      expect.arrayContaining([
        'alder schedule-lost',
        'birch papers-lost',
        'birch take-down',
        'cedar store-gone',
        'cedar take-down',
        'dogwood store-new',
        'dogwood send',
      ]),
    );
  });
});

describe('the report', () => {
  it('has stores whose schedule cannot work with what would mend it, errors, clocks, unconfirmed facts and sheets to take down', async () => {
    const folder = new Map<string, Uint8Array>();
    await ledgerOf({}, folder);
    const ledger = await ledgerOf(
      {
        'sites/alder.yaml': ALDER.replace('07:00-22:00', '02:00-22:00'),
        'sites/birch.yaml': 'name: 7',
        'sites/cedar.yaml': `${STORE}    found: { when: 2026-11-12, who: R. Talavera, clock: { off: '12:00', on: '18:00' } }\n`,
      },
      folder,
    );
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: f.code.startsWith('no-rest-') ? 'a change' : undefined }));
    expect(rows.find((r) => r.topic === 'no-schedule')).toMatchObject({
      store: 'alder',
      unit: 'line-1',
      says: expect.stringMatching(/^no-rest-/) as string,
      change: 'a change',
    });
    expect(rows.filter((r) => r.topic === 'broken').every((r) => r.store === 'birch')).toBe(true);
    expect(rows.find((r) => r.topic === 'clock')).toMatchObject({ store: 'cedar', unit: 'line-1', says: 'clock-found-wrong' });
    const set = `    set_by: { who: A. Tech, when: 2026-11-13, clock: { off: '20:00', on: '02:00' } }\n`;
    const signed = await ledgerOf({ 'sites/cedar.yaml': STORE + set });
    expect(reportOf(signed, (f) => ({ says: f.code, hint: undefined })).filter((r) => r.topic === 'clock')).toEqual([
      expect.objectContaining({ store: 'cedar', key: 'units.line-1.set_by.clock', says: 'clock-set-for-other-times' }),
    ]);
    expect(rows.filter((r) => r.topic === 'unconfirmed')).toEqual([
      {
        topic: 'unconfirmed',
        store: '',
        name: 'table',
        region: '',
        unit: '',
        file: '',
        row: '',
        key: '',
        says: 'fact-without-origin',
        change: '',
      },
    ]);
    expect(rows.filter((r) => r.topic === 'take-down').map((r) => [r.says, r.change])).toContainEqual([
      'alder/line-1-poster',
      'not-made',
    ]);
    expect(rows.filter((r) => r.topic === 'take-down' && r.store === 'birch')).toEqual([]);
    // What stops all papers of a store first, sheets to take down last.
    expect([...new Set(rows.map(({ topic }) => topic))]).toEqual(TOPICS.filter((topic) => rows.some((r) => r.topic === topic)));
    // Not useless, and not known to hold: one row a store with errors.
    expect(rows.filter((r) => r.topic === 'still-hang').map((r) => `${r.store} ${r.says}`)).toEqual(['birch papers-still-hang']);
  });
  it('names clocks that nobody has signed for, rests at their limit, and dates on which a technician is needed', async () => {
    const told = async (store: string) =>
      reportOf(await ledgerOf({ 'sites/alder.yaml': store }), (f) => ({ says: f.code, hint: undefined }))
        .filter((r) => r.store === 'alder' && ['unsigned', 'tight', 'dates'].includes(r.topic))
        .map((r) => `${r.topic} ${r.unit} ${r.says}`);
    // The clocks changed on 2026-11-01.
    expect(await told(ALDER)).toEqual(['unsigned line-1 clock-unsigned', 'dates line-1 clock-since-change']);
    expect(
      await told(`${ALDER}    set_by: { who: A. Tech, when: 2026-11-13 }
`),
    ).toEqual([]);
    // A night so short that the rest is just what it needs, and a date on which it does not fit at all.
    const short = ALDER.replace('Mo-Su 07:00-22:00', 'Mo-Su 07:00-24:00');
    const rows = await told(`${short}exceptions: [{ date: 2026-12-05, hours: '03:00-23:00' }]
`);
    expect(rows).toContain('tight line-1 rest-at-limit');
    expect(rows).toContain('dates line-1 date-technician');
  });
  it('calls no dated sheet of a coming week one to take down, and one of a week that is over it does', async () => {
    const folder = new Map<string, Uint8Array>();
    const built = (week: string, weeks: number) => smallBuild(threeStores(), memoryFolder(folder).out, { week, weeks });
    const left = () =>
      (ledgerFrom(folder.get(LEDGER), hash) as Ledger).left.filter((l) => l.store === 'alder').map((l) => `${l.left} ${l.why}`);
    await built('2026-W49', 2);
    await built('2026-W49', 1);
    const dated = left().filter((l) => l.includes('week-'));
    expect(dated.length).toBeGreaterThan(0);
    // The sheet of this week has another name now: its old one is to be taken down.
    for (const l of dated) expect(l).toMatch(l.includes('2026-11-30') ? / not-made$/ : / other-week$/);
    const ledger = ledgerFrom(folder.get(LEDGER), hash) as Ledger;
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: undefined }));
    const down = rows.filter((r) => r.topic === 'take-down');
    expect(down.length).toBeGreaterThan(0);
    expect(down.every((r) => r.says.includes('2026-11-30'))).toBe(true);
    await built('2026-W52', 1);
    expect(
      left()
        .filter((l) => l.includes('week-'))
        .every((l) => l.endsWith(' not-made')),
    ).toBe(true);
  });
  it('calls the sheet of a week one to take down once its hours change in that week, and two sheets stand for it', async () => {
    const folder = new Map<string, Uint8Array>();
    const week = { week: '2026-W49', weeks: 1 };
    await smallBuild(threeStores({ 'sites/alder.yaml': ALDER }), memoryFolder(folder).out, week);
    const later = ALDER.replace(/hours: .*/, 'hours: Mo-Su 07:00-22:00; 2026 Dec 04+ Mo-Su 07:00-23:00');
    await smallBuild(threeStores({ 'sites/alder.yaml': later }), memoryFolder(folder).out, week);
    const { left } = ledgerFrom(folder.get(LEDGER), hash) as Ledger;
    expect(left.map((l) => `${l.left} ${l.why}`)).toEqual(
      expect.arrayContaining([expect.stringMatching(/^alder\/week\.en\.\w+ not-made$/)]),
    );
  });
  it('names rows of which no store could be made, and errors that are no store’s own, and counts them', async () => {
    const unit = 'line-1,table,Line 1,by the door,X1,base,6 sq ft,6 in';
    const row = (id: string, name: string): string => `${id},${name},America/Chicago,Mo-Su 07:00-22:00,${unit}`;
    const head =
      'id,name,timezone,hours,unit,unit.profile,unit.nickname,unit.position,unit.serial,unit.food_goes_to.zone,unit.food_goes_to.free_shelf,unit.food_goes_to.height';
    const lines = [head, row('elm', 'Elm'), row('fir', 'Fir'), row('fir', 'Fir Hill'), row('', 'Gorse'), row('alder', 'Other')];
    const ledger = await ledgerOf({ 'sites/stores.csv': lines.join('\n'), 'equipment/other.yaml': 'kind: [' });
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: 'mend it' })).filter((r) => r.topic === 'broken');
    const told = rows.map((r) => [r.name, r.file, r.row, r.says]);
    for (const one of [
      ['Fir', 'sites/stores.csv', '3', 'csv-id-twice'],
      ['Fir Hill', 'sites/stores.csv', '4', 'csv-id-twice'],
      ['Gorse', 'sites/stores.csv', '5', 'csv-row-without-id'],
      ['Other', 'sites/stores.csv', '6', 'duplicate-id'],
      ['alder', 'sites/alder.yaml', '', 'duplicate-id'],
    ])
      expect(told).toContainEqual(one);
    expect(rows.filter((r) => r.file === 'equipment/other.yaml').length).toBeGreaterThan(0);
    // Birch, cedar and elm have papers; the five of the rows above have none.
    expect(storesIn(ledger)).toEqual({ all: 8, bare: 5, unbuilt: 0 });
    expect(hasErrors(ledger)).toBe(true);
    expect(hasErrors(await ledgerOf())).toBe(false);
  });
  it('announces hours that change within eight weeks, with what to build and by when, and no later ones', async () => {
    const changed = (day: string): string => ALDER.replace('Mo-Su 07:00-22:00', `'Mo-Su 07:00-22:00; ${day}+ Su 11:00-15:00'`);
    const ledger = await ledgerOf({
      'sites/alder.yaml': changed('2027 Jan 04'),
      'sites/birch.yaml': changed('2027 Feb 01'),
    });
    const { words } = openedOf(threeStores());
    const english = words.get('en') as Words;
    const says = speaker(english, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: 'mon' });
    const coming = reportOf(ledger, (f) => findingWords(f, english, says)).filter(({ topic }) => topic === 'coming');
    expect(coming.map(({ store, file, key, change }) => [store, file, key, change])).toEqual([
      [
        'alder',
        'sites/alder.yaml',
        'hours',
        'before that day: nightrail build alder --from 2027-01-04 --out coming; then send those papers, and take these down',
      ],
    ]);
  });
  it('counts the stores in which facts that matter are assumed', async () => {
    const crew = '\ncrew: { leaves: 30 min after closing, closers: 1 }\naltitude: 300 ft\n';
    const ledger = await ledgerOf({ 'sites/alder.yaml': `${ALDER}${crew}`, 'sites/birch.yaml': 'name: 7' });
    expect(assumedIn(ledger)).toEqual([
      { key: 'altitude', value: '0 ft', stores: 1 },
      { key: 'crew.comes', value: '60 min before opening', stores: 2 },
      { key: 'crew.leaves', value: '45 min after closing', stores: 1 },
      { key: 'crew.first_pan', value: '15 min before opening', stores: 2 },
      { key: 'crew.start_before_closing', value: '30 min', stores: 2 },
      { key: 'crew.closers', value: '1', stores: 1 },
    ]);
  });
  it('says of a store that was lost among two of one id that its papers are back, not that it is new', async () => {
    const both = { 'sites/stores.csv': 'id,name\nalder,Other' };
    const changes = diffOf(await ledgerOf(both), await ledgerOf()).filter((c) => 'store' in c && c.store === 'alder');
    expect(changes[0]?.change).toBe('papers-back');
    expect(diffOf(await ledgerOf(), await ledgerOf(both))[0]?.change).toBe('papers-lost');
  });
  it('calls a broken store by its name, tells all that is wrong with it at once, and counts stores', async () => {
    const broken = STORE.replace('Test Street', 'Birch Lane')
      .replace('America/Chicago', 'America/Chicagoo')
      .replace('profile: table', 'profile: tabel');
    const ledger = await ledgerOf({
      'sites/alder.yaml': 'name: [',
      'sites/birch.yaml': `${broken}region: North\naltitude: 300\nlaw: fda\n`,
    });
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: undefined })).filter((r) => r.topic === 'broken');
    expect(rows.filter((r) => r.store === 'birch').map((r) => [r.name, r.region, r.key, r.says])).toEqual(
      expect.arrayContaining([
        ['Birch Lane', 'North', 'altitude', 'wrong-type'],
        ['Birch Lane', 'North', 'law', 'no-law'],
        ['Birch Lane', 'North', 'timezone', 'bad-zone'],
        ['Birch Lane', 'North', 'units.line-1.profile', 'no-profile'],
      ]),
    );
    // What is no YAML has no name.
    expect(rows.filter((r) => r.store === 'alder').map((r) => r.name)).toEqual(['alder']);
    expect(rows.length).toBeGreaterThanOrEqual(5);
    expect(subjectsIn('broken', rows)).toEqual({ of: 'stores', count: 2 });
  });
  it('names the store and the unit whose food is predicted over the law’s limit in that store’s own hottest kitchen', async () => {
    // A rail read at 37 °F in a cool kitchen, so that it is warmer in a warm one, and a hot kitchen in one store only.
    const weak = TABLE.replace('condensing: {', 'condensing: { power: 1/2 hp,')
      .replace('senses: air }', 'senses: air }\n    shelves: { count: 4, volume: 16 cu ft }')
      .replace('air: 16 to 20 °F', 'measured: { kitchen: 60 °F, air: 26 °F, food: 37 °F }\n    air: 16 to 20 °F');
    const kitchen = (hottest: string) => `kitchen: { usual: 60 °F, hottest: ${hottest}, humidity: 60 % }\n`;
    const ledger = await ledgerOf({
      'equipment/table.yaml': weak,
      'sites/alder.yaml': `${ALDER}${kitchen('120 °F')}`,
      'sites/birch.yaml': `${STORE}${kitchen('60 °F')}`,
      'sites/cedar.yaml': undefined,
    });
    const { limit, shut } = ledger.stores.get('alder')?.units[0]?.hottest ?? {};
    // The FDA Food Code 2022, 3-501.16(A)(2): 5 °C or less.
    expect(limit?.si).toBeCloseTo(278.15, 9);
    expect(shut?.si).toBeGreaterThan(278.15);
    expect(ledger.stores.get('alder')?.units[0]?.hottest?.assumed).toBeUndefined();
    const silent = await ledgerOf({ 'equipment/table.yaml': weak, 'sites/birch.yaml': undefined, 'sites/cedar.yaml': undefined });
    expect(silent.stores.get('alder')?.units[0]?.hottest?.assumed).toBe(true);
    expect(ledger.stores.get('birch')?.units[0]?.hottest?.open.si).toBeLessThanOrEqual(278.15);
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: undefined })).filter((r) => r.topic === 'too-warm');
    expect(rows).toEqual([
      {
        topic: 'too-warm',
        store: 'alder',
        name: 'Alder',
        region: '',
        unit: 'line-1',
        file: '',
        row: '',
        key: '',
        says: 'predicted-over-limit',
        change: '',
      },
    ]);
  });
  it('tells a unit that is over the limit only with its covers open apart from one that is over it with them shut', () => {
    const degrees = (celsius: number) => ({ q: 'temperature' as const, si: celsius + 273.15 });
    const unit = (id: string, shut: number, open: number): UnitEntry => ({
      unit: id,
      store: 'alder',
      profile: 'table',
      nickname: id,
      hottest: { kitchen: degrees(35), limit: degrees(5), open: degrees(open), shut: degrees(shut) },
      times: {},
      facts: {},
      because: {},
    });
    const store = { store: 'alder', doc: 'sites/alder.yaml', inputs: '', name: 'Alder', findings: [] };
    const guessed = (id: string, shut: number, open: number): UnitEntry => {
      const one = unit(id, shut, open);
      return { ...one, hottest: { ...(one.hottest as NonNullable<UnitEntry['hottest']>), assumed: true } };
    };
    const units = [
      guessed('guessed', 6, 9),
      guessed('guessed-open', 4, 9),
      unit('both', 6, 9),
      unit('open', 4, 9),
      unit('at-the-limit', 4, 5),
      unit('neither', 3, 4),
    ];
    const ledger: Ledger = {
      head: {} as Ledger['head'],
      stores: new Map([['alder', { store, units, documents: [] }]]),
      left: [],
    };
    const words = openedOf(threeStores()).words.get('en') as Words;
    const english = speaker(words, { lang: 'en', measure: 'si', clockShows: '24-hour', weekStarts: 'mon' });
    const rows = reportOf(ledger, (finding) => findingWords(finding, words, english));
    expect(rows.map((r) => [r.topic, r.unit])).toEqual([
      ['too-warm', 'both'],
      ['too-warm', 'guessed'],
      ['too-warm', 'guessed-open'],
      ['too-warm', 'open'],
    ]);
    // Where nobody wrote the hottest kitchen, both sentences say so.
    expect(rows.filter((r) => r.says.includes('assumed')).map((r) => r.unit)).toEqual(['guessed', 'guessed-open']);
    expect(rows.filter((r) => !r.says.includes('assumed')).map((r) => r.says.replaceAll('\u00a0', ' '))).toEqual([
      "in a kitchen of 35 °C its food is predicted at 6 °C on average with the covers shut; the law's limit is 5 °C",
      "in a kitchen of 35 °C, with the covers open all day, its food is predicted at 9 °C on average; the law's limit is 5 °C",
    ]);
    expect(rows.at(-1)?.change).toBe('shut the covers between rushes');
  });
  it('names the stores in which a dial is set otherwise because they lie high, and who has signed for it', async () => {
    const high = 'altitude: 6000 ft\n';
    const ledger = await ledgerOf({
      'sites/alder.yaml': `${ALDER}${high}`,
      'sites/birch.yaml': `${STORE.replace('serial: X1', 'serial: X1\n    set_by: { who: A. Tech, when: 2026-11-13 }')}${high}`,
      'sites/cedar.yaml': undefined,
    });
    const rows = reportOf(ledger, (f) => ({ says: f.code, hint: f.data['signed'] as string | undefined }));
    const dials = rows.filter((r) => r.says === 'dial-for-altitude');
    expect(dials.map((r) => [r.topic, r.store, r.unit, r.change])).toEqual([
      ['clock', 'alder', 'line-1', ''],
      ['clock', 'birch', 'line-1', 'A. Tech'],
    ]);
  });
  it('as CSV starts no formula, whatever a name holds, and reads back', () => {
    const nasty = fc.oneof(
      fc.string(),
      fc.constantFrom('=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '＝1', '"=1"', 'a\n=1', '=cmd|x'),
    );
    fc.assert(
      fc.property(nasty, nasty, (name, says) => {
        const text = reportCsv([
          { topic: 'clock', store: 's', name, region: '', unit: '', file: '', row: '', key: '', says, change: '' },
        ]);
        const rows = parse(text, { bom: true }) as unknown as readonly string[][];
        expect(rows).toHaveLength(2);
        for (const cell of rows.flat()) expect(cell).not.toMatch(/^[\s]*[=+\-@＝＋－＠]/);
        for (const line of text.split('\r\n').slice(1, -1)) expect(line).toMatch(/^"[^\n\r]*"$/);
      }),
    );
  });
});

describe('on the command line', () => {
  let work: string;
  const run = (...args: string[]) =>
    spawnSync(process.execPath, [resolve('dist/cli.js'), ...args], { cwd: join(work, 'chain'), encoding: 'utf8' });
  const lay = (changes: Files): void => {
    rmSync(join(work, 'chain'), { recursive: true, force: true });
    for (const [path, bytes] of threeStores(changes)) {
      if (!/^(nightrail|equipment\/table\.yaml|sites)/.test(path)) continue;
      mkdirSync(dirname(join(work, 'chain', path)), { recursive: true });
      writeFileSync(join(work, 'chain', path), bytes);
    }
  };
  const build = (out: string): void =>
    expect(run('build', '--out', join(work, out), '--only', 'week', '--format', 'html', '--week', '2026-W49').status).toBe(0);
  beforeAll(() => {
    work = mkdtempSync(join(tmpdir(), 'nightrail-report-'));
    lay({});
    build('a');
    lay({ 'sites/alder.yaml': ALDER.replace('Mo-Su 07:00', 'Mo-Th,Sa-Su 07:00-22:00; Fr 07:30') });
    build('b');
  }, 120_000);
  afterAll(() => rmSync(work, { recursive: true, force: true }));
  it('diff speaks plainly', () => {
    const { stdout, status } = run('diff', join(work, 'a'), join(work, 'b', LEDGER));
    expect(status).toBe(0);
    expect(stdout).toContain('Alder: first pan moved from 06:45 to 07:15 on Fri, because opening moved\n');
    expect(stdout).toContain('Alder: to send: week (en)\n');
    expect(run('diff', join(work, 'a'), join(work, 'a')).stdout).toBe('nothing has changed\n');
  });
  it('report ends as the build does: with 1 where a store gets no papers, and it says so first', () => {
    lay({ 'sites/birch.yaml': 'name: 7' });
    expect(run('build', '--out', join(work, 'c'), '--only', 'week', '--format', 'html', '--week', '2026-W49').status).toBe(1);
    const { stdout, status } = run('report', '--out', join(work, 'c'));
    expect([status, stdout.split('\n')[0]]).toEqual([1, 'No papers for 1 of 3 stores: why, where, and what to write']);
    expect(run('report', '--out', join(work, 'c'), '--csv').status).toBe(1);
    const { stores } = JSON.parse(run('report', '--out', join(work, 'c'), '--json').stdout) as { stores: unknown };
    expect(stores).toEqual({ all: 3, bare: 1, unbuilt: 0 });
    expect(run('report', '--out', join(work, 'b')).status).toBe(0);
  }, 60_000);
  it('report is a table, CSV or JSON, and says where there is no ledger', () => {
    expect(run('report', '--out', join(work, 'b')).stdout).toContain(
      'Profiles with facts that nobody is named for (profiles: 1)',
    );
    expect(run('report', '--out', join(work, 'b'), '--csv').stdout).toMatch(/^\ufeff"topic","store"/);
    expect(
      (JSON.parse(run('report', '--out', join(work, 'b'), '--json').stdout) as { rows: unknown[] }).rows.length,
    ).toBeGreaterThan(0);
    const none = run('report', '--out', join(work, 'nowhere'));
    expect([none.status, none.stdout]).toEqual([1, expect.stringContaining('error no-ledger')]);
    const file = join(work, 'last-week');
    writeFileSync(file, '');
    expect(run('diff', file, join(work, 'b')).status).toBe(1);
  });
});
