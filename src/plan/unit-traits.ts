/**
 * What a unit is, decided once: its steps, rules, lesson, headline and cautions follow from these traits, and templates ask for them as `unit.is`.
 */
import type { Origin } from '../model/resolve.js';
import { flag } from '../base/value.js';
import { cautionTraits, type Trait } from '../trade/cautions.js';
import { STRATEGIES, type StrategyName } from '../trade/strategies.js';
import type { BoxKind, Holds, RailKind } from '../trade/zones.js';
import { practice, written } from './known.js';

export interface UnitTraits {
  /** Its open top, emptied at night; absent for a box alone. */
  readonly rail: RailKind | undefined;
  /** The closed box that holds food all night. */
  readonly box: BoxKind | undefined;
  readonly holds: Holds;
  readonly strategy: StrategyName;
  /** The food of its top goes to another unit. */
  readonly elsewhere: boolean;
  /** Its top has covers, or nobody said that it has none. */
  readonly covered: boolean;
  readonly drainsByHand: boolean;
  /** Its refrigerant can burn. */
  readonly flammable: boolean;
  /** Its own can, or that of another unit of the store. */
  readonly gasMayBurn: boolean;
  /** People walk into it. */
  readonly room: boolean;
  /** The top can be stopped without the bottom: by its clock or by hand. */
  readonly ownStop: boolean;
  /** A hand turns the top off and on. */
  readonly byHand: boolean;
  /** Whoever manages the store sets the clock's time. */
  readonly inReach: boolean;
  /** A schedule was found for its rest. */
  readonly timed: boolean;
  /** It rests in the afternoon closing. */
  readonly afternoon: boolean;
}

/** A clock turns its top off and on. */
export const hasClock = ({ ownStop, byHand }: UnitTraits): boolean => ownStop && !byHand;

/** Its box is drawers, which are cooked from. */
export const hasDrawers = ({ box }: Pick<UnitTraits, 'box'>): boolean => box?.carries === 'drawers';

/** The traits that cautions are for, as far as it has them. */
export const cautionTraitsOf = ({ flammable, gasMayBurn, room, inReach }: UnitTraits): ReadonlySet<Trait> => {
  const has: Readonly<Record<Trait, boolean>> = {
    always: true,
    flammable,
    'gas-may-burn': gasMayBurn,
    'no-gas-burns': !gasMayBurn,
    room,
    'clock-in-reach': inReach,
  };
  return new Set(cautionTraits.filter((trait) => has[trait]));
};

/** As a template asks for them. @param ports whether service ports are there, which is written */
export const traitFlags = (traits: UnitTraits, ports: { readonly there: boolean; readonly origin: Origin }) => {
  const is = (trait: boolean) => practice(flag(trait), 'trait');
  const { rail, box, holds, timed, ownStop } = traits;
  return {
    rail: is(rail !== undefined),
    box: is(box !== undefined),
    timed: is(timed),
    elsewhere: is(traits.elsewhere),
    unsolved: is(ownStop && !timed),
    cold: is(holds === 'cold'),
    frozen: is(holds === 'frozen'),
    sealed: is(holds === 'sealed'),
    flammable: is(traits.flammable),
    gas_may_burn: is(traits.gasMayBurn),
    ports: written(flag(ports.there), ports.origin),
    linked: is(STRATEGIES[traits.strategy].zonesLinked && rail !== undefined),
    by_hand: is(traits.byHand),
    covered: is(traits.covered),
    drains_by_hand: is(traits.drainsByHand),
    shared_air: is(rail?.cooled === 'shared-air'),
    fan_rail: is(rail?.cooled === 'fan-rail'),
    static_rail: is(rail?.cooled === 'static'),
    room: is(traits.room),
    own_stop: is(ownStop),
  };
};
