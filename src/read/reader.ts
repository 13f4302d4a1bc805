/**
 * Opens a chain's files one by one: YAML to values that their schema has checked, with every finding and every source kept.
 */
import type { z } from 'zod';
import { error, warning, type Finding } from '../base/finding.js';
import { place, within, type Place } from '../base/place.js';
import { asFoodProperties, asRefrigerant, foodPropertiesSchema, refrigerantSchema } from '../model/tables.js';
import type { Food } from '../science/food.js';
import type { Refrigerant } from '../science/saturation.js';
import { findingsOf } from './issues.js';
import { readYaml, type Source } from './yaml.js';

/** Files by their path below the chain's folder. Those that ship with nightrail have `nightrail:` in front, and the chain's own of the same name win. */
export type Files = ReadonlyMap<string, Uint8Array>;

export const SHIPPED = 'nightrail:';

/** Values of files without a mistake that were parsed before, by their path. Who shows a line of one parses it again. */
export type Parsed = ReadonlyMap<string, unknown>;

const NOTHING: Parsed = new Map();

/** A value read from one file. */
export interface Filed<T> {
  readonly value: T;
  readonly at: Place;
}

export const idOf = (doc: string): string => doc.slice(doc.lastIndexOf('/') + 1).replace(/\.ya?ml$/, '');

/** Files of a folder; the chain's own take the place of shipped ones of the same name. */
export const inFolder = (files: Files, folder: string): readonly string[] => {
  const found = new Map<string, string>();
  for (const doc of [...files.keys()].sort()) {
    const own = doc.startsWith(SHIPPED) ? doc.slice(SHIPPED.length) : doc;
    if (!own.startsWith(`${folder}/`) || own.slice(folder.length + 1).includes('/') || !/\.ya?ml$/.test(own)) continue;
    if (doc === own || !found.has(own)) found.set(own, doc);
  }
  return [...found.values()];
};

export interface Reader {
  readonly files: Files;
  /** The value in a file; undefined where it could not be read. */
  readonly open: (doc: string) => unknown;
  readonly checked: <S extends z.ZodType>(schema: S, raw: unknown, doc: string) => z.output<S> | undefined;
  /** A folder of tables, by the names of its files. */
  readonly table: <T>(folder: string, read: (raw: unknown, doc: string) => T | undefined) => ReadonlyMap<string, Filed<T>>;
  readonly findings: Finding[];
  readonly sources: Map<string, Source>;
}

export const makeReader = (files: Files, parsed: Parsed = NOTHING): Reader => {
  const findings: Finding[] = [];
  const sources = new Map<string, Source>();
  const open: Reader['open'] = (doc) => {
    if (parsed.has(doc)) return parsed.get(doc);
    const read = readYaml(doc, files.get(doc) as Uint8Array);
    sources.set(doc, read.source);
    findings.push(...read.findings);
    return read.value;
  };
  const checked: Reader['checked'] = (schema, raw, doc) => {
    if (raw === undefined) return undefined;
    const parsed = schema.safeParse(raw, { reportInput: true });
    if (parsed.success) return parsed.data;
    findings.push(...findingsOf(parsed.error, schema, (path) => place(doc, ...path)));
    return undefined;
  };
  const table: Reader['table'] = (folder, read) => {
    const found = new Map<string, Filed<NonNullable<ReturnType<typeof read>>>>();
    for (const doc of inFolder(files, folder)) {
      const value = read(open(doc), doc);
      if (value !== undefined && value !== null) found.set(idOf(doc), { value, at: place(doc) });
    }
    return found;
  };
  return { files, open, checked, table, findings, sources };
};

/** The one part of a gas that is no blend. */
const aloneIn = (composition: Refrigerant['composition']): string | undefined => {
  const [only, ...more] = Object.keys(composition);
  return more.length === 0 ? only : undefined;
};

/** Gases that burn, by the names that people give them beside their numbers (ASHRAE 34, from memory). */
const BURNING: Readonly<Record<string, Refrigerant['safety']>> = Object.fromEntries(
  [
    ...['propane', 'isobutane', 'butane', 'n-butane', 'propylene', 'propene', 'ethane', 'methane', 'pentane', 'isopentane'],
    ...['r-290', 'r-600', 'r-600a', 'r-1270', 'r-170', 'r-50', 'r-601', 'r-601a', 're170', 'dme', 'hydrogen'],
  ].map((name) => [name, 'A3']),
);
/** More than this part of a blend is what it is called after, whatever else is in it: of blends that don't burn none has more of either (R-417A, R-513A; from memory). */
const MOST_A3 = 0.05;
const MOST_MILD = 0.6;

/** The class that a gas has at least by its parts; none where these don't tell. */
const leastClass = (
  composition: Refrigerant['composition'],
  classes: ReadonlyMap<string, Refrigerant['safety']>,
): Refrigerant['safety'] | undefined => {
  const share = (...safe: readonly Refrigerant['safety'][]): number =>
    Object.entries(composition).reduce((sum, [name, part]) => {
      const of = classes.get(name) ?? BURNING[name.toLowerCase()];
      return of !== undefined && safe.includes(of) ? sum + part : sum;
    }, 0);
  if (share('A3', 'A2') > MOST_A3) return 'A3';
  return share('A2L', 'A2', 'A3') > MOST_MILD ? 'A2L' : undefined;
};

const RANK: readonly Refrigerant['safety'][] = ['A1', 'A2L', 'A2', 'A3'];

const REFRIGERANTS = 'equipment/tables/refrigerants';

/**
 * Refrigerants by the names that people give them: R-448A. A chain's own table of one that ships may say other pressures, but no other safety class:
 * the cautions of a gas that burns hang on it.
 */
export const readRefrigerants = (reader: Reader): ReadonlyMap<string, Filed<Refrigerant>> => {
  const read = (raw: unknown, doc: string): Refrigerant | undefined => {
    const found = reader.checked(refrigerantSchema, raw, doc);
    return found && asRefrigerant(found);
  };
  const byFile = [...reader.table(REFRIGERANTS, read).values()];
  const isOwn = ({ at }: Filed<Refrigerant>): boolean => !at.doc.startsWith(SHIPPED);
  const own = byFile.filter(isOwn);
  const shipped = inFolder(
    own.length > 0 ? new Map([...reader.files].filter(([doc]) => doc.startsWith(SHIPPED))) : new Map(),
    REFRIGERANTS,
  );
  const classes = new Map(
    shipped.flatMap((doc) => [read(reader.open(doc), doc)].flatMap((r) => (r ? [[r.name, r.safety]] : []))),
  );
  // One gas alone is that gas, whatever it is called.
  const saysOf = ({ name, composition }: Refrigerant) => classes.get(name) ?? classes.get(aloneIn(composition) ?? '');
  const held = own.map((filed): Filed<Refrigerant> => {
    const { value, at } = filed;
    const known = saysOf(value);
    const least = leastClass(value.composition, classes);
    const says = known ?? (least !== undefined && RANK.indexOf(value.safety) < RANK.indexOf(least) ? least : undefined);
    if (shipped.length > 0 && known === undefined && says === undefined)
      reader.findings.push(warning('refrigerant-class-own', within(at, 'safety'), { name: value.name, wrote: value.safety }));
    if (says === undefined || says === value.safety) return filed;
    reader.findings.push(error('refrigerant-safety', within(at, 'safety'), { name: value.name, wrote: value.safety, says }));
    return { value: { ...value, safety: says }, at };
  });
  // Of two files of one name the chain's own is taken.
  return new Map([...byFile.filter((filed) => !isOwn(filed)), ...held].map((filed) => [filed.value.name, filed] as const));
};

/** The table of foods, by name. */
export const readFoodProperties = (reader: Reader): ReadonlyMap<string, Filed<Food>> => {
  const doc = inFolder(reader.files, 'equipment/tables').find((name) => name.endsWith('/foods.yaml'));
  const read = doc === undefined ? undefined : reader.checked(foodPropertiesSchema, reader.open(doc), doc);
  if (doc === undefined || !read) return new Map();
  return new Map(Object.entries(asFoodProperties(read)).map(([name, value]) => [name, { value, at: place(doc, name) }] as const));
};
