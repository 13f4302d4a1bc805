/**
 * Stores from a spreadsheet give what their YAML gives, and a finding names file, row and column.
 */
import { describe, expect, it } from 'vitest';
import { columnsOf } from '../../src/read/columns.js';
import { storeSources } from '../../src/read/stores.js';
import { openWorkshop } from '../../src/fleet/workshop.js';
import { readStore } from '../../src/read/shelf.js';
import { tryChain, tryFiles } from '../support/chain.js';
import { memoryFolder, smallBuild, threeStores } from './small-build.js';

const NO_YAML = { 'sites/alder.yaml': undefined, 'sites/birch.yaml': undefined, 'sites/cedar.yaml': undefined };
const UNIT = 'line-1,table,Line 1,by the door,X1,base,6 sq ft,6 in';
const HEADER =
  'id,name,timezone,hours,languages,unit,unit.profile,unit.nickname,unit.position,unit.serial,unit.food_goes_to.zone,unit.food_goes_to.free_shelf,unit.food_goes_to.height';
const SHEET = [
  HEADER,
  `alder,Alder,America/Chicago,Mo-Su 07:00-22:00,,${UNIT}`,
  `birch,Birch,America/Chicago,Mo-Su 07:00-22:00,"en, es",${UNIT}`,
  `cedar,Cedar,America/Chicago,Mo-Su 07:00-22:00,,${UNIT}`,
].join('\n');

const built = async (files: ReadonlyMap<string, Uint8Array>) => {
  const folder = new Map<string, Uint8Array>();
  const { findings } = await smallBuild(files, memoryFolder(folder).out);
  return {
    findings,
    documents: [...folder].filter(([path]) => path.includes('/')).map(([path, bytes]) => [path, new TextDecoder().decode(bytes)]),
  };
};

/** Stores of a sheet as they are read, without their papers. */
const readIn = (text: string) => {
  const files = sheet(text);
  const { workshop } = openWorkshop(files);
  if (!workshop) throw new Error('no workshop');
  const { stores, findings } = storeSources(files);
  const read = stores.map(({ doc, bytes }) => readStore(workshop.shelf, doc, bytes));
  return { stores: read.map(({ store }) => store), findings: [...findings, ...read.flatMap((one) => one.findings)] };
};

const sheet = (text: string, more: Readonly<Record<string, string | undefined>> = {}) =>
  threeStores({ ...NO_YAML, 'sites/stores.csv': text, ...more });

describe('a sheet', () => {
  it.each([
    ['commas', SHEET],
    ['a byte order mark and line ends of Windows', `\ufeff${SHEET.replace(/\n/g, '\r\n')}\r\n`],
    ['semicolons', SHEET.replace(/"en, es"/, 'en | es').replace(/,/g, ';')],
    ['tabs', SHEET.replace(/"en, es"/, 'en | es').replace(/,/g, '\t')],
    ['a line break in quotes', SHEET.replace('Alder,America', '"Alder\n",America')],
    ['empty rows and a row of totals', `${SHEET.replace('\ncedar', '\n,,,,,,,,,,,,\ncedar')}\n\nTotal,3,,,,,,,,,,,\n`],
    ['a row of totals between', SHEET.replace('\ncedar', '\nTOTAL,2,,,,,,,,,,,\ncedar')],
    ['a row of totals in German', `${SHEET}\nSumme,3,,,,,,,,,,,\n`],
    ['a column left out', SHEET.replace('id,name', '# rent,id,name').replace(/\n/g, '\n1200,')],
    [
      'units by columns of their own',
      SHEET.replace(/,unit,unit/, ',unit')
        .replace(/unit\./g, 'units.line-1.')
        .replace(/,line-1,table/g, ',table'),
    ],
  ])('with %s gives what YAML gives', async (_, text) => {
    const fromSheet = await built(sheet(text));
    const fromYaml = await built(threeStores());
    expect(fromSheet.findings.filter((f) => f.severity === 'error')).toEqual([]);
    expect(fromSheet.documents).toEqual(fromYaml.documents);
  });
  it('with a row for each unit joins the rows of a store', () => {
    const text = [
      'id,name,timezone,hours,crew.closers,unit,unit.profile,unit.nickname,unit.nickname.es,unit.position,unit.serial,unit.differs.zones.rail.pans.count',
      'alder,Alder,America/Chicago,Mo-Su 07:00-22:00,3,line-1,table,,,left,X1,',
      'alder,,,,,line-2,table,,,right,X2,12',
    ].join('\n');
    const { stores } = storeSources(
      sheet(
        text
          .replace('unit.nickname,unit.nickname.es', 'unit.nickname.en,unit.nickname.es')
          .replace(/,table,,,/g, ',table,Line,Línea,'),
      ),
    );
    expect(stores.map((s) => [s.id, s.doc])).toEqual([['alder', 'sites/stores.csv#alder']]);
  });
  it.each([
    ['a key', HEADER.replace('hours', 'hour'), 'csv-unknown-column row 1 hour', 'hours'],
    ['a name that people give', HEADER.replace('id,name', 'id,Store Name'), 'csv-unknown-column row 1 Store Name', 'name'],
    [
      'nothing known',
      HEADER.replace('id,name', 'id,name,Fax machine colour'),
      'csv-unknown-column row 1 Fax machine colour',
      undefined,
    ],
  ])('with a column that is no key, but perhaps %s', (_, header, told, nearest) => {
    const { findings } = storeSources(sheet(SHEET.replace(HEADER, header)));
    const finding = findings.find((f) => f.code === 'csv-unknown-column');
    expect(`${finding?.code} row ${finding?.at.line} ${finding?.at.cell}`).toBe(told);
    expect(finding?.data['nearest']).toBe(nearest);
  });
  it.each([
    [
      'hours that are none',
      SHEET.replace('birch,Birch,America/Chicago,Mo-Su 07:00-22:00', 'birch,Birch,America/Chicago,Mo-Su 07:00-7am99'),
      /^hours-/,
      3,
      'hours',
    ],
    ['an amount without its unit', SHEET.replace('6 sq ft', '6'), /^amount-no-unit$/, 2, 'unit.food_goes_to.free_shelf'],
    [
      'no such profile',
      SHEET.replace(
        'alder,Alder,America/Chicago,Mo-Su 07:00-22:00,,line-1,table',
        'alder,Alder,America/Chicago,Mo-Su 07:00-22:00,,line-1,tabel',
      ),
      /^no-profile$/,
      2,
      'unit.profile',
    ],
    ['an id that is none', SHEET.replace('\nalder', '\nAlder Street'), /^bad-id$/, 2, 'id'],
    ['a title above the head', `List of stores,,,\n\n${SHEET}`, /^csv-head-below$/, 1, ''],
    ['a row without an id', SHEET.replace('\nbirch', '\n'), /^csv-row-without-id$/, 3, 'id'],
    ['a row that is too long', SHEET.replace('6 in\nbirch', '6 in,more\nbirch'), /^csv-too-many-cells$/, 2, ''],
    ['a row that disagrees', `${SHEET}\ncedar,Cedar,America/Denver,,,,,,,,,,`, /^csv-disagrees$/, 5, 'timezone'],
    ['two stores of one id', `${SHEET}\ncedar,Cider,,,,,,,,,,,`, /^csv-id-twice$/, 5, 'id'],
    ['a unit written twice', `${SHEET}\ncedar,Cedar,,,,line-1,,,,,,,`, /^csv-unit-twice$/, 5, 'unit'],
    ['a quote that is never closed', `${SHEET}\n"elm`, /^csv-syntax$/, 5, undefined],
    ['a forbidden character', SHEET.replace('Birch', 'Bir\u202ech'), /^forbidden-character$/, 3, 'name'],
  ])('with %s says where', async (_, text, code, row, cell) => {
    const files = sheet(text);
    const all = [...storeSources(files).findings, ...(await built(files)).findings];
    const finding = all.find((f) => code.test(f.code));
    expect([finding?.at.doc, finding?.at.line, finding?.at.cell], JSON.stringify(all.map((f) => f.code))).toEqual([
      'sites/stores.csv',
      row,
      cell,
    ]);
  });
  it('counts rows as a spreadsheet program does: a line break in quotes begins none, an empty row is one', () => {
    const broken = SHEET.replace('Alder,America', '"Alder\nby the mill",America').replace('\nbirch', '\n,,,\n\nbirch');
    const { findings } = storeSources(sheet(broken.replace('\ncedar', '\n')));
    expect(findings.map((f) => [f.code, f.at.line])).toEqual([['csv-row-without-id', 6]]);
  });
  it.each([
    ['without an id', SHEET.replace('\nbirch', '\n')],
    ['that is too long', SHEET.replace('6 in\ncedar', '6 in,more\ncedar')],
    ['of another store with the same id', `${SHEET}\nbirch,Beech,,,,,,,,,,,`],
  ])('a row %s costs no other store its papers', async (_, text) => {
    const { documents } = await built(sheet(text));
    expect(new Set(documents.map(([path]) => path?.split('/')[0]))).toEqual(new Set(['alder', 'cedar']));
  });
  it('an id that two rows of one sheet have is no store of another sheet either', () => {
    const twice = SHEET.replace('\ncedar,Cedar', '\nbirch,Beech');
    const other = [HEADER, ...SHEET.split('\n').slice(2)].join('\n');
    const { stores, lost } = storeSources(sheet(twice, { 'sites/z.csv': other }));
    expect(stores.map(({ id }) => id)).toEqual(['alder', 'cedar']);
    expect(lost.map(({ name, at }) => [name, at.doc, at.line])).toEqual([
      ['Birch', 'sites/stores.csv', 3],
      ['Beech', 'sites/stores.csv', 4],
      ['Birch', 'sites/z.csv', 2],
    ]);
  });
  it('in another encoding says so', () => {
    const files = new Map(threeStores(NO_YAML));
    files.set('sites/stores.csv', new Uint8Array([0x69, 0x64, 0x0a, 0xe9]));
    expect(storeSources(files).findings).toMatchObject([{ code: 'csv-not-utf-8' }]);
  });
  it('keeps a store that is called like a total', () => {
    const { stores, findings } = storeSources(sheet(SHEET.replace('birch,Birch', 'total,Total Lane')));
    expect([stores.map(({ id }) => id), findings]).toEqual([['alder', 'cedar', 'total'], []]);
  });
  it('that names a store which has a file of its own gives neither', () => {
    const tried = tryFiles(threeStores({ 'sites/stores.csv': SHEET }));
    expect(tried.told.filter((t) => t.startsWith('duplicate-id'))).toHaveLength(3);
    expect(storeSources(threeStores({ 'sites/stores.csv': SHEET })).stores).toEqual([]);
  });
  it('with errors of its own makes none of its stores, and says it once', async () => {
    const { findings, documents } = await built(sheet(SHEET.replace('hours', 'hour')));
    expect(documents).toEqual([]);
    expect(new Set(findings.map((f) => JSON.stringify([f.code, f.at])))).toEqual(
      new Set([JSON.stringify(['csv-has-errors', { doc: 'sites/stores.csv', path: [], line: 1, column: 1, cell: '' }])]),
    );
  });
});

describe('hours in columns of their own', () => {
  const STORE_ROW = `alder,Alder,America/Chicago,${UNIT}`;
  const head = HEADER.replace('hours,languages,', '');
  const days = 'hours.mon,hours.tue,hours.wed,hours.thu,hours.fri,hours.sat,hours.sun';
  const found = (columns: string, cells: string) => {
    const tried = readIn(`${head},${columns}\n${STORE_ROW},${cells}`);
    return {
      read: tried.stores[0]?.store.hours.readAs,
      told: tried.findings.filter((f) => f.severity === 'error').map((f) => [f.code, f.at.cell, f.data['suggestion']]),
    };
  };
  it.each([
    ['opens,closes', '11:00 AM,10:00 PM', '11:00-22:00'],
    ['hours,opens,closes', ',11am,midnight', '11:00-24:00'],
    ['hours,opens,closes', 'Mo-Su 11:00-22:00,11am,10pm', '11:00-22:00'],
    // Without am or pm they may be the same.
    ['hours,opens,closes', '11am-10pm,11,10', '11:00-22:00'],
    [days, '11am-9pm,11am-9pm,11am-9pm,11am-9pm,11am-1am,11am-1am,closed', 'Su off; Mo-Th 11:00-21:00, Fr-Sa 11:00-01:00'],
    ['hours.sun,hours.mon-thu,hours.fri-sat', 'closed,11am-9pm,11am-1am', 'Su off; Mo-Th 11:00-21:00, Fr-Sa 11:00-01:00'],
    ['hours,hours.mon-thu,hours.fri', 'Mo-Fr 11am-10pm,,11-10', 'Mo-Fr 11:00-22:00; Sa-Su off'],
  ])('%s: %s', (columns, cells, readAs) => {
    expect(found(columns, cells)).toEqual({ read: readAs, told: [] });
  });
  it.each([
    ['opens,closes', '10,9', ['hours-am-or-pm', 'hours', '10:00-21:00']],
    ['opens,closes', '10am,', ['csv-hours-gap', 'closes', undefined]],
    ['hours,opens,closes', '11am-10pm,11am,9pm', ['csv-two-hours', 'hours', undefined]],
    [days, '11am-9pm,,11am-9pm,11am-9pm,11am-1am,11am-1am,closed', ['csv-hours-gap', 'hours.tue', undefined]],
    // Days that are filled are held against hours, also where others are empty.
    ['hours,hours.mon,hours.fri', 'Mo-Su 11:00-23:00,,11am-1am', ['csv-two-hours', 'hours', undefined]],
    ['hours,hours.fri', 'Mo-Su 11:00-23:00,11am-11pm (summer 11-12)', ['hours-in-brackets', 'hours.fri', '11am-11pm']],
    ['hours,hours.fri', 'Mo-Su 11:00-23:00,as usual', ['hours-unknown-word', 'hours.fri', undefined]],
    // At the cell that holds it, and to be written there.
    ['hours.mon-sat,hours.sun', '11am-9pm,11-9', ['hours-am-or-pm', 'hours.sun', '11:00-21:00']],
    ['hours.mon-sat,hours.sun', '11am-9pm,11-11pm (summer 11-12)', ['hours-in-brackets', 'hours.sun', '11am-11pm']],
    ['hours.mon-sat,hours.sun', '11am-9pm,11am-9pm; Jun-Aug 11am-10pm', ['csv-day-cell', 'hours.sun', undefined]],
    ['hours.mon-sun,hours.sat', '11am-9pm,11am-10pm', ['csv-day-twice', 'hours.sat', undefined]],
    ['hours.mon-thu,hours.fri-sun', ',11am-10pm', ['csv-hours-gap', 'hours.mon-thu', undefined]],
  ])('%s: %s is told', (columns, cells, told) => {
    expect(found(columns, cells)).toEqual({ read: undefined, told: [told] });
  });
});

it('what is wrong with an id or with hours hides nothing else of its store', () => {
  const days = 'hours.mon-sat,hours.sun';
  const row = `Alder,Alder,America/Chicago,"11-9",closed,${UNIT.replace('6 sq ft', '6')}`;
  const { findings } = readIn(`${HEADER.replace('hours,languages', days)}\n${row}`);
  expect(findings.map((f) => [f.code, f.at.cell])).toEqual([
    ['hours-am-or-pm', 'hours.mon-sat'],
    ['bad-id', 'id'],
    ['amount-no-unit', 'unit.food_goes_to.free_shelf'],
  ]);
});

it('a row without a position tells its missing place for food too, and names a profile as people call it', () => {
  const text = SHEET.replace('by the door,X1,base,6 sq ft,6 in', ',X1,,,').replace('"en, es",line-1,table', ',line-1,Table');
  const tried = readIn(text);
  const told = tried.findings.filter((f) => f.severity === 'error' && f.at.cell !== undefined);
  expect(told.filter((f) => f.at.line === 2).map((f) => f.code)).toEqual(['missing-key', 'no-place-for-food']);
  expect(told.find((f) => f.at.line === 3)?.data).toMatchObject({ wrote: 'Table', suggestion: 'table' });
});

describe('a column', () => {
  it.each(['Notes', 'Comments', 'remark'])('%s is no finding of a technician', (name) =>
    expect(columnsOf([name])[0]?.means).toEqual({ is: 'unknown' }),
  );
  it.each([
    ['Open', 'opens'],
    ['Closing time', 'closes'],
    ['Mon', 'hours.mon'],
    ['Thursday', 'hours.thu'],
    ['Opening hours', 'hours'],
    ['Hours (all)', 'hours'],
    ['Mon-Thu', 'hours.mon-thu'],
    ['Monday to Thursday', 'hours.mon-thu'],
    ['Fri & Sat', 'hours.fri-sat'],
    ['Sat/Sun hours', 'hours.sat-sun'],
    ['Weekdays', 'hours.mon-fri'],
  ])('%s may be %s', (name, key) => expect(columnsOf([name])[0]?.means).toEqual({ is: 'unknown', suggestion: key }));
  it('of two days apart is no column of days in a row', () =>
    expect(columnsOf(['Mon & Thu'])[0]?.means).toEqual({ is: 'unknown' }));
  it.each(['units.__proto__.serial', '__proto__', 'constructor', 'unit.constructor', 'hours.x', 'units', 'crew'])(
    'is not called %s',
    (name) => expect(columnsOf([name])[0]?.means.is).toBe('unknown'),
  );
  it('leaves a chain without sheets as it was', () => expect(tryChain().stores.size).toBe(1));
});
