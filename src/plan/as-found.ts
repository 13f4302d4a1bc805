/**
 * What a technician found on a unit, as leaves: the clock's and the controls' settings before they were put right.
 */
import { amount, type Amount } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import { moment, WEEKDAYS, weekdayAfter } from '../base/moment.js';
import { date, phrase, term, verbatim, type Days, type Phrase, type Term, type Value } from '../base/value.js';
import type { ReadStore, ReadUnit } from '../read/shelf.js';
import type { FoundFood } from './consequences/found-food.js';
import type { FoundTold } from './found-clock.js';
import { foundOff, foundSettings, isFoundOff, signedSince, timeOff, type FoundClock, type ReadEnds } from './found-settings.js';
import { practice, toldLeaf, written } from './known.js';
import { zoneName, type ZoneFacts } from './zone-facts.js';

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

type Dial = Readonly<Record<End, { readonly dial: Known<Amount>; readonly set_here: Known<Amount> | undefined }>>;

/** Whether a pressure control was found neither as its maker says at sea level nor as that is set here. */
const isOff = (was: ReadEnds, { cut_in, cut_out }: Dial): boolean =>
  (['dial', 'set_here'] as const).every((as) => {
    const [on, off] = [cut_in[as], cut_out[as]];
    return !on || !off || isFoundOff(was, { cut_in: on.value, cut_out: off.value });
  });

/** What a thermostat that was found off does to the food. */
const thermostatSays = (was: ReadEnds, zone: ZoneFacts[string] | undefined): Known<Phrase> | undefined => {
  const should = zone?.control;
  if (!should) return undefined;
  const { low, high } = foundOff(was, { cut_in: should.cut_in.value, cut_out: should.cut_out.value });
  const way = low ? 'low' : high ? 'high' : undefined;
  return way && practice(phrase(`card.thermostat-${way}`, { zone: zoneName(zone) }), `thermostat-${way}`);
};

/** @param did what the clock did as it was found @param food how warm food got in a rail that it stopped */
export const asFound = (
  read: ReadStore,
  unit: ReadUnit,
  lang: string,
  did: readonly FoundTold[],
  food: readonly FoundFood[],
  zones: ZoneFacts,
  dial: Dial | undefined,
) => {
  const { found } = unit.unit;
  if (!found) return undefined;
  const at = (...path: (string | number)[]) => read.originOf('units', unit.id, 'found', ...path);
  const { clock, pressure } = found;
  return {
    when: written(date(found.when), at('when')),
    who: written(verbatim(found.who), at('who')),
    clock: clock && {
      settings: foundSettings(clock).map(({ days, off, on, on_days: onDays }, i) => {
        const path = clock.settings ? ['clock', 'settings', i] : ['clock'];
        return {
          days: written<Days>({ q: 'days', days }, at(...path, ...(clock.settings?.[i]?.days === undefined ? [] : ['days']))),
          off: written(moment(off), at(...path, 'off')),
          on: written(moment(on), at(...path, 'on')),
          /** Where it comes on after midnight, the days after those. */
          on_days: written<Days>(
            { q: 'days', days: onDays ?? (on > off ? days : WEEKDAYS.filter((day) => days.includes(weekdayAfter(day, -1)))) },
            at(...path, 'on'),
          ),
        };
      }),
      override:
        clock.override === undefined ? undefined : written<Term>(term(`override-${clock.override}`), at('clock', 'override')),
      time: timeOf(clock, (way) => at('clock', way)),
      shows: toldLeaf(clock.shows, lang, at('clock', 'shows')),
      did,
      counted: did.length > 0 ? practice(phrase('card.found-counted'), 'found-counted') : undefined,
      food,
    },
    /** Before somebody turns a pressure control back. */
    why_first:
      pressure && dial && !signedSince(unit, 'controls').signed && isOff(pressure, dial)
        ? practice(phrase('card.why-first'), 'why-first')
        : undefined,
    pressure: pressure && {
      ...ends(pressure, (end) => at('pressure', end)),
      difference:
        pressure.cut_in && pressure.cut_out
          ? written(amount('gauge-difference', pressure.cut_in.si - pressure.cut_out.si), at('pressure', 'cut_out'))
          : undefined,
    },
    control: Object.entries(found.control ?? {}).map(([zone, set]) => ({
      zone: written(verbatim(zone), at('control', zone)),
      ...ends(set, (end) => at('control', zone, end)),
      says: thermostatSays(set, zones[zone]),
    })),
    notes: toldLeaf(found.notes, lang, at('notes')),
  };
};
