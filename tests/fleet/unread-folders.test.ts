/**
 * A file in a folder of a wrong name is lost to every page: the folder is told, by names alone, and no other is.
 */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { check } from '../../src/commands/check.js';
import { unreadFolders } from '../../src/fleet/unread-folders.js';
import { otherFolders, PACKAGE, readFiles } from '../../src/host/disk.js';
import { CHAIN, demoFiles, shippedFiles, STORE, TABLE } from '../support/chain.js';
import { told } from '../commands/told.js';

const work = mkdtempSync(join(tmpdir(), 'nightrail-folders-'));
const chain = join(work, 'chain');
const write = (path: string, text = 'x'): void => {
  mkdirSync(dirname(join(chain, path)), { recursive: true });
  writeFileSync(join(chain, path), text);
};
beforeEach(() => {
  rmSync(chain, { recursive: true, force: true });
  for (const [path, text] of [
    ['nightrail.yaml', CHAIN],
    ['equipment/table.yaml', TABLE],
    ['sites/street.yaml', STORE],
  ] as const)
    write(path, text);
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

const found = (out?: string) =>
  unreadFolders(shippedFiles(), otherFolders(chain, out)).map(({ code, severity, at, data }) => [
    `${severity} ${code} ${at.doc}`,
    data['nearest'],
    data['holds'],
  ]);

describe('a folder of the chain that nothing reads', () => {
  it.each([
    ['stores/larch.yaml', 'stores', 'sites', 'larch.yaml'],
    ['site/larch.yml', 'site', 'sites', 'larch.yml'],
    ['Sites/all.csv', 'Sites', 'sites', 'all.csv'],
    ['equipments/table.yaml', 'equipments', 'equipment', 'table.yaml'],
    ['profiles/table.yaml', 'profiles', 'equipment', 'table.yaml'],
    ['word/es/ours.yaml', 'word', 'words', 'es'],
    ['template/partials/handout-own.md.hbs', 'template', 'templates', 'partials'],
    ['template/handout/page.md.hbs', 'template', 'templates', 'handout'],
    ['partials/handout-own.md.hbs', 'partials', 'templates/partials', 'handout-own.md.hbs'],
    ['own/handout-own.md.hbs', 'own', 'templates/partials', 'handout-own.md.hbs'],
  ])('%s is told, with the one that is meant', (path, folder, meant, held) => {
    write(path);
    expect(found()).toEqual([[`warning folder-unread ${folder}`, meant, [held]]]);
  });

  it.each([
    ['node_modules/x.md.hbs'],
    ['.stores/larch.yaml'],
    ['stores/photo.png'],
    ['photos/larch.yaml'],
    ['papers/street/week.en.pdf'],
    ['constructor/larch.yaml'],
    ['stores/nightrail.yaml'],
  ])('%s is none of ours', (path) => {
    write(path);
    expect(found()).toEqual([]);
  });

  it('is neither the folder of papers nor a link', () => {
    write('stores/larch.yaml');
    expect(found(join(chain, 'stores'))).toEqual([]);
    mkdirSync(join(work, 'elsewhere'), { recursive: true });
    writeFileSync(join(work, 'elsewhere/larch.yaml'), 'x');
    rmSync(join(chain, 'stores'), { recursive: true });
    symlinkSync(join(work, 'elsewhere'), join(chain, 'stores'));
    expect(found()).toEqual([]);
  });

  it('is looked at by a hundred names at most', () => {
    for (let i = 0; i < 150; i++) write(`stores/larch-${i}.yaml`);
    expect(otherFolders(chain).get('stores')).toHaveLength(100);
    expect(found()[0]?.[2]).toHaveLength(3);
  });

  it('is told by check, and none is in the demo', async () => {
    write('stores/larch.yaml', STORE);
    const { findings } = await told(() => Promise.resolve(check([], { chain, json: true })));
    expect(findings.filter((f) => f.code === 'folder-unread').map((f) => [f.severity, f.file])).toEqual([['warning', 'stores']]);
    expect(unreadFolders(demoFiles(), otherFolders(PACKAGE))).toEqual([]);
  });
});

describe('a file of one of our folders with an ending that nothing reads', () => {
  it.each([
    ['sites/STORES.CSV', 'STORES.csv'],
    ['equipment/pizza.YAML', 'pizza.yaml'],
    ['sites/stores.xlsx', undefined],
    ['sites/stores.tsv', undefined],
    ['words/en/steps.Yml', 'steps.yml'],
  ])('%s is an error', (path, suggestion) => {
    write(path);
    const told = unreadFolders(readFiles(chain, 'nightrail:'), otherFolders(chain));
    expect(told.map(({ code, severity, at, data }) => [code, severity, at.doc, data['suggestion']])).toEqual([
      ['file-unread', 'error', path, suggestion],
    ]);
  });

  it('is none of ours: notes, pictures, what an editor keeps', () => {
    for (const path of ['sites/notes.txt', 'equipment/photo.png', 'sites/.stores.swp']) write(path);
    expect(unreadFolders(readFiles(chain, 'nightrail:'), otherFolders(chain))).toEqual([]);
  });
});
