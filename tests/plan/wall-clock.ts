/**
 * The platform's own time-zone data (Intl), as a check that is independent of ours: the offset of a zone at a UTC minute, and back.
 */
export interface WallClock {
  /** Minutes to add to UTC minutes since 1970 to get the wall. */
  readonly offset: (utc: number) => number;
  /** UTC minutes of a local minute since 1970: the last (or first) one that the wall shows it, or when it is skipped. */
  readonly utc: (local: number, which?: 'first' | 'last') => number;
}

const QUARTER = 15;

export const wallClock = (zone: string): WallClock => {
  const format = new Intl.DateTimeFormat('en-US', { timeZone: zone, timeZoneName: 'longOffset' });
  const known = new Map<number, number>();
  const offset = (utc: number): number => {
    const key = Math.floor(utc / QUARTER);
    const found = known.get(key);
    if (found !== undefined) return found;
    const text = format.formatToParts(new Date(key * QUARTER * 60000)).find((p) => p.type === 'timeZoneName')?.value ?? '';
    const match = /GMT(?:([+-])(\d+):(\d+))?/.exec(text);
    const minutes = match?.[1] ? (match[1] === '-' ? -1 : 1) * (Number(match[2]) * 60 + Number(match[3])) : 0;
    known.set(key, minutes);
    return minutes;
  };
  const utc = (local: number, which: 'first' | 'last' = 'last'): number => {
    // A zone is at most 14 hours ahead and 12 behind. The minutes that show the local one, else the first that shows a later one.
    const shows: number[] = [];
    let later: number | undefined;
    for (const shift of [...new Set([offset(local - 900), offset(local - 60 * 12), offset(local), offset(local + 780)])].sort(
      (a, b) => b - a,
    )) {
      if (offset(local - shift) === shift) shows.push(local - shift);
    }
    if (shows.length > 0) return (which === 'first' ? shows[0] : shows.at(-1)) as number;
    for (let u = local - 900; later === undefined; u++) if (u + offset(u) > local) later = u;
    return later;
  };
  return { offset, utc };
};

/** The changes of a zone in a year, found by walking it in quarters of an hour. */
export const changesByIntl = (zone: string, year: number): readonly { at: number; shift: number }[] => {
  const { offset } = wallClock(zone);
  const [from, to] = [Date.UTC(year, 0, 1) / 60000 - 900, Date.UTC(year + 1, 0, 1) / 60000 + 900];
  const found: { at: number; shift: number }[] = [];
  for (let u = from; u < to; u += 1440) {
    if (offset(u) === offset(u + 1440)) continue;
    for (let m = u; m < u + 1440; m += QUARTER) {
      const [before, after] = [offset(m), offset(m + QUARTER)];
      if (before !== after) found.push({ at: m + QUARTER + before, shift: after - before });
    }
  }
  return found.filter(({ at }) => at >= Date.UTC(year, 0, 1) / 60000 && at < Date.UTC(year + 1, 0, 1) / 60000);
};
