/**
 * What is asked of a store: only what differs from its chain has to be said. Each unit has its own questions, more of them where it has a rail.
 */
import { storeSchema } from '../../model/store.js';
import { isRail, ZONE_KINDS, type ZoneKindName } from '../../trade/zones.js';
import { isNeeded, type Form, type Question } from './question.js';
import { at, type Path } from './tree.js';

interface Asked {
  readonly of: string;
  readonly example: string;
  readonly form?: Form;
  readonly choices?: readonly string[];
}

const OF_STORE: readonly Asked[] = [
  { of: 'name', example: 'Copper Ferry' },
  { of: 'timezone', example: 'America/Chicago' },
  { of: 'hours', example: 'Su-Th 11:00-22:00; Fr-Sa 11:00-00:30' },
  { of: 'quiet_window', example: '02:00-05:00' },
  { of: 'crew.comes', example: '90 min before opening' },
  { of: 'crew.leaves', example: '45 min after closing' },
  { of: 'crew.first_pan', example: '30 min before opening' },
  { of: 'crew.closers', example: '2', form: 'number' },
  { of: 'crew.openers', example: '1', form: 'number' },
  { of: 'altitude', example: '590 ft' },
  { of: 'kitchen.usual', example: '78 °F' },
  { of: 'kitchen.hottest', example: '92 °F' },
  { of: 'backup', example: 'the walk-in cooler behind the dish room' },
  { of: 'phones.service.name', example: 'Frostwick Kitchen Service' },
  { of: 'phones.service.phone', example: '555-0142' },
  { of: 'phones.emergency', example: '911' },
];

const OF_UNIT: readonly Asked[] = [
  { of: 'nickname', example: 'Line 1' },
  { of: 'position', example: 'left of the grill' },
  { of: 'serial', example: 'OC15-20417' },
];

const OF_RAIL: readonly Asked[] = [
  { of: 'food_goes_to.unit', example: 'cold-room' },
  { of: 'food_goes_to.zone', example: 'base' },
  { of: 'food_goes_to.free_shelf', example: '6 sq ft' },
  { of: 'food_goes_to.height', example: '6 in' },
  { of: 'heat', example: 'right', form: 'choice', choices: ['left', 'right'] },
];

const codeOf = (of: string): string => of.replaceAll('.', '-').replaceAll('_', '-');

const question = (asked: Asked, path: Path, code: string, under: unknown, whole: unknown): Question => ({
  path,
  code,
  form: asked.form ?? 'text',
  example: asked.example,
  choices: asked.choices ?? [],
  now: at(under, path),
  needed: isNeeded(storeSchema, whole, path),
});

/**
 * @param under the chain's and nightrail's own defaults, which hold where a store says nothing
 * @param whole the draft laid over them
 */
export const storeQuestions = (under: unknown, whole: unknown): readonly Question[] =>
  OF_STORE.map((asked) => question(asked, asked.of.split('.'), codeOf(asked.of), under, whole));

/** @param profile as its file has it */
export const unitQuestions = (unit: string, profile: unknown, under: unknown, whole: unknown): readonly Question[] => {
  const zones = Object.values((at(profile, ['zones']) ?? {}) as Record<string, { readonly kind?: ZoneKindName }>);
  const rail = zones.some(({ kind }) => kind !== undefined && kind in ZONE_KINDS && isRail(ZONE_KINDS[kind]));
  return [...OF_UNIT, ...(rail ? OF_RAIL : [])].map((asked) => {
    const made = question(asked, ['units', unit, ...asked.of.split('.')], `unit-${codeOf(asked.of)}`, under, whole);
    // Without a place for its food, a rail's plan is refused; and in its own bottom no other unit is named.
    return rail && asked.of.startsWith('food_goes_to.') && !asked.of.endsWith('.unit') ? { ...made, needed: true } : made;
  });
};
