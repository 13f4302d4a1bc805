/** What was parsed when nightrail was compiled stands for the files, and for no others. */
import { describe, expect, it } from 'vitest';
import { openWorkshop } from '../../src/fleet/workshop.js';
import { PACKAGE, readFiles } from '../../src/host/disk.js';
import { tableOf, valuesIn } from '../../src/host/parsed.js';
import { SHIPPED } from '../../src/read/shelf.js';

const files = readFiles(PACKAGE, SHIPPED);
const table = JSON.parse(JSON.stringify(tableOf(files))) as ReturnType<typeof tableOf>;

describe('files parsed at compile time', () => {
  const parsed = valuesIn(table, files);

  it('are all words, tables and papers', () => {
    const wanted = [...files.keys()].filter((doc) => /^(words\/|templates\/.*\.yaml|equipment\/tables\/)/.test(doc));
    expect(wanted.length).toBeGreaterThan(100);
    expect([...parsed.keys()].sort()).toEqual(wanted.sort());
  });

  it('open the same workshop as the files themselves', () => {
    const [a, b] = [openWorkshop(files, parsed), openWorkshop(files)];
    expect(a.findings).toEqual(b.findings);
    expect(a.workshop?.shelf).toEqual(b.workshop?.shelf);
    expect(a.workshop?.papers.map((p) => p.spec)).toEqual(b.workshop?.papers.map((p) => p.spec));
    for (const [lang, words] of b.words)
      expect(words.codes.map((code) => [code, a.words.get(lang)?.get(code), a.words.get(lang)?.at(code)])).toEqual(
        words.codes.map((code) => [code, words.get(code), words.at(code)]),
      );
  });

  it('are known by their bytes: a file that was changed, or that has a mistake, is parsed anew', () => {
    const doc = 'words/en/week.yaml';
    const changed = new Map([...files, [doc, new TextEncoder().encode('title: [one\n')]]);
    const known = valuesIn(table, changed);
    expect(known.has(doc)).toBe(false);
    const { findings } = openWorkshop(changed, known);
    expect(findings.find((f) => f.at.doc === doc)).toMatchObject({ code: 'yaml-syntax', at: { line: 2 } });
    expect(Object.keys(tableOf(changed))).toHaveLength(Object.keys(table).length - 1);
  });
});
