/**
 * `nightrail pass-on`: a profile out as one file and in again; differences with who said so; a file that was changed is refused; nothing of ours changes unasked.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { passOn, type PassOnOptions } from '../../src/commands/pass-on.js';
import { seal } from '../../src/commands/pass-on/sealed.js';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { told } from './told.js';

const work = mkdtempSync(join(tmpdir(), 'nightrail-pass-on-'));
let chain: string;
let file: string;
let count = 0;

const ORIGINS = `origins:
  - { facts: [zones.rail.rest], who: A. Person, when: 2026-09-14, how: gauges }
`;
const OURS = `# Our own words.\n${TABLE}${ORIGINS}`;

const put = (path: string, text: string): void => {
  mkdirSync(join(chain, path, '..'), { recursive: true });
  writeFileSync(join(chain, path), text);
};

beforeEach(() => {
  chain = join(work, String(count++));
  file = join(chain, 'table.nightrail.yaml');
  put('nightrail.yaml', CHAIN);
  put('equipment/table.yaml', OURS);
  put('sites/street.yaml', STORE.replace('name: Test Street', 'name: Secret Street').replace('serial: X1', 'serial: SECRET-1'));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

const run = (profile: string | undefined, options: PassOnOptions) =>
  told(() => Promise.resolve(passOn(profile, { chain, json: true, ...options })));
const give = (profile = 'table') => run(profile, { out: file });
const take = (more: PassOnOptions = {}) => run(undefined, { take: file, ...more });
const ours = (): string => readFileSync(join(chain, 'equipment/table.yaml'), 'utf8');

describe('a profile passed on', () => {
  it('is one file with its origins, and with nothing of a store and no comment', async () => {
    expect((await give()).written).toBe(file);
    const text = readFileSync(file, 'utf8');
    expect(text).toMatch(/^# nightrail pass-on 1\n# content sha256 [0-9a-f]{64}\nid: table\nfrom: Test Kitchens\n/);
    expect(text).toContain('who: A. Person');
    expect(text).not.toMatch(/secret|Our own words/i);
    const before = ours();
    expect((await take()).code).toBe(0);
    expect(ours()).toBe(before);
  });

  it('is not given with a mistake in it, not over a file that is there, and not by a wrong name', async () => {
    expect((await give('tabel')).findings[0]).toMatchObject({ code: 'no-profile', data: { nearest: 'table' } });
    put('equipment/table.yaml', OURS.replace('cut_out: 28 psig', 'cut_out: 58 psig'));
    expect((await give()).findings.map((f) => f.code)).toContain('cut-out-over-cut-in');
    expect(existsSync(file)).toBe(false);
    put('equipment/table.yaml', OURS);
    await give();
    expect((await give()).findings.map((f) => f.code)).toContain('file-exists');
  });
});

describe('a profile taken in', () => {
  beforeEach(async () => {
    await give();
    put(
      'equipment/table.yaml',
      OURS.replace('enough: 7 h', 'enough: 6 h # theirs is longer').replace('least: 5 h', 'least: 300 min'),
    );
  });

  it('differs fact by fact, with who said so and when; the same in other words is no difference', async () => {
    const before = ours();
    const done = await take();
    expect(done.code).toBe(0);
    expect(done.differences).toEqual([
      {
        fact: 'zones.rail.rest.enough',
        path: ['zones', 'rail', 'rest', 'enough'],
        ours: '6 h',
        theirs: '7 h',
        ourOrigin: { who: 'A. Person', when: '2026-09-14', how: 'gauges' },
        theirOrigin: { who: 'A. Person', when: '2026-09-14', how: 'gauges' },
      },
    ]);
    expect(ours()).toBe(before);
  });

  it('changes in ours the facts that somebody names, and says who told them; the rest stays letter by letter', async () => {
    const before = ours();
    expect((await take({ accept: ['zones.rail.rest.enough'] })).code).toBe(0);
    const after = ours();
    expect(after).toContain('# Our own words.');
    expect(after).toContain('enough: 7 h # theirs is longer');
    expect(after.replace('enough: 7 h', 'enough: 6 h').startsWith(before)).toBe(true);
    expect(after.slice(before.length)).toMatch(/zones\.rail\.rest\.enough[\s\S]*who: A\. Person/);
  });

  it('tells a fact that does not differ', async () => {
    const done = await take({ accept: ['zones.rail.rest.enuogh'] });
    expect(done.code).toBe(1);
    expect(done.findings.find((f) => f.code === 'no-such-difference')?.data).toMatchObject({
      nearest: 'zones.rail.rest.enough',
    });
  });

  it('is compared with nothing while ours has a mistake', async () => {
    put('equipment/table.yaml', OURS.replace('enough: 7 h', 'enough: 7'));
    const done = await take({ accept: ['all'] });
    expect(done.code).toBe(1);
    expect(done.differences).toBeUndefined();
    expect(done.findings.map((f) => f.code)).toContain('wrong-type');
  });

  it('is a new file where we had none', async () => {
    rmSync(join(chain, 'equipment/table.yaml'));
    rmSync(join(chain, 'sites/street.yaml'));
    expect((await take()).written).toBe('equipment/table.yaml');
    expect(ours()).toMatch(/^# yaml-language-server: \$schema=\.\.\/schema\/equipment\.json\n# Passed on by Test Kitchens\.\n/);
  });

  it('may have been through the mail', async () => {
    writeFileSync(file, `\ufeff${readFileSync(file, 'utf8').replaceAll('\n', '  \r\n')}\r\n\r\n`);
    expect((await take()).differences).toHaveLength(1);
  });
});

describe('a file that is refused', () => {
  beforeEach(() => give());
  const altered = (from: string, to: string): void => writeFileSync(file, readFileSync(file, 'utf8').replace(from, to));

  it.each([
    ['altered by hand', () => altered('46 psig', '56 psig'), 'pass-on-altered', 2],
    [
      'with another sum',
      () => altered(/[0-9a-f]{64}/.exec(readFileSync(file, 'utf8'))?.[0] ?? '', '0'.repeat(64)),
      'pass-on-altered',
      2,
    ],
    ['without its head', () => altered('# nightrail pass-on 1\n', ''), 'pass-on-no-head', 1],
    ['of a later form', () => altered('pass-on 1', 'pass-on 2'), 'pass-on-form', 1],
    ['cut short', () => writeFileSync(file, readFileSync(file, 'utf8').slice(0, -40)), 'pass-on-altered', 2],
    ['sealed, but no profile', () => writeFileSync(file, seal('id: table\nfrom: X\nprofile: { name: 1 }\n')), 'missing-key', 5],
    ['sealed, with a path for an id', () => writeFileSync(file, seal('id: ../x\nfrom: X\nprofile: {}\n')), 'bad-id', 3],
    ['that is not there', () => rmSync(file), 'no-pass-on-file', undefined],
  ] as const)('%s', async (_, spoil, code, line) => {
    spoil();
    const before = ours();
    const done = await take({ accept: ['all'] });
    expect(done.code).toBe(1);
    expect(done.findings.find((f) => f.code === code)).toMatchObject({
      severity: 'error',
      ...(line === undefined ? {} : { line }),
    });
    expect(ours()).toBe(before);
  });
});
