/**
 * What zod says about a value, as findings of ours: one each, at the place where a person wrote it, with the nearest name for a typo.
 */
import { z } from 'zod';
import type { $ZodIssue } from 'zod/v4/core';
import { error, type Datum, type Finding } from '../base/finding.js';
import { nearest } from '../base/spelling.js';
import { within, type Place } from '../base/place.js';
import { LANG, type IssueParams } from '../model/fields.js';

type Path = readonly (string | number)[];

/** What a schema wraps, seen through optional, transform and the like. */
interface Shaped {
  readonly def: {
    readonly type: string;
    readonly shape?: Record<string, Shaped>;
    readonly innerType?: Shaped;
    readonly in?: Shaped;
    readonly element?: Shaped;
    readonly valueType?: Shaped;
    readonly options?: readonly Shaped[];
    readonly items?: readonly Shaped[];
    readonly entries?: Readonly<Record<string, string>>;
    readonly values?: readonly unknown[];
  };
}

/** Keys that a schema knows at a path; empty where anything goes. */
const keysAt = (schema: Shaped, path: Path): readonly string[] => {
  const { def } = schema;
  const inside = def.innerType ?? def.in;
  if (inside) return keysAt(inside, path);
  if (def.options) return def.options.flatMap((option) => keysAt(option, path));
  const [step, ...rest] = path;
  if (step === undefined) return Object.keys(def.shape ?? {});
  const next = def.shape?.[String(step)] ?? def.element ?? def.valueType;
  return next ? keysAt(next, rest) : [];
};

/** What a schema takes at a path: the words of an enumeration, or examples of how it is written. */
const formsAt = (schema: Shaped, path: Path): readonly string[] => {
  const { def } = schema;
  const examples = z.globalRegistry.get(schema as unknown as z.ZodType)?.examples;
  if (path.length === 0 && Array.isArray(examples)) return examples.filter((e): e is string => typeof e === 'string');
  if (path.length === 0 && def.entries) return Object.values(def.entries);
  if (path.length === 0 && def.values) return def.values.map(String);
  if (path.length === 0 && def.type === 'boolean') return ['true', 'false'];
  const inside = def.innerType ?? def.in;
  if (inside) return formsAt(inside, path);
  if (def.options) return def.options.flatMap((option) => formsAt(option, path));
  const [step, ...rest] = path;
  const next =
    step === undefined ? undefined : (def.shape?.[String(step)] ?? def.items?.[Number(step)] ?? def.element ?? def.valueType);
  return next ? formsAt(next, rest) : [];
};

/** What people say for a value (common practice, no source); told only where that value can stand. */
const SAID: readonly (readonly [RegExp, string])[] = [
  [/^(below|under|underneath|beneath|bottom|beside|side|top|inside|built[- ]?in|self[- ]contained)$/i, 'in-unit'],
  [/^(outside|roof|rooftop|outdoor|away|elsewhere)$/i, 'remote'],
  [/^(txv|tev|exv|eev|valve)$/i, 'expansion-valve'],
  [/^(cap[- ]?tube|capillary[- ]tube)$/i, 'capillary'],
  [/^(bellows|local air|ambient)$/i, 'atmosphere'],
  [/^transducer$/i, 'sealed'],
];

const meantBy = (wrote: string, values: readonly string[]): string | undefined =>
  SAID.find(([pattern, value]) => values.includes(value) && pattern.test(wrote))?.[1];

/** A text without quotes that a comma in braces cut into keys without a value: `{ where: left, behind the door }`. */
const cutByCommas = (
  input: unknown,
  unknown: readonly string[],
): readonly { readonly key: string; readonly parts: readonly string[]; readonly quoted: string }[] => {
  const entries = Object.entries((input ?? {}) as Readonly<Record<string, unknown>>);
  const isPart = ([key, value]: readonly [string, unknown]): boolean => value === null && unknown.includes(key);
  return entries.flatMap(([before, value], i) => {
    const ends = entries.findIndex((one, j) => j > i && !isPart(one));
    const parts = entries.slice(i + 1, ends < 0 ? undefined : ends).map(([key]) => key);
    const [first] = parts;
    if (first === undefined || (typeof value !== 'string' && typeof value !== 'number')) return [];
    return [{ key: first, parts, quoted: `${before}: "${[String(value), ...parts].join(', ').replace(/["\\]/g, '\\$&')}"` }];
  });
};

/** Of a text by language, a key that is none: two words there are the rest of a text. */
const isLanguageKey = (issue: $ZodIssue): boolean =>
  issue.code === 'invalid_format' && 'pattern' in issue && issue.pattern === String(LANG);

const kindOf = (value: unknown): string =>
  value === null ? 'nothing' : Array.isArray(value) ? 'a list' : typeof value === 'object' ? 'a map' : `a ${typeof value}`;

/** Of a union, the branch that got furthest tells most. */
const furthest = (branches: readonly (readonly $ZodIssue[])[]): readonly $ZodIssue[] => {
  const depth = (issues: readonly $ZodIssue[]): number =>
    Math.max(
      ...issues.map(
        (i) =>
          i.path.length * 4 + (i.code === 'custom' ? 3 : i.code === 'unrecognized_keys' ? 2 : i.code === 'invalid_type' ? 0 : 1),
      ),
    );
  return [...branches].sort((a, b) => depth(b) - depth(a))[0] ?? [];
};

/** What is over the most that may stand under a key: characters of a text, items of a list, or a figure. */
const overMost = (input: unknown, most: number, key: string): readonly [string, Record<string, Datum>] => {
  if (typeof input === 'string') return ['too-long', { has: input.length, most, over: input.length - most }];
  if (Array.isArray(input)) return ['too-many', { key, has: input.length, most, over: input.length - most }];
  return ['too-big', { most }];
};

/** In a sheet, what is missing stands, or would stand, in a column of its own. */
const inItsColumn = (at: Place, path: Path): Place =>
  at.cell === undefined || at.cell.startsWith('units.')
    ? at
    : { ...at, cell: (path[0] === 'units' && path.length > 2 ? ['unit', ...path.slice(2)] : path).join('.') };

/**
 * @param placeOf where the value at a path of the checked value was written
 * @param lenient leave out what is missing: this file is one layer of several
 */
export const findingsOf = (
  failure: z.ZodError,
  schema: z.ZodType,
  placeOf: (path: Path) => Place,
  lenient = false,
): readonly Finding[] => {
  const findings: Finding[] = [];
  const walk = (issue: $ZodIssue, base: Path): void => {
    const path = [...base, ...(issue.path as Path)];
    const at = placeOf(path);
    const forms = [...new Set(formsAt(schema, path))];
    const told = forms.length > 0 ? { forms } : {};
    const add = (code: string, data: Record<string, Datum>, where = at): void => void findings.push(error(code, where, data));
    const missing = (): void => add('missing-key', { key: String(path.at(-1) ?? ''), ...told }, inItsColumn(at, path));
    if (issue.input === '?') {
      const unknown = path.filter((step) => typeof step === 'string').join('.');
      add('unknown-mark', { key: String(path.at(-1) ?? ''), unknown });
      return;
    }
    switch (issue.code) {
      case 'invalid_type':
        if (issue.input === undefined) {
          if (!lenient) missing();
        } else
          add('wrong-type', {
            wanted: issue.expected,
            wrote: typeof issue.input === 'number' ? String(issue.input) : kindOf(issue.input),
            ...told,
          });
        return;
      case 'unrecognized_keys': {
        const keys = keysAt(schema, path);
        const cut = cutByCommas(issue.input, issue.keys);
        for (const { key, quoted } of cut) add('comma-in-braces', { key, quoted }, { ...within(at, key), key: true });
        for (const key of issue.keys.filter((one) => !cut.some(({ parts }) => parts.includes(one))))
          add('unknown-key', { key, ...hint(key, keys) }, { ...within(at, key), key: true });
        return;
      }
      case 'invalid_value': {
        if (issue.input === undefined) {
          if (!lenient) missing();
          return;
        }
        const values = issue.values.map(String);
        const wrote = JSON.stringify(issue.input).replace(/^"|"$/g, '');
        add('unknown-value', { wrote, ...hint(meantBy(wrote, values) ?? wrote, values) });
        return;
      }
      case 'invalid_union':
        if (issue.input === undefined) {
          if (!lenient) missing();
        } else if (issue.errors.length === 0) {
          // The key that tells the forms of a map apart names none of them, or isn't there.
          const wrote = (issue.input as Readonly<Record<string, unknown>>)[String(path.at(-1))];
          if (wrote === undefined) missing();
          else {
            const plain = JSON.stringify(wrote).replace(/^"|"$/g, '');
            add('unknown-value', { wrote: plain, ...hint(plain, forms) });
          }
        } else for (const inner of furthest(issue.errors)) walk(inner, path);
        return;
      case 'invalid_key':
        for (const inner of issue.issues)
          if (isLanguageKey(inner) && /\s/.test(String(path.at(-1)))) add('comma-in-braces', { key: String(path.at(-1)) });
          else walk({ ...inner, path: [] }, path);
        return;
      case 'invalid_element':
        for (const inner of issue.issues) walk(inner, path);
        return;
      case 'too_small':
        add('too-small', { least: Number(issue.minimum), of: issue.origin });
        return;
      case 'too_big':
        add(...overMost(issue.input, Number(issue.maximum), String(path.at(-1) ?? '')));
        return;
      case 'custom': {
        const { finding, ...data } = (issue.params ?? { finding: 'bad-value' }) as IssueParams;
        add(finding, data as Record<string, Datum>);
        return;
      }
      default:
        add('bad-value', { wrote: String(issue.input ?? ''), ...told });
    }
  };
  for (const issue of failure.issues) walk(issue, []);
  return findings;
};

/** The nearest name, or all of them. */
const hint = (wrote: string, names: readonly string[]): Record<string, Datum> => {
  const near = nearest(wrote, names);
  return near === undefined ? (names.length > 0 ? { names } : {}) : { nearest: near };
};
