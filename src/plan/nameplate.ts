/**
 * The nameplate as leaves of the plan, with the safety class of each circuit's refrigerant from the tables.
 */
import { amount } from '../base/amount.js';
import { term, verbatim, type Value } from '../base/value.js';
import type { ReadUnit, Shelf } from '../read/shelf.js';
import { told, written } from './known.js';

/** A zone by its own name, or by its kind; one that is not there by the id that somebody wrote. */
const zoneName = (unit: ReadUnit, id: string, lang: string): Value => {
  const zone = unit.profile.zones[id];
  if (!zone) return verbatim(id);
  return zone.name === undefined ? term(zone.kind) : told(zone.name, lang);
};

export const nameplateFacts = (shelf: Shelf, unit: ReadUnit, lang: string) => {
  const { nameplate } = unit.profile;
  const from = (...path: (string | number)[]) => unit.originOf('nameplate', ...path);
  const circuits = nameplate.circuits.map((circuit, i) => {
    const filed = shelf.refrigerants.get(circuit.refrigerant);
    const name = written(verbatim(circuit.refrigerant), from('circuits', i, 'refrigerant'));
    const safety = filed && written(verbatim(filed.value.safety), { at: { ...filed.at, path: ['safety'] }, assumed: false });
    return {
      refrigerant: name,
      safety,
      charge: written(circuit.charge, from('circuits', i, 'charge')),
      serves: circuit.serves.map((id, k) => written(zoneName(unit, id, lang), from('circuits', i, 'serves', k))),
    };
  });
  return {
    model: written(verbatim(nameplate.model), from('model')),
    volts: written(amount('voltage', nameplate.volts), from('volts')),
    amps: written(amount('current', nameplate.amps), from('amps')),
    hertz: written(amount('frequency', nameplate.hertz), from('hertz')),
    built: nameplate.built === undefined ? undefined : written(verbatim(String(nameplate.built)), from('built')),
    circuits,
  };
};
