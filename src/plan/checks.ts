/**
 * Rules of the trade as findings: what a profile says that cannot be, or must not be, at the unit that has it.
 */
import { amount, type Amount } from '../base/amount.js';
import { error, note, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';
import { covers } from '../model/origins.js';
import type { PressureControl, Zone } from '../model/profile.js';
import type { ReadStore, ReadUnit, Shelf } from '../read/shelf.js';
import { absoluteFromGauge } from '../science/pressure-control.js';
import { CLOCK_KINDS, isDial } from '../trade/clocks.js';
import { needsPressureControl, STRATEGIES } from '../trade/strategies.js';
import { isBox, isRail, ZONE_KINDS } from '../trade/zones.js';
import { isFoundOff, signedSince, type BothEnds, type ReadEnds } from './found-settings.js';
import { unconfirmed } from './origins.js';
import { unlikelyOfUnit } from './unlikely.js';
import { setHere } from './pressures.js';
import { checkRefrigerants } from './checks-of-refrigerants.js';
import { checkSensor } from './sensor.js';

/** Food that is kept cold and not frozen stays above the freezing of water, K. */
const FREEZES = 273.15;

/** Warmer than this no coil is when its ice has melted, K (100 °F): makers end defrosts at 40 to 60 °F. Common practice, no source. */
const WARMEST_COIL = 310.93;

/** So far under the warmest that is aimed at a freezer starts at least, K: with less its readings pass it in ordinary running. Common practice, no source. */
const ABOVE_CUT_IN = 1;

/** How far a zone's air may lie from what its control says, K. Common practice, no source. */
const AIR_OFF_CONTROL = 6;

export interface CheckContext {
  readonly shelf: Shelf;
  readonly read: ReadStore;
}

/** Of a control, what its profile writes. */
const writtenOf = ({ as_end: _, ...keys }: PressureControl) => keys;

/** What is wrong with one unit as its profile (with what differs here) describes it. */
export const checkUnit = ({ shelf, read }: CheckContext, unit: ReadUnit): readonly Finding[] => {
  const findings: Finding[] = [];
  const { profile } = unit;
  const at = (...path: (string | number)[]) => unit.originOf(...path).at;
  const zoneNames = Object.keys(profile.zones);
  const limit = read.law.value.cold.at_most;

  findings.push(...checkRefrigerants(shelf, unit));
  profile.nameplate.circuits.forEach((circuit, i) => {
    circuit.serves.forEach((zone, j) => {
      if (!zoneNames.includes(zone))
        findings.push(error('no-such-zone', at('nameplate', 'circuits', i, 'serves', j), { wrote: zone, names: zoneNames }));
    });
  });
  const { strategy } = profile.control;
  const pressure = profile.control.pressure ?? unit.anyZero;
  findings.push(...checkSensor(shelf, unit));
  if (pressure && pressure.cut_in.si <= pressure.cut_out.si) {
    findings.push(
      error('cut-out-over-cut-in', at('control', 'pressure', 'cut_out'), { cut_in: pressure.cut_in, cut_out: pressure.cut_out }),
    );
  }
  // A gauge that reads less would measure less than nothing.
  if (pressure && absoluteFromGauge(pressure.cut_out.si, { reference: 'sealed', altitude: 0 }) === undefined)
    findings.push(error('below-vacuum', at('control', 'pressure', 'cut_out'), { cut_out: pressure.cut_out }));
  // What the scale shows, typed with psig, would be taken for where it stops.
  const asEnd = (of: BothEnds & { readonly as_end?: boolean }, where: Place): void => {
    if (pressure?.dial !== 'cut-in-and-difference' || of.as_end !== true) return;
    const difference = amount('gauge-difference', of.cut_in.si - of.cut_out.si);
    findings.push(warning('taken-as-end', where, { cut_out: of.cut_out, difference }));
  };
  if (pressure) asEnd(pressure, at('control', 'pressure', 'cut_out'));
  const was = unit.unit.found?.pressure;
  if (was?.cut_in && was.cut_out)
    asEnd(
      { ...was, cut_in: was.cut_in, cut_out: was.cut_out },
      read.originOf('units', unit.id, 'found', 'pressure', 'cut_out').at,
    );
  const fixed = profile.control.pressure_switch;
  if (fixed && fixed.cut_in.si <= fixed.cut_out.si)
    findings.push(
      error('cut-out-over-cut-in', at('control', 'pressure_switch', 'cut_out'), { cut_in: fixed.cut_in, cut_out: fixed.cut_out }),
    );
  const circuits = profile.nameplate.circuits.length;
  if (STRATEGIES[strategy].ownCircuits !== circuits > 1)
    findings.push(error('strategy-circuits', at('control', 'strategy'), { strategy, circuits }));
  const served = profile.nameplate.circuits.flatMap((c) => c.serves);
  for (const zone of zoneNames)
    if (!served.includes(zone)) findings.push(error('zone-without-circuit', at('zones', zone), { zone }));
  if (zoneNames.length > 1 && !STRATEGIES[strategy].zonesLinked)
    for (const [id, zone] of Object.entries(profile.zones))
      if (!zone.control && !unit.unknown.some((fact) => fact.startsWith(`zones.${id}.control`)))
        findings.push(warning('no-thermostat', at('zones', id), { strategy, zone: id }));
  if (!pressure && !unit.unknown.includes('control.pressure') && needsPressureControl(strategy))
    findings.push(error('no-pressure-control', at('control'), { strategy }));

  findings.push(...checkParts(unit), ...unlikelyOfUnit(unit, read));

  for (const [id, zone] of Object.entries(profile.zones)) {
    const kind = ZONE_KINDS[zone.kind];
    const zoneAt = (...path: string[]) => at('zones', id, ...path);
    if (zone.control && zone.control.cut_in.si <= zone.control.cut_out.si) {
      findings.push(
        error('cut-out-over-cut-in', zoneAt('control', 'cut_out'), {
          cut_in: zone.control.cut_in,
          cut_out: zone.control.cut_out,
        }),
      );
    }
    // A coil is colder than its air: what is too warm for the one is so for the other.
    if (zone.control && kind.holds === 'cold') {
      const { cut_in, cut_out } = zone.control;
      if (cut_out.si >= limit.si) findings.push(error('control-over-limit', zoneAt('control', 'cut_out'), { cut_out, limit }));
      if (cut_in.si > limit.si + 1e-6)
        findings.push(warning('control-starts-over-limit', zoneAt('control', 'cut_in'), { cut_in, limit }));
    }
    if (zone.aim && kind.holds === 'cold' && zone.aim.high.si > limit.si + 1e-6)
      findings.push(error('aim-over-limit', zoneAt('aim'), { aim: zone.aim.high, limit }));
    if (zone.aim && kind.holds === 'cold' && zone.aim.low.si < FREEZES)
      findings.push(warning('aim-freezes', zoneAt('aim'), { zone: id, aim: zone.aim.low }));
    if (zone.air && zone.aim && zone.air.low.si > zone.aim.high.si + 1e-6)
      findings.push(error('air-warmer-than-food', zoneAt('air'), { air: zone.air.low, aim: zone.aim.high }));
    if (zone.air && kind.holds === 'cold' && zone.air.high.si > limit.si + 1e-6)
      findings.push(error('air-over-limit', zoneAt('air'), { air: zone.air.high, limit }));
    if (
      zone.air &&
      zone.control &&
      (zone.air.low.si > zone.control.cut_in.si + AIR_OFF_CONTROL ||
        zone.air.high.si < zone.control.cut_out.si - (zone.control.senses === 'coil' ? 0 : AIR_OFF_CONTROL))
    ) {
      findings.push(
        warning('air-off-control', zoneAt('air'), {
          zone: id,
          low: zone.air.low,
          high: zone.air.high,
          cut_in: zone.control.cut_in,
          cut_out: zone.control.cut_out,
        }),
      );
    }
    if (kind.holds === 'cold' && isBox(kind) && zone.control?.senses === 'air' && zone.control.cut_out.si < FREEZES)
      findings.push(warning('control-freezes', zoneAt('control', 'cut_out'), { zone: id, cut_out: zone.control.cut_out }));
    findings.push(...checkDefrost(zone, zoneAt));
    for (const key of ['aim', 'air'] as const) {
      const own = zone[key];
      if (kind.holds === 'frozen' && own && own.high.si > FREEZES)
        findings.push(error('frozen-over-freezing', zoneAt(key), { zone: id, high: own.high }));
    }
    if (kind.holds === 'frozen' && zone.control && zone.aim && zone.control.cut_in.si > zone.aim.high.si - ABOVE_CUT_IN)
      findings.push(
        warning('frozen-starts-at-limit', zoneAt('control', 'cut_in'), { cut_in: zone.control.cut_in, limit: zone.aim.high }),
      );
    if (kind.holds === 'frozen' && zone.control && zone.control.cut_in.si > FREEZES)
      findings.push(error('frozen-over-freezing', zoneAt('control', 'cut_in'), { zone: id, high: zone.control.cut_in }));
    if (zone.pans?.load_line && zone.pans.load_line.si >= zone.pans.depth.si)
      findings.push(
        error('load-line-under-pan', zoneAt('pans', 'load_line'), { line: zone.pans.load_line, depth: zone.pans.depth }),
      );
    if (zone.rest?.least && zone.rest.enough && zone.rest.least.si > zone.rest.enough.si)
      findings.push(error('enough-under-least', zoneAt('rest', 'enough'), { enough: zone.rest.enough, least: zone.rest.least }));
    if (zone.rest && kind.rests !== 'emptied')
      findings.push(error('clock-on-wrong-zone', zoneAt('rest'), { zone: id, kind: zone.kind }));
    if (!zone.rest && kind.rests === 'emptied') findings.push(error('static-rail-without-rest', zoneAt(), { zone: id }));
    if (isRail(kind) && !zone.pans && !zone.move) findings.push(error('rail-without-pans', zoneAt(), { zone: id }));
    if (zone.rest?.clock.reachable === true && isDial(CLOCK_KINDS[zone.rest.clock.kind]))
      findings.push(warning('dial-in-reach', zoneAt('rest', 'clock', 'reachable'), { zone: id }));
    zone.rest?.clock.stops.forEach((stopped, i) => {
      const where = at('zones', id, 'rest', 'clock', 'stops', i);
      const other = profile.zones[stopped];
      if (!other) findings.push(error('no-such-zone', where, { wrote: stopped, names: zoneNames }));
      else if (ZONE_KINDS[other.kind].rests !== 'emptied') findings.push(error('clock-rests-base', where, { zone: stopped }));
    });
    if (kind.holds === 'sealed' && !profile.loading.some((l) => l.rule === 'sealed-only'))
      findings.push(warning('sealed-rule-missing', at('loading'), { zone: id }));
  }

  const goes = unit.unit.food_goes_to;
  const target = goes && (goes.unit === undefined ? unit : read.units.find((u) => u.id === goes.unit))?.profile.zones[goes.zone];
  if (goes && target && !ZONE_KINDS[target.kind].stores)
    findings.push(
      error('no-store-for-food', read.originOf('units', unit.id, 'food_goes_to', 'zone').at, {
        zone: goes.zone,
        kind: target.kind,
      }),
    );

  for (const key of unit.safeSide) {
    const path = key.split('.');
    findings.push(warning(`safe-side-${path.at(-1)}`, at(...path), { zone: String(path[1]) }));
  }
  const untold = unconfirmed(profile);
  if (untold.length > 0) findings.push(warning('fact-not-confirmed', at('origins'), { facts: untold }));
  const covered = (profile.origins ?? []).flatMap((o) => o.facts);
  const important: readonly (readonly [string, object])[] = [
    ...(pressure ? [['control.pressure', writtenOf(pressure)] as const] : []),
    ...Object.entries(profile.zones).flatMap(([id, zone]) => (zone.rest ? [[`zones.${id}.rest`, zone.rest] as const] : [])),
  ];
  const said = (fact: string): boolean => covered.some((key) => covers(key, fact));
  /** Parts of a fact that nobody told, whole or in some part of them; all together where nobody told any. */
  const unsourced = ([fact, value]: readonly [string, object]): readonly string[] => {
    if (said(fact)) return [];
    const parts = Object.keys(value).filter((key) => (value as Record<string, unknown>)[key] !== undefined);
    const lacks = parts.filter((key) => !said(`${fact}.${key}`) && !covered.some((c) => c.startsWith(`${fact}.${key}.`)));
    return lacks.length === parts.length ? [`${fact} (${parts.join(', ')})`] : lacks.map((key) => `${fact}.${key}`);
  };
  const unsaid = important.flatMap(unsourced);
  if (unsaid.length > 0) findings.push(note('fact-without-origin', at('origins'), { facts: unsaid }));

  profile.not_known?.forEach((fact, i) => findings.push(note('not-known-yet', at('not_known', i), { fact })));
  findings.push(...checkFound({ shelf, read }, unit));
  return findings;
};

/** A defrost that ends over the melting of ice and before the coil heats the box, and leaves most of the day for cooling. */
const checkDefrost = ({ defrost }: Zone, at: (...path: string[]) => Place): readonly Finding[] => {
  if (!defrost) return [];
  const { ends_at, fan_back, at_most, drip, every, a_day } = defrost;
  const limits = { low: amount('temperature', FREEZES), high: amount('temperature', WARMEST_COIL) };
  const apart = every?.si ?? 86400 / (a_day ?? 1);
  return [
    ...(ends_at && (ends_at.si <= FREEZES || ends_at.si > WARMEST_COIL)
      ? [error('defrost-ends-senseless', at('defrost', 'ends_at'), { ends_at, ...limits })]
      : []),
    ...(fan_back && fan_back.si > WARMEST_COIL ? [error('defrost-fan-senseless', at('defrost', 'fan_back'), { fan_back })] : []),
    ...(at_most.si + (drip?.si ?? 0) > apart / 2
      ? [
          error('defrost-too-long', at('defrost', 'at_most'), {
            lasts: amount('duration', at_most.si + (drip?.si ?? 0)),
            apart: amount('duration', apart),
          }),
        ]
      : []),
  ];
};

/** Papers tell of one open top and one closed box; of a second of either, whose food is also to be probed, they would say nothing. */
const checkParts = ({ profile, originOf }: ReadUnit): readonly Finding[] => {
  const ids = Object.keys(profile.zones);
  const open = (id: string): boolean => isRail(ZONE_KINDS[(profile.zones[id] as Zone).kind]);
  return [ids.filter(open), ids.filter((id) => !open(id))].flatMap(([first = '', ...more]) =>
    more.map((zone) => error('second-part', originOf('zones', zone).at, { zone, first })),
  );
};

/** Settings found on the unit that differ from the profile's. */
const checkFound = ({ shelf, read }: CheckContext, unit: ReadUnit): readonly Finding[] => {
  const findings: Finding[] = [];
  const { found } = unit.unit;
  const at = (...path: string[]) => read.originOf('units', unit.id, 'found', ...path).at;
  /** Of one end alone, another sentence: nobody read the other. */
  const tell = (code: string, where: Place, was: ReadEnds, should: BothEnds, more = {}): Finding => {
    const { cut_in, cut_out } = was;
    const data = { ...more, ...signedSince(unit, 'controls') };
    if (cut_in && cut_out)
      return warning(code, where, { ...data, cut_in, cut_out, should_in: should.cut_in, should_out: should.cut_out });
    return cut_in
      ? warning(`${code}-in`, where, { ...data, was: cut_in, should: should.cut_in })
      : warning(`${code}-out`, where, { ...data, was: cut_out as Amount, should: should.cut_out });
  };
  const { pressure } = unit.profile.control;
  if (found?.pressure && pressure && isFoundOff(found.pressure, pressure)) {
    // High up a bellows is set otherwise than its maker says at sea level: who set it so left nothing wrong.
    const { altitude, measure } = read.store;
    const refrigerant = shelf.refrigerants.get(unit.profile.nameplate.circuits[0]?.refrigerant ?? '')?.value;
    const here = setHere(refrigerant, pressure, altitude.si, measure);
    if (isFoundOff(found.pressure, here)) findings.push(tell('control-found-different', at('pressure'), found.pressure, here));
  }
  for (const [zone, was] of Object.entries(found?.control ?? {})) {
    const should = unit.profile.zones[zone]?.control;
    if (unit.unknown.includes(`zones.${zone}.control`)) continue;
    if (!should)
      findings.push(error('no-such-zone', at('control', zone), { wrote: zone, names: Object.keys(unit.profile.zones) }));
    else if (isFoundOff(was, should)) findings.push(tell('control-found-off', at('control', zone), was, should, { zone }));
  }
  return findings;
};
