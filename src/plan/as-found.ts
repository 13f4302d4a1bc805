/**
 * What a technician found on a unit, as leaves: the clock's and the controls' settings before they were put right.
 */
import type { Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { moment } from '../base/moment.js';
import { date, phrase, term, verbatim, type Days, type Term, type Value } from '../base/value.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import type { FoundFood } from './consequences/found-food.js';
import type { FoundTold } from './found-clock.js';
import { foundSettings, signedSince, timeOff, type FoundClock } from './found-settings.js';
import { practice, toldLeaf, written } from './known.js';

type End = 'cut_in' | 'cut_out';

/** Both ends of a control; the one that nobody read says so. */
const ends = (set: { readonly [end in End]?: Amount | undefined }, at: (end: End) => Parameters<typeof written>[1]) => {
  const end = (of: End): Known<Value> => {
    const read = set[of];
    return read === undefined ? practice(phrase('card.not-read'), 'nobody-read') : written(read, at(of));
  };
  return { cut_in: end('cut_in'), cut_out: end('cut_out') };
};

/** What a clock's time of day was out by. */
const timeOf = (clock: FoundClock, at: (way: 'slow' | 'fast') => Parameters<typeof written>[1]) => {
  const off = timeOff(clock);
  if (!off) return undefined;
  const by = written(off.by, at(off.way));
  return { by, says: practice(phrase(`card.clock-${off.way}`, { by }), `clock-${off.way}`) };
};

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
      time: timeOf(clock, (way) => at('clock', way)),
      shows: toldLeaf(clock.shows, lang, at('clock', 'shows')),
      did,
      food,
    },
    /** Before somebody turns a pressure control back. */
    why_first: pressure && !signedSince(unit).signed ? practice(phrase('card.why-first'), 'why-first') : undefined,
    pressure: pressure && ends(pressure, (end) => at('pressure', end)),
    control: Object.entries(found.control ?? {}).map(([zone, set]) => ({
      zone: written(verbatim(zone), at('control', zone)),
      ...ends(set, (end) => at('control', zone, end)),
    })),
    notes: toldLeaf(found.notes, lang, at('notes')),
  };
};
