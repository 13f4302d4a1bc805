/**
 * What is wrong with the refrigerants of a unit's circuits: one of which nothing is known, too much of one that burns, one for which the unit was not built.
 */
import { amount } from '../base/amount.js';
import { error, warning, type Finding } from '../base/finding.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';
import { builtAs } from './refilled.js';

/** Charge per circuit above which the nameplate's own limit must be read: 150 g, IEC 60335-2-89 ed. 2. Newer editions allow more. */
const FLAMMABLE_CHARGE_KG = 0.15;

/** Half of the tenth of an ounce to which plates round: a plate of 150 g reads 5.3 oz, which is 150.3 g. */
const PLATE_ROUNDING_KG = 0.0014;

/** A number that is near to another is another gas, whose pressures and cautions are others: only what is spelled otherwise is suggested. */
const sameName = (
  wrote: string,
  names: readonly string[],
): { readonly nearest: string } | { readonly names: readonly string[] } => {
  const bare = (name: string): string => name.toLowerCase().replace(/[^a-z0-9]/g, '');
  const same = names.find((name) => bare(name) === bare(wrote) || bare(name) === `r${bare(wrote)}`);
  return same === undefined ? { names } : { nearest: same };
};

/** By how much it burns: ISO 817 and ASHRAE 34, from memory. */
const BURNS: readonly string[] = ['A1', 'A2L', 'A2', 'A3'];

/** Colder than this at its critical point, a gas stands at pressures for which no ordinary system is built: R-744. */
const SUBCRITICAL_K = 310;

/** @returns for each circuit an error where no figure could be told or the gas may not be in that unit, a warning for a charge over the usual limit */
export const checkRefrigerants = (shelf: Shelf, unit: ReadUnit): readonly Finding[] =>
  unit.profile.nameplate.circuits.flatMap(({ refrigerant, charge }, i): readonly Finding[] => {
    const at = (key: string) => unit.originOf('nameplate', 'circuits', i, key).at;
    const is = shelf.refrigerants.get(refrigerant)?.value;
    if (!is)
      return [
        error('unknown-refrigerant', at('refrigerant'), {
          wrote: refrigerant,
          ...sameName(refrigerant, [...shelf.refrigerants.keys()]),
        }),
      ];
    const was = shelf.refrigerants.get(builtAs(shelf, unit, i)?.refrigerant ?? '')?.value;
    // Refused by makers and, for gases that burn, by US EPA SNAP (40 CFR 82 subpart G: new equipment alone), from memory.
    const barred =
      was !== undefined &&
      (BURNS.indexOf(is.safety) > BURNS.indexOf(was.safety) ||
        [is, was].filter(({ critical }) => critical.temperature < SUBCRITICAL_K).length === 1);
    return [
      ...(barred ? [error('not-built-for', at('refrigerant'), { unit: unit.id, from: was.name, to: is.name })] : []),
      ...(is.safety !== 'A1' && charge.si > FLAMMABLE_CHARGE_KG + PLATE_ROUNDING_KG
        ? [warning('flammable-charge', at('charge'), { charge, limit: amount('mass', FLAMMABLE_CHARGE_KG) })]
        : []),
    ];
  });
