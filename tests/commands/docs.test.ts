/**
 * What the documents show is what is there: the smallest chain of the README builds, its papers are all that ship, and the table of profiles is theirs.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { demoFiles, serious, STORE, tryChain, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';

const readme = readFileSync('README.md', 'utf8');
const smallest = /The smallest `nightrail\.yaml`:\n\n```yaml\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';

it('makes the papers of the smallest chain that the README shows', () => {
  const tried = tryChain({ 'nightrail.yaml': smallest, 'sites/street.yaml': STORE });
  expect(serious(tried)).toEqual([]);
  if (!tried.workshop) throw new Error('no workshop');
  const pages = pagesOf(tried.workshop, tried.stores);
  expect(new Set(pages.map((page) => page.paper.id))).toEqual(new Set(['poster', 'week', 'handout', 'card']));
  for (const { page } of pages) expect(page?.body.length).toBeGreaterThan(0);
});

/** The example of YAML under a heading. */
const example = (heading: string): string => {
  const found = readme.split(`\n### ${heading}\n`)[1]?.match(/```yaml\n([\s\S]*?)```/)?.[1];
  if (found === undefined) throw new Error(`no example under ${heading}`);
  return found;
};

/** The README's chain, profile and store together, as somebody has them who copies all three. */
const copied = (profile: string) =>
  tryChain({
    'nightrail.yaml': smallest,
    'equipment/table.yaml': undefined,
    'equipment/prep-table-60.yaml': profile,
    'sites/street.yaml': undefined,
    'sites/copper-ferry.yaml': example('A store'),
  });

it('shows a profile that is whole: copied, it is read without an error or a warning, and planned', () => {
  const tried = copied(example('A profile'));
  expect(serious(tried)).toEqual([]);
  expect(tried.stores.get('copper-ferry')?.plan).toBeDefined();
});

it.each(['sort', 'maker', 'condensing', 'loading'])('would tell of a profile without %s', (key) => {
  const without = example('A profile').replace(new RegExp(`^${key}:.*\\n(?: .*\\n)*`, 'm'), '');
  expect(serious(copied(without)).join()).toContain('missing-key equipment/prep-table-60.yaml');
});

/** A file that the README has written for a class. */
const classFile = (name: string): string =>
  new RegExp(`cat > class/${name} <<'END'\\n([\\s\\S]*?)END\\n`).exec(readme)?.[1] ?? '';

it('prints nothing of the demo’s stores, and nobody’s signature, where the recipe of a class is kept to', () => {
  const { workshop, stores, findings } = tryChain({
    'nightrail.yaml': classFile('nightrail.yaml'),
    'equipment/table.yaml': undefined,
    'equipment/prep-table-60.yaml': readFileSync('equipment/prep-table-60.yaml', 'utf8'),
    'sites/street.yaml': undefined,
    'sites/our-class.yaml': classFile('sites/our-class.yaml'),
  });
  if (!workshop) throw new Error('no workshop');
  expect(findings.filter((f) => f.severity !== 'note').map((f) => f.code)).toEqual(['room-not-measured']);
  const made = pagesOf(workshop, stores);
  expect(made.map(({ paper }) => paper.id)).toEqual(
    expect.arrayContaining(['poster', 'week', 'log', 'kit-lesson', 'kit-manager']),
  );
  const pages = JSON.stringify(made.map(({ page }) => page)).replaceAll('\u00a0', ' ');
  for (const said of ['555-0107', 'DRAFT', 'BORRADOR', 'Nobody has signed for the clock and the controls yet'])
    expect(pages).toContain(said);
  for (const theirs of ['555-0142', 'OC15-20417', 'set by R. Talavera', 'Copper Ferry', 'Quillpot'])
    expect(pages).not.toContain(theirs);
});

it('says in a clone that nothing has compiled what comes first', () => {
  const clone = mkdtempSync(join(tmpdir(), 'nightrail-bin-'));
  mkdirSync(join(clone, 'bin'));
  copyFileSync('bin/nightrail.js', join(clone, 'bin/nightrail.mjs'));
  const { status, stderr } = spawnSync(process.execPath, [join(clone, 'bin/nightrail.mjs'), 'check'], { encoding: 'utf8' });
  rmSync(clone, { recursive: true });
  expect([status, stderr]).toEqual([2, expect.stringContaining('npm run demo')]);
});

it('names the stores of the demo that read no Spanish', () => {
  const named = /as all of the demo have but (.*):$/m.exec(readme)?.[1] ?? '';
  const without = [...tryFiles(demoFiles()).stores]
    .filter(([, { read }]) => !read?.store.languages.includes('es'))
    .map(([id]) => id);
  expect([...named.matchAll(/`([a-z-]+)`/g)].map((m) => m[1])).toEqual(without.sort());
});

it('names every paper that ships', () => {
  const line = /^`papers`, and `--only`.*$/m.exec(readme)?.[0] ?? '';
  const papers = readdirSync('templates').filter((name) => name !== 'partials');
  expect(
    [...line.matchAll(/`([a-z-]+)`/g)]
      .map((m) => m[1])
      .filter((name) => papers.includes(name ?? ''))
      .sort(),
  ).toEqual(papers.sort());
});

interface Profile {
  readonly control: { readonly strategy: string };
  readonly zones: Readonly<
    Record<string, { readonly kind: string; readonly rest?: { readonly clock?: { readonly kind: string } } }>
  >;
  readonly nameplate: { readonly circuits: readonly { readonly refrigerant: string }[] };
}

it('shows the shipped profiles as they are', () => {
  const shown = [
    ...readFileSync('docs/way-in.md', 'utf8').matchAll(/^\| \[([a-z0-9-]+)\]\(\.\.\/equipment\/\1\.yaml\)(.*)\|$/gm),
  ];
  const told = shown.map(([, name, rest]) => [
    name,
    ...(rest ?? '')
      .split('|')
      .slice(1)
      .map((cell) => cell.trim().replaceAll('`', '')),
  ]);
  const known = readdirSync('equipment')
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => {
      const { control, zones, nameplate } = parse(readFileSync(`equipment/${file}`, 'utf8')) as Profile;
      const rail = Object.values(zones).find((zone) => zone.kind.endsWith('-rail'));
      const gas = [...new Set(nameplate.circuits.map((circuit) => circuit.refrigerant))].join(', ');
      return [file.replace('.yaml', ''), control.strategy, rail?.kind ?? '', rail?.rest?.clock?.kind ?? '', gas];
    });
  expect(told).toEqual(known);
});
