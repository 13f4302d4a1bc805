/**
 * What a profile says of one zone, as leaves of the plan: nothing is worked out here.
 */
import type { Known } from '../base/basis.js';
import { count, span, term, verbatim, type Term } from '../base/value.js';
import type { Zone } from '../model/profile.js';
import type { ReadUnit } from '../read/shelf.js';
import { loadLineOf } from '../read/unknown.js';
import { practice, told, toldLeaf, unknownSetting, written } from './known.js';

export const zoneFacts = (unit: ReadUnit, id: string, zone: Zone, lang: string) => {
  const from = (...path: string[]) => unit.originOf('zones', id, ...path);
  const maybe = <T>(value: T | undefined, ...path: string[]): Known<T> | undefined =>
    value === undefined ? undefined : written(value, from(...path));
  const { pans, shelves, drawers, defrost, control } = zone;
  return {
    id: written(verbatim(id), from()),
    kind: written<Term>(term(zone.kind), from('kind')),
    name: toldLeaf(zone.name, lang, from('name')),
    aim: zone.aim && written(span(zone.aim), from('aim')),
    air: zone.air && written(span(zone.air), from('air')),
    probe: {
      where: written(told(zone.probe.where, lang), from('probe', 'where')),
      how: toldLeaf(zone.probe.how, lang, from('probe', 'how')),
    },
    control: control && {
      cut_in: written(control.cut_in, from('control', 'cut_in')),
      cut_out: written(control.cut_out, from('control', 'cut_out')),
      senses: written<Term>(term(`sense-${control.senses}`), from('control', 'senses')),
    },
    control_not_known: unknownSetting(unit, `zones.${id}.control`),
    pans: pans && {
      count: written(count(pans.count), from('pans', 'count')),
      size: written<Term>(term(`pan-${pans.size}`), from('pans', 'size')),
      depth: written(pans.depth, from('pans', 'depth')),
      load_line: pans.load_line
        ? written(pans.load_line, from('pans', 'load_line'))
        : practice(loadLineOf(pans), 'load-line-unknown'),
    },
    shelves: shelves && {
      count: written(count(shelves.count), from('shelves', 'count')),
      volume: maybe(shelves.volume, 'shelves', 'volume'),
      load_line: toldLeaf(shelves.load_line, lang, from('shelves', 'load_line')),
    },
    drawers: drawers && {
      count: written(count(drawers.count), from('drawers', 'count')),
      pans_each: written(count(drawers.pans_each), from('drawers', 'pans_each')),
    },
    defrost: defrost && {
      by: written<Term>(term(defrost.by), from('defrost', 'by')),
      every: maybe(defrost.every, 'defrost', 'every'),
      a_day: defrost.a_day === undefined ? undefined : written(count(defrost.a_day), from('defrost', 'a_day')),
      step: maybe(defrost.step, 'defrost', 'step'),
      ends_at: maybe(defrost.ends_at, 'defrost', 'ends_at'),
      at_most: written(defrost.at_most, from('defrost', 'at_most')),
      drip: maybe(defrost.drip, 'defrost', 'drip'),
      fan_back: maybe(defrost.fan_back, 'defrost', 'fan_back'),
    },
  };
};

export type ZoneFacts = Readonly<Record<string, ReturnType<typeof zoneFacts>>>;

/** A zone by its own name, or by its kind. */
export const zoneName = (zone: ZoneFacts[string]) => zone.name ?? zone.kind;
