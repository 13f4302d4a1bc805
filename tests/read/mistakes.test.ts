/**
 * A person's mistakes: each is a finding with its code, its file, line and column, and the word that was probably meant.
 */
import { describe, expect, it } from 'vitest';
import { cellValue } from '../../src/read/columns.js';
import { readYaml } from '../../src/read/yaml.js';
import { CHAIN, serious, STORE, TABLE, tryChain } from '../support/chain.js';

const change = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`the fixture has no ${from}`);
  return text.replace(from, to);
};
const store = (from: string, to: string) => ({ 'sites/street.yaml': change(STORE, from, to) });
const table = (from: string, to: string) => ({ 'equipment/table.yaml': change(TABLE, from, to) });

const data = (own: Parameters<typeof tryChain>[0], code: string) => tryChain(own).findings.find((f) => f.code === code)?.data;

describe('a sound chain', () => {
  it('has nothing to say but notes', () => {
    expect(serious(tryChain())).toEqual([]);
  });
});

describe('mistakes in a store', () => {
  it.each([
    ['a typo in a key', store('timezone:', 'timezon:'), 'unknown-key sites/street.yaml:2:1'],
    ['hours that say nothing', store('Mo-Su 07:00-22:00', 'whenever'), 'hours-unknown-word sites/street.yaml:3:8'],
    ['a missing profile', store('profile: table', 'profile: tabel'), 'no-profile sites/street.yaml:6:14'],
    ['a wrong unit', store('free_shelf: 6 sq ft', 'free_shelf: 6 °F'), 'amount-wrong-quantity sites/street.yaml:10:45'],
    ['an amount without a unit', store('height: 6 in', 'height: "6"'), 'amount-no-unit sites/street.yaml:10:62'],
    ['a unit id that is a path', store('line-1:', '../../etc:'), 'bad-id sites/street.yaml:5:3'],
    ['an unknown food law', { 'sites/street.yaml': `${STORE}law: us-food-cod-2022\n` }, 'no-law sites/street.yaml:11:6'],
    ['a list where a map belongs', store('name: Test Street', 'name: [a]'), 'wrong-type sites/street.yaml:1:7'],
    ['no room for the food', store('6 sq ft', '2 sq ft'), 'no-room-for-food sites/street.yaml:10:45'],
    ['no height for the food', store('height: 6 in', 'height: 4 in'), 'no-height-for-food sites/street.yaml:10:62'],
    ['a place for the food that is not there', store('zone: base', 'zone: bas'), 'no-such-zone sites/street.yaml:10:27'],
    ['an empty file', { 'sites/street.yaml': '' }, 'empty-file sites/street.yaml:1:1'],
    ['a file of comments', { 'sites/street.yaml': '# nothing\n' }, 'empty-file sites/street.yaml:1:1'],
    ['a tab', { 'sites/street.yaml': 'name: A\nunits:\n\tline-1: {}\n' }, 'yaml-tab sites/street.yaml:3:1'],
    ['a hard space behind a colon', { 'sites/street.yaml': 'name:\u00a0A\n' }, 'yaml-hard-space sites/street.yaml:1:6'],
    ['a key twice', { 'sites/street.yaml': `${STORE}name: Again\n` }, 'yaml-duplicate-key sites/street.yaml:11:1'],
    ['not UTF-8', { 'sites/street.yaml': Uint8Array.of(0x6e, 0xff, 0xfe) }, 'not-utf-8 sites/street.yaml:1:1'],
    ['an alias', { 'sites/street.yaml': 'a: &x [1]\nb: *x\n' }, 'yaml-alias sites/street.yaml:2:4'],
    [
      'a mark that turns text around',
      store('name: Test Street', 'name: "Test \\u202e Street"'),
      'forbidden-character sites/street.yaml:1:7',
    ],
    ['a file name that is no id', { 'sites/Big Street!.yaml': STORE }, 'bad-id sites/Big Street!.yaml'],
    [
      'a rail whose food goes nowhere',
      store('    food_goes_to:', '    # food_goes_to:'),
      'no-place-for-food sites/street.yaml:5:3',
    ],
    ['two files with one id', { 'sites/street.yml': STORE }, 'duplicate-id sites/street.yml'],
    ['a poisoned key', { 'sites/street.yaml': `${STORE}__proto__: { name: x }\n` }, 'forbidden-key sites/street.yaml:11:1'],
  ])('%s', (_, own, expected) => {
    expect(serious(tryChain(own)).some((told) => told.startsWith(expected))).toBe(true);
  });
  it.each([
    ["leaves: '10:45'", 'error'], // 22:45 was meant
    ['leaves: 24 h after closing', 'error'], // the store has opened again
    ["leaves: '05:00'", 'warning'], // cleaners, perhaps
    ['leaves: 45 min after closing', undefined],
  ])('a crew that stays half a day too long: %s', (leaves, told) => {
    const site = `${STORE.replace('Mo-Su 07:00-22:00', 'Mo-Su 11:00-22:00')}crew: { ${leaves} }\n`;
    const { findings } = tryChain({ 'sites/street.yaml': site });
    const late = findings.filter(({ code }) => code === 'crew-leaves-late');
    expect(late.map(({ severity, at }) => `${severity} ${at.path.join('.')}`)).toEqual(told ? [`${told} crew.leaves`] : []);
  });
  it('an altitude and a pressure that there are not', () => {
    expect(tryChain({ 'sites/street.yaml': `${STORE}altitude: 30000 ft\n` }).told.join()).toContain(
      'figure-unlikely sites/street.yaml:11',
    );
    expect(tryChain({ 'sites/street.yaml': `${STORE}altitude: 13000 ft\n` }).told.join()).not.toContain('figure-unlikely');
    const slip = TABLE.replace('cut_out: 28 psig', 'cut_out: 166 psi').replace('cut-in-and-cut-out', 'cut-in-and-difference');
    expect(serious(tryChain({ 'equipment/table.yaml': slip })).join()).toContain('below-vacuum equipment/table.yaml');
  });
  it('a zone without the thermostat that its strategy runs it by is told', () => {
    const separate = (more = '') =>
      tryChain({ 'equipment/table.yaml': `${TABLE.replace('shared-low-pressure', 'separate-thermostats')}${more}` }).told;
    expect(separate().filter((one) => one.startsWith('no-thermostat'))).toHaveLength(1);
    expect(separate('not_known: [zones.rail.control]\n').join()).not.toContain('no-thermostat');
    expect(tryChain({}).told.join()).not.toContain('no-thermostat');
  });
  it.each([' ', '- ?', '—', '\u200b'])('a signature that is nobody’s: %j', (who) => {
    const tried = tryChain({ 'sites/street.yaml': `${STORE}    set_by: { who: "${who}", when: 2026-11-13 }\n` });
    expect(serious(tried)).toContain('nobody-signs sites/street.yaml:11:20');
  });

  it('tells whoever does not know a fact where to say so', () => {
    const PLATE = 'nameplate: { model: T-1, volts: 115, amps: 8, hertz: 60,';
    const block = PLATE.replace('{ ', '\n  ')
      .replace(/, (?=volts|amps|hertz)/g, '\n  ')
      .replace(/,$/, '\n ');
    const bare = TABLE.replace(PLATE, block).replace(/(circuits: \[.*\]) \}/, '$1');
    expect(serious(tryChain({ 'equipment/table.yaml': bare }))).toEqual([]);
    const without = table('amps: 8, ', '');
    expect(data(without, 'missing-key')).toMatchObject({ key: 'amps', unknown: 'nameplate.amps' });
    expect(data(table('reachable: false, ', ''), 'missing-key')).toMatchObject({ unknown: 'zones.rail.rest.clock.reachable' });
    expect(data(table('amps: 8', "amps: '?'"), 'unknown-mark')).toEqual({ key: 'amps', unknown: 'nameplate.amps' });
    expect(data(table('28 oz', "'?'"), 'unknown-mark')).toEqual({ key: 'charge', unknown: 'nameplate.circuits.charge' });
    for (const own of [table('amps: 8', 'amps: ?'), { 'equipment/table.yaml': bare.replace('amps: 8', 'amps: ?') }]) {
      expect(data(own, 'yaml-unknown')).toEqual({ key: 'amps' });
      expect(serious(tryChain(own)).filter((told) => /yaml-syntax/.test(told))).toEqual([]);
    }
    const listed = { 'equipment/table.yaml': `${without['equipment/table.yaml']}not_known: [nameplate.amps]\n` };
    expect(serious(tryChain(listed))).toEqual([]);
  });

  it('tells a text that a number sign cuts, and leaves comments alone', () => {
    const cut = (nickname: string) =>
      tryChain({ 'sites/street.yaml': STORE.replace('nickname: Line 1', `nickname: ${nickname}`) }).findings.filter(
        ({ code }) => code === 'text-cut',
      );
    expect(cut('Line #2')[0]?.data).toEqual({ wrote: 'Line', rest: '#2' });
    for (const right of ['Line 2 # by the door', "'Line #2'", 'Line#2', 'Line 2\n      #position: there'])
      expect(cut(right)).toEqual([]);
    // In a sentence a comment behind it is more likely a part of it.
    const told = tryChain({
      'words/en/ours.yaml': 'one: Serve # never wait\ntwo: "Serve #1"\n# A line of its own.\nthree: Wait\n',
    });
    expect(told.findings.filter(({ code }) => code === 'text-cut').map(({ at }) => at.line)).toEqual([1]);
  });

  it('takes no altitude, charge or count of which nobody knows whether its comma parts thousands', () => {
    const told = (own: Parameters<typeof tryChain>[0]) => ({ told: serious(tryChain(own)), data: data(own, 'amount-thousands') });
    const height = told({ 'sites/street.yaml': `${STORE}altitude: 5,100 ft\n` });
    expect(height.told).toEqual(['amount-thousands sites/street.yaml:11:11']);
    expect(height.data).toMatchObject({ wrote: '5,100 ft', whole: '5100 ft' });
    expect(told(table('28 oz', '"1,250 g"')).data).toMatchObject({ whole: '1250 g', decimal: '1.25 g' });
    // A cell of a sheet of stores, where a number alone stands.
    expect(cellValue('1,250', ['number'])).toBe('1,250');
    expect(cellValue('1,5', ['number'])).toBe(1.5);
  });

  it('tells the nearest key, value, profile and law', () => {
    expect(data(store('timezone:', 'timezon:'), 'unknown-key')).toEqual({ key: 'timezon', nearest: 'timezone' });
    expect(data(store('profile: table', 'profile: tabel'), 'no-profile')).toMatchObject({ nearest: 'table' });
    expect(data(table('kind: static-rail', 'kind: static-rial'), 'unknown-value')).toEqual({
      wrote: 'static-rial',
      nearest: 'static-rail',
    });
    expect(data({ 'sites/street.yaml': `${STORE}law: us-food-cod-2022\n` }, 'no-law')).toMatchObject({
      nearest: 'us-food-code-2022',
    });
    expect(data({ 'nightrail.yaml': change(CHAIN, 'poster,', 'postre,') }, 'no-paper')).toMatchObject({ nearest: 'poster' });
  });

  it('shows how each is written by an example of its own, once', () => {
    const forms = (own: Parameters<typeof tryChain>[0], code: string) => data(own, code)?.['forms'];
    expect(forms(table('sort: prep table\n', ''), 'missing-key')).toEqual(['prep table']);
    expect(forms(table('probe: { where: top centre }', 'probe: {}'), 'missing-key')).toEqual(['top shelf, right']);
    const curve = 'sensor: { form: beta, name: Own, source: its sheet, resistance: 3 kohm, temperature: 77 °F, beta: 3950 }';
    const limits = forms(table('  strategy:', `  ${curve}\n  strategy:`), 'missing-key') as readonly string[];
    expect(limits).toEqual(['-40 to 140 °F', '-40 to 60 °C']);
  });

  it('asks for quotes where a comma in braces cut a text', () => {
    const cut = table('probe: { where: top centre }', 'probe: { where: left, behind the right door, "high" }');
    expect(serious(tryChain(cut))[0]).toMatch(/^comma-in-braces equipment\/table\.yaml:/);
    expect(data(cut, 'comma-in-braces')).toEqual({
      key: 'behind the right door',
      quoted: 'where: "left, behind the right door, high"',
    });
    expect(data(store('position: by the door', 'position: { en: left, behind the door }'), 'comma-in-braces')).toEqual({
      key: 'behind the door',
    });
    // A key without a value that nobody knows is one all the same.
    expect(data(table('drains: by-itself', 'drans:'), 'unknown-key')).toMatchObject({ nearest: 'drains' });
  });

  it('knows a place below, a bellows and a cap tube by the words of the trade', () => {
    const near = (from: string, to: string) => data(table(from, to), 'unknown-value')?.['nearest'];
    expect(near('place: in-unit', 'place: below')).toBe('in-unit');
    expect(near('feed: expansion-valve', 'feed: cap tube')).toBe('capillary');
    expect(near('reference: atmosphere', 'reference: bellows')).toBe('atmosphere');
  });

  it('tells of two times where one belongs', () => {
    const found = 'found: { when: 2026-11-12, who: R. Talavera, clock: { off: "23:00-03:00 every day", on: "03:00" } }';
    expect(data({ 'sites/street.yaml': `${STORE}    ${found}\n` }, 'bad-time')).toMatchObject({
      first: '23:00',
      second: '03:00',
    });
  });

  it('names the parts of a fact that nobody told', () => {
    const told = (facts: string) =>
      data(
        { 'equipment/table.yaml': `${TABLE}origins: [{ facts: [${facts}], who: A, when: 2026-11-12, how: read }]\n` },
        'fact-without-origin',
      )?.['facts'];
    expect(told('zones')).toEqual(['control.pressure (cut_in, cut_out, reference, dial)']);
    expect(told('zones, control.pressure.cut_in, control.pressure.cut_out')).toEqual([
      'control.pressure.reference',
      'control.pressure.dial',
    ]);
  });

  it('tells all of them in one go, and spoils one store alone', () => {
    const tried = tryChain({
      'sites/street.yaml': change(change(STORE, 'position:', 'positon:'), 'height: 6 in', 'height: tall'),
      'sites/other.yaml': STORE,
    });
    expect([...serious(tried)].sort()).toEqual([
      'amount-no-number sites/street.yaml:10:62',
      'missing-key sites/street.yaml:5:3',
      'unknown-key sites/street.yaml:8:5',
    ]);
    expect(tried.stores.get('street')?.plan).toBeUndefined();
    expect(tried.stores.get('other')?.plan).toBeDefined();
  });

  it('points to the chain for what was inherited', () => {
    const tried = tryChain({ 'nightrail.yaml': change(CHAIN, "emergency: '911'", 'emergency: call mum') });
    expect(serious(tried)).toContain('bad-phone nightrail.yaml:9:74');
  });

  it('tells of a table whose form it does not know, or that names none', () => {
    const curve = (form: string) => ({ 'equipment/tables/sensors/own.yaml': `name: Own\n${form}source: its sheet\n` });
    expect(serious(tryChain(curve('form: table\n')))).toContain('unknown-value equipment/tables/sensors/own.yaml:2:7');
    expect(serious(tryChain(curve('')))).toContain('missing-key equipment/tables/sensors/own.yaml:1:1');
  });

  it("tells a sensor's table of points row by row: too few, mixed, out of order, turning back", () => {
    const tell = (...rows: string[]) =>
      serious(
        tryChain({
          'equipment/tables/sensors/own.yaml': `name: Own\nsource: its sheet\nform: points\npoints:\n${rows.map((row) => `  - [${row}]\n`).join('')}`,
        }),
      );
    const at = (code: string, row: number) => `${code} equipment/tables/sensors/own.yaml:${row + 4}:5`;
    const [cold, ice, warm] = ['14 °F, 55.3 kohm', '32 °F, 32650 ohm', '50 °F, 19.9 kohm'] as const;
    expect(tell(cold, ice, warm)).toEqual([]);
    expect(tell(warm, ice, cold)).toEqual([]);
    expect(tell(cold, ice)[0]).toContain('curve-few equipment/tables/sensors/own.yaml:5');
    expect(tell(cold, ice, '50 °F, 1.9 V')).toContain(at('curve-mixed', 3));
    expect(tell(cold, warm, ice)).toContain(at('curve-order', 3));
    expect(tell(cold, ice, '50 °F, 199 kohm')).toContain(at('curve-turns', 3));
    expect(tell(cold, ice, '50 °F, 0 ohm')).toContain(at('curve-nought', 3));
    expect(tell(cold, ice, '50 °F, 19.9 psi')[0]).toContain('amount-');
  });

  it('tells by how much a second figure of the maker lies off its curve, in the profile and in a file', () => {
    // 3 kohm at 25 °C with beta 3950: R = R0 exp(beta (1/T - 1/T0)) gives 10.09 kohm at 0 °C; 9.79 kohm would be beta 3853, and lies 1 °F warmer.
    const curve = (reads: string) =>
      `form: beta, name: Own, source: its sheet, resistance: 3 kohm, temperature: 77 °F, beta: 3950, limits: -40 to 140 °F, check: { at: 32 °F, reads: ${reads} }`;
    const inProfile = (reads: string) => table('  strategy:', `  sensor: { ${curve(reads)} }\n  strategy:`);
    const apart = data(inProfile('9.79 kohm'), 'sensor-check-apart');
    expect((apart?.['apart'] as { si: number }).si * 1.8).toBeCloseTo(1, 1);
    expect(apart).toMatchObject({ beta: '3853' });
    const tried = tryChain(inProfile('9.79 kohm'));
    expect(serious(tried)).toEqual(['sensor-check-apart equipment/table.yaml:7:130']);
    expect(tried.stores.get('street')?.plan).toBeDefined();
    expect(data(inProfile('10.09 kohm'), 'sensor-check-apart')).toBeUndefined();
    const file = { 'equipment/tables/sensors/own.yaml': `{ ${curve('9.79 kohm')} }\n` };
    expect(serious(tryChain(file))[0]).toMatch(/^sensor-check-apart equipment\/tables\/sensors\/own\.yaml/);
  });

  it('survives an alias bomb and a deep nest', () => {
    const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefgh'
      .split('')
      .map((c, i) => `${c}: &${c} [${Array(9).fill(`*${'abcdefg'[i]}`).join(',')}]`)
      .join('\n')}\n`;
    expect(serious(tryChain({ 'sites/street.yaml': bomb }))[0]).toMatch(/^yaml-alias/);
    expect(serious(tryChain({ 'sites/street.yaml': `name: ${'['.repeat(5000)}` })).length).toBeGreaterThan(0);
  });

  it('tells of a file that can’t be read on where that begins, not each piece after it', () => {
    const rest = Array.from({ length: 40 }, (_, i) => `k${i}: "text ${i}"`).join('\n');
    const inWords = (lines: string) =>
      readYaml('words/es/steps.yaml', new TextEncoder().encode(`${lines}\n${rest}\n`)).findings.map((f) => [
        `${f.code} ${f.at.line}:${f.at.column}`,
        f.data,
      ]);
    const [first, more, ...none] = inWords('a: **{limit}:** tapa');
    expect(first).toEqual(['yaml-syntax 1:6', { says: expect.any(String) as string, quoted: '"**{limit}:** tapa"' }]);
    expect(more).toEqual(['yaml-more 2:1', { count: 120 }]);
    expect(none).toEqual([]);
    // Those that are faults by themselves are told each, up to a few.
    expect(inWords('a: Ojo: uno\nb: x\nc: Ojo: dos').map(([told]) => told)).toEqual(['yaml-syntax 1:4', 'yaml-syntax 3:4']);
    expect(inWords('a: **x** y\nb: "y"\nc: **{z}** y').map(([told]) => told)).toEqual([
      'yaml-syntax 1:10',
      'yaml-syntax 3:6',
      'yaml-more 4:1',
    ]);
    const twenty = inWords(Array.from({ length: 20 }, () => 'a: "x"').join('\n'));
    expect(twenty).toHaveLength(9);
    expect(twenty.at(-1)).toEqual(['yaml-more 10:1', { count: 11 }]);
    expect(inWords('a: x\nb: "never closed')[0]).toEqual(['yaml-syntax 2:4', { says: expect.any(String) as string, quote: '"' }]);
    const inStore = tryChain(store('name: Test Street', 'name: @Test\nregion: "a" b'));
    expect(serious(inStore).every((told) => told.startsWith('yaml-'))).toBe(true);
    expect(serious(inStore).length).toBeLessThan(5);
  });

  it('reads a byte order mark and says so', () => {
    const tried = tryChain({ 'sites/street.yaml': `\ufeff${STORE}` });
    expect(tried.told).toContain('byte-order-mark sites/street.yaml:1:1');
    expect(tried.stores.get('street')?.plan).toBeDefined();
  });

  it('shows how plain hours were read', () => {
    const tried = tryChain(store('Mo-Su 07:00-22:00', 'mon-sat 7am-10pm; sun closed'));
    expect(tried.findings.find((f) => f.code === 'hours-read-as')?.data['read']).toMatch(/^Su off|Mo-Sa 07:00-22:00/);
  });
});

describe('a pressure control as it was found', () => {
  // At 5280 ft the air is 12.1 psia (the US Standard Atmosphere, 1976): a bellows' dial stands 2.6 psi higher there for the same coil.
  const found = (pressure: string) =>
    tryChain({
      'sites/street.yaml': `${STORE}    found: { when: 2026-11-12, who: R. Talavera, pressure: ${pressure} }\naltitude: 5280 ft\n`,
    }).findings.find((f) => f.code === 'control-found-different');
  it('is right as its profile means it at that altitude, and told against that', () => {
    expect(found('{ cut_in: 49 psig, cut_out: 31 psig }')).toBeUndefined();
    const should = found('{ cut_in: 40 psig, cut_out: 20 psig }')?.data['should_in'] as { si: number };
    expect(should.si / 6894.757).toBeCloseTo(49, 3);
  });
  it('may have been read at one end alone', () => {
    const one = (pressure: string) =>
      serious(
        tryChain({
          'sites/street.yaml': `${STORE}    found: { when: 2026-11-12, who: R. Talavera, pressure: ${pressure} }\naltitude: 5280 ft\n`,
        }),
      ).join();
    expect(one('{ cut_in: 49 psig }')).not.toContain('found');
    expect(one('{ cut_in: 40 psig }')).toContain('control-found-different-in');
    expect(one('{ cut_out: 20 psig }')).toContain('control-found-different-out');
    expect(one('{}')).toContain('found-no-end');
  });
});

describe('mistakes in a profile: the trade', () => {
  it.each([
    ['cut-out over cut-in', table('cut_in: 46 psig', 'cut_in: 20 psig'), 'cut-out-over-cut-in'],
    ['a thermostat upside down', table('cut_in: 37 °F', 'cut_in: 30 °F'), 'cut-out-over-cut-in'],
    ['an aim over the law', table('aim: 36 to 38 °F\n    air: 16', 'aim: 36 to 43 °F\n    air: 16'), 'aim-over-limit'],
    ['a base whose food would freeze', table('aim: 36 to 38 °F\n    air: 33', 'aim: 16 to 22 °F\n    air: 16'), 'aim-freezes'],
    ['a clock on a forced-air rail', table('kind: static-rail', 'kind: forced-air-rail'), 'clock-on-wrong-zone'],
    ['a clock that rests the base', table('stops: [rail]', 'stops: [rail, base]'), 'clock-rests-base'],
    ['a bare psi', table('cut_in: 46 psig', 'cut_in: 46 psi'), 'amount-no-zero'],
    ['an unknown refrigerant', table('R-404A', 'R-404'), 'unknown-refrigerant'],
    ['an hour-pin clock for a static rail', table('kind: daily-dial', 'kind: hour-pin-clock'), 'no-rest-clock-ends-rest'],
    ['a shared control without its pressures', table('  pressure: {', '  # pressure: {'), 'no-pressure-control'],
  ])('%s', (_, own, expected) => {
    expect(serious(tryChain(own)).some((told) => told.startsWith(expected))).toBe(true);
  });

  const also = (serves: string, zone: string) => ({
    'equipment/table.yaml': change(
      change(TABLE, 'serves: [rail, base]', `serves: [rail, base, ${serves}]`),
      'loading:',
      `${zone}loading:`,
    ),
  });
  const DRAWERS =
    '  low:\n    kind: drawers\n    probe: { where: top drawer }\n    drawers: { count: 2, pans_each: 2, size: full }\n';
  const SECOND_TOP =
    '  side:\n    kind: forced-air-rail\n    probe: { where: its middle }\n    pans: { count: 2, size: sixth, depth: 4 in, material: steel, load_line: 1 in }\n';

  it.each([
    ['box', also('low', DRAWERS), 'low', 'base'],
    ['open top', also('side', SECOND_TOP), 'side', 'rail'],
  ])('lets no paper leave out a second %s', (_, own, zone, first) => {
    const tried = tryChain(own);
    expect(serious(tried)).toEqual(['second-part equipment/table.yaml:29:3']);
    expect(data(own, 'second-part')).toEqual({ zone, first });
    expect(tried.findings.find((f) => f.code === 'second-part')?.severity).toBe('error');
  });

  it('tells an error of a shared profile once', () => {
    const tried = tryChain({
      ...table('R-404A', 'R-404A\n'),
      'equipment/table.yaml': change(TABLE, 'volts: 115', 'volts: many'),
      'sites/other.yaml': STORE,
    });
    expect(tried.told.filter((t) => t.startsWith('wrong-type'))).toHaveLength(1);
    expect(tried.told.filter((t) => t.startsWith('profile-has-errors'))).toHaveLength(2);
  });
});
