/**
 * What moving a rail's food at night needs: minutes to empty and to load, and room for it.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { error, warning, type Finding } from '../base/finding.js';
import { count } from '../base/value.js';
import type { Zone } from '../model/profile.js';
import { noPlaceForFood } from '../read/food-place.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import { PAN_SIZES } from '../trade/pans.js';
import type { StoreFacts } from './facts.js';
import { computed, practice, written } from './known.js';
import { atOneRail } from './timetable/index.js';

type Duration = Known<Amount<'duration'>>;

const minutes = (n: number): Amount<'duration'> => amount('duration', n * 60);
const FIVE = 5 * 60;

/** The probe sanitized and settled, a lid, the way there. Common practice, no source. */
const SECONDS_A_PAN = 60;
const MINUTES_OF_WIPING = 5;
/** Hands washed, the food probed where the pans go: nobody carries before. Common practice, no source. */
const MINUTES_OF_STARTING = 5;

/** Minutes of one person, shared by those who find room there, rounded up to five. @param alone what is not shared */
const shared = (one: Duration, people: StoreFacts['closers'], alone?: Duration): Duration => {
  const unshared = alone?.value.si ?? 0;
  const each = (one.value.si - unshared) / atOneRail(people.value.n);
  const from = [one, people, ...(alone ? [alone] : [])];
  return computed(amount('duration', Math.ceil((unshared + each) / FIVE - 1e-9) * FIVE), 'shared-by-crew', from, 'up');
};

/** How long moving the food takes, each way. */
export const moveNeeds = (unit: ReadUnit, railId: string, zone: Zone, facts: StoreFacts) => {
  const from = (...path: string[]) => unit.originOf('zones', railId, ...path);
  if (zone.move) {
    const one = { empty: written(zone.move.empty, from('move', 'empty')), load: written(zone.move.load, from('move', 'load')) };
    return { one_person: one, empty: shared(one.empty, facts.closers), load: shared(one.load, facts.openers) };
  }
  const pans = written(count(zone.pans?.count ?? 0), from('pans', 'count'));
  const each: Duration = practice(amount('duration', SECONDS_A_PAN), 'seconds-a-pan');
  const starting: Duration = practice(minutes(MINUTES_OF_STARTING), 'minutes-of-starting');
  const wiping: Duration = practice(minutes(MINUTES_OF_WIPING), 'minutes-of-wiping');
  const moving = pans.value.n * each.value.si;
  const one = {
    empty: computed(amount('duration', starting.value.si + moving + wiping.value.si), 'pans-and-wiping', [
      starting,
      pans,
      each,
      wiping,
    ]),
    load: computed(amount('duration', moving), 'pans-one-by-one', [pans, each]),
    pans,
    each,
    starting,
    wiping,
  };
  return { one_person: one, empty: shared(one.empty, facts.closers, starting), load: shared(one.load, facts.openers) };
};

export type Move = ReturnType<typeof moveNeeds>;

export interface Room {
  readonly needs: Known<Amount<'area'>>;
  /** Absent where nobody has measured it. */
  readonly free: Known<Amount<'area'>> | undefined;
}

/** Whether the rail's lidded pans fit where they go at night: area and height. No room is an error with choices. */
export const roomForFood = (
  read: ReadStore,
  unit: ReadUnit,
  railId: string,
  zone: Zone,
): { room?: Room & { pans: Known<unknown> }; findings: readonly Finding[] } => {
  const goes = unit.unit.food_goes_to;
  const at = (...path: string[]) => read.originOf('units', unit.id, ...path);
  if (!goes) return { findings: [noPlaceForFood(unit.id, at().at)] };
  const target = goes.unit === undefined ? unit : read.units.find((other) => other.id === goes.unit);
  const zones = Object.keys(target?.profile.zones ?? {});
  if (!target || !zones.includes(goes.zone)) {
    return {
      findings: [
        error('no-such-zone', at('food_goes_to', target ? 'zone' : 'unit').at, {
          wrote: target ? goes.zone : (goes.unit ?? ''),
          names: target ? zones : read.units.map((u) => u.id),
        }),
      ],
    };
  }
  if (!zone.pans) return { findings: [] };
  const size = PAN_SIZES[zone.pans.size];
  const pans = written(count(zone.pans.count), unit.originOf('zones', railId, 'pans', 'count'));
  const needs = computed(amount('area', zone.pans.count * size.length * size.width), 'area-of-lidded-pans', [pans], 'up');
  const free = goes.free_shelf && written(goes.free_shelf, at('food_goes_to', 'free_shelf'));
  const findings: Finding[] = [];
  // A centimetre for the lid; common practice, no source.
  const tall = amount('length', zone.pans.depth.si + 0.01);
  const unmeasured = (['free_shelf', 'height'] as const).filter((key) => goes[key] === undefined);
  if (unmeasured.length > 0)
    findings.push(
      warning('room-not-measured', at('food_goes_to').at, { unit: unit.id, needs: needs.value, tall, keys: unmeasured }),
    );
  if (free && needs.value.si > free.value.si + 1e-9) {
    findings.push(
      error('no-room-for-food', at('food_goes_to', 'free_shelf').at, {
        needs: needs.value,
        free: free.value,
        pans: pans.value.n,
      }),
    );
  }
  if (goes.height && tall.si > goes.height.si + 1e-9)
    findings.push(error('no-height-for-food', at('food_goes_to', 'height').at, { needs: tall, free: goes.height }));
  return { room: { needs, free, pans }, findings };
};
