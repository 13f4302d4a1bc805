/**
 * A small chain in memory for tests: the shipped tables, words and templates, with files of the test's own over them.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkshop, type Workshop } from '../../src/fleet/workshop.js';
import { planOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import { locate } from '../../src/read/locate.js';
import type { Files } from '../../src/read/shelf.js';
import type { Source } from '../../src/read/yaml.js';
import type { Finding } from '../../src/base/finding.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

const tree = (folder: string, into: Map<string, Uint8Array>): void => {
  for (const name of readdirSync(folder).sort()) {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) tree(path, into);
    else if (/\.(ya?ml|hbs)$/.test(name)) into.set(path, readFileSync(path));
  }
};

const shipped = new Map<string, Uint8Array>();
for (const folder of ['equipment/tables', 'templates', 'words']) tree(folder, shipped);

/** Every paper that ships. */
export const PAPERS: readonly string[] = [...shipped.keys()].flatMap(
  (doc) => /^templates\/([^/]+)\/paper\.yaml$/.exec(doc)?.[1] ?? [],
);

/** What ships with nightrail, to lay a chain over. */
export const shippedFiles = (): Map<string, Uint8Array> => new Map(shipped);

/** The demo's own files. */
export const demoFiles = (): Map<string, Uint8Array> => {
  const files = new Map(shipped);
  for (const folder of ['equipment', 'sites']) tree(folder, files);
  files.set('nightrail.yaml', readFileSync('nightrail.yaml'));
  return files;
};

export const CHAIN = `name: Test Kitchens
brand: { colour: '#1f4d3a' }
papers: [poster, week, handout, card]
week_starts: mon
approved: { by: Somebody, from: 2026-11-16 }
defaults:
  languages: [en]
  backup: the walk-in
  phones: { service: { name: Test Service, phone: 555-0100 }, emergency: '911' }
`;

export const TABLE = `name: Test table
sort: prep table
maker: { name: Test Works }
nameplate: { model: T-1, volts: 115, amps: 8, hertz: 60, circuits: [{ refrigerant: R-404A, charge: 28 oz, serves: [rail, base] }] }
condensing: { place: in-unit, feed: expansion-valve, receiver: true, ports: true, split: 27 °F }
control:
  strategy: shared-low-pressure
  pressure: { cut_in: 46 psig, cut_out: 28 psig, reference: atmosphere, dial: cut-in-and-cut-out }
zones:
  rail:
    kind: static-rail
    aim: 36 to 38 °F
    air: 16 to 20 °F
    probe: { where: top centre }
    pans: { count: 12, size: sixth, depth: 4 in, material: steel, load_line: 1 in }
    covers: { night: shut, slack: shut }
    drains: by-itself
    rest:
      least: 5 h
      enough: 7 h
      pull_down: 60 min
      clock: { kind: daily-dial, polarity: out-is-on, reachable: false, stops: [rail] }
  base:
    kind: refrigerated-base
    aim: 36 to 38 °F
    air: 33 to 37 °F
    control: { cut_in: 37 °F, cut_out: 33 °F, senses: air }
    probe: { where: top shelf }
loading: [no-warm-food, one-pan-each-opening]
`;

export const STORE = `name: Test Street
timezone: America/Chicago
hours: Mo-Su 07:00-22:00
units:
  line-1:
    profile: table
    nickname: Line 1
    position: by the door
    serial: X1
    food_goes_to: { zone: base, free_shelf: 6 sq ft, height: 6 in }
`;

export interface Tried {
  readonly files: Files;
  readonly workshop: Workshop | undefined;
  readonly stores: ReadonlyMap<string, PlannedStore>;
  readonly findings: readonly Finding[];
  /** `code file:line:column`, in the order in which they were found. */
  readonly told: readonly string[];
}

/** Languages that every small chain has; others are read where its files ask for them, since each costs time at every opening. */
const USUAL = ['en', 'es'];

const languageOf = (doc: string): string | undefined => /^words\/([a-z]{2})\//.exec(doc)?.[1];

const asked = (all: Readonly<Record<string, string | Uint8Array | undefined>>): ReadonlySet<string> =>
  new Set([
    ...USUAL,
    ...Object.entries(all).flatMap(([doc, text]) => [
      languageOf(doc) ?? '',
      ...(typeof text === 'string'
        ? [...text.matchAll(/languages: \[([^\]]*)\]/g)].flatMap((m) => (m[1] as string).split(/, */))
        : []),
    ]),
  ]);

/** Opens a chain of one table and one store, with the files given over them, and plans its stores. `spoken`: languages to have besides. */
export const tryChain = (
  own: Readonly<Record<string, string | Uint8Array | undefined>> = {},
  spoken: readonly string[] = [],
): Tried => {
  const all: Readonly<Record<string, string | Uint8Array | undefined>> = {
    'nightrail.yaml': CHAIN,
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
    ...own,
  };
  const languages = new Set([...asked(all), ...spoken]);
  const files = new Map([...shipped].filter(([doc]) => languages.has(languageOf(doc) ?? 'en')));
  for (const [doc, text] of Object.entries(all))
    if (text !== undefined) files.set(doc, typeof text === 'string' ? bytes(text) : text);
  return tryFiles(files);
};

export const tryFiles = (files: Files): Tried => {
  const opened = openWorkshop(files);
  const sources = new Map<string, Source>(opened.sources);
  const findings: Finding[] = [...opened.findings];
  const stores = new Map<string, PlannedStore>();
  if (opened.workshop) {
    for (const [doc, content] of files) {
      if (!doc.startsWith('sites/')) continue;
      const planned = planOf(opened.workshop, doc, content);
      if (planned.source) sources.set(doc, planned.source);
      stores.set(doc.slice('sites/'.length).replace(/\.yaml$/, ''), planned);
      findings.push(...planned.findings);
    }
  }
  const told = findings.map((f) => {
    const spot = locate(f.at, sources.get(f.at.doc));
    return `${f.code} ${f.at.doc}${spot ? `:${spot.line}:${spot.column}` : ''}`;
  });
  return { files, workshop: opened.workshop, stores, findings, told };
};

/** Findings worth a mistake's test: notes about what nobody checked are in every chain. */
export const serious = (tried: Tried): readonly string[] => tried.told.filter((_, i) => tried.findings[i]?.severity !== 'note');
