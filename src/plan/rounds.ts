/**
 * Rounds with the probe: the hours of a day by which food is read again and again, the same for all units of a store as far as they can be,
 * so that one walk reads them all.
 */

/** What is read from a minute of the day until another, such as a top from its loading to its emptying; with no gap of more than `every` min. */
export interface Stretch {
  readonly id: string;
  readonly from: number;
  readonly until: number;
  readonly every: number;
}

export interface Round {
  /** Minute of the day. */
  readonly at: number;
  /** What is read on it. */
  readonly reads: readonly string[];
}

/** Hours are told in quarters. */
const QUARTER = 15;

/** Even hours between two, in whole quarters from the first as far as those keep the gaps; at least one. */
const evenly = ({ from, until, every }: Omit<Stretch, 'id'>): readonly number[] => {
  const times = Math.max(1, Math.ceil((until - from) / every) - 1);
  const even = (until - from) / (times + 1);
  const inQuarters = Math.min(every, Math.ceil(even / QUARTER) * QUARTER);
  const gap = from + inQuarters * times < until ? inQuarters : Math.floor(even);
  return Array.from({ length: times }, (_, i) => from + (i + 1) * gap);
};

/** Of some hours, those at which one is read: as few as keep its gaps, yet one at least; undefined where they are too few. */
const readAt = (hours: readonly number[], { from, until, every }: Stretch): readonly number[] | undefined => {
  const inside = hours.filter((h) => h > from && h < until);
  const read: number[] = [];
  for (const [i, hour] of inside.entries()) {
    const last = read.at(-1) ?? from;
    if (hour - last > every) return undefined;
    if ((inside[i + 1] ?? until) - last > every) read.push(hour);
  }
  if (until - (read.at(-1) ?? from) > every) return undefined;
  const middle = inside[Math.floor(inside.length / 2)];
  return read.length > 0 ? read : middle === undefined ? undefined : [middle];
};

/** The rounds of a day: even hours over all of it, and of a stretch that those leave too long, its own beside them. */
export const roundsOf = (stretches: readonly Stretch[]): readonly Round[] => {
  const wanted = stretches.filter(({ from, until }) => until > from);
  if (wanted.length === 0) return [];
  const whole = {
    from: Math.min(...wanted.map((s) => s.from)),
    until: Math.max(...wanted.map((s) => s.until)),
    every: Math.min(...wanted.map((s) => s.every)),
  };
  let hours = evenly(whole);
  for (const stretch of wanted)
    if (!readAt(hours, stretch)) hours = [...new Set([...hours, ...evenly(stretch)])].toSorted((a, b) => a - b);
  const read = wanted.map((stretch) => ({ id: stretch.id, at: readAt(hours, stretch) ?? [] }));
  return hours.flatMap((at) => {
    const reads = [...new Set(read.flatMap((one) => (one.at.includes(at) ? [one.id] : [])))];
    return reads.length > 0 ? [{ at, reads }] : [];
  });
};
