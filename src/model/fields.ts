/**
 * The small pieces of what a person may write: amounts with their unit, clock times, texts in one or more languages, ids.
 * Each reads a string and leaves a value, or an issue whose `params` say which finding it is; the words are made in `say`.
 */
import { z } from 'zod';
import { parseAmount, parseSpan, type Amount, type Parsed, type Quantity, type Span } from '../base/amount.js';
import { DAY, WEEKDAYS, type Weekday } from '../base/moment.js';
import { dayWritten, faultData, parseHours, type Doubt, type Hours } from './hours/index.js';

/** What an issue of ours carries, so that a zod issue becomes one of our findings (read/issues). */
export interface IssueParams {
  readonly finding: string;
  readonly [datum: string]: unknown;
}

/** Says what is wrong with a value by the code of its finding, and gives none. */
export const refuse = (ctx: z.RefinementCtx, params: IssueParams): typeof z.NEVER => {
  ctx.addIssue({ code: 'custom', params });
  return z.NEVER;
};

/** Characters of an amount, with what stands around it. */
const LONGEST = 100;

/** @param fits what an amount that can be read must be as well; one that doesn't is no such quantity here */
const reading = <T>(
  q: Quantity,
  read: (text: string) => Parsed<T>,
  examples: readonly string[],
  fits: (value: T) => boolean = () => true,
) =>
  z
    .string()
    .meta({ examples: [...examples] })
    .transform((text, ctx) => {
      // What is so long is no amount, and patterns would look at it for minutes.
      const parsed = read(text.length > LONGEST ? '?' : text);
      if (parsed.ok && fits(parsed.value)) return parsed.value;
      const { ok: _, fault, ...data } = parsed.ok ? ({ ok: false, fault: 'out-of-range' } as const) : parsed;
      return refuse(ctx, { finding: `amount-${fault}`, wrote: text, quantity: q, forms: [...examples], ...data });
    });

const EXAMPLES: Record<Quantity, readonly string[]> = {
  temperature: ['41 °F', '5 °C'],
  difference: ['27 °F', '15 °C'],
  pressure: ['120 psia', '8.3 bar(a)'],
  gauge: ['46 psig', '3.2 bar(g)', '4 inHg'],
  'gauge-difference': ['27 psi', '1.9 bar'],
  duration: ['45 min', '1 h 30 min', '45 s'],
  length: ['4 in', '100 mm'],
  altitude: ['5280 ft', '1600 m'],
  area: ['6 sq ft', '0.5 m²'],
  volume: ['16 cu ft', '450 L'],
  mass: ['28 oz', '95 g'],
  resistance: ['32.65 kohm', '5000 ohm'],
  power: ['1/2 hp', '370 W'],
  cooling: ['3000 BTU/h', '880 W'],
  voltage: ['115 V'],
  current: ['8.5 A'],
  frequency: ['60 Hz'],
  fraction: ['50 %'],
};

export const amountOf = <Q extends Quantity>(q: Q) => reading<Amount<Q>>(q, (text) => parseAmount(q, text), EXAMPLES[q]);

/** A duration that is one: what is done in no time is a slip. */
export const lasting = reading<Amount<'duration'>>(
  'duration',
  (text) => parseAmount('duration', text),
  EXAMPLES.duration,
  ({ si }) => si > 0,
);

/** The most that any probe of a kitchen is out by, K: beyond it every broken one would pass. Common practice, no source. */
const MOST_ERROR = 3;
export const probeError = reading<Amount<'difference'>>(
  'difference',
  (text) => parseAmount('difference', text),
  ['2 °F', '1 °C'],
  ({ si }) => si <= MOST_ERROR,
);

const SPANS = { temperature: ['36 to 38 °F', '2 to 3 °C'], difference: ['6 to 10 °F', '3 to 5 °C'] } as const;
export const spanOf = <Q extends keyof typeof SPANS>(q: Q) => reading<Span<Q>>(q, (text) => parseSpan(q, text), SPANS[q]);

/** An amount of one quantity or of another, told apart by its unit. @param other what a text of neither is refused as */
const eitherOf = <A extends Quantity, B extends Quantity>(one: A, other: B, examples: readonly string[]) =>
  reading<Amount<A | B>>(
    other,
    (text): Parsed<Amount<A | B>> => {
      const parsed = parseAmount(one, text);
      return parsed.ok ? parsed : parseAmount(other, text);
    },
    examples,
  );

/** What a sensor reads: ohms, or volts. */
export const sensorReading = eitherOf('voltage', 'resistance', ['32.65 kohm', '5000 ohm', '1.31 V']);

/** What the second scale of a pressure control shows: where it stops, with its zero; or the difference from where it starts, which has none. */
export const secondScale = eitherOf('gauge-difference', 'gauge', ['28 psig', '1.9 bar(g)', '18 psi']);

/** Names of files and of things in them: they become parts of paths, so they are narrow. */
const ID = /^[a-z0-9](?:[a-z0-9-]{0,46}[a-z0-9])?$/;
/** No file can bear it on Windows, every object of the language has it, or it is the print shop's folder among those of the stores. */
const TAKEN = /^(con|prn|aux|nul|com\d|lpt\d|constructor|press)$/;
export const isId = (text: string): boolean => ID.test(text) && !TAKEN.test(text);
/** A name as an id, `Prep Table 60` as `prep-table-60`; it may still be none. */
export const asId = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

/** The id to write in its place, where a name makes one. */
export const asIdIn = (name: string): { suggestion?: string } => {
  const near = TAKEN.test(asId(name)) ? `${asId(name)}-1` : asId(name);
  return isId(near) ? { suggestion: near } : {};
};

export const id = z
  .string()
  .meta({ examples: ['line-1'] })
  .transform((text, ctx) => (isId(text) ? text : refuse(ctx, { finding: 'bad-id', wrote: text, ...asIdIn(text) })));

/** Language code of words/: `en`, `es`. */
export const LANG = /^[a-z]{2}$/;

/** Free text: in the chain's language, or by language. */
export type Text = string | Readonly<Record<string, string>>;
const line = z.string().min(1).max(600);
export const text = z.union([line, z.record(z.string().regex(LANG), line)]);

/** A text with what it is for, and how this one may read. */
export const textLike = (describes: string, example: string) => text.meta({ description: describes, examples: [example] });

/** A name printed on every sheet. */
export const name = z
  .string()
  .min(1)
  .max(120)
  .superRefine((text, ctx) => {
    if (/\p{Cc}/u.test(text)) ctx.addIssue({ code: 'custom', params: { finding: 'name-line-break' } });
  });

/** Who signed, found or approved: some letter or a figure, as on a badge; not a blank or a dash that stands for nobody. */
export const signer = z
  .string()
  .min(1)
  .max(60)
  .superRefine((text, ctx) => {
    if (!/[\p{L}\p{N}]/u.test(text)) ctx.addIssue({ code: 'custom', params: { finding: 'nobody-signs', wrote: text } });
  });

const TIME = /^([01]?\d|2[0-4]):([0-5]\d)$/;
const HALF_DAY = /^(1[0-2]|0?[1-9])(?::([0-5]\d))?\s*(am|pm)$/i;

/** Minutes from 00:00 of `05:45`, `5:45 am` or `5am`; undefined for anything else. */
const readTime = (wrote: string): number | undefined => {
  const half = HALF_DAY.exec(wrote.trim());
  if (half) return ((Number(half[1]) % 12) + (half[3]?.toLowerCase() === 'pm' ? 12 : 0)) * 60 + Number(half[2] ?? 0);
  const found = TIME.exec(wrote.trim());
  const minutes = found ? Number(found[1]) * 60 + Number(found[2]) : Infinity;
  return minutes <= DAY ? minutes : undefined;
};

/** Of a span where one time belongs, its two: `23:00-03:00 every day`. */
const twoTimes = (wrote: string): { readonly first?: string; readonly second?: string } => {
  const [first, second, ...more] = wrote.match(/\d{1,2}:\d{2}(?:\s?[ap]m)?/gi) ?? [];
  return first !== undefined && second !== undefined && more.length === 0 ? { first, second } : {};
};

/** `22:45` to whole minutes from 00:00. */
export const clockTime = z
  .string()
  .meta({ examples: ['05:45', '22:15'] })
  .transform((wrote, ctx) => readTime(wrote) ?? refuse(ctx, { finding: 'bad-time', wrote, ...twoTimes(wrote) }));

/** When people come, leave or load: `45 min before opening`, `30 min after closing`, `at opening`, or a clock time. */
export interface When {
  readonly from: 'opening' | 'closing' | 'midnight';
  /** Negative: before. */
  readonly minutes: number;
  readonly wrote: string;
}

const RELATIVE = /^(?:at|(.+?)\s+(before|after))\s+(opening|closing)$/i;

const readWhen = (wrote: string): When | undefined => {
  const found = RELATIVE.exec(wrote.trim());
  if (found) {
    const from = (found[3] as string).toLowerCase() as 'opening' | 'closing';
    if (found[1] === undefined) return { from, minutes: 0, wrote };
    const length = parseAmount('duration', found[1]);
    if (!length.ok || length.value.si > 86400) return undefined;
    const minutes = Math.round(length.value.si / 60);
    return { from, minutes: found[2]?.toLowerCase() === 'before' ? -minutes : minutes, wrote };
  }
  const minutes = readTime(wrote);
  return minutes === undefined ? undefined : { from: 'midnight', minutes: minutes, wrote };
};

const oneWhen = z
  .string()
  .meta({ examples: ['45 min before opening', '30 min after closing', '05:45'] })
  .transform((wrote, ctx) => readWhen(wrote) ?? refuse(ctx, { finding: 'bad-when', wrote }));

const WHOLE = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;

/** `mon`, `mon-thu`, `sat-mon`: the days in order, or none when it is not such a span. A name is a day's whole one, or begins it. */
export const readDays = (wrote: string): readonly Weekday[] => {
  const daysOf = (part: string): readonly Weekday[] => {
    const ends = part
      .trim()
      .toLowerCase()
      .split(/[-\u2010-\u2015\u2212]/)
      .map((d) => d.trim().replace(/s$/, (end) => (d.trim().length > 5 ? '' : end)))
      .map((d) => WHOLE.findIndex((day) => d.length > 1 && day.startsWith(d)));
    if (ends.length > 2 || ends.some((e) => e < 0)) return [];
    const [first, last] = [ends[0] as number, ends[ends.length - 1] as number];
    return Array.from({ length: ((last - first + 7) % 7) + 1 }, (_, i) => WEEKDAYS[(first + i) % 7] as Weekday);
  };
  const parts = wrote.split(',').map(daysOf);
  return parts.some((p) => p.length === 0) ? [] : parts.flat();
};

/** Days of the week as people write them. */
export const days = z
  .string()
  .meta({ examples: ['mon-fri', 'sat,sun'] })
  .transform((wrote, ctx) => (readDays(wrote).length > 0 ? wrote : refuse(ctx, { finding: 'bad-days', wrote })));

/** One rule for every day, or by weekday: `{mon-fri: 05:30, sat-sun: 06:30}`. */
export const whenByDay = z.union([
  oneWhen,
  z.record(days, oneWhen).superRefine((rules, ctx) => {
    const named = Object.keys(rules);
    // A later one may take days out of an earlier one. One of whose days a part alone is named again, or all, is no exception but a slip.
    const pairs = named.flatMap((days, i) => named.slice(i + 1).map((later) => [days, later] as const));
    const twice = pairs.find(([days, later]) => {
      const [before, after] = [readDays(days), readDays(later)];
      const both = after.filter((day) => before.includes(day));
      return both.length > 0 && (both.length < after.length || both.length === before.length);
    });
    if (twice) ctx.addIssue({ code: 'custom', params: { finding: 'day-twice', wrote: twice[0], other: twice[1] } });
  }),
]);

export type WhenByDay = z.output<typeof whenByDay>;

/** A rule as a person wrote it, on one line. */
export const wroteWhen = (rules: WhenByDay): string =>
  isOneRule(rules)
    ? rules.wrote
    : Object.entries(rules)
        .map(([days, rule]) => `${days}: ${rule.wrote}`)
        .join(', ');

export const isOneRule = (rules: WhenByDay): rules is When => typeof (rules as { wrote?: unknown }).wrote === 'string';

export const isoDate = z
  .string()
  .meta({ examples: ['2026-12-25'] })
  .transform((wrote, ctx) => (dayWritten(wrote) === undefined ? refuse(ctx, { finding: 'bad-date', wrote }) : wrote));

/** Opening hours, in the subset of the open `opening_hours` grammar that model/hours states, or as people write them. */
export interface WrittenHours {
  readonly wrote: string;
  readonly hours: Hours;
  readonly readAs: string;
  readonly plain: boolean;
  readonly doubt?: Doubt;
}

export const hours = z
  .string()
  .meta({ examples: ['Mo-Th 06:30-22:00; Fr-Sa 06:30-00:30; Su off', '24/7'] })
  .transform((wrote, ctx): WrittenHours => {
    const parsed = parseHours(wrote);
    if (parsed.ok) {
      const { ok: _, ...read } = parsed;
      return { wrote, ...read };
    }
    const { fault, offset, length } = parsed;
    return refuse(ctx, { finding: `hours-${fault}`, wrote, part: wrote.slice(offset, offset + length), ...faultData(parsed) });
  });

/** Minutes that divide the day, as a clock's step does. */
const STEPS = Array.from({ length: DAY / 2 }, (_, n) => n + 1).filter((step) => DAY % step === 0);

/** What lies between two settings of a clock: whole minutes that divide the day, half of it at most. */
export const clockStep = amountOf('duration').transform((step, ctx) => {
  const minutes = step.si / 60;
  const near = STEPS.reduce((best, one) => (Math.abs(one - minutes) < Math.abs(best - minutes) ? one : best));
  return near === minutes ? step : refuse(ctx, { finding: 'clock-step', step, suggestion: `${near} min` });
});

/** Keys, joined by dots, of facts that are not known yet. */
export const notKnown = z
  .array(z.string().min(1).max(80))
  .max(60)
  .meta({ examples: [['control.restart_delay', 'condensing.split']] });

/** A phone number as people print it; none has less than three digits (112, 911). */
export const phone = z
  .string()
  .meta({ examples: ['555-0142'] })
  .transform((wrote, ctx) =>
    /^(?=(?:\D*\d){3})[+()0-9 .\-/x]{3,30}$/.test(wrote) ? wrote : refuse(ctx, { finding: 'bad-phone', wrote }),
  );
