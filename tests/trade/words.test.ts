/**
 * Every code of the trade has its words in every language that ships: a caution without its sentence would fail only where a chain owns such a unit.
 */
import { describe, expect, it } from 'vitest';
import { cautionCodes } from '../../src/trade/cautions.js';
import { clockKindNames } from '../../src/trade/clocks.js';
import { panSizeNames } from '../../src/trade/pans.js';
import { LOADING_RULES, ruleCodes } from '../../src/trade/rules.js';
import { STRATEGIES, strategyNames } from '../../src/trade/strategies.js';
import { demoFiles, tryFiles } from '../support/chain.js';

const { workshop } = tryFiles(demoFiles());

/** Codes of the sentences that a page says of each kind of thing. */
const SAID: Readonly<Record<string, readonly string[]>> = {
  cautions: cautionCodes.flatMap((code) => [`cautions.${code}.title`, `cautions.${code}.text`]),
  'loading rules': ruleCodes.flatMap((code) => [
    `rules.${code}.do`,
    ...(LOADING_RULES[code].says === 'never' ? [`rules.${code}.why`] : []),
  ]),
  clocks: clockKindNames.map((name) => `terms.${name}`),
  strategies: strategyNames.flatMap((name) => {
    const { sequence, sequenceWithout = [] } = STRATEGIES[name];
    return [`terms.${name}`, `lesson.strategy-${name}`, ...[...sequence, ...sequenceWithout].map((code) => `sequence.${code}`)];
  }),
  'pan sizes': panSizeNames.map((name) => `terms.pan-${name}`),
};

describe.each(Object.entries(SAID))('%s', (_, codes) => {
  it.each([...(workshop?.words ?? [])])('have their words in %s', (_, words) => {
    expect(codes.length).toBeGreaterThan(3);
    expect(codes.filter((code) => !words.get(code))).toEqual([]);
  });
});
