/**
 * `nightrail new`: answers from a file and at a terminal, wrong ones told at once, nothing written over, and files that `check` has nothing against.
 */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { newEquipment, newStore } from '../../src/commands/new.js';
import { makePrompts, type Prompts } from '../../src/host/prompts.js';
import { profileSchema } from '../../src/model/profile.js';
import { CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { told } from './told.js';

const work = mkdtempSync(join(tmpdir(), 'nightrail-new-'));
let chain: string;
let count = 0;

beforeEach(() => {
  chain = join(work, String(count++));
  for (const [path, text] of Object.entries({
    'nightrail.yaml': CHAIN,
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
  })) {
    mkdirSync(join(chain, path, '..'), { recursive: true });
    writeFileSync(join(chain, path), text);
  }
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

const answersFile = (text: string): string => {
  const path = join(chain, 'answers.yaml');
  writeFileSync(path, text);
  return path;
};
const equipment = (text: string, more = {}) =>
  told(() => newEquipment({ chain, json: true, answers: answersFile(text), ...more }));
const store = (text: string, more = {}) => told(() => newStore({ chain, json: true, answers: answersFile(text), ...more }));
const read = (doc: string): string => readFileSync(join(chain, doc), 'utf8');

const UNIT = `id: table-48
like: table
who: A. Person, technician
when: 2026-11-20
how: Read from the plate
answers:
  name: Table 48
  maker.name: Test Works
  nameplate.model: T-48
  nameplate.amps: 7.2
  nameplate.circuits.0.charge: 24 oz
  nameplate.circuits.0.refrigerant: R-404A
  condensing.split: "?"
  zones.rail.pans.count: 12
`;

describe('equipment from a file of answers', () => {
  it('writes a sound profile that says what is told, what is taken over and what nobody knows', async () => {
    const { code, written } = await equipment(UNIT);
    expect([code, written]).toEqual([0, 'equipment/table-48.yaml']);
    const text = read('equipment/table-48.yaml');
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=../schema/equipment.json');
    expect(text).toContain('# From the plate.');
    expect(text).toContain('- condensing.split # nobody knows yet');
    const value = parse(text) as Record<string, never>;
    expect(profileSchema.safeParse(value).success).toBe(true);
    expect(value).toMatchObject({
      name: 'Table 48',
      nameplate: { volts: 115, amps: 7.2, circuits: [{ refrigerant: 'R-404A', charge: '24 oz', serves: ['rail', 'base'] }] },
      zones: { rail: { pans: { count: 12, size: 'sixth' } } },
      not_known: ['condensing.ports', 'condensing.split', 'control.pressure.reference', 'zones.rail.drains'],
    });
    expect((value as Record<string, object>)['condensing']).not.toHaveProperty('split');
    const [mine, over] = value['origins'] as unknown as { facts: string[]; who: string }[];
    expect(mine).toMatchObject({
      who: 'A. Person, technician',
      facts: expect.arrayContaining(['name', 'maker', 'nameplate.amps']) as unknown,
    });
    expect(over).toMatchObject({
      who: 'table',
      how: { en: 'Taken over from a similar unit; nobody has checked it on this one' },
      confirmed: false,
      facts: expect.arrayContaining(['control.strategy', 'loading', 'nameplate.volts']) as unknown,
    });
    expect(over?.facts.filter((fact) => mine?.facts.includes(fact))).toEqual([]);
  });

  it('takes the refrigerant for unconfirmed where only the charge of its circuit was told', async () => {
    await equipment(UNIT.replace(/.*refrigerant: R-404A\n/, ''));
    const tried = tryChain({ 'equipment/table.yaml': read('equipment/table-48.yaml') });
    expect(tried.findings.find((f) => f.code === 'fact-not-confirmed')?.data['facts']).toContain(
      'nameplate.circuits.refrigerant',
    );
    const circuit = tried.stores.get('street')?.plan?.units['line-1']?.nameplate.circuits[0];
    expect(circuit?.refrigerant.basis).toMatchObject({ how: 'written', confirmed: false });
    expect(circuit?.charge.basis).not.toMatchObject({ confirmed: false });
  });

  it('names another source for the facts of which it is told, and refuses one of a fact that nobody told', async () => {
    const of = 'how_of: { control.pressure: Told by the maker on the phone }\n';
    const asks = UNIT.replace('answers:', `${of}answers:`);
    const pressures = '  control.pressure.cut_in: 44 psig\n  control.pressure.cut_out: "="\n';
    const done = await equipment(asks + pressures);
    expect(done.written, JSON.stringify(done.findings)).toBe('equipment/table-48.yaml');
    const { origins } = parse(read('equipment/table-48.yaml')) as { origins: { facts: string[]; how: string }[] };
    expect(origins.find((o) => o.how === 'Told by the maker on the phone')?.facts).toEqual([
      'control.pressure.cut_in',
      'control.pressure.cut_out',
    ]);
    expect(origins.find((o) => o.how === 'Read from the plate')?.facts).toContain('nameplate.amps');
    const nobody = pressures.replace('44 psig', '"?"').replace('"="', '"?"');
    expect((await equipment(asks + nobody, { replace: true })).findings.map((f) => f.code)).not.toContain('how-of-nothing');
    const none = await equipment(asks, { replace: true });
    expect(none.findings.find((f) => f.code === 'how-of-nothing')).toMatchObject({ severity: 'error', line: 6 });
    expect(none.written).toBeUndefined();
  });

  it('is read back by check with a note for each thing that nobody knows', async () => {
    await equipment(`${UNIT}  zones.rail.drains: by-itself\n`);
    const tried = tryChain({
      'equipment/table-48.yaml': read('equipment/table-48.yaml'),
      'sites/street.yaml': STORE.replace('profile: table', 'profile: table-48'),
    });
    expect(tried.findings.filter((f) => f.severity === 'error')).toEqual([]);
    expect(tried.findings.filter((f) => f.code === 'not-known-yet').map((f) => f.data['fact'])).toContain('condensing.split');
  });

  it.each([
    ['answer-twice', '  control.pressure.cut_in: 44 psig\n  control: { pressure: { cut_in: 40 psig } }\n'],
    ['answer-part', '  loading.999999999: no-warm-food\n'],
    ['answer-part', '  nameplate.circuits.-1.charge: 3 oz\n'],
  ])('refuses an answer that is given twice, and a part that no list has: %s', async (code, answers) => {
    const done = await equipment(UNIT + answers);
    expect(done.written).toBeUndefined();
    expect(done.findings.map((f) => f.code)).toContain(code);
  });

  // The similar one drains by itself, its clock is in reach of the manager, its dial is sealed.
  it.each(['"?"', undefined])(
    'writes the safe side where nobody knows, and never the less safe one of the similar unit (%s)',
    async (wrote) => {
      const facts = ['control.pressure.reference', 'zones.rail.drains', 'zones.rail.rest.clock.reachable'];
      const answers = wrote === undefined ? '' : facts.map((fact) => `  ${fact}: ${wrote}\n`).join('');
      const done = await equipment(UNIT.replace('like: table', 'like: prep-table-72') + answers);
      expect(done.written, JSON.stringify(done.findings)).toBe('equipment/table-48.yaml');
      const value = parse(read('equipment/table-48.yaml')) as { not_known: string[]; origins: { facts: string[] }[] };
      expect(value).toMatchObject({ zones: { rail: { drains: 'by-hand', rest: { clock: { reachable: false } } } } });
      expect(value.not_known).toEqual(expect.arrayContaining(facts));
      expect(value.origins.flatMap((o) => o.facts)).not.toEqual(expect.arrayContaining(['zones.rail.rest.clock']));
      for (const fact of facts) expect(value.origins.flatMap((o) => o.facts)).not.toContain(fact);
    },
  );

  it('takes the safe side over where the similar unit has it, and a less safe one only from somebody who says so', async () => {
    writeFileSync(join(chain, 'equipment/table.yaml'), TABLE.replace('drains: by-itself', 'drains: by-hand'));
    await equipment(`${UNIT}  zones.rail.rest.clock.reachable: yes\n  control.pressure.reference: '='\n`);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({
      control: { pressure: { reference: 'atmosphere' } },
      zones: { rail: { drains: 'by-hand', rest: { clock: { reachable: true } } } },
      // The similar unit has ports: whoever says nothing of this one's has looked at none.
      condensing: { ports: false },
      not_known: ['condensing.ports', 'condensing.split'],
    });
  });

  it.each(['control.pressure.cut_in: "?"\n  control.pressure.cut_out: "?"', ''])(
    'never takes pressures over from a unit with another refrigerant (answered: %j)',
    async (pressures) => {
      const small = `id: small
like: prep-table-72
who: A. Person
when: 2026-11-20
how: Read
answers:
  name: Small
  maker.name: M
  nameplate.model: X
  nameplate.amps: 3
  nameplate.circuits.0.charge: 3 oz
  nameplate.circuits.0.refrigerant: R-290
  zones.base.control.cut_in: "?"
  zones.base.control.cut_out: "?"
  ${pressures}
`;
      const done = await equipment(small);
      expect(done.written).toBe('equipment/small.yaml');
      const text = read('equipment/small.yaml');
      expect(text).not.toMatch(/psig/);
      const asked = pressures !== '';
      expect(done.findings.some((f) => f.code === 'pressures-not-taken-over')).toBe(!asked);
      const tried = tryChain({ 'equipment/table.yaml': text });
      const unit = tried.stores.get('street')?.plan?.units['line-1'];
      expect(unit?.pressure.dial).toBeUndefined();
      expect(unit?.pressure.not_known !== undefined).toBe(asked);
      const sequence = unit?.sequence.map(({ value }) => value.code);
      expect(sequence?.includes('sequence.call-starts')).toBe(!asked);
      expect(unit?.zones['base']).toMatchObject({ control: undefined, control_not_known: { value: { code: 'card.not-known' } } });
    },
  );

  it("leaves out the similar unit's pull-down for hot days where this one's was told, and names what was never asked", async () => {
    writeFileSync(
      join(chain, 'equipment/table.yaml'),
      TABLE.replace('pull_down: 60 min', 'pull_down: 60 min\n      pull_down_hot: { above: 86 °F, takes: 80 min }'),
    );
    await equipment(UNIT);
    expect(read('equipment/table-48.yaml')).toContain('pull_down_hot');
    const done = await equipment(`${UNIT}  zones.rail.rest.pull_down: 50 min\n`, { replace: true });
    expect(read('equipment/table-48.yaml')).not.toContain('pull_down_hot');
    const facts = done.findings.find((f) => f.code === 'never-asked-taken-over')?.data['facts'];
    expect(facts).toContain('condensing.place');
    // What decides a step on a poster is asked.
    for (const fact of ['zones.rail.covers.night', 'zones.rail.drains', 'control.pressure.reference'])
      expect(facts).not.toContain(fact);
    expect(facts).not.toContain('zones.rail.rest.pull_down_hot.takes');
  });

  it('marks what it had to take over of the same refrigerant, and no paper tells it', async () => {
    await equipment(`${UNIT}  control.pressure.cut_in: "?"\n  control.pressure.cut_out: "?"\n`);
    const tried = tryChain({ 'equipment/table.yaml': read('equipment/table-48.yaml') });
    expect(tried.stores.get('street')?.plan?.units['line-1']?.pressure).toMatchObject({
      dial: undefined,
      not_known: { value: { code: 'card.not-known' } },
    });
    expect(tried.findings.map((f) => f.code)).not.toContain('no-pressure-control');
  });

  it.each([
    ['a gap', UNIT.replace(/ {2}name: .*\n/, ''), 'answer-needed', 6],
    ['a fact that is not asked', UNIT.replace('nameplate.model', 'nameplat.model'), 'answer-unknown', 9],
    ['a word for a number', UNIT.replace('7.2', 'seven'), 'wrong-type', 10],
    ['an amount without its unit', UNIT.replace('24 oz', '24 "'), 'amount-wrong-quantity', 11],
    ['not knowing what the file needs', UNIT.replace('T-48', '"?"'), 'answer-needed', 9],
    ['a similar one that is not there', UNIT.replace('like: table', 'like: tabel'), 'no-such-similar', 2],
    ['a head with a gap', UNIT.replace(/who: .*\n/, ''), 'missing-key', 1],
    ['an id that is a path', UNIT.replace('id: table-48', 'id: ../table'), 'bad-id', 1],
  ])('%s is a finding with its place, and nothing is written', async (_, text, code, line) => {
    const done = await equipment(text);
    expect(done.code).toBe(1);
    expect(done.written).toBeUndefined();
    expect(done.findings.find((f) => f.code === code)).toMatchObject({ severity: 'error', line });
    expect(existsSync(join(chain, 'equipment/table-48.yaml'))).toBe(false);
  });

  it('has the rules that need the whole: a cut-out over its cut-in', async () => {
    const done = await equipment(`${UNIT}  control.pressure.cut_in: 20 psig\n`);
    expect(done.findings.map((f) => f.code)).toContain('cut-out-over-cut-in');
    expect(done.written).toBeUndefined();
  });

  it('tells a figure that is missing where it is to be written: at its answer, since no file is', async () => {
    const bare = `${UNIT}  zones.rail.rest.enough: '?'\n  condensing.power: '?'\n  condensing.split: '?'\n`.replace(
      / {2}condensing.split: "\?"\n/,
      '',
    );
    const done = await equipment(bare);
    expect(done.written).toBeUndefined();
    const needs = done.findings.filter((f) => f.code === 'rest-needs-figure');
    expect(needs).toMatchObject([{ line: 14, data: { key: 'enough' } }]);
    expect(needs[0]?.file).toMatch(/answers\.yaml$/);
    expect(done.findings.filter((f) => f.file.startsWith('equipment/'))).toEqual([]);
  });

  it('writes over nothing unasked', async () => {
    await equipment(UNIT);
    const before = read('equipment/table-48.yaml');
    const again = await equipment(UNIT.replace('7.2', '9.9'));
    expect(again.code).toBe(1);
    expect(again.findings.map((f) => f.code)).toContain('file-exists');
    expect(read('equipment/table-48.yaml')).toBe(before);
    expect((await equipment(UNIT.replace('7.2', '9.9'), { replace: true })).code).toBe(0);
    expect(read('equipment/table-48.yaml')).toContain('amps: 9.9');
  });

  it('can begin from a profile that ships, in a chain that has none like it', async () => {
    const own = `id: freezer
like: reach-in-freezer
who: A. Person
when: 2026-11-20
how: Read
answers: { name: F, maker.name: M, nameplate.model: X, nameplate.amps: 8, nameplate.circuits.0.charge: 5 oz }
`;
    expect((await equipment(own)).written).toBe('equipment/freezer.yaml');
  });

  it('keeps a name that looks like YAML a name', async () => {
    await equipment(UNIT.replace('Table 48', '"x\\n# y: [1]"').replace('A. Person, technician', '"a\\nloading: []"'));
    const value = parse(read('equipment/table-48.yaml')) as { name: string; loading: string[] };
    expect(value.name).toBe('x\n# y: [1]');
    expect(value.loading).toEqual(['no-warm-food', 'one-pan-each-opening']);
  });
});

const SITE = `id: larch
units: { line-1: table }
answers:
  name: Larch Street
  timezone: America/Chicago
  hours: Mo-Su 07:00-22:00
  altitude: "?"
  crew.closers: 3
  units.line-1.nickname: Line 1
  units.line-1.position: by the door
  units.line-1.serial: X1
  units.line-1.food_goes_to.zone: base
  units.line-1.food_goes_to.free_shelf: 6 sq ft
  units.line-1.food_goes_to.height: 6 in
`;

describe('a store from a file of answers', () => {
  it('writes what differs from the chain, and plans', async () => {
    expect((await store(SITE)).written).toBe('sites/larch.yaml');
    const text = read('sites/larch.yaml');
    expect(parse(text)).toMatchObject({ name: 'Larch Street', crew: { closers: 3 }, not_known: ['altitude'] });
    expect(parse(text)).not.toHaveProperty('backup');
    const tried = tryChain({ 'sites/larch.yaml': text });
    expect(tried.stores.get('larch')?.plan?.units['line-1']?.rest?.off).toBeDefined();
    expect(tried.told).toContain('not-known-yet sites/larch.yaml:13:5');
  });

  it.each([
    ['hours that say nothing', SITE.replace('Mo-Su 07:00-22:00', 'whenever'), 'hours-unknown-word', 6],
    ['a profile that is not there', SITE.replace('line-1: table', 'line-1: tabel'), 'no-profile', 2],
    ['a rail whose food has no place', SITE.replace(/ {2}units.line-1.food_goes_to.zone.*\n/, ''), 'answer-needed', 3],
    ['food that does not fit', SITE.replace('6 sq ft', '1 sq ft'), 'no-room-for-food', 0],
  ])('%s is a finding, and nothing is written', async (_, text, code, line) => {
    const done = await store(text);
    expect(done.code).toBe(1);
    expect(done.findings.find((f) => f.code === code)).toMatchObject(line === 0 ? { severity: 'error' } : { line });
    expect(existsSync(join(chain, 'sites/larch.yaml'))).toBe(false);
  });
});

describe('a fact sheet of a pizza table', () => {
  // Invented: a static rail on R-290, its rail and base each with a thermostat, a 7-day clock, pressures told by the maker on the phone.
  const SHEET = `id: pizza-table-60
like: prep-table-72
who: J. Imai, technician
when: 2026-11-24
how: Read from the plate and the dials; pressures told by the maker on the phone
answers:
  name: { en: Pizza table 60, es: Mesa de pizza 60 }
  sort: { en: pizza table, es: mesa de pizza }
  maker: { name: Velloway Cold, support: 555-0188 }
  nameplate: { model: Sparrow 60, volts: 115, amps: 6.1, hertz: 60, built: 2024 }
  nameplate.circuits.0: { refrigerant: R-290, charge: 4.9 oz }
  condensing: { power: 1/3 hp, receiver: false }
  control.pressure: { cut_in: 24 psig, cut_out: 7 psig, reference: sealed, dial: cut-in-and-cut-out }
  control.sensor: ntc-10k-type-2
  zones.rail.control: { cut_in: 20 °F, cut_out: 14 °F }
  zones.base.control: { cut_in: 37 °F, cut_out: 33 °F }
  zones.rail.pans: { count: 12, size: third, depth: 4 in, load_line: 1 in }
  zones.rail.drains: by-hand
  zones.base.shelves: { count: 2, volume: 15 cu ft }
  zones.rail.rest: { least: 5 h, enough: 7 h, pull_down: 55 min }
  zones.rail.rest.clock: { kind: seven-day-clock, where: behind the lower right panel }
`;
  const MARROW = `id: marrow-lane
units: { line-1: pizza-table-60 }
answers:
  name: Marrow Lane Pizza
  timezone: America/Denver
  sheet: tabloid
  hours: Su-Th 11-22; Fr-Sa 11-24
  altitude: 5280 ft
  crew: { comes: 120 min before opening, leaves: 60 min after closing, closers: 2 }
  units.line-1:
    nickname: Pizza line
    position: left of the oven
    serial: VS60-11873
    food_goes_to: { zone: base, free_shelf: 9 sq ft, height: 6 in }
    found: { when: 2026-11-24, who: J. Imai, clock: 'Su-Th 00:30-05:00; Fr-Sa 02:00-05:00' }
`;

  it('becomes a profile and a store at the first try, with facts that are asked nowhere', async () => {
    const made = await equipment(SHEET);
    expect([made.code, made.written]).toEqual([0, 'equipment/pizza-table-60.yaml']);
    expect(made.findings.map((f) => f.code)).not.toContain('fact-without-origin');
    expect(parse(read('equipment/pizza-table-60.yaml'))).toMatchObject({
      condensing: { receiver: false, feed: 'expansion-valve' },
      control: { pressure: { cut_in: '24 psig', reference: 'sealed' } },
      zones: { rail: { drains: 'by-hand', rest: { clock: { kind: 'seven-day-clock', stops: ['rail'] } } } },
    });
    const placed = await store(MARROW);
    expect([placed.code, placed.written], JSON.stringify(placed.findings)).toEqual([0, 'sites/marrow-lane.yaml']);
    expect(placed.findings.map((f) => f.code)).toContain('clock-found-wrong-settings');
    const tried = tryChain({
      'equipment/pizza-table-60.yaml': read('equipment/pizza-table-60.yaml'),
      'sites/marrow-lane.yaml': read('sites/marrow-lane.yaml'),
    });
    expect(tried.stores.get('marrow-lane')?.plan?.units['line-1']?.rest?.off).toBeDefined();
  });

  it.each([
    ['a key that no profile has', '  zones.rail.drain: by-hand\n', 'answer-unknown'],
    ['a word that no profile has', '  condensing.feed: magic\n', 'unknown-value'],
    ['what the program keeps itself', '  origins: []\n', 'answer-unknown'],
  ])('%s is a finding in the last line', async (_, more, code) => {
    const done = await equipment(SHEET + more);
    expect(done.findings.find((f) => f.code === code)).toMatchObject({ severity: 'error', line: 22 });
    expect(done.written).toBeUndefined();
  });
});

describe('what a store needs and what was found', () => {
  const bare = (): void => writeFileSync(join(chain, 'nightrail.yaml'), CHAIN.replace(/ {2}phones: .*\n/, ''));
  const PHONES = '  phones: { service: { name: Test Service, phone: 555-0100 }, emergency: "911" }\n';

  it('tells every phone that is missing in one round, and takes them nested or by their names', async () => {
    bare();
    const before = await store(SITE);
    expect(before.findings.filter((f) => f.code === 'answer-needed').map((f) => f.data['question'])).toEqual([
      'phones.service.name',
      'phones.service.phone',
      'phones.emergency',
    ]);
    expect((await store(SITE + PHONES)).written).toBe('sites/larch.yaml');
    const dotted = `  phones.service.name: Test Service\n  phones.service: { phone: 555-0100 }\n  phones.emergency: "911"\n`;
    expect((await store(SITE + dotted, { replace: true })).code).toBe(0);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({ phones: { service: { phone: '555-0100' }, emergency: '911' } });
    const strange = await store(`${SITE}  phones: { service: { nmae: x } }\n`, { replace: true });
    expect(strange.findings.find((f) => f.code === 'answer-unknown')).toMatchObject({ line: 15, column: 24 });
  });

  it.each([
    ['on one line', "units.line-1.found.clock: '01:15-08:00'", { off: '01:15', on: '08:00' }],
    [
      'by days',
      "units.line-1.found.clock: 'Su-Th 23:30-06:30; fri-sat 1:30am - 8am'",
      {
        settings: [
          { days: 'Su-Th', off: '23:30', on: '06:30' },
          { days: 'fri-sat', off: '1:30am', on: '8am' },
        ],
      },
    ],
    [
      'as the file has it',
      "units: { line-1: { found: { clock: { off: '01:15', on: '08:00' } } } }",
      { off: '01:15', on: '08:00' },
    ],
    [
      'by the names of its facts',
      "units.line-1.found.clock.off: '01:15'\n  units.line-1.found.clock.on: '08:00'",
      { on: '08:00' },
    ],
  ])('keeps how a clock was found, written %s', async (_, wrote, clock) => {
    const who = '  units.line-1.found.who: A. Person\n  units.line-1.found.when: 2026-11-12\n';
    const done = await store(`${SITE}  ${wrote}\n${who}`);
    expect(done.written, JSON.stringify(done.findings)).toBe('sites/larch.yaml');
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: { 'line-1': { found: { clock, who: 'A. Person', when: '2026-11-12' } } },
    });
  });

  it.each([
    ['nobody who found it', "found.clock: '01:15-08:00'", 'answer-needed'],
    ['half a setting', "found.clock: '01:15'", 'found-clock-times'],
    ['no time at all', 'found.clock: never', 'bad-time'],
    ['no such day', "found.clock: 'someday 01:15-08:00'", 'bad-days'],
  ])('%s is a finding with its place', async (_, wrote, code) => {
    const done = await store(`${SITE}  units.line-1.${wrote}\n`);
    expect(done.findings.find((f) => f.code === code)).toMatchObject({ severity: 'error' });
    expect(done.written).toBeUndefined();
  });
});

/** Somebody who answers from a list; a wrong answer is told, and the next one tried. */
const person = (given: Readonly<Record<string, readonly string[]>>) => {
  const wrong: string[] = [];
  const asked: string[] = [];
  const said: string[] = [];
  const next = (ask: string): readonly string[] => {
    asked.push(ask);
    return Object.entries(given).find(([part]) => ask.includes(part))?.[1] ?? [''];
  };
  const prompts: Prompts = {
    line: (ask, _, check) => {
      for (const answer of next(ask)) {
        if (answer === 'BREAK OFF') return Promise.resolve(undefined);
        const says = check(answer);
        if (says === undefined) return Promise.resolve(answer);
        wrong.push(says);
      }
      throw new Error(`no answer to: ${ask} (${wrong.at(-1) ?? ''})`);
    },
    choose: (ask, of, now) => Promise.resolve(next(ask)[0] || (now ?? of[0]?.value)),
    yes: (ask) => Promise.resolve(next(ask)[0] === 'yes'),
    tell: (says) => said.push(says),
  };
  return { prompts, wrong, asked, said };
};

const KNOWS = {
  'most like': ['table'],
  'short name': ['Table 48!', 'table-48'],
  'Who tells': ['A. Person'],
  'How is it known': ['Read'],
  'called on the papers': ['', 'Table 48'],
  'Who made it': ['Test Works'],
  'Plate: model': ['T-48'],
  'Plate: amperes': ['7.2 psi', '7.2'],
  'Plate: charge': ['24', '24 oz'],
  'Split:': ['?'],
};

describe('equipment at a terminal', () => {
  it('tells a wrong answer at once and asks again; Enter keeps what stands there', async () => {
    const { prompts, wrong } = person(KNOWS);
    const { code } = await told(() => newEquipment({ chain, json: true }, prompts));
    expect(code).toBe(0);
    expect(wrong).toHaveLength(4);
    expect(wrong.join('\n')).toMatch(/write it like Prep table 48[\s\S]*number[\s\S]*24 has no unit/);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({
      name: 'Table 48',
      nameplate: { amps: 7.2, volts: 115 },
      not_known: ['condensing.ports', 'condensing.split', 'control.pressure.reference', 'zones.rail.drains'],
    });
  });

  it('lets Enter say that nobody knows, where the similar unit is less safe, and shows what then is written', async () => {
    const hints: Record<string, string> = {};
    const { prompts } = person({ ...KNOWS, 'most like': ['prep-table-72'] });
    const seen: Prompts = {
      ...prompts,
      line: (ask, hint, check) => ((hints[ask] = hint), prompts.line(ask, hint, check)),
      choose: (ask, of, now, none) => {
        hints[ask] = of.find(({ value }) => value === now)?.label ?? '';
        return prompts.choose(ask, of, now, none);
      },
    };
    await told(() => newEquipment({ chain, json: true }, seen));
    const hint = (part: string): string | undefined =>
      Object.entries(hints)
        .find(([ask]) => ask.includes(part))?.[1]
        .replaceAll('\u00a0', ' ');
    expect(hint('without a tool')).toBe('for example no; Enter, or ?, if nobody knows yet: then no is written, the safe side');
    expect(hint('Melt water')).toBe('Enter, or ?, if nobody knows yet: then by-hand is written, the safe side');
    expect(hint('dial count from')).toBe('Enter, or ?, if nobody knows yet');
    expect(Object.keys(hints).filter((ask) => ask.includes('Melt water'))).toEqual([expect.stringMatching(/^rail: /)]);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({
      zones: { rail: { drains: 'by-hand', rest: { clock: { reachable: false } } } },
      not_known: expect.arrayContaining(['control.pressure.reference', 'zones.rail.drains']) as unknown,
    });
  });

  it('asks for what its kind of clock has: the step of any, the polarity of trippers', async () => {
    const shelf = { ...KNOWS, 'Which kind of clock': ['seven-day-clock'], 'between two of its settings': ['7 min', '15 min'] };
    const seven = person(shelf);
    expect((await told(() => newEquipment({ chain, json: true }, seven.prompts))).code).toBe(0);
    expect(seven.wrong.at(-1)).toMatch(/steps of 7/);
    expect(seven.asked.some((ask) => ask.includes('tripper'))).toBe(false);
    const { zones } = parse(read('equipment/table-48.yaml')) as { zones: { rail: { rest: { clock: object } } } };
    expect(zones.rail.rest.clock).toMatchObject({ kind: 'seven-day-clock', step: '15 min' });
    expect(zones.rail.rest.clock).not.toHaveProperty('polarity');
    const hand = person({ ...KNOWS, 'Which kind of clock': ['hand-switch'] });
    await told(() => newEquipment({ chain, json: true, replace: true }, hand.prompts));
    expect(hand.asked.some((ask) => /between two|tripper/.test(ask))).toBe(false);
  });

  it('tells at once what two answers say against each other, also what Enter would take over', async () => {
    const { prompts, wrong } = person({
      ...KNOWS,
      'cut-in as its maker': ['20 psig'],
      'cut-out as its maker': ['', '41 psig', '14 psig'],
      'base: Thermostat: starts': ['30 °F'],
      'base: Thermostat: stops': ['', '29 °F'],
      'Least time off': ['8 h'],
      'surely enough': ['', '9 h'],
    });
    const made = await told(() => newEquipment({ chain, json: true }, prompts));
    expect(made.code, made.out).toBe(0);
    expect(wrong.filter((says) => /is not below the cut-in|enough/.test(says))).toHaveLength(4);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({
      control: { pressure: { cut_in: '20 psig', cut_out: '14 psig' } },
      zones: { base: { control: { cut_in: '30 °F', cut_out: '29 °F' } } },
    });
  });

  const NO_FIGURES = { ...KNOWS, 'surely enough': ['?'], 'Power of': ['?'] };

  it('tries the whole before it writes, and asks again what has an error, with the answers before as default', async () => {
    let times = 0;
    const { prompts, asked } = person({ 'Be asked again': ['yes'], ...NO_FIGURES, 'Least time off': ['5 h 30 min', ''] });
    const second: Prompts = {
      ...prompts,
      line: (ask, hint, check) => {
        const answered = prompts.line(ask, hint, check);
        if (!ask.includes('surely enough') || ++times < 2) return answered;
        expect(hint).toContain('Enter keeps ?');
        return Promise.resolve('7 h');
      },
    };
    const made = await told(() => newEquipment({ chain }, second));
    expect(made.code, made.out).toBe(0);
    const again = asked.findIndex((ask) => ask.includes('Be asked again'));
    expect(asked[again]).toMatch(/enough/);
    expect(asked.slice(again + 1).some((ask) => ask.includes('surely enough'))).toBe(true);
    expect(asked.slice(again + 1).some((ask) => ask.includes('Plate'))).toBe(false);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({
      zones: { rail: { rest: { least: '5 h 30 min', enough: '7 h' } } },
    });
  });

  it('names a circuit by what it serves, where there are two', async () => {
    const two = person({ ...KNOWS, 'most like': ['pizza-table-67'], 'Plate: refrigerant': ['R-290'] });
    await told(() => newEquipment({ chain, json: true }, two.prompts));
    expect(two.asked.flatMap((ask) => /^(.*charge of the circuit)/.exec(ask)?.[1] ?? [])).toEqual([
      'rail: Plate: charge of the circuit',
      'base: Plate: charge of the circuit',
    ]);
    const one = person(KNOWS);
    await told(() => newEquipment({ chain, json: true, replace: true }, one.prompts));
    expect(one.asked.flatMap((ask) => /^(.*charge of the circuit)/.exec(ask)?.[1] ?? [])).toEqual([
      'Plate: charge of the circuit',
    ]);
  });

  it('asks again what would let it compute a figure that nobody knows, and names it in words', async () => {
    const { prompts, asked } = person({ 'Be asked again': ['yes'], ...KNOWS, 'ready for food': ['?'], 'Power of': ['?'] });
    let times = 0;
    const second: Prompts = {
      ...prompts,
      line: (ask, hint, check) => {
        const answered = prompts.line(ask, hint, check);
        return ask.includes('ready for food') && ++times > 1 ? Promise.resolve('60 min') : answered;
      },
      yes: (ask) => (times > 1 ? Promise.resolve(false) : prompts.yes(ask)),
    };
    const made = await told(() => newEquipment({ chain }, second));
    expect(made.code, made.out).toBe(0);
    const again = asked.findIndex((ask) => ask.includes('Be asked again'));
    expect(asked[again]).toContain('"rail: From switching on to ready for food" is missing');
    expect(asked[again]).toContain('"Power of the condensing unit"');
    expect(asked[again]).toContain('"Low-pressure control"');
    expect(asked[again]).not.toMatch(/condensing\.power|control\.pressure|pull_down is missing/);
    const rest = asked.slice(again + 1);
    expect(rest.some((ask) => ask.startsWith('Power of'))).toBe(true);
    expect(rest.some((ask) => ask.includes('Least time off'))).toBe(false);
  });

  it('writes no file beside an error, and keeps the answers', async () => {
    const { prompts } = person(NO_FIGURES);
    const made = await told(() => newEquipment({ chain }, prompts));
    expect(made.code).toBe(1);
    expect(made.out).not.toMatch(/is written\.|Look through|computed/);
    expect(existsSync(join(chain, 'equipment/table-48.yaml'))).toBe(false);
    expect(readFileSync(join(chain, 'table-48.answers.yaml'), 'utf8')).toContain('zones.rail.rest.enough: "?"');
  });

  it('is short for a known kind: some fifty questions, most of them Enter', async () => {
    const { prompts, asked } = person(KNOWS);
    await told(() => newEquipment({ chain, json: true }, prompts));
    expect(asked.length).toBeLessThan(55);
  });

  it('writes nothing when broken off, and not over a file unless told to', async () => {
    const broken = person({ ...KNOWS, 'Plate: model': ['BREAK OFF'] });
    expect((await told(() => newEquipment({ chain, json: true }, broken.prompts))).code).toBe(2);
    expect(existsSync(join(chain, 'equipment/table-48.yaml'))).toBe(false);
    const before = read('equipment/table.yaml');
    const no = person({ ...KNOWS, 'short name': ['table'], 'Write over': ['no'] });
    expect((await told(() => newEquipment({ chain, json: true }, no.prompts))).code).toBe(2);
    expect(read('equipment/table.yaml')).toBe(before);
  });

  it('asks which scales a pressure control has, and marks what was taken over of it', async () => {
    const kept = () =>
      parse(read('equipment/table-48.yaml')) as {
        control: { pressure: { dial: string } };
        origins: { facts: string[]; confirmed?: boolean }[];
      };
    const over = () => kept().origins.find((o) => o.confirmed === false)?.facts ?? [];
    const ends = { 'cut-in as its maker': ['46 psig'], 'cut-out as its maker': ['28 psig'], 'dial count from': ['atmosphere'] };
    const said = person({ ...KNOWS, ...ends, 'which two scales': ['cut-in-and-difference'] });
    await told(() => newEquipment({ chain, json: true }, said.prompts));
    expect(kept().control.pressure.dial).toBe('cut-in-and-difference');
    expect(over().some((fact) => fact.startsWith('control.pressure'))).toBe(false);
    await told(() => newEquipment({ chain, json: true, replace: true }, person({ ...KNOWS, ...ends }).prompts));
    expect(kept().control.pressure.dial).toBe('cut-in-and-cut-out');
    expect(over()).toContain('control.pressure.dial');
  });

  it('takes ? for what its plate does not show, also where the similar unit has a figure', async () => {
    const worn = person({ ...KNOWS, 'Plate: amperes': ['', '?'], 'Plate: volts': ['?'] });
    const made = await told(() => newEquipment({ chain, json: true }, worn.prompts));
    expect(made.code, made.out).toBe(0);
    expect(worn.wrong.some((says) => /amps has no answer/.test(says))).toBe(true);
    const { nameplate, not_known: open } = parse(read('equipment/table-48.yaml')) as { nameplate: object; not_known: string[] };
    expect(nameplate).not.toHaveProperty('amps');
    expect(nameplate).not.toHaveProperty('volts');
    expect(open).toEqual(expect.arrayContaining(['nameplate.amps', 'nameplate.volts']));
  });

  it('takes a fact for confirmed where a person said that it is so here too, and not where Enter was pressed', async () => {
    const { prompts } = person({ ...KNOWS, 'cut-in as its maker': ['='], 'Which way does a tripper': ['out-is-on'] });
    await told(() => newEquipment({ chain, json: true }, prompts));
    const { origins, control } = parse(read('equipment/table-48.yaml')) as {
      origins: { facts: string[]; confirmed?: boolean }[];
      control: { pressure: object };
    };
    expect(control.pressure).toMatchObject({ cut_in: '46 psig', cut_out: '28 psig' });
    const [mine, over] = [origins.find((o) => o.confirmed === undefined), origins.find((o) => o.confirmed === false)];
    expect(mine?.facts).toEqual(expect.arrayContaining(['control.pressure.cut_in', 'zones.rail.rest.clock.polarity']));
    expect(over?.facts).toEqual(expect.arrayContaining(['control.pressure.cut_out', 'zones.rail.rest.clock.kind', 'loading']));
  });

  it('asks once more how the pressures, and how the zones, are known; Enter takes what was said first', async () => {
    const same = person({ ...KNOWS, 'cut-in as its maker': ['44 psig'] });
    await told(() => newEquipment({ chain, json: true }, same.prompts));
    expect(same.asked.filter((ask) => /known\?/.test(ask))).toHaveLength(3);
    const hows = () => (parse(read('equipment/table-48.yaml')) as { origins: { how: unknown }[] }).origins.map((o) => o.how);
    expect(hows()).toEqual(['Read', expect.anything()]);
    const phone = person({ ...KNOWS, 'cut-in as its maker': ['44 psig'], 'pressures and sensor': ['By phone'] });
    await told(() => newEquipment({ chain, json: true, replace: true }, phone.prompts));
    expect(hows()).toEqual(['Read', 'By phone', expect.anything()]);
  });

  it('keeps what was answered when broken off, and goes on from it without asking again', async () => {
    const phone = { 'pressures and sensor': ['By phone'] };
    const broken = person({ ...KNOWS, ...phone, 'cut-in as its maker': ['44 psig'], 'cut-out as its maker': ['BREAK OFF'] });
    const off = await told(() => newEquipment({ chain }, broken.prompts));
    expect(off.code).toBe(2);
    const kept = join(chain, 'table-48.answers.yaml');
    expect(off.out).toContain('table-48.answers.yaml');
    expect(existsSync(join(chain, 'equipment/table-48.yaml'))).toBe(false);
    expect(readdirSync(chain).filter((name) => name.endsWith('.part'))).toEqual([]);

    const again = person({ 'cut-out as its maker': ['BREAK OFF'] });
    expect((await told(() => newEquipment({ chain, goOn: kept }, again.prompts))).code).toBe(2);
    expect(again.asked).toHaveLength(1);

    const rest = person({});
    const done = await told(() => newEquipment({ chain, goOn: kept }, rest.prompts));
    expect(done.code, done.out).toBe(0);
    expect(rest.asked[0]).toMatch(/cut-out/);
    expect(existsSync(kept)).toBe(false);
    // The same as without the break.
    const broke = read('equipment/table-48.yaml');
    const whole = person({ ...KNOWS, ...phone, 'cut-in as its maker': ['44 psig'] });
    await told(() => newEquipment({ chain, json: true, replace: true }, whole.prompts));
    expect(read('equipment/table-48.yaml')).toBe(broke);
  });

  it('keeps the answers behind the question at which it is broken off again, however they are written', async () => {
    const kept = join(chain, 'kept.answers.yaml');
    const nested = `  zones: { rail: { pans: { size: sixth } } }\n  nameplate: { volts: 208, hertz: 60 }\n`;
    writeFileSync(kept, UNIT.replace('  maker.name: Test Works\n', '') + nested);
    const before = parse(readFileSync(kept, 'utf8')) as { answers: object };
    const again = person({ 'Who made it': ['BREAK OFF'] });
    expect((await told(() => newEquipment({ chain, goOn: kept }, again.prompts))).code).toBe(2);
    const { answers } = parse(readFileSync(kept, 'utf8')) as { answers: Record<string, unknown> };
    const { nameplate: _, zones: __, ...dotted } = before.answers as Record<string, unknown>;
    const names = { 'nameplate.volts': 208, 'nameplate.hertz': 60, 'zones.rail.pans.size': 'sixth' };
    expect(answers).toEqual({ ...dotted, ...names, sort: '' });
    const { 'short name': ___, ...rest } = KNOWS;
    expect((await told(() => newEquipment({ chain, goOn: kept }, person(rest).prompts))).code).toBe(0);
    expect(parse(read('equipment/table-48.yaml'))).toMatchObject({ nameplate: { volts: 208, amps: 7.2 } });
  });

  it('keeps every interview that was broken off, and nothing of one whose file has no name yet', async () => {
    const broken = (): Prompts => person({ ...KNOWS, 'Plate: model': ['BREAK OFF'] }).prompts;
    await told(() => newEquipment({ chain }, broken()));
    await told(() => newEquipment({ chain }, broken()));
    const early = person({ ...KNOWS, 'short name': ['BREAK OFF'] });
    const off = await told(() => newEquipment({ chain }, early.prompts));
    expect(off.out).toContain('nothing is written');
    expect(
      readdirSync(chain)
        .filter((name) => name.endsWith('.answers.yaml'))
        .sort(),
    ).toEqual(['table-48-2.answers.yaml', 'table-48.answers.yaml']);
  });

  it.each(['Who tells', 'date was it told', 'How is it known', 'called on the papers'])(
    'keeps the few answers before %s, and goes on from them',
    async (ask) => {
      const broken = person({ ...KNOWS, [ask]: ['BREAK OFF'] });
      expect((await told(() => newEquipment({ chain }, broken.prompts))).code).toBe(2);
      const { 'short name': _, ...rest } = KNOWS;
      const again = person(rest);
      const done = await told(() => newEquipment({ chain, goOn: join(chain, 'table-48.answers.yaml') }, again.prompts));
      expect(done.code, done.out).toBe(0);
      expect(again.asked[0]).toContain(ask);
      expect(parse(read('equipment/table-48.yaml'))).toMatchObject({ name: 'Table 48' });
    },
  );

  it('says when it was told, who told a group that is known another way and when, and refuses a slip for how', async () => {
    const phone = person({
      ...KNOWS,
      'short name': ['Table 48!', 'table-48'],
      'date was it told': ['soon', '11/24/2026'],
      'How is it known': ['nine', 'Read'],
      'Split, superheat': ['By phone'],
      'Who told it': ['B. Oduya'],
      'did you learn': ['2026-11-20'],
      'cut-in as its maker': ['44 psig'],
      'base: Food on': ['37 to 39 °F'],
    });
    const hints: string[] = [];
    const line: Prompts['line'] = (ask, hint, ...more) => {
      if (/are they known/.test(ask)) hints.push(hint);
      return phone.prompts.line(ask, hint, ...more);
    };
    const made = await told(() => newEquipment({ chain, json: true }, { ...phone.prompts, line }));
    expect(made.code, made.out).toBe(0);
    expect(hints).toEqual([
      'Enter, as before: Read (A. Person, 2026-11-24)',
      'Enter, as before: By phone (B. Oduya, 2026-11-20)',
    ]);
    expect(phone.wrong.slice(0, 3)).toEqual([
      expect.stringContaining('write table-48'),
      expect.stringContaining('or today'),
      expect.stringContaining('in a few words'),
    ]);
    const { origins } = parse(read('equipment/table-48.yaml')) as { origins: { facts: string[]; who: string }[] };
    expect(origins[0]).toMatchObject({ who: 'A. Person', when: '2026-11-24', how: 'Read' });
    // Enter at the next group takes what was said last.
    expect(origins[1]).toMatchObject({
      who: 'B. Oduya',
      when: '2026-11-20',
      how: 'By phone',
      facts: ['control.pressure.cut_in', 'zones.base.aim'],
    });
  });

  it('lists similar units with what tells them apart, and shows what Enter took over', async () => {
    let labels: readonly string[] = [];
    const shown: (string | undefined)[] = [];
    const { prompts } = person(KNOWS);
    const seen: Prompts = {
      ...prompts,
      choose: (ask, of, now, none) => {
        if (ask.includes('most like')) labels = of.map(({ label }) => label);
        return prompts.choose(ask, of, now, none);
      },
      line: (ask, hint, check, enter) => {
        if (/volts|without a tool/.test(ask)) shown.push(enter);
        return prompts.line(ask, hint, check);
      },
    };
    await told(() => newEquipment({ chain, json: true }, seen));
    expect(labels).toContain(
      'prep-table-72: a thermostat and a solenoid for each zone, static cold rail, R-448A, seven-day clock',
    );
    expect(shown).toEqual(['115 (taken over)', 'no (taken over)']);
  });

  it('asks an answer again that no longer holds, and refuses a kept name that is none', async () => {
    const kept = join(chain, 'kept.answers.yaml');
    writeFileSync(kept, UNIT.replace('7.2', 'seven'));
    const once = person({ ...KNOWS, 'Plate: amperes': ['7.5'] });
    expect((await told(() => newEquipment({ chain, goOn: kept }, once.prompts))).code).toBe(0);
    expect(once.asked).toContain('Plate: amperes');
    expect(once.asked).not.toContain('Plate: model');
    expect(read('equipment/table-48.yaml')).toContain('amps: 7.5');
    writeFileSync(kept, UNIT.replace('nameplate.amps', 'nameplate.ampz'));
    const wrong = await told(() => newEquipment({ chain, goOn: kept, replace: true }, person({}).prompts));
    expect(wrong.code).toBe(1);
    expect(wrong.out).toContain('nameplate.ampz');
  });

  it('is not begun where nobody can be asked', async () => {
    const done = await told(() => newEquipment({ chain }));
    expect(done.code).toBe(2);
    expect(done.out).toContain('--answers');
  });
});

describe('a store at a terminal', () => {
  const LARCH = {
    'short name for its file': ['larch'],
    'Which units': ['line-1 table'],
    'called on the papers': ['Larch Street'],
    'time zone': ['America/Chicago'],
    'Opening hours': ['Mo-Su 07:00-22:00'],
    'people call it': ['Line 1'],
    'Where does it stand': ['by the door'],
    'goes to which zone': ['base'],
    'How much shelf': ['6 sq ft'],
    'How high is the room': ['6 in'],
  };

  it('asks once for the clock as it was found, and who found it only where somebody looked', async () => {
    const skipped = person(LARCH);
    expect((await told(() => newStore({ chain, json: true }, skipped.prompts))).code).toBe(0);
    expect(skipped.asked.filter((ask) => /found|Found/.test(ask))).toEqual([
      expect.stringMatching(/clock set/),
      expect.stringMatching(/otherwise/),
    ]);
    expect(skipped.asked.length).toBeLessThanOrEqual(30);
    expect(read('sites/larch.yaml')).not.toMatch(/found|heat/);
    const looked = person({
      ...LARCH,
      'clock set': ['soon', '01:15-08:00'],
      'behind the true time': ['40 min'],
      'what date': ['2026-11-12'],
      'Who found': ['', 'A. P.'],
    });
    expect((await told(() => newStore({ chain, json: true, replace: true }, looked.prompts))).code).toBe(0);
    expect(looked.wrong).toHaveLength(2);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: {
        'line-1': { found: { clock: { off: '01:15', on: '08:00', slow: '40 min' }, when: '2026-11-12', who: 'A. P.' } },
      },
    });
    expect(skipped.asked.filter((ask) => ask.includes('the true time'))).toEqual([]);
  });

  it('keeps what a clock showed beside how it was set, and asks on from both', async () => {
    const clock = { 'clock set': ['01:15-08:00'], 'behind the true time': ['40 min'] };
    const broken = person({ ...LARCH, ...clock, 'what date': ['BREAK OFF'] });
    await told(() => newStore({ chain }, broken.prompts));
    const rest = person({ 'what date': ['2026-11-12'], 'Who found': ['A. P.'] });
    const done = await told(() => newStore({ chain, goOn: join(chain, 'larch.answers.yaml') }, rest.prompts));
    expect(done.code, done.out).toBe(0);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: { 'line-1': { found: { clock: { off: '01:15', on: '08:00', slow: '40 min' } } } },
    });
  });

  it('offers ? only where it is taken, and asks for quiet hours only where a store never closes', async () => {
    const hints: Record<string, string> = {};
    const at = async (hours: string) => {
      const { prompts, asked } = person({ ...LARCH, 'Opening hours': [hours], 'When may a rail': ['02:00-05:00'] });
      const line: Prompts['line'] = (ask, hint, check) => {
        hints[ask] = hint;
        expect(hint.includes('nobody knows'), ask).toBe(check('?') === undefined);
        return prompts.line(ask, hint, check);
      };
      await told(() => newStore({ chain, json: true, replace: true }, { ...prompts, line }));
      return asked.some((ask) => ask.includes('When may a rail'));
    };
    expect(await at('Mo-Su 07:00-22:00')).toBe(false);
    expect(await at('24/7')).toBe(true);
    expect(Object.keys(hints).some((ask) => ask.includes('How much shelf'))).toBe(true);
    expect(Object.keys(hints)).toContain('By when are all pans in?');
  });

  it('asks dial by dial only where something was found otherwise, and takes one end alone', async () => {
    const person_ = person({
      ...LARCH,
      'found set otherwise': ['yes'],
      'as it was found: cut-in': ['40 psig'],
      'base: Thermostat as it was found: stops': ['29 °F'],
      'what date': ['2026-11-12'],
      'Who found': ['A. P.'],
    });
    const made = await told(() => newStore({ chain, json: true, replace: true }, person_.prompts));
    expect(made.code, made.out).toBe(0);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: { 'line-1': { found: { pressure: { cut_in: '40 psig' }, control: { base: { cut_out: '29 °F' } } } } },
    });
    expect(made.out).toMatch(/control-found-different-in/);
    expect(made.out).toMatch(/control-found-off-out/);
  });

  it('holds the usual kitchen against the hottest one at once, and writes nothing where the food has no room', async () => {
    const warm = person({
      ...LARCH,
      'hottest day': ['80 °F'],
      'usual day': ['85 °F', '79 °F'],
      'How much shelf': ['1 sq ft'],
    });
    const none = await told(() => newStore({ chain }, warm.prompts));
    expect(warm.wrong).toHaveLength(1);
    expect(none.code).toBe(1);
    expect(warm.asked.at(-1)).toMatch(/Be asked again/);
    expect(existsSync(join(chain, 'sites/larch.yaml'))).toBe(false);
    expect(existsSync(join(chain, 'larch.answers.yaml'))).toBe(true);
  });

  it('asks on where something was found otherwise before, without asking whether', async () => {
    const found = { 'found set otherwise': ['yes'], 'as it was found: cut-out': ['8 psig'] };
    const broken = person({ ...LARCH, ...found, 'base: Thermostat as it was found: starts': ['BREAK OFF'] });
    expect((await told(() => newStore({ chain }, broken.prompts))).code).toBe(2);
    const rest = person({ 'What else': ['cover missing'], 'what date': ['2026-11-12'], 'Who found': ['A. P.'] });
    const done = await told(() => newStore({ chain, goOn: join(chain, 'larch.answers.yaml') }, rest.prompts));
    expect(done.code, done.out).toBe(0);
    expect(rest.asked.filter((ask) => ask.includes('otherwise'))).toEqual([]);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: { 'line-1': { found: { pressure: { cut_out: '8 psig' }, notes: 'cover missing' } } },
    });
    expect(existsSync(join(chain, 'larch.answers.yaml'))).toBe(false);
  });

  it('keeps what was answered when broken off, and goes on from it', async () => {
    const broken = person({ ...LARCH, 'How much shelf': ['BREAK OFF'] });
    expect((await told(() => newStore({ chain }, broken.prompts))).code).toBe(2);
    expect(existsSync(join(chain, 'sites/larch.yaml'))).toBe(false);
    const rest = person({ 'How much shelf': ['6 sq ft'], 'How high is the room': ['6 in'] });
    const done = await told(() => newStore({ chain, goOn: join(chain, 'larch.answers.yaml') }, rest.prompts));
    expect(done.code, done.out).toBe(0);
    expect(rest.asked[0]).toMatch(/How much shelf/);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({ name: 'Larch Street', units: { 'line-1': { nickname: 'Line 1' } } });
  });

  it('keeps the answers behind the question at which it is broken off again', async () => {
    const clock = { 'clock set': ['01:15-08:00'], 'behind the true time': ['40 min'] };
    const file = join(chain, 'larch.answers.yaml');
    await told(() => newStore({ chain }, person({ ...LARCH, ...clock, 'what date': ['BREAK OFF'] }).prompts));
    const before = readFileSync(file, 'utf8');
    writeFileSync(file, before.replace(/^ *timezone: .*\n/m, ''));
    await told(() => newStore({ chain, goOn: file }, person({ 'time zone': ['BREAK OFF'] }).prompts));
    const answersOf = (text: string): unknown => (parse(text) as { answers: unknown }).answers;
    expect({ ...(answersOf(readFileSync(file, 'utf8')) as object), timezone: 'America/Chicago' }).toEqual(answersOf(before));
  });

  it.each([
    [
      'closed monday, tue-thu 11am-9:30pm, fri and sat 11am-1am, sun noon-8pm',
      'Read as: Tue–Thu 11:00–21:30; Fri, Sat 11:00–01:00; Sun 12:00–20:00; closed Mon',
    ],
    ['Mo-Fr 10:00-20:00', 'Read as: Mon–Fri 10:00–20:00; closed Sat, Sun'],
    ['daily 7am-10pm', 'Read as: Mon–Sun 07:00–22:00'],
    ['open 24 hours', 'Read as: day and night, all week'],
    ['mon-sun 7am-10pm; dec 25 closed', 'Read as: 07:00-22:00; Dec 25 off'],
    ['Mo-Fr 10:00-20:00; Sa-Su off', undefined],
    ['Mo-Su 07:00-22:00', undefined],
  ])('says at once how it read %s', async (wrote, says) => {
    const { prompts, said } = person({ ...LARCH, 'Opening hours': [wrote], 'first person': ['BREAK OFF'] });
    await told(() => newStore({ chain }, prompts));
    expect(said).toEqual(says === undefined ? [] : [says]);
  });

  it('lets an answer that is asked again be taken back', async () => {
    const offered: (readonly string[])[] = [];
    let shelf = 0;
    const { prompts } = person({ ...LARCH, 'Which units': ['line-1 table, line-2 table'], 'Be asked again': ['yes'] });
    const choose: Prompts['choose'] = (ask, of, now, none) => {
      if (!/^line-1: .*other unit/.test(ask)) return prompts.choose(ask, of, now, none);
      offered.push(of.map(({ value }) => value));
      return Promise.resolve(offered.length === 1 ? 'line-2' : '-');
    };
    const line: Prompts['line'] = (ask, hint, check) =>
      /^line-1: How much shelf/.test(ask)
        ? Promise.resolve(shelf++ === 0 ? '1 sq ft' : '6 sq ft')
        : prompts.line(ask, hint, check);
    const made = await told(() => newStore({ chain }, { ...prompts, choose, line }));
    expect(made.code, made.out).toBe(0);
    expect(offered.map((of) => of.includes('-'))).toEqual([false, true]);
    const { units } = parse(read('sites/larch.yaml')) as { units: { 'line-1': { food_goes_to: object } } };
    expect(units['line-1'].food_goes_to).toEqual({ zone: 'base', free_shelf: '6 sq ft', height: '6 in' });
  });

  it('asks whether the melt water drains where the profile does not know, and again where no night is long enough to wipe it', async () => {
    writeFileSync(join(chain, 'equipment/table.yaml'), TABLE.replace(/\n.*drains: by-itself/, ''));
    const wipes = person({ ...LARCH, 'Be asked again': ['yes'] });
    let times = 0;
    const choose: Prompts['choose'] = (ask, of, now, none) => {
      const answered = wipes.prompts.choose(ask, of, now, none);
      return ask.includes('Melt water') && ++times > 1 ? Promise.resolve('by-itself') : answered;
    };
    const yes: Prompts['yes'] = (ask) => (times > 1 ? Promise.resolve(false) : wipes.prompts.yes(ask));
    const made = await told(() => newStore({ chain }, { ...wipes.prompts, choose, yes }));
    expect(made.code, made.out).toBe(0);
    expect(wipes.asked.find((ask) => ask.includes('Be asked again'))).toContain('look whether its melt water drains by itself');
    expect(times).toBe(2);
    expect(parse(read('sites/larch.yaml'))).toMatchObject({
      units: { 'line-1': { differs: { zones: { rail: { drains: 'by-itself' } } } } },
    });
  });

  it('offers for the food of a rail only a unit and a zone that may take it', async () => {
    const of = async (units: string, goesTo: string) => {
      const offered: Record<string, readonly string[]> = {};
      const { prompts } = person({ ...LARCH, 'Which units': [units], 'line-1: At night the rail': [goesTo] });
      const choose: Prompts['choose'] = (ask, choices, now, none) => {
        offered[ask] = choices.map(({ value }) => value).filter((value) => value !== '' && value !== '?');
        return prompts.choose(ask, choices, now, none);
      };
      await told(() => newStore({ chain, replace: true }, { ...prompts, choose }));
      return Object.entries(offered).filter(([ask]) => /^line-1: At night/.test(ask));
    };
    // In its own bottom no unit is named; a rail takes no food of another.
    expect(await of('line-1 table', 'base')).toEqual([[expect.stringMatching(/which zone/), ['base']]]);
    expect(await of('line-1 table, line-2 table', '')).toEqual([
      [expect.stringMatching(/other unit/), ['line-2']],
      [expect.stringMatching(/which zone/), ['base']],
    ]);
  });

  it('asks each unit what its kind needs, and leaves to the chain what nobody says', async () => {
    const { prompts, wrong } = person({
      'short name for its file': ['larch'],
      'Which units': ['line-1', 'line-1 tabel', 'line-1 table'],
      'called on the papers': ['Larch Street'],
      'time zone': ['America/Chicago'],
      'Opening hours': ['always', 'Mo-Su 07:00-22:00'],
      'people call it': ['Line 1'],
      'Where does it stand': ['by the door'],
      serial: ['X1'],
      'How long before closing': ['0 min'],
      'goes to which zone': ['base'],
      'How much shelf': ['6', '6 sq ft'],
      'How high is the room': ['6 in'],
      'nearest the heat': [''],
    });
    const { code, out } = await told(() => newStore({ chain }, prompts));
    expect(code, wrong.join('\n')).toBe(0);
    expect(wrong.length).toBe(4);
    const made = parse(read('sites/larch.yaml')) as { readonly crew: unknown };
    expect(Object.keys(made)).toEqual(['name', 'timezone', 'hours', 'crew', 'units']);
    expect(made.crew).toEqual({ start_before_closing: '0 min' });
    // The chain has no schemas yet, of which the file's first line speaks.
    expect(out).toMatch(/schema --write$/m);
  });
});

describe('the prompts themselves', () => {
  const typed = (keys: readonly string[]) => {
    const input = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => input });
    const output = Object.assign(new PassThrough(), { isTTY: true, columns: 80, rows: 24 });
    let shown = '';
    output.on('data', (chunk: Buffer) => (shown += chunk.toString()));
    void (async () => {
      for (const key of keys) {
        await new Promise((resolve) => setTimeout(resolve, 30));
        input.write(key);
      }
    })();
    return { prompts: makePrompts({ input, output }), shown: () => shown };
  };

  it('say what is wrong, and take the line when it is right', async () => {
    const { prompts, shown } = typed(['4', '\r', ' ', 'o', 'z', '\r']);
    expect(await prompts.line('Charge', 'like 24 oz', (given) => (given.includes('oz') ? undefined : 'has no unit'))).toBe(
      '4 oz',
    );
    expect(shown()).toContain('has no unit');
    expect(shown()).toContain('like 24 oz');
  });

  it('show what Enter stands for, and give nothing for it', async () => {
    const { prompts, shown } = typed(['\r']);
    expect(await prompts.line('Volts', 'like 115', () => undefined, '115 (taken over)')).toBe('');
    expect(shown()).toContain('115 (taken over)');
  });

  it('say a line between two questions', () => {
    const { prompts, shown } = typed([]);
    prompts.tell('Read as: Mon–Sun 07:00–22:00');
    expect(shown()).toContain('Read as: Mon–Sun 07:00–22:00');
  });

  it('take yes by Enter alone: a letter answers nothing, and leaves no Enter for the question after it', async () => {
    expect(await typed(['y', '\r']).prompts.yes('Found otherwise?')).toBe(false);
    expect(await typed(['\u001b[B', '\r']).prompts.yes('Found otherwise?')).toBe(true);
  });

  it('give nothing when broken off', async () => {
    expect(await typed(['\u0003']).prompts.line('Charge', '', () => undefined)).toBeUndefined();
  });

  it('begin a choice at what stands there', async () => {
    const of = ['a', 'b', 'c'].map((value) => ({ value, label: value }));
    expect(await typed(['\r']).prompts.choose('Which', of, 'b', 'none')).toBe('b');
    expect(await typed(['\u001b[B', '\r']).prompts.choose('Which', of, 'b', 'none')).toBe('c');
  });

  it('take the choice that is typed whole before one that begins with it, and that before one that holds it', async () => {
    const of = (...values: string[]) => [
      { value: '', label: 'Enter takes seven-day-clock over, as two-third and third, unconfirmed' },
      ...values.map((value) => ({ value, label: value })),
      { value: '?', label: '? if nobody knows yet: then by-hand is written' },
    ];
    const choose = (text: string, ...values: string[]) =>
      typed([...text, '\r']).prompts.choose('Which', of(...values), '', 'none');
    expect(await choose('third', 'two-third', 'third-long', 'third')).toBe('third');
    expect(await choose('third-', 'two-third', 'third-long', 'third')).toBe('third-long');
    expect(await choose('two', 'third', 'two-third')).toBe('two-third');
    expect(await choose('Seven', 'daily-dial', 'seven-day-clock')).toBe('seven-day-clock');
    expect(await choose('hand', 'by-itself', 'by-hand')).toBe('by-hand');
    expect(await choose('?', 'by-itself', 'by-hand')).toBe('?');
    expect(await choose('', 'daily-dial', 'seven-day-clock')).toBe('');
  });

  it('take a choice by what is typed, and never another one', async () => {
    const gases = ['R-448A', 'R-290', 'R-404A'].map((value) => ({ value, label: value }));
    expect(await typed(['R', '-', '2', '9', '0', '\r']).prompts.choose('Gas', gases, undefined, 'none')).toBe('R-290');
    const { prompts, shown } = typed(['j', '\r', '\u007f', '4', '0', '\r']);
    expect(await prompts.choose('Gas', gases, undefined, 'None of these')).toBe('R-404A');
    expect(shown()).toContain('None of these');
  });
});
