/**
 * The technician's figures: what the pressure control's dial stands for at this store's altitude, and what the head pressure should be.
 * Outside a refrigerant's curves there is no figure, only a finding.
 */
import { amount, type Amount, type Measure, type Quantity } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { warning, type Finding } from '../base/finding.js';
import { flag, term, type Term } from '../base/value.js';
import type { PressureControl } from '../model/profile.js';
import type { ReadUnit } from '../read/shelf.js';
import {
  absoluteFromGauge,
  dialForMeanEvaporating,
  evaporatingAt,
  gaugeFromAbsolute,
  headPressure,
  type Zero,
} from '../science/pressure-control.js';
import type { Refrigerant } from '../science/saturation.js';
import { redialled } from './dial-steps.js';
import type { StoreFacts } from './facts.js';
import { signedForControls } from './found-settings.js';
import { computed, practice, written } from './known.js';

const figure = <Q extends Quantity>(q: Q, si: number, rule: string, from: readonly Known<unknown>[]): Known<Amount<Q>> =>
  computed(amount(q, si), rule, from);

/** What one end is to be set to, for the coil that its figure means at sea level; undefined outside the curves. */
const setFor = (r: Refrigerant, stands: Amount<'gauge'>, zero: Zero, measure: Measure): Amount<'gauge'> | undefined => {
  const atSea = evaporatingAt(r, stands.si, { ...zero, altitude: 0 });
  const set = atSea && dialForMeanEvaporating(r, atSea.mean, zero);
  return set === undefined ? undefined : redialled(stands, set, measure);
};

/** One end of the dial: what it says, what it stands for here, and what it would have to say here to keep the coil as at sea level. */
const dialEnd = (r: Refrigerant, gauge: Known<Amount<'gauge'>>, zero: Zero, why: readonly Known<unknown>[], measure: Measure) => {
  const from = [gauge, ...why];
  const here = evaporatingAt(r, gauge.value.si, zero);
  const set = setFor(r, gauge.value, zero, measure);
  const coil = set && evaporatingAt(r, set.si, zero);
  const toSet = set && computed(set, 'dial-for-altitude', from);
  const local: Zero = { ...zero, reference: 'atmosphere' };
  const absolute = set && absoluteFromGauge(set.si, zero);
  const shows = absolute === undefined ? undefined : gaugeFromAbsolute(absolute, local);
  return {
    dial: gauge,
    /** What this dial stands for here, left as it is at sea level. */
    mean: here && figure('temperature', here.mean, 'dial-mean', from),
    /** The dial for the coil that the maker's sea-level figure means. */
    set_here: toSet,
    /** The coil for which the control, so set, stands here. */
    coil: toSet &&
      coil && {
        mean: figure('temperature', coil.mean, 'coil-mean', [toSet, ...why]),
        inlet: figure('temperature', coil.inlet, 'coil-inlet', [toSet, ...why]),
        dew: figure('temperature', coil.dew, 'coil-dew', [toSet, ...why]),
      },
    /** What a gauge, which counts from the air around it, shows as the control acts, so set. */
    on_gauge: toSet && (shows === undefined ? undefined : figure('gauge', shows, 'gauge-here', [toSet, ...why])),
  };
};

/** Its second scale is the difference: the cut-out can't be set by itself. */
const byDifference = (control: PressureControl) => practice(flag(control.dial === 'cut-in-and-difference'), 'trait');

const between = (cutIn: Known<Amount<'gauge'>>, cutOut: Known<Amount<'gauge'>>): Known<Amount<'gauge-difference'>> =>
  figure('gauge-difference', cutIn.value.si - cutOut.value.si, 'cut-in-less-cut-out', [cutIn, cutOut]);

const dialOf = (
  r: Refrigerant,
  control: PressureControl,
  unit: ReadUnit,
  facts: StoreFacts,
  refrigerant: Known<unknown>,
  measure: Measure,
) => {
  const reference = written<Term>(term(control.reference), unit.originOf('control', 'pressure', 'reference'));
  const zero: Zero = { reference: control.reference, altitude: facts.altitude.value.si };
  const why = [refrigerant, reference, facts.altitude];
  const end = (key: 'cut_in' | 'cut_out') =>
    dialEnd(r, written(control[key], unit.originOf('control', 'pressure', key)), zero, why, measure);
  const cutIn = end('cut_in');
  const cutOut = end('cut_out');
  return {
    reference,
    /** Nothing that its altitude would change. */
    at_sea: practice(flag(facts.altitude.value.si === 0), 'trait'),
    /** Nobody wrote how high the store lies, and its dial depends on it. */
    sea_assumed: practice(
      flag(control.reference === 'atmosphere' && facts.altitude.basis.how === 'assumed' && facts.altitude.value.si === 0),
      'trait',
    ),
    /** Its scale is not a gauge's here. */
    off_gauge: practice(flag(control.reference === 'sealed' && facts.altitude.value.si !== 0), 'trait'),
    style: written<Term>(term(control.dial), unit.originOf('control', 'pressure', 'dial')),
    cut_in: cutIn,
    cut_out: cutOut,
    difference: between(cutIn.dial, cutOut.dial),
    by_difference: byDifference(control),
    difference_here: cutIn.set_here && cutOut.set_here && between(cutIn.set_here, cutOut.set_here),
  };
};

/** What a control's dial is to be set to at an altitude, for the coil that its maker's sea-level figures mean. */
export const setHere = (r: Refrigerant | undefined, control: PressureControl, altitude: number, measure: Measure) => {
  const zero: Zero = { reference: control.reference, altitude };
  const end = (stands: Amount<'gauge'>): Amount<'gauge'> => (r && setFor(r, stands, zero, measure)) ?? stands;
  return { cut_in: end(control.cut_in), cut_out: end(control.cut_out) };
};

/** Both dials of a control of which nobody knows what it counts from: somebody looks at it and takes the one that fits. */
const eitherDial = (r: Refrigerant, control: PressureControl, unit: ReadUnit, facts: StoreFacts, measure: Measure) => {
  const altitude = facts.altitude;
  const end = (key: 'cut_in' | 'cut_out') => {
    const dial = written(control[key], unit.originOf('control', 'pressure', key));
    const set = (reference: Zero['reference']) => {
      const found = setFor(r, dial.value, { reference, altitude: altitude.value.si }, measure);
      return found && computed(found, 'dial-for-altitude', [dial, altitude]);
    };
    return { dial, bellows: set('atmosphere'), sealed: set('sealed') };
  };
  return { by_difference: byDifference(control), cut_in: end('cut_in'), cut_out: end('cut_out') };
};

/** Head pressure over air entering the condenser at a kitchen temperature. */
export const headAt = (
  r: Refrigerant,
  air: Known<Amount<'temperature'>>,
  split: Known<Amount<'difference'>>,
  facts: StoreFacts,
  refrigerant: Known<unknown>,
) => {
  const from = [refrigerant, air, split, facts.altitude];
  const found = headPressure(r, air.value.si, split.value.si, { reference: 'atmosphere', altitude: facts.altitude.value.si });
  if (!found) return undefined;
  return {
    air,
    condensing: figure('temperature', found.temperature, 'air-plus-split', [air, split]),
    mean: figure('gauge', found.mean, 'head-mean', from),
    bubble: figure('gauge', found.bubble, 'head-bubble', from),
    dew: figure('gauge', found.dew, 'head-dew', from),
    glide: found.bubble - found.dew > 0.02 * found.mean,
  };
};

const ENDS = [
  ['cut_in', 'outside-curves-cut-in'],
  ['cut_out', 'outside-curves-cut-out'],
] as const;

/** Of which air the head pressure is outside a refrigerant's curves, and what it would condense at. */
export const overCurves = (r: Refrigerant, air: Amount<'temperature'>, split: Amount<'difference'>) => ({
  air,
  condensing: amount('temperature', air.si + split.si),
  refrigerant: r.name,
});

/** All pressures of a unit's card, and what could not be told. */
export const pressures = (
  r: Refrigerant | undefined,
  unit: ReadUnit,
  facts: StoreFacts,
  refrigerant: Known<unknown>,
  measure: Measure,
) => {
  const findings: Finding[] = [];
  const { control, condensing } = unit.profile;
  const ports = condensing.ports;
  if (!r) return { either: undefined, findings };
  const dial = control.pressure && dialOf(r, control.pressure, unit, facts, refrigerant, measure);
  const either = unit.anyZero && eitherDial(r, unit.anyZero, unit, facts, measure);
  for (const [end, code] of ENDS) {
    const outside = dial ? !dial[end].mean : either && !(either[end].bellows && either[end].sealed);
    const gauge = (dial ?? either)?.[end].dial.value;
    if (outside && gauge)
      findings.push(warning(code, unit.originOf('control', 'pressure', end).at, { dial: gauge, refrigerant: r.name }));
  }
  if (
    dial?.cut_in.set_here &&
    dial.cut_out.set_here &&
    dial.difference_here &&
    dial.cut_in.set_here.value.si > dial.cut_in.dial.value.si
  ) {
    findings.push(
      warning('dial-for-altitude', unit.originOf('control', 'pressure').at, {
        store: facts.id.value.text,
        unit: unit.id,
        ...signedForControls(unit),
        altitude: facts.altitude.value,
        should_in: dial.cut_in.set_here.value,
        ...(dial.by_difference.value.is
          ? { should_difference: dial.difference_here.value }
          : { should_out: dial.cut_out.set_here.value }),
      }),
    );
  }
  const split = condensing.split && written(condensing.split, unit.originOf('condensing', 'split'));
  // What stands elsewhere breathes other air than the kitchen's.
  const kitchens = unit.profile.condensing.place === 'in-unit' ? split : undefined;
  const usual = kitchens && headAt(r, facts.kitchen.usual, kitchens, facts, refrigerant);
  const hottest = kitchens && headAt(r, facts.kitchen.hottest, kitchens, facts, refrigerant);
  const untold = kitchens && (usual ? (hottest ? undefined : facts.kitchen.hottest) : facts.kitchen.usual);
  if (kitchens && untold)
    findings.push(
      warning('outside-curves-head', unit.originOf('condensing', 'split').at, overCurves(r, untold.value, kitchens.value)),
    );
  return { dial, either, split, ports, usual, hottest, findings };
};
