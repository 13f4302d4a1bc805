/**
 * Cuts a text of opening hours into tokens: the words of the open grammar, and the words people use for them (which mark the text as plain).
 * Nothing is decided here but what each piece is and where it stands.
 */

export const DAY_NAMES = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'] as const;
export const MONTH_NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** A time of day as written. `sure`: am, pm, noon or a 24-hour figure leaves no doubt which half of the day is meant. */
export interface Clock {
  readonly kind: 'clock';
  readonly minutes: number;
  readonly sure: boolean;
}

export type Piece =
  | { readonly kind: 'day'; readonly day: number }
  /** Words for several days: daily, weekdays, weekend. */
  | { readonly kind: 'days'; readonly days: readonly number[] }
  | { readonly kind: 'month'; readonly month: number }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'iso'; readonly year: number; readonly month: number; readonly day: number }
  | Clock
  | { readonly kind: 'comment'; readonly text: string }
  /** Sound grammar outside our subset. */
  | { readonly kind: 'outside'; readonly what: string }
  | {
      readonly kind:
        | 'holiday'
        | 'dash'
        | 'comma'
        | 'semicolon'
        | 'colon'
        /** An open end: `+`, onwards. */
        | 'plus'
        /** What a date begins: from, starting. */
        | 'from'
        | 'bracket'
        | 'unbracket'
        | 'open'
        | 'off'
        | 'always'
        | 'unknown'
        | 'bad-time'
        | 'end';
    };

export type Token = Piece & {
  readonly offset: number;
  readonly length: number;
  /** Not a spelling of the open grammar. */
  readonly plain: boolean;
};

const ALL = [0, 1, 2, 3, 4, 5, 6];
const exact = new Map<string, Piece>();
const loose = new Map<string, Piece>();

const FULL_DAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];
const FULL_MONTHS = 'january february march april may june july august september october november december'.split(' ');

DAY_NAMES.forEach((name, day) => exact.set(name, { kind: 'day', day }));
MONTH_NAMES.forEach((name, i) => exact.set(name, { kind: 'month', month: i + 1 }));
for (const [word, piece] of [
  ['PH', { kind: 'holiday' }],
  ['open', { kind: 'open' }],
  ['off', { kind: 'off' }],
  ['closed', { kind: 'off' }],
  ...['SH', 'week', 'easter', 'sunrise', 'sunset', 'dawn', 'dusk', 'unknown'].map(
    (what) => [what, { kind: 'outside', what }] as const,
  ),
] as const) {
  exact.set(word, piece);
}

FULL_DAYS.forEach((name, day) => {
  for (const word of [name, name.slice(0, 3), `${name}s`]) loose.set(word, { kind: 'day', day });
});
for (const [word, day] of [
  ['tues', 1],
  ['thur', 3],
  ['thurs', 3],
  ['weds', 2],
  // One letter where it names one day only: T and S are told.
  ['m', 0],
  ['w', 2],
  ['f', 4],
] as const)
  loose.set(word, { kind: 'day', day });
FULL_MONTHS.forEach((name, i) => loose.set(name, { kind: 'month', month: i + 1 }));
for (const word of ['onward', 'onwards']) loose.set(word, { kind: 'plus' });
for (const word of ['from', 'since', 'starting', 'beginning', 'effective']) loose.set(word, { kind: 'from' });
loose.set('sept', { kind: 'month', month: 9 });
for (const [word, piece] of exact) if (!loose.has(word.toLowerCase())) loose.set(word.toLowerCase(), piece);
for (const word of ['daily', 'everyday']) loose.set(word, { kind: 'days', days: ALL });
for (const word of ['weekday', 'weekdays']) loose.set(word, { kind: 'days', days: ALL.slice(0, 5) });
for (const word of ['weekend', 'weekends']) loose.set(word, { kind: 'days', days: ALL.slice(5) });
for (const word of ['to', 'till', 'until', 'through', 'thru']) loose.set(word, { kind: 'dash' });
for (const word of ['holiday', 'holidays']) loose.set(word, { kind: 'holiday' });
loose.set('and', { kind: 'comma' });
loose.set('noon', { kind: 'clock', minutes: 720, sure: true });
loose.set('midnight', { kind: 'clock', minutes: 0, sure: true });

/** Words that a slip of the finger is compared with. */
export const KNOWN_WORDS: readonly string[] = [
  ...exact.keys(),
  ...FULL_DAYS,
  ...FULL_MONTHS,
  'daily',
  'weekdays',
  'weekend',
  'noon',
  'midnight',
];

const clock = (hour: number, minute: number, half: string | undefined, padded: boolean): Piece => {
  if (minute > 59 || hour > 48 || (hour === 48 && minute > 0)) return { kind: 'bad-time' };
  if (half === undefined) return { kind: 'clock', minutes: hour * 60 + minute, sure: padded || hour > 12 };
  if (hour < 1 || hour > 12) return { kind: 'bad-time' };
  return { kind: 'clock', minutes: (hour % 12) * 60 + minute + (half.toLowerCase() === 'p' ? 720 : 0), sure: true };
};

type Form = readonly [RegExp, (found: RegExpExecArray) => Piece & { plain?: boolean }];

/** Tried in this order at each place. Sticky, so that nothing is skipped. */
const FORMS: readonly Form[] = [
  [/24\s*\/\s*7/y, () => ({ kind: 'always' })],
  // Not as a closing: 18h-24h.
  [/(?<!(?:[-–—à]|to|till|until)\s*)24\s*(?:hours|hrs|h)\b/iy, () => ({ kind: 'always', plain: true })],
  // As French and Spanish write: 8h, 9h30.
  [
    /(\d{1,2})\s?h(?:\s?(\d{2}))?(?!\w)/iy,
    (f) => ({ ...clock(Number(f[1]), Number(f[2] ?? 0), undefined, f[1]?.[0] === '0'), plain: true }),
  ],
  [/every\s*day|all\s+week|(?:7|seven)\s+days(?:\s+a\s+week)?/iy, () => ({ kind: 'days', days: ALL, plain: true })],
  [
    /(\d{4})-(\d{2})-(\d{2})(?!\d)/y,
    (f) => ({ kind: 'iso', year: Number(f[1]), month: Number(f[2]), day: Number(f[3]), plain: true }),
  ],
  [
    /(\d{1,2})(?:[:.](\d{2}))?(?::00)?\s*([ap])(?:\.?\s?m\.?)?(?![a-z])/iy,
    (f) => ({ ...clock(Number(f[1]), Number(f[2] ?? 0), f[3], false), plain: true }),
  ],
  [
    /(\d{1,2}):(\d{2})(?::00)?(?!\d)/y,
    (f) => ({
      ...clock(Number(f[1]), Number(f[2]), undefined, f[1]?.length === 2),
      plain: f[1]?.length === 1 || f[0].length > 5,
    }),
  ],
  [/(\d{1,2})\.(\d{2})(?!\d)/y, (f) => ({ ...clock(Number(f[1]), Number(f[2]), undefined, f[1]?.length === 2), plain: true })],
  [/(\d{1,4})(st|nd|rd|th)?(?!\w|:\d)/iy, (f) => ({ kind: 'number', value: Number(f[1]), ...(f[2] ? { plain: true } : {}) })],
  [/"([^"]*)"/y, (f) => ({ kind: 'comment', text: f[1] as string })],
  [/public\s+holidays?/iy, () => ({ kind: 'holiday', plain: true })],
  [/\|\|/y, () => ({ kind: 'outside', what: '||' })],
  [/[/()]/y, (f) => ({ kind: 'outside', what: f[0] })],
  [/\+/y, () => ({ kind: 'plus' })],
  [/-/y, () => ({ kind: 'dash' })],
  [/[\u2010-\u2015\u2212]/y, () => ({ kind: 'dash', plain: true })],
  [/,/y, () => ({ kind: 'comma' })],
  [/&/y, () => ({ kind: 'comma', plain: true })],
  [/;/y, () => ({ kind: 'semicolon' })],
  [/\r?\n/y, () => ({ kind: 'semicolon', plain: true })],
  [/:/y, () => ({ kind: 'colon' })],
  [/\[/y, () => ({ kind: 'bracket' })],
  [/\]/y, () => ({ kind: 'unbracket' })],
];

const WORD = /\p{L}[\p{L}.]*/uy;
const BLANK = /[^\S\r\n]+/y;
/** Small words that say nothing of their own. */
const IDLE = new Set(['on', 'at', 'hours']);

const word = (text: string): Piece & { plain?: boolean } => {
  const known = exact.get(text);
  if (known) return known;
  const near = loose.get(text.toLowerCase().replace(/\.$/, ''));
  return near ? { ...near, plain: true } : { kind: 'unknown' };
};

/** @returns the tokens in order, the last of kind `end`; a piece that is no word of ours is `unknown`. */
export const scan = (text: string): readonly Token[] => {
  const tokens: Token[] = [];
  let at = 0;
  const match = (form: RegExp): RegExpExecArray | null => {
    form.lastIndex = at;
    return form.exec(text);
  };
  const push = (piece: Piece & { plain?: boolean }, length: number): void => {
    tokens.push({ ...piece, plain: piece.plain ?? false, offset: at, length });
    at += length;
  };
  outer: while (at < text.length) {
    const blank = match(BLANK);
    if (blank) {
      at += blank[0].length;
      continue;
    }
    for (const [form, make] of FORMS) {
      const found = match(form);
      if (!found) continue;
      push(make(found), found[0].length);
      continue outer;
    }
    const found = match(WORD);
    if (found && IDLE.has(found[0].toLowerCase())) at += found[0].length;
    else if (found) push(word(found[0]), found[0].length);
    else push({ kind: 'unknown' }, String.fromCodePoint(text.codePointAt(at) as number).length);
  }
  tokens.push({ kind: 'end', plain: false, offset: text.length, length: 0 });
  return tokens;
};
