/**
 * A chain's files to its shelf: the chain, the tables and the profiles, read once; then its stores, one by one.
 * Pure: the caller gives the bytes. A mistake in a shared file is told once; one in a store's file spoils that store alone.
 */
import { anyError, error, note, warning, type Finding } from '../base/finding.js';
import { NOON, WEEKDAYS, type Weekday } from '../base/moment.js';
import { nearest, nearestFew, suggestion } from '../base/spelling.js';
import { place, within, type Place } from '../base/place.js';
import { chainSchema, type Chain } from '../model/chain.js';
import { asId, asIdIn, isId, type WrittenHours } from '../model/fields.js';
import { writeSpan, writeSpan12 } from '../model/hours/index.js';
import { lawSchema, type Law } from '../model/law.js';
import { profileSchema } from '../model/profile.js';
import { covers, factOf, originFor } from '../model/origins.js';
import { lay, type Laid, type Layer, type Origin } from '../model/resolve.js';
import { storeSchema, type Store, type Unit } from '../model/store.js';
import { asSensor, sensorSchema } from '../model/tables.js';
import type { Food } from '../science/food.js';
import type { Refrigerant } from '../science/saturation.js';
import type { SensorCurve } from '../science/sensor.js';
import { needsFact } from './columns.js';
import { findingsOf } from './issues.js';
import {
  idOf,
  inFolder,
  makeReader,
  readFoodProperties,
  readRefrigerants,
  SHIPPED,
  type Filed,
  type Files,
  type Parsed,
} from './reader.js';
import { hasRail, noPlaceForFood } from './food-place.js';
import { checkCurve } from './sensor-check.js';
import { isInSheet, readRows } from './spreadsheet.js';
import { storeSources } from './stores.js';
import { mapOf, neitherToldNorListed, withoutUnknown, type KnownProfile } from './unknown.js';
import { readYaml, type Source } from './yaml.js';

export { SHIPPED, type Filed, type Files, type Parsed } from './reader.js';

interface ProfileFile {
  readonly raw: unknown;
  readonly at: Place;
  /** False: the file has errors of its own, told once. */
  readonly sound: boolean;
}

export interface Shelf {
  readonly chain: Chain;
  readonly chainAt: Place;
  readonly laws: ReadonlyMap<string, Filed<Law>>;
  readonly refrigerants: ReadonlyMap<string, Filed<Refrigerant>>;
  readonly sensors: ReadonlyMap<string, Filed<SensorCurve>>;
  /** What foods are made of, for conduction: equipment/tables/foods. */
  readonly foodProperties: ReadonlyMap<string, Filed<Food>>;
  readonly profiles: ReadonlyMap<string, ProfileFile>;
  /** The layers under every store. */
  readonly under: readonly Layer[];
  /** The language in which a text written once is. */
  readonly lang: string;
}

/** One unit, its profile with what differs at this unit laid over it. */
export interface ReadUnit extends KnownProfile {
  readonly id: string;
  readonly unit: Unit;
  /** Where a value of the profile was written; of the unit, see `ReadStore.originOf`. */
  readonly originOf: (...path: (string | number)[]) => Origin;
}

export interface ReadStore {
  readonly id: string;
  readonly store: Store;
  readonly at: Place;
  /** The language of a text that is written once. */
  readonly lang: string;
  readonly law: Filed<Law>;
  readonly units: readonly ReadUnit[];
  readonly originOf: (...path: (string | number)[]) => Origin;
}

/** What can be told of a store whose file has errors: what it is called, and where it says its time zone. */
export interface Glimpse {
  readonly name?: string;
  readonly region?: string;
  readonly timezone?: { readonly wrote: string; readonly at: Place };
}

export interface ReadShelf {
  readonly shelf?: Shelf;
  readonly findings: readonly Finding[];
  /** Every file read, for locating findings. */
  readonly sources: ReadonlyMap<string, Source>;
}

/** Files of a folder by the id that each would have. */
const byId = (files: Files, folder: string): ReadonlyMap<string, readonly string[]> => {
  const found = new Map<string, string[]>();
  for (const doc of inFolder(files, folder)) found.set(idOf(doc), [...(found.get(idOf(doc)) ?? []), doc]);
  return found;
};

export const readShelf = (files: Files, parsed?: Parsed): ReadShelf => {
  const reader = makeReader(files, parsed);
  const { open, checked, table, findings, sources } = reader;

  findings.push(...ownTables(files));
  const laws = table(LAWS, (raw, doc) => checked(lawSchema, raw, doc));
  const refrigerants = readRefrigerants(reader);
  const sensors = table('equipment/tables/sensors', (raw, doc) => {
    const read = checked(sensorSchema, raw, doc);
    if (read) findings.push(...checkCurve(read, place(doc)));
    return read && asSensor(read);
  });
  const foodProperties = readFoodProperties(reader);

  const profiles = new Map<string, ProfileFile>();
  for (const doc of inFolder(files, 'equipment')) {
    const before = findings.length;
    const raw = open(doc);
    if (!isId(idOf(doc))) findings.push(error('bad-id', place(doc), { wrote: idOf(doc), ...asIdIn(idOf(doc)) }));
    if (raw !== undefined) findings.push(...neitherToldNorListed(raw, place(doc)));
    const sensor = checked(profileSchema, raw, doc)?.control.sensor;
    if (typeof sensor === 'object') findings.push(...checkCurve(sensor, place(doc, 'control', 'sensor')));
    profiles.set(idOf(doc), { raw, at: place(doc), sound: !anyError(findings.slice(before)) });
  }

  findings.push(...storeSources(files).findings);
  for (const [id, [first, ...more]] of byId(files, 'equipment')) {
    for (const doc of more)
      findings.push(error('duplicate-id', place(doc), { id, other: first as string }, [place(first as string)]));
  }

  const chainDoc = ['nightrail.yaml', 'nightrail.yml'].find((doc) => files.has(doc));
  if (!chainDoc) return { findings: [...findings, error('no-chain', place('nightrail.yaml'))], sources };
  const raw = open(chainDoc);
  const chain = checked(chainSchema, raw, chainDoc);
  if (!chain) return { findings, sources };

  const defaultsDoc = inFolder(files, 'equipment/tables').find((doc) => doc.endsWith('store-defaults.yaml'));
  const builtin = defaultsDoc === undefined ? undefined : open(defaultsDoc);
  const chainLayer: Layer = { value: chain.defaults ?? {}, at: place(chainDoc, 'defaults') };
  const loose = storeSchema.safeParse(chain.defaults ?? {}, { reportInput: true });
  if (!loose.success) findings.push(...findingsOf(loose.error, storeSchema, (path) => within(chainLayer.at, ...path), true));
  const under: Layer[] = [
    ...(defaultsDoc && builtin ? [{ value: builtin, at: place(defaultsDoc), assumed: true as const }] : []),
    chainLayer,
  ];
  const languages = (lay(under).value as { languages?: unknown }).languages;
  const lang = Array.isArray(languages) && typeof languages[0] === 'string' ? languages[0] : 'en';
  const shelf = { chain, chainAt: place(chainDoc), laws, refrigerants, sensors, foodProperties, profiles, under, lang };
  return { shelf, findings, sources };
};

/** Open tops of one store: more than any kitchen's crew empties in a night, and than the solver looks through in seconds. Common practice, no source. */
const MOST_TOPS = 12;

/** Names that a finding lists. */
const FEW = 8;

/** What is told of a name that no profile has: of two kinds in one text, which they are; else the nearest, the chain's own first. */
const noProfile = (shelf: Shelf, wrote: string, at: Place): Finding => {
  const all = [...shelf.profiles.keys()];
  const own = all.filter((name) => !shelf.profiles.get(name)?.at.doc.startsWith(SHIPPED));
  const parts = wrote.split(/\s*(?:[/+&,;]|\band\b)\s*/i).map((part) => nearest(asId(part), all));
  const kinds = parts.flatMap((name) => name ?? []);
  if (parts.length > 1 && kinds.length === parts.length) return error('profiles-in-one', at, { wrote, names: kinds });
  const near = nearest(asId(wrote), own) ?? nearest(asId(wrote), all);
  const names = nearestFew(asId(wrote), own.length > 0 ? own : all, FEW);
  return error('no-profile', at, { profile: wrote, ...(near ? { nearest: near } : names.length > 0 ? { names } : {}) });
};

/** A unit's profile with what differs at it, or findings. @param raw the unit as it was written */
const readProfile = (
  shelf: Shelf,
  profile: string,
  raw: unknown,
  at: Place,
  findings: Finding[],
): (KnownProfile & Pick<ReadUnit, 'originOf'>) | undefined => {
  const file = shelf.profiles.get(profile);
  if (!file) {
    findings.push(noProfile(shelf, profile, within(at, 'profile')));
    return undefined;
  }
  if (!file.sound) {
    findings.push(error('profile-has-errors', within(at, 'profile'), { profile, file: file.at.doc }));
    return undefined;
  }
  const laid: Laid = lay([
    { value: file.raw, at: file.at },
    { value: (raw as { differs?: unknown } | undefined)?.differs ?? {}, at: within(at, 'differs') },
  ]);
  const parsed = profileSchema.safeParse(laid.value, { reportInput: true });
  if (parsed.success) {
    const known = withoutUnknown(parsed.data, (path) => laid.originOf(path).at.doc === file.at.doc);
    const { origins = [], not_known: open = [] } = parsed.data;
    /** Taken over from a similar unit, or listed as a question that is still open. */
    const isUnsure = (fact: string): boolean =>
      originFor(origins, fact)?.confirmed === false || open.some((key) => covers(key, fact));
    return {
      ...known,
      originOf: (...path) => {
        const origin = laid.originOf(path);
        const ofProfile = origin.at.doc === file.at.doc;
        return ofProfile && isUnsure(factOf(path)) ? { ...origin, confirmed: false } : origin;
      },
    };
  }
  findings.push(...findingsOf(parsed.error, profileSchema, (path) => laid.originOf(path).at));
  return undefined;
};

const readLaw = (shelf: Shelf, name: string, at: Place, findings: Finding[]): Filed<Law> | undefined => {
  const law = shelf.laws.get(name);
  if (!law) {
    findings.push(error('no-law', at, { law: name, ...suggestion(name, [...shelf.laws.keys()]) }));
  }
  return law;
};

/** A profile's name as people say it, `Prep Table 60`, with the one that it may mean; and of a sheet without units, the columns that make some. */
const inOurNames = (shelf: Shelf, finding: Finding): Finding => {
  const { code, data, at } = finding;
  const { wrote } = data;
  if (code === 'bad-id' && typeof wrote === 'string' && at.path[0] === 'units' && at.path.at(-1) === 'profile')
    return shelf.profiles.has(asId(wrote)) ? finding : noProfile(shelf, wrote, at);
  return code === 'missing-key' && data['key'] === 'units' && at.cell !== undefined
    ? error('csv-no-units', { ...at, cell: 'unit' }, { columns: ['unit', ...needsFact.unit.map((key) => `unit.${key}`)] })
    : finding;
};

/** Of a store whose form is wrong: what it names that there is not, so that all its faults are told at once. */
const checkNames = (shelf: Shelf, { value, originOf }: Laid, findings: Finding[]): void => {
  const { law, units } = mapOf(value);
  if (typeof law === 'string' && isId(law)) readLaw(shelf, law, originOf(['law']).at, findings);
  for (const [id, unit] of Object.entries(mapOf(units))) {
    const { profile } = mapOf(unit);
    if (typeof profile !== 'string' || !isId(profile)) continue;
    const { at } = originOf(['units', id]);
    const read = readProfile(shelf, profile, unit, at, findings);
    if (read && hasRail(read.profile) && !('food_goes_to' in mapOf(unit))) findings.push(noPlaceForFood(id, at));
  }
};

const glimpseOf = ({ value, originOf }: Laid): Glimpse => {
  const { name, region, timezone } = mapOf(value);
  const { shape } = storeSchema;
  const [called, lies, zone] = [shape.name.safeParse(name), shape.region.safeParse(region), shape.timezone.safeParse(timezone)];
  return {
    ...(called.success ? { name: called.data } : {}),
    ...(lies.data === undefined ? {} : { region: lies.data }),
    ...(zone.success ? { timezone: { wrote: zone.data, at: originOf(['timezone']).at } } : {}),
  };
};

const LAWS = 'equipment/tables/law';

/** A chain's own table under the name of one that ships, or a food law of its own: figures that people act on, and nobody sees on a page whose they are. */
const ownTables = (files: Files): readonly Finding[] => {
  const withShipped = [...files.keys()].some((doc) => doc.startsWith(SHIPPED));
  return [...files].flatMap(([doc, bytes]) => {
    const ships = doc.startsWith('equipment/tables/') ? files.get(SHIPPED + doc) : undefined;
    const same = ships !== undefined && ships.length === bytes.length && ships.every((byte, i) => byte === bytes[i]);
    if (ships !== undefined) return same ? [] : [warning('table-replaced', place(doc), {})];
    return withShipped && doc.startsWith(`${LAWS}/`) ? [warning('law-own', place(doc), {})] : [];
  });
};

/** A night that may have been read as a morning: the top would be emptied at noon. */
export const doubtedHours = ({ doubt, readAs }: WrittenHours, at: Place): readonly Finding[] => {
  if (!doubt) return [];
  const { from, to } = doubt.span;
  const days = doubt.days.map((day) => WEEKDAYS[day] as Weekday);
  const night = writeSpan({ from, to: to + NOON });
  return [
    warning('hours-short-morning', at, {
      days,
      span: writeSpan({ from, to }),
      read: readAs,
      night,
      noon: writeSpan12({ from, to }),
    }),
  ];
};

/** Reads one store. Without errors there is a `store`, otherwise at most a glimpse of it; its findings are its own. */
export const readStore = (
  shelf: Shelf,
  doc: string,
  bytes: Uint8Array,
): { store?: ReadStore; glimpse?: Glimpse; findings: readonly Finding[]; source: Source | undefined } => {
  const rows = isInSheet(doc) ? readRows(doc, bytes) : undefined;
  const read = rows ?? readYaml(doc, bytes);
  const findings: Finding[] = [...read.findings];
  const source: Source | undefined = 'source' in read ? read.source : undefined;
  const id = rows ? doc.slice(doc.indexOf('#') + 1) : idOf(doc);
  const at = rows?.placeOf([]) ?? place(doc);
  const isReadable = read.value !== undefined && !anyError(findings);
  const ofHours = rows?.ofHours ?? [];
  findings.push(...ofHours);
  // All faults of a store are told at once.
  if (!isId(id)) findings.push(error('bad-id', at, { wrote: id, ...asIdIn(id) }));
  if (!isReadable) return { findings, source };

  const laid = lay([...shelf.under, { value: read.value, at, ...(rows ? { placeOf: rows.placeOf } : {}) }]);
  const parsed = storeSchema.safeParse(laid.value, { reportInput: true });
  if (!parsed.success) {
    // Of hours in several cells, each tells its own fault.
    const told = findingsOf(parsed.error, storeSchema, (path) => laid.originOf(path).at).filter(
      ({ code, at, data }) =>
        ofHours.length === 0 || !(at.path[0] === 'hours' || (code === 'missing-key' && data['key'] === 'hours')),
    );
    findings.push(...told.map((finding) => inOurNames(shelf, finding)));
    checkNames(shelf, laid, findings);
    return { glimpse: glimpseOf(laid), findings, source };
  }
  const store = parsed.data;
  const originOf = (...path: (string | number)[]): Origin => laid.originOf(path);
  findings.push(...doubtedHours(store.hours, originOf('hours').at));
  if (store.hours.plain)
    findings.push(note('hours-read-as', originOf('hours').at, { wrote: store.hours.wrote, read: store.hours.readAs }));

  const law = readLaw(shelf, store.law, originOf('law').at, findings);
  const units: ReadUnit[] = [];
  const rawUnits = (laid.value as { units?: Record<string, unknown> }).units ?? {};
  for (const [unitId, unit] of Object.entries(store.units)) {
    const profile = readProfile(shelf, unit.profile, rawUnits[unitId], originOf('units', unitId).at, findings);
    if (profile) units.push({ id: unitId, unit, ...profile });
  }
  const tops = units.filter(({ profile }) => hasRail(profile));
  if (tops.length > MOST_TOPS)
    findings.push(error('too-many-tops', originOf('units').at, { count: tops.length, most: MOST_TOPS }));
  if (!law || anyError(findings)) return { glimpse: glimpseOf(laid), findings, source };
  return { store: { id, store, at, lang: shelf.lang, law, units, originOf }, findings, source };
};
