/**
 * Which of a profile's origins tells of a fact: the one whose key covers it most closely. Keys leave out the numbers of lists.
 */
interface Origin {
  readonly facts: readonly string[];
  /** False: taken over from a similar unit, and nobody has checked it on this one. */
  readonly confirmed?: boolean | undefined;
}

/** Whether a key tells of a fact: it is the fact's own, or that of what holds it. */
export const covers = (key: string, fact: string): boolean => fact === key || fact.startsWith(`${key}.`);

/** Whether one of two keys tells of the other's fact. */
export const touches = (one: string, other: string): boolean => covers(one, other) || covers(other, one);

/** Of two keys as close, the one that somebody confirmed wins, then the later. */
export const originFor = <O extends Origin>(origins: readonly O[], fact: string): O | undefined => {
  const covering = origins.flatMap((origin) => origin.facts.filter((key) => covers(key, fact)).map((key) => ({ key, origin })));
  const weight = ({ key, origin }: (typeof covering)[number]): number => 2 * key.length + (origin.confirmed === false ? 0 : 1);
  return covering.reduce<(typeof covering)[number] | undefined>(
    (best, one) => (best && weight(best) > weight(one) ? best : one),
    undefined,
  )?.origin;
};

/** The name under which origins know a fact of a profile. */
export const factOf = (path: readonly (string | number)[]): string =>
  path.filter((step) => !/^\d+$/.test(String(step))).join('.');
