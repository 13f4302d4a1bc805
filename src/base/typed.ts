/**
 * Clock times and temperatures in a text, as people type them: what a store's hours and its law decide. No other figure, and none in words.
 */
export interface Typed {
  readonly kind: 'time' | 'temperature';
  /** As it was typed: `11:30 pm`, `45 °F`. */
  readonly figure: string;
  /** Where it begins in the text. */
  readonly index: number;
}

const HALF = String.raw`(?:[apAP]\s?[mM](?!\p{L})|[apAP]\.\s?[mM]\.?(?!\p{L}))`;
/** `11:30`, `23.30`, `9h30`, `11 pm`; no date (`24.12.2026`), no sum of money, no span of time (`5 h 30 min`). */
const TIME = new RegExp(
  String.raw`(?<![\d.:,/$€£])(?:[01]?\d|2[0-4])(?:(?:\s?:|(?<=\d{2})\s:\s|\.|\s?[hH]\s?)[0-5]\d(?!\d|[./]\d|\s?min)(?:\s?${HALF})?|\s?${HALF}|\s?[oO][^\p{L}\d]?\s?[cC][lL][oO][cC][kK]|(?<=\d{2})[0-5]\d\s?(?:[hH]|[hH][rR][sS]?|[hH][oO][uU][rR][sS]?)(?!\p{L}))`,
  'gu',
);
/** `45 °F`, `7C`, `45 grados`; a raised o alone is an ordinal behind one figure (`1º`). */
const TEMPERATURE =
  /[-−]?(?<!\d)\d+(?:[.,]\d+)?(?:\s?[°º]\s?[FCfc](?!\p{L})|\s?o[FC](?!\p{L})|\s?°|(?<=\d{2})\s?º|\s?(?:[Gg]rados?|GRADOS?|[Dd]eg(?:r[eé]e?s?)?|DEGR[EÉ]E?S?|[Ff]ahrenheit|FAHRENHEIT|[Cc]elsius|CELSIUS)(?!\p{L})|\s?[FC](?!\p{L})|(?<=\d{2})[fc](?!\p{L}))/gu;

/** Marks that make a figure strong, or hide a sign, and are not printed; and the one sign for a degree and its unit. */
const UNPRINTED = /[*_\\\u00ad\u200b\u2060]+/g;
const ONE_SIGN: Readonly<Record<string, string>> = { '℃': '°C', '℉': '°F', '˚': '°', '∘': '°' };

/** Figures and letters as wide as Chinese characters. */
const WIDE = /[\uff01-\uff5e]/;

/** The text as a reader sees it, and where each of its characters stands in what was typed. */
const asSeen = (text: string): { readonly seen: string; readonly at: readonly number[] } => {
  const pieces: string[] = [];
  const at: number[] = [];
  const hidden = new Set([...text.matchAll(UNPRINTED)].flatMap(({ 0: marks, index }) => Array.from(marks, (_, i) => index + i)));
  for (let i = 0; i < text.length; i++) {
    if (hidden.has(i)) continue;
    const typed = text.charAt(i);
    const shown = ONE_SIGN[typed] ?? (WIDE.test(typed) ? typed.normalize('NFKC') : typed);
    for (const character of shown) {
      pieces.push(character);
      at.push(i);
    }
  }
  return { seen: pieces.join(''), at };
};

/** In the order in which they stand. */
export const typedIn = (text: string): readonly Typed[] => {
  const { seen, at } = asSeen(text);
  const found = (kind: Typed['kind'], pattern: RegExp): readonly Typed[] =>
    [...seen.matchAll(pattern)].map(({ 0: figure, index }) => ({ kind, figure, index: at[index] ?? 0 }));
  return [...found('time', TIME), ...found('temperature', TEMPERATURE)].sort((a, b) => a.index - b.index);
};
