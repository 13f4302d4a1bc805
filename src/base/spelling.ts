/** The word that a person probably meant: the nearest by edits, if it is near. */

const edits = (a: string, b: string): number => {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next[j] = Math.min(
        (next[j - 1] as number) + 1,
        (row[j] as number) + 1,
        (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1),
      );
    }
    row = next;
  }
  return row[b.length] as number;
};

const plain = (s: string): string => s.toLowerCase().replace(/[_\s]/g, '-');

/** So many of the words, the nearest by edits first, however far they are. None of a long text. */
export const nearestFew = (wrote: string, words: readonly string[], most: number): readonly string[] =>
  wrote.length > 80
    ? []
    : words
        .map((word) => ({ word, far: edits(plain(wrote), plain(word)) }))
        .sort((a, b) => a.far - b.far)
        .slice(0, most)
        .map(({ word }) => word);

/**
 * @param least edits that are allowed however short the word is
 * @returns the nearest of `words` within a third of its length in edits, or undefined. Long texts are never near.
 */
export const nearest = (wrote: string, words: readonly string[], least = 2): string | undefined => {
  if (wrote.length > 80) return undefined;
  let best: string | undefined;
  let fewest = Infinity;
  for (const word of words) {
    const distance = edits(plain(wrote), plain(word));
    if (distance < fewest && distance <= Math.max(least, Math.floor(word.length / 3))) [best, fewest] = [word, distance];
  }
  return best;
};

/** What a finding tells of a word that is none of the names: the nearest of them, or all. */
export const suggestion = (
  wrote: string,
  names: readonly string[],
): { readonly nearest: string } | { readonly names: readonly string[] } => {
  const near = nearest(wrote, names);
  return near === undefined ? { names } : { nearest: near };
};
