/**
 * What the rail's air and food come to by the dial of a shared low-pressure control: for another air, as it was found, left alone after a change of
 * refrigerant, and left at its sea-level figure in a store high up. Predicted; it explains a dial and sets none.
 */
import type { Amount } from '../../base/amount.js';
import type { Known } from '../../base/basis.js';
import { flag, type Flag, type Phrase } from '../../base/value.js';
import type { LowPressure } from '../../science/cabinet/facts.js';
import type { MoistAir } from '../../science/moist-air.js';
import { dialScene, type DialScene } from '../../science/scenes/dial.js';
import { practice } from '../known.js';
import { settingOf } from '../physics/fit.js';
import { remembered } from '../physics/remember.js';
import type { Machine } from '../physics/unit-facts.js';
import type { AirRow, MeantRow } from '../service.js';
import { figuresOf, says, type SceneContext } from './context.js';

type Temperature = Known<Amount<'temperature'>>;
type Gauge = Known<Amount<'gauge'>>;

/** One end of the dial as it is written, what it means here, and what it would be set to here for the coil that it means at the sea. */
interface DialEnd {
  readonly dial: Gauge;
  readonly mean: Temperature | undefined;
  readonly set_here: Gauge | undefined;
}

/** What the card tells of the control. */
export interface Dialled {
  readonly dial: { readonly cut_in: DialEnd; readonly cut_out: DialEnd } | undefined;
  readonly for_air: readonly AirRow[];
  readonly found: readonly MeantRow[];
  readonly left_alone: { readonly rows: readonly MeantRow[] } | undefined;
}

interface DialQuestion {
  readonly machine: Machine;
  readonly kitchen: MoistAir;
  readonly control: LowPressure;
}

const dialOf: (question: DialQuestion) => DialScene | undefined = remembered(({ machine, kitchen, control }) => {
  const setting = settingOf(machine, kitchen);
  return setting && dialScene(setting, control);
});

/** What comes of a dial, and the sentence that tells it. */
export interface ByDial {
  readonly air: Temperature;
  readonly coldest: Temperature;
  readonly mean: Temperature;
  readonly says: Known<Phrase>;
  readonly [key: string]: Temperature | Known<Phrase>;
}

export interface DialRow {
  readonly air: Temperature;
  readonly cut_in: Gauge;
  readonly cut_out: Gauge;
  readonly coldest: Temperature;
  readonly mean: Temperature;
  /** Its food would be over what a probe may read, the limit less its error: no dial is told for it. */
  readonly over: Known<Flag>;
  readonly [key: string]: Known<Amount> | Known<Flag>;
}

export const dials = (context: SceneContext, pressure: Dialled) => {
  const { rail: machine, climate, physics } = context;
  const made = machine?.facts.lowPressure;
  const fitted = physics.air;
  if (machine?.rail === undefined || !made || !fitted) return undefined;
  const of = (control: LowPressure, from: readonly Known<unknown>[]) => {
    const found = dialOf({ machine, kitchen: climate.usual, control });
    const { temperature } = figuresOf(context, 'usual', from);
    return (
      found && {
        air: temperature(found.air, 'air-by-dial', 'colder'),
        coldest: temperature(found.food.coldest, 'food-by-dial-coldest', 'colder'),
        mean: temperature(found.food.mean, 'food-by-dial', 'up'),
      }
    );
  };
  const rows = pressure.for_air.flatMap(({ air, cut_in, cut_out }): readonly DialRow[] => {
    const shift = air.value.si - fitted.value.si;
    const food = of({ cutIn: made.cutIn + shift, cutOut: made.cutOut + shift }, [air, cut_in, cut_out]);
    if (!food) return [];
    const over = practice(flag(food.mean.value.si > context.facts.law.aim.value.si), 'trait');
    return [{ air, cut_in, cut_out, coldest: food.coldest, mean: food.mean, over }];
  });
  /** @param ends what the dial's two figures mean here, the cut-in first */
  const sentence = (ends: readonly (Temperature | undefined)[]): ByDial | undefined => {
    const [cutIn, cutOut] = ends;
    const found = cutIn && cutOut && of({ cutIn: cutIn.value.si, cutOut: cutOut.value.si }, [cutIn, cutOut]);
    return found && { ...found, says: says('by-dial', { ...found, kitchen: physics.usual }) };
  };
  const { dial } = pressure;
  const moved = dial?.cut_in.set_here && dial.cut_in.set_here.value.si !== dial.cut_in.dial.value.si;
  return {
    rows,
    found: sentence(pressure.found.map(({ is }) => is)),
    left_alone: sentence((pressure.left_alone?.rows ?? []).map(({ is }) => is)),
    not_raised: moved ? sentence([dial.cut_in.mean, dial.cut_out.mean]) : undefined,
  };
};
