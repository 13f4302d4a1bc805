/**
 * Two profiles fact by fact: what one says and the other doesn't, or says otherwise, and who told each and when.
 */
import { originFor } from '../../model/origins.js';
import { profileSchema } from '../../model/profile.js';
import { at, leaves, type Path } from '../new/tree.js';

export interface Told {
  readonly who: string;
  readonly when: string;
  readonly how: unknown;
  /** False: taken over from a similar unit, and nobody has checked it. */
  readonly confirmed?: boolean;
}

export interface Difference {
  /** Keys joined by dots. */
  readonly fact: string;
  readonly path: Path;
  readonly ours: unknown;
  readonly theirs: unknown;
  readonly ourOrigin: Told | undefined;
  readonly theirOrigin: Told | undefined;
}

/** What speaks of facts and is none. */
const ABOUT = ['origins', 'not_known'];

interface Origin extends Told {
  readonly facts: readonly string[];
}

/** Who told a fact; of a list whose parts have keys of their own, of the first of them. */
export const originOf = (profile: unknown, fact: string): Told | undefined => {
  const origins = (at(profile, ['origins']) ?? []) as readonly Origin[];
  const origin = originFor(origins, fact) ?? origins.find(({ facts }) => facts.some((key) => key.startsWith(`${fact}.`)));
  if (!origin) return undefined;
  const { facts: _, ...told } = origin;
  return told;
};

/** `36 to 38 °F` and `36 °F to 38 °F` are one fact: what counts is what is read, to more digits than anybody measures. */
const meant = (read: unknown, raw: unknown, path: Path): string =>
  JSON.stringify(at(read, path) ?? at(raw, path) ?? null, (_, value: unknown) =>
    typeof value === 'number' ? Number(value.toPrecision(9)) : value,
  );

export const differences = (ours: unknown, theirs: unknown): readonly Difference[] => {
  const read = (raw: unknown): unknown => profileSchema.safeParse(raw).data;
  const [ourRead, theirRead] = [read(ours), read(theirs)];
  const paths = new Map([...leaves(ours), ...leaves(theirs)].map((path) => [path.join('.'), path] as const));
  return [...paths]
    .filter(([, path]) => !ABOUT.includes(String(path[0])) && meant(ourRead, ours, path) !== meant(theirRead, theirs, path))
    .map(([fact, path]) => ({
      fact,
      path,
      ours: at(ours, path),
      theirs: at(theirs, path),
      ourOrigin: originOf(ours, fact),
      theirOrigin: originOf(theirs, fact),
    }));
};
