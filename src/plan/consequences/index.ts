/**
 * What happens if people don't: scenes of the very unit in its store, for papers that ask for them. Computed when a paper is made, once for equal
 * units in equal kitchens. They explain and condemn; none clears food, allows time or loosens a limit.
 */
import type { ReadStore, Shelf } from '../../read/shelf.js';
import type { StorePlan } from '../index.js';
import { settle } from '../known.js';
import { physicsOf } from '../physics/index.js';
import type { UnitPlan } from '../unit.js';
import type { SceneContext } from './context.js';
import { dials, type Dialled } from './dials.js';
import { holdsTo, hotDay } from './hot-day.js';
import { neverSatisfied } from './never-satisfied.js';
import { nights } from './nights.js';
import { skippedRest } from './skipped-rest.js';
import { warmFood } from './warm-food.js';

const scenesIn = (context: SceneContext, pressure: Dialled) => {
  const night = nights(context);
  const rest = skippedRest(context);
  const warm = warmFood(context);
  const hot = hotDay(context);
  const holds = holdsTo(context);
  return {
    nights: night,
    rest,
    warm,
    hot,
    holds,
    never: neverSatisfied(context),
    /** For the technician: what air and food come of a dial. */
    dials: dials(context, pressure),
    /** Sentences for whoever learns the unit. */
    says: [holds?.says, night?.says, rest?.says, ...warm.map((w) => w.says), hot?.says].filter((s) => s !== undefined),
  };
};

export type Scenes = ReturnType<typeof scenesIn>;

/** The unit with its scenes; as it is where the physics has no model of it. */
export const withScenes = (shelf: Shelf, read: ReadStore, plan: StorePlan, unit: UnitPlan): UnitPlan => {
  const id = unit.id.value.text;
  const found = read.units.find((one) => one.id === id);
  const physics = found && physicsOf(shelf, plan.store, found);
  if (!physics?.climate || !unit.physics) return unit;
  const { climate, rail, box } = physics;
  const { rest } = unit;
  const context = {
    rest,
    facts: plan.store,
    law: read.law.value,
    lawAt: read.law.at,
    physics: unit.physics,
    climate,
    rail,
    box,
  };
  const scenes = scenesIn(context, unit.pressure);
  settle({ units: { [id]: { scenes } } });
  return { ...unit, scenes };
};

/** A store's plan with the scenes of all its units. */
export const withAllScenes = (shelf: Shelf, read: ReadStore, plan: StorePlan): StorePlan => ({
  ...plan,
  units: Object.fromEntries(Object.entries(plan.units).map(([id, unit]) => [id, withScenes(shelf, read, plan, unit)])),
});
