/**
 * The nameplate as leaves of the plan, with the safety class of each circuit's refrigerant from the tables.
 */
import { amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { phrase, verbatim, type Value } from '../base/value.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';
import { practice, written } from './known.js';
import { zoneName, type ZoneFacts } from './zone-facts.js';

/** Whether a refrigerant of a unit can burn, by its safety class. */
export const burns = (shelf: Shelf, { profile }: ReadUnit): boolean =>
  profile.nameplate.circuits.some(({ refrigerant }) => {
    const filed = shelf.refrigerants.get(refrigerant);
    return filed !== undefined && filed.value.safety !== 'A1';
  });

export const nameplateFacts = (shelf: Shelf, unit: ReadUnit, zones: ZoneFacts) => {
  const { nameplate } = unit.profile;
  const from = (...path: (string | number)[]) => unit.originOf('nameplate', ...path);
  /** A zone that is not there is told by the id that somebody wrote. */
  const nameOf = (id: string): Value => (zones[id] ? zoneName(zones[id]).value : verbatim(id));
  /** What a plate doesn't show any more says so. */
  const onPlate = (q: 'voltage' | 'current' | 'frequency', key: 'volts' | 'amps' | 'hertz'): Known<Value> => {
    const figure = nameplate[key];
    return figure === undefined
      ? practice(phrase(`card.no-${key}`), 'nobody-knows')
      : written<Value>(amount(q, figure), from(key));
  };
  const circuits = nameplate.circuits.map((circuit, i) => {
    const filed = shelf.refrigerants.get(circuit.refrigerant);
    const name = written(verbatim(circuit.refrigerant), from('circuits', i, 'refrigerant'));
    const safety = filed && written(verbatim(filed.value.safety), { at: { ...filed.at, path: ['safety'] }, assumed: false });
    return {
      refrigerant: name,
      safety,
      charge: written(circuit.charge, from('circuits', i, 'charge')),
      serves: circuit.serves.map((id, k) => written(nameOf(id), from('circuits', i, 'serves', k))),
    };
  });
  return {
    model: written(verbatim(nameplate.model), from('model')),
    volts: onPlate('voltage', 'volts'),
    amps: onPlate('current', 'amps'),
    hertz: onPlate('frequency', 'hertz'),
    built: nameplate.built === undefined ? undefined : written(verbatim(String(nameplate.built)), from('built')),
    circuits,
  };
};
