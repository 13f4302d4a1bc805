/**
 * A spreadsheet as people save it, taken over: how it is understood before anything is built, a copy that can be built, and a copy that somebody mended.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeStores } from '../fleet/small-build.js';

/** As a spreadsheet program saves it: a byte order mark, semicolons, line ends of Windows, names of its own. */
const SHEET = [
  '\ufeffid;Store name;timezone;hours;unit;unit.profile;unit.nickname;unit.position;unit.serial',
  'elm;Elm;America/Chicago;mon-sun 7am-10pm;line-1;table;Line 1;by the door;X1',
  'fir;Fir;America/Chicago;mo-su 7-22;line-1;table;Line 1;by the door;X2',
  '',
].join('\r\n');

interface Told {
  readonly stores: number;
  readonly columns: readonly { readonly column: string; readonly key?: string }[];
  readonly hours: readonly { readonly wrote: string; readonly read?: string; readonly fault?: string }[];
  readonly assumed: readonly { readonly key: string; readonly value: string; readonly stores: number }[];
  readonly findings: readonly {
    readonly code: string;
    readonly file?: string;
    readonly line?: number;
    readonly cell?: string;
    readonly data: Readonly<Record<string, unknown>>;
  }[];
}

describe('adopt', () => {
  let work: string;
  const path = (...parts: readonly string[]): string => join(work, 'chain', ...parts);
  const copy = (): string => readFileSync(path('sites/stores.csv'), 'utf8');
  const adopt = (...args: readonly string[]) => {
    const given = [resolve('dist/cli.js'), 'adopt', join(work, 'stores.csv'), '--json', ...args];
    const { stdout, status } = spawnSync(process.execPath, given, { cwd: path(), encoding: 'utf8' });
    return { ...(JSON.parse(stdout) as Told), status };
  };
  const codes = ({ findings }: Told): readonly string[] => findings.map((f) => f.code);

  beforeEach(() => {
    work = mkdtempSync(join(tmpdir(), 'nightrail-adopt-'));
    for (const [doc, bytes] of threeStores()) {
      if (!/^(nightrail|equipment\/table\.yaml)/.test(doc)) continue;
      mkdirSync(dirname(path(doc)), { recursive: true });
      writeFileSync(path(doc), bytes);
    }
    writeFileSync(join(work, 'stores.csv'), SHEET);
  });
  afterEach(() => rmSync(work, { recursive: true, force: true }));

  it('tells how columns and hours are understood, and writes nothing', () => {
    const told = adopt();
    expect(told.stores).toBe(2);
    expect(told.columns.slice(0, 2)).toMatchObject([
      { column: 'id', key: 'id' },
      { column: 'Store name', key: 'name' },
    ]);
    expect(told.hours[0]).toMatchObject({ wrote: 'mon-sun 7am-10pm', read: '07:00-22:00' });
    expect(existsSync(path('sites'))).toBe(false);
  }, 60_000);

  it('writes a copy that needs no renaming, and the same again over itself', () => {
    adopt('--write');
    expect(copy().split('\n')[0]).toContain('id;name;timezone');
    const first = copy();
    expect(codes(adopt('--write'))).not.toContain('copy-differs');
    expect(copy()).toBe(first);
  }, 60_000);

  it('tells in one round what is missing, once a column, and counts empty cells', () => {
    const saved = SHEET.replace(';unit.nickname;unit.position;unit.serial', ';Notes').replace(';hours;', ';Hours;');
    writeFileSync(
      join(work, 'stores.csv'),
      saved
        .replace(/;Line 1;by the door;X1/, ';lease ends')
        .replace(/mo-su 7-22;line-1;table;Line 1;by the door;X2/, ';line-1;Table'),
    );
    const told = adopt();
    expect(told.columns.find(({ column }) => column === 'Notes')?.key).toBeUndefined();
    expect(told.findings.filter((f) => f.code === 'csv-columns-missing').map((f) => f.data)).toEqual([
      {
        columns: ['unit.nickname', 'unit.position', 'unit.food_goes_to.zone'],
      },
    ]);
    expect(told.findings.filter((f) => f.code === 'csv-blanks').map((f) => [f.line, f.cell, f.data])).toEqual([
      [3, 'hours', { column: 'hours', without: 1, of: 2 }],
    ]);
  }, 60_000);

  it('tells what check would say of ids, languages and profiles, though the sheet lacks columns, and what it leaves out', () => {
    const rows = [
      'Store #,Store name,State,City,Time zone,Mon-Thu,Fri/Sat,Sunday,Hours (all),Equipment,Lang,Remarks,Altitude',
      'S1,Elm,OH,Dayton,America/New_York,11am-10pm,11am-11pm,closed,,Table,en,opens May,',
      'S2,Fir,OH,Dayton,America/New_York,,,,daily 10-9,table / cabinet,de,shut till 12/15,800 ft',
      'TOTAL,2,,,,,,,,,,,',
      's3,Ash,NV,Reno,America/Denver,11am-10pm,11am-11pm (summer later),closed,,tables sixty,English,shut till 12/15,',
    ];
    const chain = readFileSync(path('equipment/table.yaml'));
    writeFileSync(path('equipment/cabinet.yaml'), chain);
    writeFileSync(join(work, 'stores.csv'), rows.join('\n'));
    const told = adopt();
    expect(told.columns.map(({ key }) => key)).toEqual([
      ...['id', 'name', 'region', undefined, 'timezone', 'hours.mon-thu', 'hours.fri-sat', 'hours.sun', 'hours'],
      ...['unit.profile', 'languages', undefined, 'altitude'],
    ]);
    expect(told.columns[11]).toMatchObject({ example: '3 cells: opens May | shut till 12/15' });
    expect(told.hours.map(({ wrote, read }) => [wrote, read])).toEqual([
      ['Mo-Th 11am-10pm; Fr-Sa 11am-11pm; Su closed', 'Mo-Th 11:00-22:00; Fr-Sa 11:00-23:00; Su off'],
      ['daily 10-9', undefined],
      ['Mo-Th 11am-10pm; Fr-Sa 11am-11pm (summer later); Su closed', undefined],
    ]);
    const findings = told.findings.filter((f) => f.line !== 1).map((f) => [f.code, f.line, f.cell, f.data['names']]);
    expect(findings).toEqual([
      ['csv-total-row', 4, '', undefined],
      ['bad-id', 2, 'id', undefined],
      ['bad-id', 2, 'unit.profile', undefined],
      ['bad-id', 3, 'id', undefined],
      ['profiles-in-one', 3, 'unit.profile', ['table', 'cabinet']],
      ['no-language', 3, 'languages', ['en', 'es', 'fr']],
      ['bad-value', 5, 'languages', undefined],
      // Never an id that would then fail.
      ['no-profile', 5, 'unit.profile', ['table', 'cabinet']],
    ]);
    expect(told.assumed).toEqual([
      { key: 'altitude', value: '0 ft', stores: 2 },
      { key: 'crew.comes', value: '60 min before opening', stores: 3 },
      { key: 'crew.leaves', value: '45 min after closing', stores: 3 },
      { key: 'crew.first_pan', value: '15 min before opening', stores: 3 },
      { key: 'crew.start_before_closing', value: '30 min', stores: 3 },
      { key: 'crew.closers', value: '1', stores: 3 },
    ]);
    adopt('--write');
    const { stdout } = spawnSync(process.execPath, [resolve('dist/cli.js'), 'check'], { cwd: path(), encoding: 'utf8' });
    // Ids that are none are one matter, of which no single one is to be written in all.
    expect(stdout).toMatch(/^error bad-id .*\n.*row 2, column id\n {2}and the same in row 3\n {2}hint: use small letters/m);
  }, 60_000);

  it('says of a sheet with a title above its head that alone', () => {
    writeFileSync(join(work, 'stores.csv'), `Stores;confidential\n${SHEET.slice(1)}`);
    expect(codes(adopt()).filter((code) => code !== 'csv-unknown-column')).toEqual(['csv-head-below']);
  }, 60_000);

  it('tells nothing of the copy that it writes anew, and names the file that is to be mended', () => {
    mkdirSync(path('sites'), { recursive: true });
    writeFileSync(path('sites/stores.csv'), SHEET.replace('elm;', ';').replace('fir;Fir;America/Chicago', 'fir;Fir;Nowhere'));
    writeFileSync(join(work, 'stores.csv'), SHEET.replace('fir;', 'elm;'));
    const doc = (told: Told) => told.findings.filter((f) => f.code.startsWith('csv-')).map((f) => [f.code, f.file]);
    const before = adopt();
    expect(codes(before)).not.toContain('csv-row-without-id');
    expect(doc(before)).toContainEqual(['csv-id-twice', join(work, 'stores.csv')]);
    const after = adopt('--write', '--replace');
    expect(codes(after)).not.toContain('csv-row-without-id');
    expect(doc(after)).toContainEqual(['csv-id-twice', 'sites/stores.csv']);
  }, 60_000);

  it('leaves a copy as it is that somebody mended, says where it differs, and replaces it when asked', () => {
    adopt('--write');
    const first = copy();
    const mended = first.replace('X2', 'OC15-20417');
    writeFileSync(path('sites/stores.csv'), mended);
    const refused = adopt('--write');
    expect(refused.status).toBe(1);
    expect(refused.findings.find((f) => f.code === 'copy-differs')?.data).toEqual({ file: 'sites/stores.csv', row: 3 });
    expect(copy()).toBe(mended);
    expect(codes(adopt('--write', '--replace'))).not.toContain('copy-differs');
    expect(copy()).toBe(first);
  }, 60_000);

  describe('of sixty stores as a spreadsheet program saved them', () => {
    const saved = readFileSync('tests/commands/head-office.csv', 'utf8');
    const give = (text: string): void => writeFileSync(join(work, 'stores.csv'), text);

    it('guesses no key that would mislead, and tells what is wrong by the rows that the program shows', () => {
      give(saved);
      const told = adopt();
      const keyed = new Map(told.columns.map(({ column, key }) => [column, key]));
      expect([keyed.get('Prep Table'), keyed.get('Where')]).toEqual(['unit.profile', 'unit.position']);
      // Two rows of one id are two stores.
      expect(told.stores).toBe(60);
      // The store's own phone is nobody to ring, and a manager's name is no phone.
      expect(['Phone', 'Manager', 'Sq Ft'].map((name) => keyed.get(name))).toEqual([undefined, undefined, undefined]);
      const once = new Map(told.findings.map((f) => [`${f.code} ${f.cell}`, f] as const).reverse());
      expect([...once.values()].reverse().map(({ code, line, cell }) => [code, line, cell])).toEqual([
        ['csv-total-row', 64, ''],
        ['csv-no-region', 3, 'region'],
        ['csv-blanks', 44, 'timezone'],
        ['csv-blanks', 36, 'hours'],
        ['csv-blanks', 47, 'unit.profile'],
        ['csv-no-unit', 1, ''],
        ['csv-id-twice', 19, 'id'],
        ['bad-value', 2, 'languages'],
        ['csv-columns-missing', 1, ''],
      ]);
      expect(told.findings.find((f) => f.code === 'csv-no-region')?.data).toEqual({ without: 54, of: 60 });
    }, 60_000);

    it('what check then says is a matter each, not a row each', () => {
      const [head, ...rows] = saved.replace('grill\n(', 'grill (').split('\r\n');
      give([`${head};unit`, ...rows.map((row) => (/^\d/.test(row) ? `${row};line-1` : row))].join('\r\n'));
      adopt('--write');
      const { stdout } = spawnSync(process.execPath, [resolve('dist/cli.js'), 'check'], { cwd: path(), encoding: 'utf8' });
      expect(stdout.match(/^error /gm)).toHaveLength(15);
      // Beside what else is missing.
      expect(stdout).toContain("nothing says where the food of line-1's top goes at night");
      expect(stdout).toContain(
        'nickname is missing\n  sites/stores.csv row 2, column unit.nickname\n  and the same in rows 3-17, 20-21, 23-62\n',
      );
      expect(stdout).toContain('hint: write Mon-Thu 11a-10p, Fri & Sat 11a-midnight, Sun 12pm-9pm\n');
      expect(stdout).not.toMatch(/hint: write (Mo|Sep)$/m);
    }, 60_000);

    it('two sheets with the same stores are one matter', () => {
      give(saved);
      adopt('--write');
      writeFileSync(path('sites/copy.csv'), copy());
      const { stdout } = spawnSync(process.execPath, [resolve('dist/cli.js'), 'check'], { cwd: path(), encoding: 'utf8' });
      expect(stdout).toContain('error sheet-twice  58 of its stores are also in sites/copy.csv');
      expect(stdout).not.toContain('duplicate-id');
    }, 60_000);
  });

  it('takes no file of another kind, and writes over none', () => {
    const site = path('sites/alder.yaml');
    mkdirSync(dirname(site), { recursive: true });
    const was = 'name: Alder\n';
    writeFileSync(site, was);
    writeFileSync(join(work, 'alder.yaml'), 'id,name\nx,A\n');
    const given = [resolve('dist/cli.js'), 'adopt', join(work, 'alder.yaml'), '--write', '--replace'];
    const { stdout, stderr, status } = spawnSync(process.execPath, given, { cwd: path(), encoding: 'utf8' });
    expect([stdout + stderr, status]).toEqual([expect.stringContaining('not-a-sheet'), 1]);
    expect(readFileSync(site, 'utf8')).toBe(was);
  });
  it('writes through no link', () => {
    mkdirSync(join(work, 'elsewhere'));
    symlinkSync(join(work, 'elsewhere'), path('sites'));
    const told = adopt('--write', '--replace');
    expect([told.status, codes(told)]).toEqual([1, expect.arrayContaining(['file-linked'])]);
    expect(existsSync(join(work, 'elsewhere/stores.csv'))).toBe(false);
  }, 60_000);
});
