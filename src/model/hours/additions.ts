/**
 * Hours behind a comma are added to the day. Where they overlap what the day has already and leave some of it outside, nobody knows which is meant:
 * `11am-10pm, Sun 11am-3pm` would keep Sunday open until ten.
 */
import { dayNumber, type DayNumber } from './civil.js';
import type { PlacedRule } from './contradictions.js';
import type { Rule, Span } from './hours.js';
import { merge, names, sameSpans, spansBy } from './match.js';
import { writeRule, writeSpans } from './write.js';

/** A leap year, for dates that come back every year. */
const ANY_YEAR = 2028;

/** Days on which rules can differ: of one week, or of each year that they name. */
const daysOf = (rules: readonly Rule[]): readonly DayNumber[] => {
  const plain = rules.every((rule) => rule.dates === null && (rule.days ?? []).every(({ nth }) => nth === null));
  if (plain) return Array.from({ length: 7 }, (_, day) => dayNumber(ANY_YEAR, 1, 3) + day);
  const named = rules.flatMap((rule) => (rule.dates ?? []).flatMap(({ first, last }) => [first.year, last?.year]));
  const years = new Set([ANY_YEAR, ...named.flatMap((year) => year ?? [])]);
  return [...years].flatMap((year) => {
    const first = dayNumber(year, 1, 1);
    return Array.from({ length: dayNumber(year + 1, 1, 1) - first }, (_, day) => first + day);
  });
};

const overlap = (a: Span, b: Span): boolean => a.from < b.to && b.from < a.to;

/** @returns whether the added hours alone say less than what they make together with those that they overlap */
const isDoubtful = (before: readonly Span[], added: readonly Span[]): boolean => {
  const touched = before.filter((span) => added.some((more) => overlap(span, more)));
  return touched.length > 0 && !sameSpans(merge([...before, ...added]), added);
};

/** @returns the first rule whose hours are added to others that they overlap, told at its comma; undefined where there is none */
export const checkAdditions = (rules: readonly PlacedRule[]) => {
  for (const [j, { rule, joint }] of rules.entries()) {
    if (!rule.adds || !rule.open || !joint) continue;
    const earlier = rules.slice(0, j).map((r) => r.rule);
    const holidays = rule.holidays ? [false, true] : [false];
    const added = spansBy([rule]);
    for (const day of daysOf([...earlier, rule])) {
      const clash = holidays
        .filter((holiday) => names(rule, day, holiday))
        .map((holiday) => spansBy(earlier.filter((r) => names(r, day, holiday))))
        .find((before) => isDoubtful(before, added));
      if (!clash) continue;
      // A semicolon would lose an opening of its own that the added hours leave alone: 11-14,17-22 and then 17-24.
      const keeps = clash.some((span) => !added.some((more) => overlap(span, more)));
      const within = sameSpans(merge([...clash, ...added]), clash);
      return {
        fault: 'added-to' as const,
        offset: joint.offset,
        length: joint.length,
        data: { before: writeSpans(clash), added: writeRule(rule) },
        ...(keeps && !within ? {} : { suggestion: ';' }),
      };
    }
  }
  return undefined;
};
