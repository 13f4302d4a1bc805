/**
 * Files of somebody who means ill, or of a damaged disk: no caution is lost, nothing is written elsewhere, nothing hangs, and each refusal has a place.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { walk } from '../../src/compose/block.js';
import { LEDGER, ledgerFrom } from '../../src/fleet/ledger.js';
import { openOutside } from '../../src/host/out-folder.js';
import { openSink } from '../../src/host/sink.js';
import { SHIPPED } from '../../src/read/shelf.js';
import { CHAIN, shippedFiles, STORE, TABLE, tryChain, tryFiles } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';
import { hash, memoryFolder, smallBuild, threeStores } from './small-build.js';

/** A chain's own file beside the one that ships. */
const beside = (doc: string, change: (text: string) => string, from = doc): string => {
  const files = new Map([...shippedFiles()].map(([name, bytes]) => [SHIPPED + name, bytes]));
  const text = new TextDecoder().decode(files.get(SHIPPED + from));
  const own = { 'nightrail.yaml': POSTER, 'equipment/table.yaml': TABLE, 'sites/street.yaml': STORE, [doc]: change(text) };
  for (const [name, content] of Object.entries(own)) files.set(name, new TextEncoder().encode(content));
  return tryFiles(files).told.join();
};

const POSTER = CHAIN.replace(/^papers: .*$/m, 'papers: [poster]');
const told = (own: Readonly<Record<string, string>>) => tryChain({ 'nightrail.yaml': POSTER, ...own }).told;

const onPages = (own: Readonly<Record<string, string>>) => {
  const { workshop, stores } = tryChain({ 'nightrail.yaml': POSTER, ...own });
  if (!workshop) throw new Error('no workshop');
  return pagesOf(workshop, stores).flatMap((made) => made.findings);
};

describe('no caution is lost', () => {
  it('by a place that may be left out', () => {
    const findings = onPages({
      'templates/poster/page.md.hbs': '{{> headline}}\n\n::: optional 3\n```cautions\n```\n:::\n',
    });
    expect(findings.map((f) => [f.severity, f.code, f.data['wrote']])).toContainEqual([
      'error',
      'template-optional-safety',
      'cautions',
    ]);
  });
  it.each([
    ['at_unit: true', 'at_unit: false'],
    ['reader: staff', 'reader: technician'],
    ['needs_schedule: true', 'needs_schedule: false'],
    ['distance: unit', 'distance: hand'],
  ])('by a paper.yaml of a name that ships: %s', (is, other) => {
    const doc = 'templates/poster/paper.yaml';
    expect(beside(doc, (text) => text.replace(is, other))).toContain(`paper-drops-cautions ${doc}`);
    expect(beside(doc, (text) => text)).not.toContain('paper-drops-cautions');
  });
});

it.each([
  ['what is never done', '{{> headline}}\n\n{{> night}}\n\n```cautions\n```\n'],
  ['by when the top is empty', '# Top empty by {{unit.rest.on}}\n\n{{> never}}\n\n```cautions\n```\n'],
  // 22:00 less a figure is no time of its own.
  ['it but for a longer figure', '# 122:00, 22:000, 22:155, 122:15\n\n{{> never}}\n\n```cautions\n```\n'],
])('a poster of one’s own that leaves out %s is told', (_, page) => {
  expect(onPages({ 'templates/poster/page.md.hbs': page }).map((f) => f.code)).toContain('template-leaves-out');
});

it('the posters that ship leave nothing out, and a week sheet without its units is told', () => {
  expect(onPages({}).map((f) => f.code)).not.toContain('template-leaves-out');
  const { workshop, stores } = tryChain({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [week]'),
    'templates/week/page.md.hbs': '# Welcome\n\n```cautions\n```\n',
  });
  if (!workshop) throw new Error('no workshop');
  expect(pagesOf(workshop, stores).flatMap((made) => made.findings.map((f) => f.code))).toContain('week-without-units');
});

it.each([
  ['an emergency number that is the repair’s', "emergency: '555-0100'", 'emergency-number'],
  ['one that no country here has', "emergency: '000'", 'emergency-number'],
])('%s is refused', (_, wrote, code) => {
  expect(told({ 'nightrail.yaml': POSTER.replace("emergency: '911'", wrote) }).join()).toContain(code);
});

it('hours that nobody knows make no papers', () => {
  expect(told({ 'sites/street.yaml': `${STORE}not_known: [hours]\n` }).join()).toContain('not-known-needed sites/street.yaml');
});

it('a group of values is never printed as if it were one', () => {
  const findings = onPages({ 'templates/poster/page.md.hbs': '{{> headline}}\n\nHere: {{store.law}}\n\n```cautions\n```\n' });
  expect(findings.map((f) => [f.code, f.at.doc, f.at.line])).toContainEqual([
    'template-group',
    'templates/poster/page.md.hbs',
    3,
  ]);
});

it('a template that Handlebars refuses is told at its file, and ends no build', () => {
  const findings = onPages({
    'nightrail.yaml': POSTER,
    'templates/poster/page.md.hbs': '{{#if unit unit}}x{{/if}}\n',
  });
  expect(findings.map((f) => [f.code, f.at.doc])).toContainEqual(['template-failed', 'templates/poster/page.md.hbs']);
});

it.each([
  [
    'a line break in a name',
    { 'sites/street.yaml': STORE.replace('name: Test Street', 'name: "A\\nBEGIN:VEVENT"') },
    'name-line-break sites/street.yaml:1',
  ],
  [
    'a date in no year of ours',
    { 'sites/street.yaml': `${STORE}exceptions: [{ date: 9999-12-31, hours: off, why: End }]\n` },
    'bad-date sites/street.yaml',
  ],
  ...['con', 'nul', 'com1', 'press'].map((id): [string, object, string] => [
    `the id ${id}`,
    { 'sites/street.yaml': STORE.replace('line-1:', `${id}:`) },
    'bad-id sites/street.yaml',
  ]),
  [
    'an emergency number of dots',
    { 'nightrail.yaml': POSTER.replace("emergency: '911'", "emergency: '...'") },
    'bad-phone nightrail.yaml',
  ],
  [
    'a locale with other figures behind it',
    { 'words/es/language.yaml': 'locale: es-US-u-nu-arab\n' },
    'words-bad-locale words/es/language.yaml',
  ],
])('%s is refused at its place', (_, own, finding) => {
  expect(told(own as Readonly<Record<string, string>>).join()).toContain(finding);
});

describe('what is too long is refused at once', () => {
  it('a line', () => {
    expect(told({ 'equipment/table.yaml': `${TABLE}notes: ["${'x'.repeat(30_000)}"]\n` }).join()).toMatch(
      /line-too-long equipment\/table\.yaml:\d+/,
    );
  });
  it('an amount', () => {
    const digits = '1'.repeat(10_000);
    expect(told({ 'equipment/table.yaml': TABLE.replace('least: 5 h', `least: "${digits}"`) }).join()).toMatch(
      /amount-\S+ equipment\/table\.yaml:\d+/,
    );
  });
});

it('a thermostat that starts over the law’s limit is told', () => {
  expect(told({ 'equipment/table.yaml': TABLE.replace('cut_in: 37 °F', 'cut_in: 60 °F') }).join()).toContain(
    'control-starts-over-limit equipment/table.yaml',
  );
  expect(told({}).join()).not.toContain('control-starts-over-limit');
});

it('a ledger with a damaged end is none', async () => {
  const files = new Map<string, Uint8Array>();
  await smallBuild(threeStores(), memoryFolder(files).out);
  const bytes = files.get(LEDGER) as Uint8Array;
  expect(ledgerFrom(bytes, hash)).toBeDefined();
  const text = new TextDecoder().decode(bytes);
  const last = text.lastIndexOf('\n', text.length - 2) + 1;
  expect(ledgerFrom(new TextEncoder().encode(`${text.slice(0, last)}{"end":garbage\n`), hash)).toBeUndefined();
});

it('a file of the press lies in its folder', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightrail-sink-'));
  expect(() => openSink(join(folder, 'press'), '../../evil.pdf')).toThrow(/no name of a file/);
  rmSync(folder, { recursive: true });
});

it('a table of a gas that burns says no other class than ASHRAE 34: the cautions hang on it', () => {
  const doc = 'equipment/tables/refrigerants/r-290.yaml';
  const milder = (text: string): string => text.replace('safety: A3', 'safety: A1');
  expect(beside(doc, milder)).toContain(`refrigerant-safety ${doc}`);
  expect(beside(doc, (text) => text)).not.toContain('refrigerant-safety');
  // Under another name of a file too.
  const other = 'equipment/tables/refrigerants/ours.yaml';
  expect(beside(other, milder, doc)).toContain(`refrigerant-safety ${other}`);
});

it.each([
  ['never', 'food-in-top-overnight: { do: X, why: X }'],
  ['steps', 'move-cold: { text: "X {limit} {destination}" }'],
])('no sentence that people act on says next to nothing: %s', (file, own) => {
  expect(beside(`words/en/${file}.yaml`, () => own)).toContain(`words-too-few words/en/${file}.yaml`);
});

it('a paper of a unit that would have the name of a coming week’s sheet is told', () => {
  const files = {
    'nightrail.yaml': POSTER.replace('papers: [poster]', "papers: [week, '2026-11-30']"),
    'templates/2026-11-30/paper.yaml': 'name: x\n',
    'sites/street.yaml': STORE.replace('line-1:', 'week:'),
  };
  expect(told(files).join()).toContain('paper-name-twice sites/street.yaml');
});

it('two papers of one file’s name are told', () => {
  const files = {
    'nightrail.yaml': POSTER.replace('papers: [poster]', 'papers: [poster, line-1-poster]'),
    'templates/line-1-poster/paper.yaml': 'name: x\n',
  };
  expect(told(files).join()).toContain('paper-name-twice sites/street.yaml');
});

it('partials that call each other are told, thirty of them at once', () => {
  const own = Object.fromEntries(
    Array.from({ length: 31 }, (_, i) => [
      `templates/partials/p${i}.md.hbs`,
      Array.from({ length: 31 }, (_, n) => `{{> p${n}}}\n`).join(''),
    ]),
  );
  expect(told(own).join()).toContain('template-cycle templates/partials/p0.md.hbs');
});

it.each([
  ['pull_down: 60 min', 'pull_down: 0 min'],
  ['least: 5 h', 'least: 0 h'],
])('a figure of nothing is none: %s', (is, other) => {
  expect(told({ 'equipment/table.yaml': TABLE.replace(is, other) }).join()).toContain('amount-out-of-range equipment/table.yaml');
});

it('a store of more tops than a crew can empty is refused, not solved for minutes', () => {
  const [head = '', unit = ''] = STORE.split('units:\n');
  const units = Array.from({ length: 40 }, (_, i) => unit.replace('line-1', `line-${i}`)).join('');
  expect(told({ 'sites/street.yaml': `${head}units:\n${units}` }).join()).toContain('too-many-tops sites/street.yaml');
});

it.each([
  ['a limit that no law has', 'law-limit', 'c: 60, f: 140'],
  ['two figures that are not the same', 'law-figures-apart', 'c: 5, f: 410'],
])('%s is no law', (_, code, figures) => {
  const doc = 'equipment/tables/law/us-food-code-2022.yaml';
  expect(beside(doc, (text) => text.replace('f: 41, c: 5,', `${figures},`))).toContain(`${code} ${doc}`);
  expect(beside(doc, (text) => text)).not.toMatch(/law-(limit|figures)/);
});

it('a tag that goes on in the next line is one tag, and a helper without its block is told', () => {
  const handout = (own: string) =>
    onPages({
      'nightrail.yaml': POSTER.replace('papers: [poster]', 'papers: [handout]'),
      'templates/partials/handout-own.md.hbs': own,
    }).map((f) => [f.code, f.at.doc]);
  expect(handout('{{t "poster.night"\n}}\n')).toEqual([]);
  for (const own of ['{{if unit}}\n', '{{when (if unit)}}\n'])
    expect(handout(own)).toContainEqual(['template-failed', 'templates/partials/handout-own.md.hbs']);
});

it('a folder that cannot be made is told, not tried for ever', () => {
  expect(() => openSink('/proc/nightrail/press', 'a.pdf')).toThrow(/ENOENT|EACCES|ENOTDIR/);
});

it.each([
  ['days with a word that is no day', "crew: { leaves: { 'monkey-sundae': at closing } }", 'bad-days'],
  [
    'a day in two rules, neither an exception',
    'crew: { leaves: { mon-fri: at closing, fri-sun: 45 min after closing } }',
    'day-twice',
  ],
  ['a day in two rules', "crew: { leaves: { sat: at closing, 'mon-sun': 45 min after closing } }", 'day-twice'],
  [
    'a date twice',
    "exceptions: [{ date: 2026-12-25, hours: '12:00-18:00' }, { date: 2026-12-25, hours: off }]",
    'exception-twice',
  ],
  ['a date with weekdays of its own', "exceptions: [{ date: 2026-12-25, hours: 'Mo 10:00-12:00' }]", 'exception-of-days'],
  ['a probe that is out by more than any', 'probe_error: 30 °F', 'amount-out-of-range'],
  ['a sign within a duration', "crew: { leaves: '1 h -30 min after closing' }", 'bad-when'],
])('%s is refused', (_, line, code) => {
  expect(told({ 'sites/street.yaml': `${STORE}${line}\n` }).join()).toContain(`${code} sites/street.yaml`);
});

it('days are read to their end, with the dashes that people type', () => {
  const leaves = (days: string) => {
    const tried = tryChain({
      'sites/street.yaml': `${STORE}crew: { leaves: { '${days}': 2 h after closing, sat: at closing, sun: at closing } }\n`,
    });
    return Object.values(tried.stores.get('street')?.plan?.crew.leaves.value.at ?? {}).map(({ min }) => min / 60);
  };
  for (const days of ['mon-fri', 'mon–fri', 'Monday-Friday', 'mondays-fridays'])
    expect(leaves(days), days).toEqual([24, 24, 24, 24, 24, 22, 22]);
});

it.each(['beta: 1e9', 'beta: 1'])('a sensor that no meter could follow is refused: %s', (beta) => {
  const own = `form: beta\nname: Own\nsource: its sheet\nresistance: 10 kohm\ntemperature: 77 °F\n${beta}\nlimits: -40 to 140 °F\n`;
  expect(told({ 'equipment/tables/sensors/own.yaml': own }).join()).toContain(
    'curve-senseless equipment/tables/sensors/own.yaml',
  );
});

it('one page calls no thousand partials', () => {
  const doubling = Object.fromEntries(
    Array.from({ length: 31 }, (_, i) => [
      `templates/partials/p${i}.md.hbs`,
      i < 30 ? `{{> p${i + 1}}}\n{{> p${i + 1}}}\n` : 'x\n',
    ]),
  );
  expect(told({ ...doubling, 'templates/poster/page.md.hbs': '{{> p0}}\n' }).join()).toContain('template-too-many');
});

it('nothing is added to a file through a link in the folder of the papers', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightrail-link-'));
  const elsewhere = join(folder, 'elsewhere.txt');
  writeFileSync(elsewhere, 'mine');
  mkdirSync(join(folder, 'out'));
  symlinkSync(elsewhere, join(folder, 'out', '.journal.jsonl'));
  expect(() => openOutside(join(folder, 'out')).out.append('.journal.jsonl', 'theirs')).toThrow();
  expect(readFileSync(elsewhere, 'utf8')).toBe('mine');
  rmSync(folder, { recursive: true });
});

describe('no caution is lost by a template, however it is turned', () => {
  const page = (text: string) =>
    onPages({ 'templates/poster/page.md.hbs': `{{> headline}}\n\n${text}\n` }).map((f) => `${f.severity} ${f.code}`);
  const CAUTIONS = '```cautions\n```';

  it.each([
    [
      'a number of things to cut out that is none',
      `::: cut-outs -1\n:::: cut-out\n${CAUTIONS}\n\n::::\n:::`,
      'error template-number',
    ],
    [
      'a column of no width',
      `::: columns 1 -0.9\n:::: column\nx\n::::\n:::: column\n${CAUTIONS}\n\n::::\n:::`,
      'error template-number',
    ],
    ['an endless number', `::: cut-outs Infinity\n:::: cut-out\n${CAUTIONS}\n\n::::\n:::`, 'error template-number'],
    ['a figure of less than no width', `\`\`\`figure day-bar -20\n\`\`\`\n\n${CAUTIONS}`, 'error template-share'],
    ['a figure of no width', `\`\`\`figure day-bar 1e-9\n\`\`\`\n\n${CAUTIONS}`, 'error template-share'],
    ['a figure wider than its page', `\`\`\`figure day-bar 2 grows\n\`\`\`\n\n${CAUTIONS}`, 'error template-share'],
    ['type for the hand on a wall', `::: face hand\n${CAUTIONS}\n:::`, 'error template-small-caution'],
    [
      'words between columns',
      `::: columns 1 1\n:::: column\nx\n::::\n**Never open it.**\n:::\n\n${CAUTIONS}`,
      'error template-loose',
    ],
    ['more quotes than can be read', `${'> '.repeat(3000)}a\n\n${CAUTIONS}`, 'error template-too-nested'],
  ])('%s', (_, text, finding) => {
    expect(page(text)).toContain(finding);
  });

  it('signs that stand for values are no part of it', () => {
    const own = { 'templates/poster/page.md.hbs': `{{> headline}}\n\nx \ue000999\ue001\n\n${CAUTIONS}\n` };
    expect(told(own)).toContain('forbidden-character templates/poster/page.md.hbs:3:3');
  });

  it('boxes to tick make no to-do list of what is never done', () => {
    const { workshop, stores } = tryChain({
      'nightrail.yaml': POSTER,
      'templates/poster/page.md.hbs': '{{> headline}}\n\n::: ticks\n```cautions never\n```\n:::\n\n```cautions\n```\n',
    });
    if (!workshop) throw new Error('no workshop');
    const [made] = pagesOf(workshop, stores);
    const lists = [...walk(made?.page?.body ?? [])].filter((block) => block.block === 'list' && block.cautions);
    expect(lists.map((block) => block.block === 'list' && block.mark)).toEqual(['never']);
  });
});

it.each([
  ['nothing but a remark', '{{! nothing }}\n'],
  ['a definition', '[x]: y\n'],
  ['a comment', '<!-- nothing -->\n'],
  ['a condition that never holds', '{{#unless unit}}x{{/unless}}\n'],
])('a partial that says nothing where the one that ships speaks is told: %s', (_, text) => {
  const files = new Map([...shippedFiles()].map(([name, bytes]) => [SHIPPED + name, bytes]));
  const own = {
    'nightrail.yaml': POSTER,
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
    'templates/partials/call.md.hbs': text,
  };
  for (const [name, content] of Object.entries(own)) files.set(name, new TextEncoder().encode(content));
  const { workshop, stores } = tryFiles(files);
  if (!workshop) throw new Error('no workshop');
  const findings = pagesOf(workshop, stores).flatMap((made) => made.findings);
  expect(findings.map((f) => `${f.code} ${f.at.doc}`)).toContain('partial-empty templates/partials/call.md.hbs');
});

describe('what ships is not changed in silence', () => {
  it.each([
    ['units', 'h: minutes\n', 'caution-reworded words/en/units.yaml'],
    ['headline', 'emptied-every-night: Food may stay in the top overnight.\n', 'caution-reworded words/en/headline.yaml'],
    ['foot', 'not-set: Clock and controls set by somebody\n', 'caution-reworded words/en/foot.yaml'],
    ['week', 'no-rest-title: A safe rest is set\n', 'caution-reworded words/en/week.yaml'],
  ])('a sentence of %s', (list, text, finding) => {
    expect(beside(`words/en/${list}.yaml`, () => text)).toContain(finding);
  });

  it('a law, under its own name', () => {
    const doc = 'equipment/tables/law/us-food-code-2022.yaml';
    expect(beside(doc, (text) => text.replace('f: 41, c: 5', 'f: 50, c: 10'))).toContain(`table-replaced ${doc}`);
    expect(beside(doc, (text) => text)).not.toContain('table-replaced');
    expect(beside(doc, (text) => text.replace('frozen: {', 'frozen: { f: 60, c: 200,'))).toMatch(
      /too-large|bad-value|out-of-range|us-food/,
    );
  });

  it('a law, under another name', () => {
    const [own, ships] = ['equipment/tables/law/our-county.yaml', 'equipment/tables/law/us-food-code-2022.yaml'];
    expect(beside(own, (text) => text, ships)).toContain(`law-own ${own}`);
  });

  it('a gas that burns, under another name', () => {
    const doc = 'equipment/tables/refrigerants/r-290p.yaml';
    const own = (composition: string) => (text: string) =>
      text.replace('name: R-290', 'name: R-290P').replace('safety: A3', 'safety: A1').replace('R-290: 1', composition);
    const from = 'equipment/tables/refrigerants/r-290.yaml';
    expect(beside(doc, own('propane: 1'), from)).toContain(`refrigerant-safety ${doc}`);
    expect(beside(doc, own('R-290: 0.9\n  R-600a: 0.1'), from)).toContain(`refrigerant-safety ${doc}`);
    expect(beside(doc, own('secret: 1'), from)).toContain(`refrigerant-class-own ${doc}`);
  });

  it('a gas whose number is a slip is not taken for one that is near', () => {
    const { findings } = tryChain({ 'equipment/table.yaml': TABLE.replace('R-404A', 'R-209') });
    const [unknown] = findings.filter(({ code }) => code === 'unknown-refrigerant');
    expect(unknown?.data).toEqual({ wrote: 'R-209', names: expect.arrayContaining(['R-290', 'R-22']) as unknown });
    const { findings: spelled } = tryChain({ 'equipment/table.yaml': TABLE.replace('R-404A', 'R404a') });
    expect(spelled.find(({ code }) => code === 'unknown-refrigerant')?.data).toEqual({ wrote: 'R404a', nearest: 'R-404A' });
  });

  it.each(['air', 'coil'])('a thermostat in °C for °F, that senses the %s', (senses) => {
    const warm = TABLE.replace(
      /control: \{ cut_in: 37 °F, cut_out: 33 °F, senses: air \}/,
      `control: { cut_in: 24 °C, cut_out: 12 °C, senses: ${senses} }`,
    );
    expect(warm).not.toBe(TABLE);
    expect(told({ 'equipment/table.yaml': warm }).join()).toContain('control-over-limit equipment/table.yaml');
  });

  it('a paper of steps for a unit without a schedule, or for technicians', () => {
    const spec = (change: (text: string) => string) => {
      const text = new TextDecoder().decode(shippedFiles().get('templates/poster/paper.yaml'));
      return told({
        'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [own]'),
        'templates/own/paper.yaml': change(text),
        'templates/own/page.md.hbs': '{{> night}}\n',
        'words/en/own.yaml': 'name: Own\n',
      }).join();
    };
    expect(spec((text) => text)).not.toContain('paper-of-steps');
    expect(spec((text) => text.replace('needs_schedule: true', 'needs_schedule: false'))).toContain('paper-of-steps');
    expect(spec((text) => text.replace('reader: staff', 'reader: technician'))).toContain('paper-of-steps');
  });

  it('a time or a temperature in a text that staff read', () => {
    const typed = told({
      'sites/street.yaml': STORE.replace('nickname: Line 1', 'nickname: Line 1, up to 55 °F until 03:30'),
    }).join();
    expect(typed.match(/figure-in-text sites\/street\.yaml/g)).toHaveLength(2);
  });

  it.each([
    ['split: 27 °F', 'split: 200 °F'],
    ['charge: 28 oz', 'charge: 28 lb'],
    ['amps: 8', 'amps: 80'],
  ])('%s as %s', (was, is) => {
    const table = TABLE.replace('condensing: { ', 'condensing: { power: 1/2 hp, ');
    expect(told({ 'equipment/table.yaml': table.replace(was, is) }).join()).toMatch(
      is.startsWith('amps') ? /amps-unlikely equipment/ : /figure-unlikely equipment/,
    );
    expect(told({ 'equipment/table.yaml': table }).join()).not.toContain('-unlikely');
  });
});
