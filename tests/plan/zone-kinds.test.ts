/**
 * Kinds of zone: each has its words, and one that the program can't honour doesn't compile.
 */
import { describe, expect, it } from 'vitest';
import { isRail, ZONE_KINDS, type ZoneKind } from '../../src/trade/zones.js';
import { demoFiles, tryFiles } from '../support/chain.js';

const { workshop } = tryFiles(demoFiles());

describe.each(Object.entries(ZONE_KINDS))('%s', (name, kind) => {
  it.each([...(workshop?.words ?? [])])('has its name and how it is cooled in %s', (_, words) => {
    expect(words.get(`terms.${name}`)).toBeTruthy();
    const how = isRail(kind) ? `rail-${kind.cooled}` : `${kind.cooled}-${kind.holds}`;
    expect(words.get(`lesson.${how}`)).toBeTruthy();
  });
});

it('takes no traits that a plan would not follow', () => {
  const base = { cooled: 'boxed', rests: 'by-itself', holds: 'cold', carries: 'shelves', stores: true } as const;
  const kinds: readonly ZoneKind[] = [
    base,
    // @ts-expect-error a plan empties every rail and knows no trait that says otherwise
    { cooled: 'shared-air', rests: 'with-base', holds: 'cold', carries: 'pans', stores: false, emptied: false },
    // @ts-expect-error a rail's food goes where it is cold, never into a freezer
    { ...base, holds: 'frozen' },
    // @ts-expect-error a box without a fan has no model and no sentence
    { ...base, cooled: 'static' },
    // @ts-expect-error only a cold wall rests by a clock of its own
    { cooled: 'fan-rail', rests: 'emptied', holds: 'cold', carries: 'pans', stores: false },
  ];
  expect(kinds).toHaveLength(5);
});
