/**
 * What is wrong with a store as a whole: its kitchen, its phones, its languages, where its food goes, what nobody knows of it.
 */
import { amount } from '../base/amount.js';
import { error, note, warning, type Finding } from '../base/finding.js';
import { within } from '../base/place.js';
import type { Text } from '../model/fields.js';
import type { ReadStore } from '../read/shelf.js';
import { standardPressure } from '../science/atmosphere.js';
import { inKitchen, KITCHENS } from '../science/cabinet/state.js';
import { checkHours } from './checks-of-hours.js';
import { isApproved } from './facts.js';
import type { CheckContext } from './checks.js';
import { unlikelyOfStore } from './unlikely.js';

/** A kitchen, or a height, of which nothing can be computed. */
const checkKitchen = ({ store, originOf }: ReadStore): readonly Finding[] => {
  const { kitchen, altitude } = store;
  const findings: Finding[] = [];
  for (const key of ['usual', 'hottest'] as const)
    if (!inKitchen(kitchen[key].si))
      findings.push(
        warning('kitchen-out-of-range', originOf('kitchen', key).at, {
          kitchen: kitchen[key],
          low: amount('temperature', KITCHENS.low),
          high: amount('temperature', KITCHENS.high),
        }),
      );
  if (kitchen.humidity.si > 1)
    findings.push(error('humidity-over-full', originOf('kitchen', 'humidity').at, { humidity: kitchen.humidity }));
  if (standardPressure(altitude.si) === undefined)
    findings.push(error('altitude-out-of-range', originOf('altitude').at, { altitude }));
  return findings;
};

/** Digits alone. */
const digitsOf = (number: string): string => number.replace(/\D/g, '');

/** An emergency number that is the repair's or the manager's, or that no country has: 000 is Australia's. */
const checkPhones = ({ store: { phones, timezone }, originOf }: ReadStore): readonly Finding[] => {
  const emergency = digitsOf(phones.emergency);
  const same = [phones.service.phone, phones.manager ?? ''].map(digitsOf).includes(emergency);
  const none = /^0+$/.test(emergency) && !(emergency === '000' && timezone.startsWith('Australia/'));
  return same || none ? [error('emergency-number', originOf('phones', 'emergency').at, { wrote: phones.emergency })] : [];
};

/** Facts of a store without which no time on its papers means anything. */
const NEEDED = /^(hours|timezone|crew|quiet_window|units|languages|law)(\.|$)/;

/** Words alone, in small letters without accents, and without an article before them. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{Nd}]+/gu, ' ')
    .trim()
    .replace(/^(the|el|la|los|las|le|les|l) /, '');

const textsIn = (text: Text): readonly string[] => (typeof text === 'string' ? [text] : Object.values(text)).map(plain);

/** A unit whose food would go into itself when it fails: the store's backup is called what it is called, or what its sort is. */
const backupIsItself = ({ store, units, originOf }: ReadStore): readonly Finding[] =>
  units.flatMap(({ id, unit, profile }) => {
    const named = [unit.nickname, profile.sort].flatMap(textsIn);
    const isItself = unit.backup === undefined && textsIn(store.backup).some((text) => named.includes(text));
    return isItself ? [warning('backup-is-itself', originOf('units', id).at, { unit: id })] : [];
  });

const DATE = /^\d{4}-\d{2}-\d{2}$/;

/** Two papers that would have the name of one file: `line-1-card` of the store, and the card of `line-1`. */
const namedTwice = (papers: readonly string[], { units, originOf }: ReadStore): readonly Finding[] => {
  const seen = new Set(papers);
  return units.flatMap((unit) =>
    papers.flatMap((paper) => {
      const name = `${unit.id}-${paper}`;
      // Of several weeks each dated paper has its first day in its name.
      const twice =
        seen.has(name) || papers.some((other) => name.startsWith(`${other}-`) && DATE.test(name.slice(other.length + 1)));
      seen.add(name);
      return twice ? [error('paper-name-twice', originOf('units', unit.id).at, { unit: unit.id, paper, name })] : [];
    }),
  );
};

/** What is wrong with the store as a whole. */
export const checkStore = (
  { shelf, read }: CheckContext,
  languages: readonly string[],
  on: string | undefined,
): readonly Finding[] => {
  const findings: Finding[] = [];
  const { store, originOf } = read;
  if (store.kitchen.usual.si > store.kitchen.hottest.si) {
    findings.push(
      error('usual-over-hottest', originOf('kitchen', 'usual').at, {
        usual: store.kitchen.usual,
        hottest: store.kitchen.hottest,
      }),
    );
  }
  findings.push(
    ...checkKitchen(read),
    ...checkHours(read),
    ...namedTwice(shelf.chain.papers, read),
    ...backupIsItself(read),
    ...unlikelyOfStore(read),
    ...checkPhones(read),
  );
  store.languages.forEach((lang, i) => {
    if (!languages.includes(lang))
      findings.push(error('no-language', originOf('languages', i).at, { wrote: lang, names: languages }));
  });
  if (!read.law.value.cold.checked)
    findings.push(
      note(
        'law-not-checked',
        { ...read.law.at, path: ['cold', 'checked'] },
        { law: read.law.value.name, section: read.law.value.cold.section },
      ),
    );
  store.not_known?.forEach((fact, i) => {
    if (NEEDED.test(fact)) findings.push(error('not-known-needed', originOf('not_known', i).at, { fact }));
  });
  store.not_known?.forEach((fact, i) => findings.push(note('not-known-yet', originOf('not_known', i).at, { fact })));
  if (!shelf.chain.approved) findings.push(note('not-approved', shelf.chainAt, {}));
  else if (!isApproved(shelf, on))
    findings.push(warning('approved-later', within(shelf.chainAt, 'approved', 'from'), { when: shelf.chain.approved.from }));
  return findings;
};
