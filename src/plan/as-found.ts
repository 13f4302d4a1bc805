/**
 * What a technician found on a unit, as leaves: the clock's and the controls' settings before they were put right.
 */
import { moment } from '../base/moment.js';
import { date, term, verbatim, type Days, type Term } from '../base/value.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import type { FoundFood } from './consequences/found-food.js';
import type { FoundTold } from './found-clock.js';
import { foundSettings } from './found-settings.js';
import { toldLeaf, written } from './known.js';

/** @param did what the clock did as it was found @param food how warm food got in a rail that it stopped */
export const asFound = (read: ReadStore, unit: ReadUnit, lang: string, did: readonly FoundTold[], food: readonly FoundFood[]) => {
  const { found } = unit.unit;
  if (!found) return undefined;
  const at = (...path: (string | number)[]) => read.originOf('units', unit.id, 'found', ...path);
  const { clock, pressure } = found;
  return {
    when: written(date(found.when), at('when')),
    who: written(verbatim(found.who), at('who')),
    clock: clock && {
      settings: foundSettings(clock).map(({ days, off, on }, i) => {
        const path = clock.settings ? ['clock', 'settings', i] : ['clock'];
        return {
          days: written<Days>({ q: 'days', days }, at(...path, ...(clock.settings?.[i]?.days === undefined ? [] : ['days']))),
          off: written(moment(off), at(...path, 'off')),
          on: written(moment(on), at(...path, 'on')),
        };
      }),
      override:
        clock.override === undefined ? undefined : written<Term>(term(`override-${clock.override}`), at('clock', 'override')),
      shows: toldLeaf(clock.shows, lang, at('clock', 'shows')),
      did,
      food,
    },
    pressure: pressure && {
      cut_in: written(pressure.cut_in, at('pressure', 'cut_in')),
      cut_out: written(pressure.cut_out, at('pressure', 'cut_out')),
    },
    control: Object.entries(found.control ?? {}).map(([zone, set]) => ({
      zone: written(verbatim(zone), at('control', zone)),
      cut_in: written(set.cut_in, at('control', zone, 'cut_in')),
      cut_out: written(set.cut_out, at('control', zone, 'cut_out')),
    })),
    notes: toldLeaf(found.notes, lang, at('notes')),
  };
};
