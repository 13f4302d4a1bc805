/**
 * Where a word may be divided, by the Liang patterns of its language. The only file that knows the `hyphen` package.
 * A language that it has no patterns for has no hyphens.
 */

/** Gives the parts that a word may be divided into; one part when it may not. */
export type Hyphenator = (word: string) => readonly string[];

/** What the package's modules give; it has no types for paths made at run time. */
interface Patterns {
  hyphenateSync(word: string, options: { hyphenChar: string; minWordLength: number }): string;
}

const SHORTEST_WORD = 6;
/** Letters that stay together at either end. */
const SHORTEST_PART = 3;

const known = new Map<string, Promise<Hyphenator | undefined>>();

const load = async (name: string): Promise<Hyphenator | undefined> => {
  try {
    const { default: patterns } = (await import(`hyphen/${name}/index.js`)) as { default: Patterns };
    return (word) => {
      const parts: string[] = [];
      for (const part of patterns.hyphenateSync(word, { hyphenChar: '\u00AD', minWordLength: SHORTEST_WORD }).split('\u00AD')) {
        const last = parts.at(-1);
        if (last !== undefined && last.length < SHORTEST_PART) parts[parts.length - 1] = last + part;
        else parts.push(part);
      }
      const end = parts.at(-1) as string;
      if (parts.length > 1 && end.length < SHORTEST_PART) parts.splice(-2, 2, (parts.at(-2) as string) + end);
      return parts;
    };
  } catch (fault) {
    if (
      fault instanceof Error &&
      'code' in fault &&
      (fault.code === 'ERR_MODULE_NOT_FOUND' || fault.code === 'ERR_PACKAGE_PATH_NOT_EXPORTED')
    ) {
      return undefined;
    }
    throw fault;
  }
};

/** @param lang BCP 47: its own patterns are used, else those of the language without its region. */
export const hyphenatorFor = async (lang: string): Promise<Hyphenator> => {
  const tag = lang.toLowerCase();
  const base = tag.split('-')[0] as string;
  for (const name of [tag, base]) {
    if (!/^[a-z]{2,3}(-[a-z0-9]+)*$/.test(name)) continue;
    let loading = known.get(name);
    if (!loading) known.set(name, (loading = load(name)));
    const found = await loading;
    if (found) return found;
  }
  return (word) => [word];
};
