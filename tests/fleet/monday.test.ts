/**
 * Operations on a Monday morning: a spreadsheet of sixty stores as such spreadsheets are, built; what to mend, where and in what order; and a week later what changed.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { diffOf } from '../../src/fleet/diff.js';
import { LEDGER, ledgerFrom, type Ledger } from '../../src/fleet/ledger.js';
import { hasErrors, reportOf, storesIn, type ReportRow } from '../../src/fleet/report.js';
import { columnsOf } from '../../src/read/columns.js';
import { hash, memoryFolder, smallBuild, threeStores, type SmallBuild } from './small-build.js';

const COLUMNS =
  'id,name,region,timezone,hours,unit,unit.profile,unit.nickname,unit.position,unit.serial,unit.food_goes_to.zone,unit.food_goes_to.free_shelf,unit.food_goes_to.height,# Manager';

/** Five ways to write hours; the last one could be years, and is not guessed at. */
const WAYS = [
  'Mo-Su 07:00-22:00',
  '"mon-thu 6am-11pm; fri-sat 6am-11:30pm; sun closed"',
  '"Mon-Fri 7:00 AM - 10:00 PM, Sat-Sun 8:00 AM - 11:00 PM"',
  'daily 7am to 10pm',
] as const;
const YEARS = 'daily 0700-2200';

interface Row {
  readonly id: string;
  readonly name: string;
  readonly zone: string;
  readonly hours: string;
}

const STORES = 60;
const BLANK_AFTER = 30;
/** Rows of the file: the header is the first, and an empty one stands in the middle. */
const rowOf = (store: number): number => store + 1 + (store > BLANK_AFTER ? 1 : 0);

const WRONG: Readonly<Record<number, Partial<Row>>> = {
  5: { hours: YEARS },
  8: { zone: 'Central' },
  12: { id: 's-11' },
  16: { hours: '' },
  17: { zone: '' },
  18: { name: '' },
  22: { zone: 'America/Chicgo' },
  35: { zone: 'CST' },
  41: { hours: 'open 24 hours' },
  47: { hours: YEARS },
};

const sheet = (changes: Readonly<Record<number, Partial<Row>>> = {}): string => {
  const lines = Array.from({ length: STORES }, (_, i) => {
    const n = i + 1;
    const usual: Row = { id: `s-${n}`, name: `Street ${n}`, zone: 'America/Chicago', hours: WAYS[i % WAYS.length] as string };
    const { id, name, zone, hours } = { ...usual, ...WRONG[n], ...changes[n] };
    return `${id},${name},${n % 2 ? 'North' : 'South'},${zone},${hours},line-1,table,Line 1,by the door,X${n},base,6 sq ft,6 in,somebody`;
  });
  const empty = COLUMNS.replace(/[^,]/g, '');
  return `\ufeff${[COLUMNS, ...lines.slice(0, BLANK_AFTER), empty, ...lines.slice(BLANK_AFTER), `Total,60${empty.slice(1)}`].join('\r\n')}\r\n`;
};

const chain = (changes?: Readonly<Record<number, Partial<Row>>>) =>
  threeStores({
    'sites/alder.yaml': undefined,
    'sites/birch.yaml': undefined,
    'sites/cedar.yaml': undefined,
    'sites/stores.csv': sheet(changes),
  });

const folder = new Map<string, Uint8Array>();
const ledger = (): Ledger => ledgerFrom(folder.get(LEDGER), hash) as Ledger;
const make = (changes?: Readonly<Record<number, Partial<Row>>>): Promise<SmallBuild> =>
  smallBuild(chain(changes), memoryFolder(folder).out, { only: ['week'] });
const storesOf = (paths: Iterable<string>): readonly string[] =>
  [...paths].flatMap((path) => /^(.*)\/week\.en\.html$/.exec(path)?.[1] ?? []).sort();

describe('on the first Monday', () => {
  let built: SmallBuild;
  let rows: readonly ReportRow[];
  beforeAll(async () => {
    built = await make();
    rows = reportOf(ledger(), (f) => ({ says: f.code, hint: undefined })).filter((r) => r.topic === 'broken');
  }, 120_000);

  it('every store that can be built is built, and no row is lost', () => {
    const broken = ['s-5', 's-8', 's-11', 's-16', 's-17', 's-18', 's-22', 's-35', 's-41', 's-47'];
    const all = Array.from({ length: STORES }, (_, i) => `s-${i + 1}`).filter((id) => id !== 's-12');
    // Two of one id have no record: the ledger keeps them as lost.
    expect([...ledger().stores.keys()].sort()).toEqual(all.filter((id) => id !== 's-11').sort());
    expect(ledger().head.lost?.map(({ store, at }) => [store, at.line])).toEqual([11, 12].map((n) => ['s-11', rowOf(n)]));
    expect(storesIn(ledger())).toEqual({ all: STORES, bare: broken.length + 1, unbuilt: 0 });
    expect(hasErrors(ledger())).toBe(true);
    expect(storesOf(folder.keys())).toEqual(all.filter((id) => !broken.includes(id)).sort());
  });

  it('what is wrong is told from the top of the sheet down, with its row and column', () => {
    expect(rows.map((r) => `${r.file} ${r.row} ${r.key} ${r.says}`)).toEqual(
      [
        [5, 'hours', 'hours-unexpected'],
        [8, 'timezone', 'bad-zone'],
        [11, 'id', 'csv-id-twice'],
        [12, 'id', 'csv-id-twice'],
        [16, 'hours', 'missing-key'],
        [17, 'timezone', 'missing-key'],
        [18, 'name', 'missing-key'],
        [22, 'timezone', 'bad-zone'],
        [35, 'timezone', 'bad-zone'],
        [41, 'hours', 'never-rests'],
        [47, 'hours', 'hours-unexpected'],
      ].map(([store, key, code]) => `sites/stores.csv ${rowOf(store as number)} ${key as string} ${code as string}`),
    );
  });

  it('each zone that is none has its suggestion', () => {
    expect(built.findings.filter((f) => f.code === 'bad-zone').map((f) => f.data['nearest'])).toEqual(
      Array.from({ length: 3 }, () => 'America/Chicago'),
    );
  });
});

describe('on the next Monday', () => {
  it('only what changed is made and sent, and why is said', async () => {
    const before = ledger();
    const files = new Map(folder);
    // Two mistakes are mended, and one store opens later: nothing else is touched.
    await make({ 8: { zone: 'America/Chicago' }, 12: { id: 's-12' }, 21: { hours: 'Mo-Su 07:30-22:00' } });
    const wrote = [...folder].filter(([path, bytes]) => files.get(path) !== bytes).map(([path]) => path);
    expect(storesOf(wrote)).toEqual(['s-11', 's-12', 's-21', 's-8']);
    const changes = diffOf(before, ledger());
    expect(changes.flatMap((c) => (c.change === 'send' ? [c.store] : [])).sort()).toEqual(['s-11', 's-12', 's-21', 's-8']);
    expect(new Set(changes.map((c) => c.store))).toEqual(new Set(['s-11', 's-12', 's-21', 's-8']));
    expect(changes).toContainEqual(
      expect.objectContaining({ store: 's-21', time: 'first_pan', from: 405, to: 435, why: [{ moved: 'opens' }] }),
    );
  }, 120_000);
});

it('columns as people name them have the key that is meant for a suggestion', () => {
  const meant = (name: string) => columnsOf([name]).map((c) => (c.means.is === 'unknown' ? c.means.suggestion : c.means.is))[0];
  expect(['Store ID', 'Name', 'Hours', 'Time zone', 'Free shelf', 'Manager mail'].map(meant)).toEqual([
    'id',
    'name',
    'hours',
    'timezone',
    'unit.food_goes_to.free_shelf',
    undefined,
  ]);
});
