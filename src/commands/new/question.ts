/**
 * A question whose answer becomes one fact of a file: what is asked, how it is written, and what the answer is checked against.
 */
import type { z } from 'zod';
import { error, type Finding } from '../../base/finding.js';
import { place, type Place } from '../../base/place.js';
import { today } from '../../host/clock.js';
import { findingsOf } from '../../read/issues.js';
import { dateOf } from './date.js';
import { at, changed, without, type Path } from './tree.js';

/** How an answer is written. */
export type Form = 'text' | 'number' | 'yes-no' | 'choice' | 'clock' | 'date';

export interface Question {
  /** Steps to the fact in the file; joined by dots, its name in an answers file. */
  readonly path: Path;
  /** Its words stand under `new.ask.<code>`. */
  readonly code: string;
  readonly form: Form;
  readonly example: string;
  readonly choices: readonly string[];
  /** What stands there until somebody says otherwise: of the similar file, or of the chain. */
  readonly now: unknown;
  /** What stands there is of a similar unit: Enter keeps it, unconfirmed, and `=` says that it is so on this one too. */
  readonly similar?: true;
  /** The file is not whole without it. */
  readonly needed: boolean;
  /** Where nobody knows, what is written: the safe side of it, or, where neither answer is safer, what stands there. Enter says the same, unless what stands there is the safe side. */
  readonly safe?: { readonly as: unknown };
  /** May stay unknown all the same: no value of another unit may stand in its place. */
  readonly mayBeUnknown?: true;
  /** What is wrong with an answer that the schema can't tell. */
  readonly faults?: (value: unknown, where: (path: Path) => Place) => readonly Finding[];
  /** Asked only if something was found set otherwise on its unit, which is asked once. */
  readonly ifOtherwise?: true;
  /** What was answered to it before, where it is asked again: Enter keeps it. */
  readonly earlier?: string;
  /** Taken from a file of answers, and not asked at a terminal. */
  readonly quiet?: true;
}

/** What a person gives who does not know yet. */
export const UNKNOWN = '?';

/** What a person gives who takes an answer back that is asked again. */
export const NONE = '-';

/** What a person gives who has looked, and found what the similar unit has. */
export const SAME = '=';

/** What Enter keeps: never what is less safe than saying that nobody knows. */
export const keptOf = ({ now, safe }: Question): unknown => (safe && now !== safe.as ? undefined : now);

export const nameOf = (path: Path): string => path.join('.');

const SPAN = /^(?:(\S+)\s+)?([^\s-]+(?:\s*[ap]m)?)\s*-\s*([^\s-]+(?:\s*[ap]m)?)$/i;

/** A clock's settings on one line: `01:15-08:00`, or by days `sun-thu 23:30-06:30; sat-sun 01:30-08:00`. */
const clockOf = (text: string): unknown => {
  const spans = text.split(';').map((part) => {
    const [, days, off = part.trim(), on] = SPAN.exec(part.trim()) ?? [];
    return { ...(days === undefined ? {} : { days }), off, ...(on === undefined ? {} : { on }) };
  });
  return spans.length === 1 && !('days' in (spans[0] as object)) ? spans[0] : { settings: spans };
};

/** A plain number, also with the unit that a plate prints behind it: 115 V, 7.2 A, 60 Hz. */
const numberOf = (text: string): number | string => {
  const [, plain = ''] = /^(.*?)\s*(?:V|volts?|VAC|A|amps?|Hz)?$/i.exec(text) ?? [];
  return plain !== '' && Number.isFinite(Number(plain)) ? Number(plain) : text;
};

/** Typed text as the file writes it: numbers, yes or no and a clock's settings as such, all else as text. */
export const written = (form: Form, given: unknown): unknown => {
  if (typeof given !== 'string') return given;
  const text = given.trim();
  if (form === 'number') return numberOf(text);
  if (form === 'yes-no') return /^(y|yes|true)$/i.test(text) ? true : /^(n|no|false)$/i.test(text) ? false : text;
  if (form === 'date') return dateOf(text, today()) ?? text;
  return form === 'clock' ? clockOf(text) : text;
};

/** Whether a path leads to the other, or below it. */
export const starts = (path: Path, with_: Path): boolean => with_.every((step, i) => String(path[i]) === String(step));

/** What the schema says of the fact at a path, and of nothing else in the draft. */
export const faultsAt = (schema: z.ZodType, draft: unknown, path: Path, where: (path: Path) => Place): readonly Finding[] => {
  const parsed = schema.safeParse(draft, { reportInput: true });
  if (parsed.success) return [];
  const mine = place('draft');
  return findingsOf(parsed.error, schema, (at) => ({ ...mine, path: at }))
    .filter((f) => starts(f.at.path, path))
    .map((f) => ({ ...f, at: where(f.at.path.slice(path.length)) }));
};

/** Whether the file can't do without the fact, nor without any of the maps that hold it. */
export const isNeeded = (schema: z.ZodType, draft: unknown, path: Path): boolean => {
  let so = draft;
  return path.every((_, i) => {
    const here = path.slice(0, i + 1);
    if (here.length < path.length && at(so, here) !== undefined) return true;
    const needed = faultsAt(schema, without(so, here), here, () => place('draft')).length > 0;
    so = changed(so, here, {});
    return needed;
  });
};

export type Answer =
  /** `as`: a value of the file; undefined leaves the fact out. `known` false: nobody knows yet. `kept`: nobody said anything of it. */
  | { readonly ok: true; readonly as: unknown; readonly known: boolean; readonly kept?: true }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Of a wrong kind of answer, the question's own example is the best hint. */
const withExample = (finding: Finding, example: string): Finding =>
  finding.code === 'wrong-type' && finding.data['forms'] === undefined
    ? { ...finding, data: { ...finding.data, forms: [example] } }
    : finding;

/** What an answer comes to, by the rules that `check` has. */
export const read = (
  question: Question,
  given: unknown,
  draft: unknown,
  schema: z.ZodType,
  where: (path: Path) => Place = () => place('answer'),
): Answer => {
  const { path, form, now, needed, safe, mayBeUnknown, example } = question;
  const refuse = (code: string): Answer => ({
    ok: false,
    findings: [error(code, where([]), { question: nameOf(path), example })],
  });
  const empty = given === undefined || given === null || given === '';
  const kept = keptOf(question);
  if (given === UNKNOWN || (empty && safe && kept === undefined)) {
    if (safe) return { ok: true, as: safe.as ?? at(draft, path), known: false };
    if (!needed || mayBeUnknown) return { ok: true, as: undefined, known: false };
    return now === undefined ? refuse('answer-needed') : { ok: true, as: at(draft, path), known: false };
  }
  if (empty) {
    if (kept !== undefined) return { ok: true, as: at(draft, path), known: true, kept: true };
    return needed ? refuse('answer-needed') : { ok: true, as: undefined, known: true };
  }
  if (given === SAME && question.similar && now !== undefined) return { ok: true, as: at(draft, path), known: true };
  const value = written(form, given);
  const findings = faultsAt(schema, changed(draft, path, value), path, where);
  const all = findings.length > 0 ? findings : (question.faults?.(value, where) ?? []);
  return all.length > 0 ? { ok: false, findings: all.map((f) => withExample(f, example)) } : { ok: true, as: value, known: true };
};
