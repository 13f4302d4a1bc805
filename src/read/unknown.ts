/**
 * What nobody knows yet. A setting that stands in the file in its place (taken over from a similar unit, say) is no figure: it is neither reckoned
 * with nor printed, since somebody could set a control by it. Of other facts the plan takes the side that asks more of the crew.
 */
import { amount, type Amount } from '../base/amount.js';
import { error, type Finding } from '../base/finding.js';
import { within, type Place } from '../base/place.js';
import { covers, touches } from '../model/origins.js';
import type { PressureControl, Profile, Zone } from '../model/profile.js';

/** What holds where nobody knows: somebody wipes the melt water up, and a technician sets the clock. */
export const SAFE_SIDE = { drains: 'by-hand', reachable: false, ports: false } as const;

type Pans = NonNullable<Zone['pans']>;

/** Food that lies lower is colder: where nobody knows the load line, half of the pan's depth under the edge. Common practice, no source. */
export const loadLineOf = ({ load_line: line, depth }: Pick<Pans, 'load_line' | 'depth'>): Amount<'length'> =>
  line ?? amount('length', depth.si / 2);

/** Facts that a profile may lack if it lists them under `not_known`: of a plate, what stands on papers alone; else what has a safe side. */
export const MAY_LACK = [
  'nameplate.volts',
  'nameplate.amps',
  'nameplate.hertz',
  'loading',
  'zones.*.pans.load_line',
  'zones.*.rest.clock.reachable',
] as const;

/** Of anything but a map, an empty one. */
export const mapOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Record<string, unknown>) : {};

/** Every such fact that a map which is there lacks, by its steps. @param raw a profile as it was written */
const lacking = (raw: unknown, [step = '', ...rest]: readonly string[]): readonly (readonly string[])[] => {
  const here = mapOf(raw);
  if (rest.length === 0) return here[step] === undefined ? [[step]] : [];
  const steps = (step === '*' ? Object.keys(here) : [step]).filter((one) => here[one] !== undefined);
  return steps.flatMap((one) => lacking(here[one], rest).map((path) => [one, ...path]));
};

/** Whether a profile lists a fact as not known. @param raw as it was written */
export const isListed = (raw: unknown, fact: string): boolean => {
  const { not_known: listed } = mapOf(raw);
  return Array.isArray(listed) && listed.some((key) => covers(String(key), fact));
};

/** A finding for each fact that a profile neither tells nor lists as not known. @param raw as it was written */
export const neitherToldNorListed = (raw: unknown, at: Place): readonly Finding[] =>
  MAY_LACK.flatMap((fact) => lacking(raw, fact.split('.')))
    .filter((path) => !isListed(raw, path.join('.')))
    .map((path) => error('missing-key', within(at, ...path), { key: path.at(-1) ?? '', unknown: path.join('.') }));

/** A profile as far as it is known. */
export interface KnownProfile {
  readonly profile: Profile;
  /** Keys of the settings that nobody knows: `control.pressure`, `zones.rail.control`. */
  readonly unknown: readonly string[];
  /** Keys of the facts of which the plan takes the safe side. */
  readonly safeSide: readonly string[];
  /** A pressure control of which its maker's figures are known, and not what they count from: its coil is not reckoned with either. */
  readonly anyZero?: PressureControl;
}

/**
 * The profile without its unknown settings, and with the safe side of its other unknown facts.
 * @param isOfProfile false where a store wrote the fact for its own unit: there it is known
 */
export const withoutUnknown = (profile: Profile, isOfProfile: (path: readonly string[]) => boolean): KnownProfile => {
  const isUnknown = (...path: string[]): boolean =>
    isOfProfile(path) && (profile.not_known ?? []).some((fact) => touches(fact, path.join('.')));
  const isUnset = (...path: string[]): boolean => ['cut_in', 'cut_out'].some((end) => isUnknown(...path, end));
  const safeSide: string[] = [];
  const filled = (id: string, zone: Zone): Zone => {
    const { pans } = zone;
    if (!pans || (pans.load_line && !isUnknown('zones', id, 'pans', 'load_line'))) return zone;
    safeSide.push(`zones.${id}.pans.load_line`);
    return { ...zone, pans: { ...pans, load_line: undefined } };
  };
  const cautious = (id: string, written: Zone): Zone => {
    const told = filled(id, written);
    // Nobody is told to leave covers open, or to shut them, that nobody has seen.
    const zone = isUnknown('zones', id, 'covers', 'night') ? { ...told, covers: undefined } : told;
    const { rest } = zone;
    if (!rest) return zone;
    const wiped = zone.drains === undefined || isUnknown('zones', id, 'drains');
    const locked = rest.clock.reachable === undefined || isUnknown('zones', id, 'rest', 'clock', 'reachable');
    if (wiped) safeSide.push(`zones.${id}.drains`);
    if (locked) safeSide.push(`zones.${id}.rest.clock.reachable`);
    return {
      ...zone,
      ...(wiped ? { drains: SAFE_SIDE.drains } : {}),
      ...(locked ? { rest: { ...rest, clock: { ...rest.clock, reachable: SAFE_SIDE.reachable } } } : {}),
    };
  };
  const noZero = profile.control.pressure !== undefined && isUnknown('control', 'pressure', 'reference');
  const noEnds = isUnset('control', 'pressure');
  const pressure = noEnds || noZero;
  const anyZero = noZero && !noEnds ? profile.control.pressure : undefined;
  const ids = Object.keys(profile.zones).filter((id) => isUnset('zones', id, 'control'));
  const zones = Object.entries(profile.zones).map(([id, zone]): [string, Zone] => {
    const safe = cautious(id, zone);
    return [id, ids.includes(id) ? { ...safe, control: undefined } : safe];
  });
  return {
    profile: {
      ...profile,
      control: pressure ? { ...profile.control, pressure: undefined } : profile.control,
      zones: Object.fromEntries(zones),
      // What a store wrote of its own unit is known there.
      ...(profile.not_known ? { not_known: profile.not_known.filter((fact) => isOfProfile(fact.split('.'))) } : {}),
    },
    unknown: [...(pressure ? ['control.pressure'] : []), ...ids.map((id) => `zones.${id}.control`)],
    safeSide,
    ...(anyZero ? { anyZero } : {}),
  };
};
