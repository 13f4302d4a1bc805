/**
 * Cautions by code: for whom, how grave, and when a unit needs them. The words are in words/ under `cautions`, in every language.
 * Which of them a paper must carry follows from its reader and the unit's traits, never from its template.
 */
import type { Level } from '../base/level.js';

export type Reader = 'staff' | 'technician';

/**
 * What a caution depends on; the plan answers each with yes or no. A `room` is a unit that people walk into; a clock in reach is one whose time the manager sets.
 * Where one unit of a store holds a gas that burns, nobody can tell by the hiss which one leaks: `gas-may-burn` is said of all its units.
 */
export const cautionTraits = ['always', 'flammable', 'gas-may-burn', 'no-gas-burns', 'room', 'clock-in-reach'] as const;
export type Trait = (typeof cautionTraits)[number];

export interface Caution {
  readonly level: Level;
  readonly readers: readonly Reader[];
  readonly when: Trait;
  /** Another one says more in its place, where any unit has this. */
  readonly unless?: Trait;
  /** How it is set: a panel with its signal word, a line of what never to do, or a line of small type. */
  readonly as: 'panel' | 'never' | 'line';
  /** Papers that need it; `every` is each paper of the reader, `teaching` those that teach, `taught` these and those that stand at the unit. */
  readonly on: 'every' | 'taught' | 'teaching';
}

const kinds = {
  'hand-cannot-tell': { level: 'notice', as: 'line', readers: ['staff'], when: 'always', on: 'every' },
  'local-rules-first': { level: 'notice', as: 'line', readers: ['staff'], when: 'always', on: 'every' },
  'no-panels': { level: 'warning', as: 'never', readers: ['staff'], when: 'always', unless: 'clock-in-reach', on: 'every' },
  'no-panels-clock-in-reach': { level: 'warning', as: 'never', readers: ['staff'], when: 'clock-in-reach', on: 'every' },
  'fire-and-sparks': { level: 'danger', as: 'panel', readers: ['staff'], when: 'always', on: 'taught' },
  'gas-hiss': { level: 'danger', as: 'panel', readers: ['staff'], when: 'gas-may-burn', on: 'taught' },
  'gas-leak': { level: 'danger', as: 'panel', readers: ['staff'], when: 'no-gas-burns', on: 'taught' },
  'no-chipping': { level: 'warning', as: 'never', readers: ['staff'], when: 'always', on: 'taught' },
  chemicals: { level: 'caution', as: 'line', readers: ['staff'], when: 'always', on: 'teaching' },
  'locked-in': { level: 'warning', as: 'panel', readers: ['staff'], when: 'room', on: 'taught' },
  'licensed-only': { level: 'warning', as: 'panel', readers: ['technician'], when: 'always', on: 'every' },
  'live-parts': { level: 'danger', as: 'panel', readers: ['technician'], when: 'always', on: 'every' },
  pressure: { level: 'warning', as: 'panel', readers: ['technician'], when: 'always', on: 'every' },
  'flammable-service': { level: 'danger', as: 'panel', readers: ['technician'], when: 'flammable', on: 'every' },
} as const satisfies Record<string, Caution>;

export type CautionCode = keyof typeof kinds;
export const CAUTIONS: Readonly<Record<CautionCode, Caution>> = kinds;
export const cautionCodes = Object.keys(kinds) as CautionCode[];
