/**
 * Columns of a sheet of stores: named as the keys of a store's YAML, with dots; what belongs to the row's unit stands under `unit.`.
 * A column whose name begins with # is left out on purpose; any other name that is no key is a finding, so that nothing is lost silently.
 */
import { z } from 'zod';
import { inGroups } from '../base/amount.js';
import { WEEKDAYS } from '../base/moment.js';
import { nearest } from '../base/spelling.js';
import { profileSchema } from '../model/profile.js';
import { storeSchema } from '../model/store.js';
import { isHoursColumn } from './row-hours.js';

interface Json {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Json>>;
  readonly additionalProperties?: Json | boolean;
  readonly items?: Json;
  readonly required?: readonly string[];
  readonly anyOf?: readonly Json[];
}

const shapeOf = (schema: z.ZodType): Json => z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as Json;
const STORE = shapeOf(storeSchema);
const PROFILE = shapeOf(profileSchema);

/** What may stand at a path; empty where no key leads. */
const shapesAt = (shape: Json, [step, ...rest]: readonly string[]): readonly Json[] => {
  if (shape.anyOf) return shape.anyOf.flatMap((one) => shapesAt(one, step === undefined ? [] : [step, ...rest]));
  if (step === undefined) return [shape];
  if (shape.properties && Object.hasOwn(shape.properties, step)) {
    const inner = shape.properties[step] as Json;
    // What differs at a unit is written as its profile writes it.
    return step === 'differs' && rest.length > 0 ? shapesAt(PROFILE, rest) : shapesAt(inner, rest);
  }
  if (shape.items && /^\d{1,3}$/.test(step)) return shapesAt(shape.items, rest);
  return typeof shape.additionalProperties === 'object' ? shapesAt(shape.additionalProperties, rest) : [];
};

export type Kind = 'text' | 'number' | 'yes-or-no' | 'list';

const KINDS: Readonly<Record<string, Kind>> = {
  string: 'text',
  number: 'number',
  integer: 'number',
  boolean: 'yes-or-no',
  array: 'list',
};

export interface Column {
  readonly name: string;
  readonly means:
    | { readonly is: 'id' }
    | { readonly is: 'unit' }
    | { readonly is: 'left-out' }
    /** Hours beside the column of hours: opens, closes, hours.mon. */
    | { readonly is: 'hours' }
    /** `of`: the store, or the unit of the row. */
    | { readonly is: 'key'; readonly of: 'store' | 'unit'; readonly path: readonly string[]; readonly kinds: readonly Kind[] }
    | { readonly is: 'unknown'; readonly suggestion?: string };
}

/** What people call things in spreadsheets. For suggestions only: nothing is understood that isn't named as a key. */
const USUAL: readonly (readonly [RegExp, string])[] = [
  [/^(store|site|location|unit|shop)?\s*(#|no\.?|nr\.?|number|num|code|id)$/i, 'id'],
  [/^(store|site|location|shop|restaurant)(\s*name)?$/i, 'name'],
  [/^(area|district|market|division|region(\s*name)?)$/i, 'region'],
  [/^(opening|open|business|store|trading)?\s*(hours|times)$/i, 'hours'],
  [/^(all\s*hours|hours\s*\(?(all|all\s*days|all\s*week|every\s*day|daily)\)?|hours\s*of\s*operation)$/i, 'hours'],
  [/^(opens|open|opening|(opens?|opening)\s*(at|time))$/i, 'opens'],
  [/^(closes|close|closing|(closes?|closing)\s*(at|time))$/i, 'closes'],
  [/^(time\s*zone|tz)$/i, 'timezone'],
  [/^(elevation|altitude)( \(?(ft|m)\)?)?$/i, 'altitude'],
  [/^(free\s*)?shel(f|ves)(\s*(area|space))?$/i, 'unit.food_goes_to.free_shelf'],
  [/^(lang|langs|language|languages?)$/i, 'languages'],
  [/^(paper|paper\s*size|sheet\s*size)$/i, 'sheet'],
  [/^(closers|closing\s*crew)$/i, 'crew.closers'],
  [/^(openers|opening\s*crew)$/i, 'crew.openers'],
  [/^(crew|staff)?\s*(comes|arrives|in)$/i, 'crew.comes'],
  [/^(crew|staff)?\s*(leaves|out)$/i, 'crew.leaves'],
  [/^(service|repair)\s*(company|name)$/i, 'phones.service.name'],
  [/^(service|repair)\s*(phone|tel\.?|number)$/i, 'phones.service.phone'],
  [/^(serial|s\/n)\s*(#|no\.?|number)?$/i, 'unit.serial'],
  [/^(equipment|model|profile|table)(\s*(type|profile))?$/i, 'unit.profile'],
  [/^nick\s*name$/i, 'unit.nickname'],
  [/^manager('?s)?\s*(phone|tel\.?|telephone|mobile|cell)\s*(#|no\.?|number)?$/i, 'phones.manager'],
  [/^(position|place|where)$/i, 'unit.position'],
  // As French, Spanish and German sheets call them.
  [/^(n°|nº|numéro|número|nummer|filial-?\s*nr\.?|code (du )?magasin)$/iu, 'id'],
  [/^(filiale|betrieb|magasin|établissement|nom( du magasin)?|tienda|sucursal|nombre|filialname)$/iu, 'name'],
  [/^(gebiet|bezirk|région|secteur|región|zona)$/iu, 'region'],
  [/^(zeitzone|fuseau(\s*horaire)?|zona horaria|huso(\s*horario)?)$/iu, 'timezone'],
  [/^(öffnungszeiten|(heures|horaires?)(\s*d['’]ouverture)?|horarios?(\s*de apertura)?)$/iu, 'hours'],
  [/^(sprachen?|langues?|idiomas?)$/iu, 'languages'],
  [/^(gerät|appareil|équipement|modèle|equipo|modelo)$/iu, 'unit.profile'],
  [/^(standort|emplacement|ubicación)$/iu, 'unit.position'],
  [/^(seriennummer|serien-?nr\.?|(numéro|n°) de série|número de serie)$/iu, 'unit.serial'],
];

/** Whether a cell can hold what the shape asks for: facts with facts of their own have a column for each of these. */
const inCell = (shape: Json): boolean => shape.type === undefined || shape.type in KINDS;

/** Keys that a person may have meant, down to four steps. */
const names = (shape: Json, prefix: readonly string[] = []): readonly string[] =>
  prefix.length > 3
    ? []
    : Object.entries(shape.properties ?? {}).flatMap(([key, inner]) => [
        ...(shapesAt(shape, [key]).some(inCell) ? [[...prefix, key].join('.')] : []),
        ...names(inner, [...prefix, key]),
      ]);

const UNIT = STORE.properties?.['units']?.additionalProperties as Json;
/** Facts that must be written, each a cell. */
const required = (shape: Json, prefix: readonly string[] = []): readonly string[] =>
  (shape.required ?? []).flatMap((key) => {
    const inner = shape.properties?.[key] as Json;
    const path = [...prefix, key];
    return shapesAt(shape, [key]).some(inCell) ? [path.join('.')] : required(inner, path);
  });

export const needsFact = { store: required(STORE), unit: required(UNIT) };

const ALL = ['id', 'unit', ...names(STORE).filter((n) => n !== 'units'), ...names(UNIT, ['unit'])];

/** The key that a person wrote in other letters, or the one key whose last step it is: `Free shelf`. */
const alike = (name: string): string | undefined => {
  const step = name.toLowerCase().replace(/[^a-z0-9]+/g, '_');
  if (ALL.includes(step)) return step;
  const [only, ...more] = ALL.filter((key) => key.endsWith(`.${step}`));
  return more.length === 0 ? only : undefined;
};

/** Columns that are nobody's key: people's names; notes, which are not what a technician found at a unit; and a phone that isn't said to be whose, which is the store's own: its crew would be told to ring itself. */
const NO_KEY =
  /^(notes?|comments?|remarks?)$|^(store|shop|restaurant|general|area|district)?\s*(managers?(\s*name)?|(phone|tel\.?|telephone)\s*(#|no\.?|number)?)$/i;

const DAY = /^(mon|tue|wed|thu|fri|sat|sun)(s|rs?|nes|ur)?(days?)?$/i;

/** `Mon`, `Tuesdays`, `Mon-Thu`, `Fri/Sat`, `Weekend hours`: a column of one day, or of days in a row. */
const daysOf = (name: string): string | undefined => {
  const said = name.replace(/\bhours\b|[():]/gi, ' ').trim();
  if (/^weekdays?$/i.test(said)) return 'hours.mon-fri';
  if (/^weekends?$/i.test(said)) return 'hours.sat-sun';
  const [, upTo] = /\s*(-|–|\bto\b|\bthru\b|\bthrough\b)\s*/i.exec(said) ?? [];
  const found = said.split(/\s*(?:[-–/&+]|\b(?:to|thru|through|and)\b)\s*/i).map((part) => DAY.exec(part)?.[1]?.toLowerCase());
  const days = found.flatMap((day) => WEEKDAYS.filter((one) => one === day));
  const [first, second] = days;
  if (days.length !== found.length || days.length > 2 || !first) return undefined;
  if (!second) return `hours.${first}`;
  const follows = WEEKDAYS.indexOf(second) === (WEEKDAYS.indexOf(first) + 1) % 7;
  return upTo !== undefined || follows ? `hours.${first}-${second}` : undefined;
};

const suggestionFor = (name: string): string | undefined =>
  NO_KEY.test(name)
    ? undefined
    : (USUAL.find(([pattern]) => pattern.test(name))?.[1] ?? daysOf(name) ?? alike(name) ?? nearest(name, ALL, 1));

const meansOf = (name: string): Column['means'] => {
  if (name === '' || name.startsWith('#')) return { is: 'left-out' };
  if (name === 'id' || name === 'unit') return { is: name };
  if (isHoursColumn(name)) return { is: 'hours' };
  const steps = name.split('.');
  const ofUnit = steps[0] === 'unit';
  const path = ofUnit ? steps.slice(1) : steps;
  const shapes = shapesAt(ofUnit ? UNIT : STORE, path).filter(inCell);
  if (shapes.length > 0 && !steps.includes('__proto__'))
    return {
      is: 'key',
      of: ofUnit ? 'unit' : 'store',
      path,
      kinds: shapes.map((shape) => KINDS[shape.type ?? 'string'] as Kind),
    };
  const suggestion = suggestionFor(name);
  return suggestion === undefined ? { is: 'unknown' } : { is: 'unknown', suggestion };
};

export const columnsOf = (header: readonly string[]): readonly Column[] => header.map((name) => ({ name, means: meansOf(name) }));

/** A cell's text as what its key takes: text where text may stand, else a number, yes or no, or a list parted by commas. */
export const cellValue = (text: string, kinds: readonly Kind[]): unknown => {
  if (kinds.includes('text')) return text;
  if (kinds.includes('number') && /^-?\d+([.,]\d+)?$/.test(text) && !inGroups('fraction', text))
    return Number(text.replace(',', '.'));
  if (kinds.includes('yes-or-no') && /^(yes|no|true|false|y|n|x)$/i.test(text)) return /^(yes|true|y|x)$/i.test(text);
  if (kinds.includes('list')) return text.split(/\s*[,;|]\s*/).filter((part) => part !== '');
  return text;
};
