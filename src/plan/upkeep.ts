/**
 * What a unit's display says and how it is cleaned, for its technician whole and for staff as far as it asks something of them.
 */
import type { Known } from '../base/basis.js';
import { phrase, term, verbatim, type Term, type Value } from '../base/value.js';
import type { ReadUnit } from '../read/shelf.js';
import { practice, told, toldLeaf, written } from './known.js';
import type { UnitTraits } from './unit-traits.js';

/**
 * The inside of a room is cleaned with its food in it, that of a freezer once its ice has melted; of drinks nothing gets too warm. What turns a bottom off
 * turns its top off too; where its clock would then stand still, or its own controller lose its time, it stays on.
 * @param stops whether its clock stands still without power
 */
const cleaningCode = (task: string, { room, holds, rail, ownStop }: UnitTraits, stops: boolean): string => {
  if (task !== 'inside') return task;
  if (rail) return stops ? 'inside-top-clock' : rail.cooled === 'fan-rail' && !ownStop ? 'inside-top-own' : 'inside-top';
  return room ? 'inside-room' : holds === 'frozen' || holds === 'sealed' ? `inside-${holds}` : task;
};

/** In seconds, the longest first. */
const LENGTHS = [
  ['month', 2629746],
  ['week', 604800],
  ['day', 86400],
] as const;

/** A sentence for each unit, and for one of it: languages say `every day`, `tous les 2 jours` and `toutes les 2 semaines`. */
const everyCode = (seconds: number): string => {
  for (const [unit, length] of LENGTHS) {
    const n = Math.round(seconds / length);
    if (n > 0 && Math.abs(seconds / length - n) < 1e-3) return n === 1 ? `every-${unit}` : `every-${unit}s`;
  }
  return 'every';
};

/**
 * @param values where its food goes meanwhile, and what the air of its bottom and of its top read before it goes back
 * @param stops whether its clock stands still without power
 */
export const upkeep = (
  unit: ReadUnit,
  traits: UnitTraits,
  values: Readonly<Record<'backup' | 'air' | 'ready', Known<Value>>>,
  stops: boolean,
  lang: string,
) => {
  const cleaning = (unit.profile.cleaning ?? []).map((c, i) => {
    const every = written(c.every, unit.originOf('cleaning', i, 'every'));
    return {
      task: practice(phrase(`cleaning.${cleaningCode(c.task, traits, stops)}`, values), `cleaning-${c.task}`),
      every,
      /** Every day, every 2 weeks. */
      often: practice(phrase(`cleaning.${everyCode(c.every.si)}`, { every }), `cleaning-${c.task}`),
      by: written<Term>(term(c.by), unit.originOf('cleaning', i, 'by')),
    };
  });
  const display = (unit.profile.display ?? []).map((d, i) => ({
    // What stands on a display is told letter by letter; what is drawn there, in the reader's words.
    shows: written<Value>(
      typeof d.shows === 'string' ? verbatim(d.shows) : told(d.shows, lang),
      unit.originOf('display', i, 'shows'),
    ),
    means: written(told(d.means, lang), unit.originOf('display', i, 'means')),
    staff: toldLeaf(d.staff, lang, unit.originOf('display', i, 'staff')),
  }));
  return {
    cleaning,
    display,
    for_staff: {
      shows: display.filter(({ staff }) => staff !== undefined),
      cleans: cleaning.filter(({ by }) => by.value.code === 'staff'),
    },
  };
};
