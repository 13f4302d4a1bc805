/**
 * Two rules that say different things of the same days: the later one would silently win, so the person is asked which is meant.
 */
import type { DayPick, Rule } from './hours.js';
import { writeDays, writeRule } from './write.js';

/** A rule and the stretch of text it was read from. */
export interface PlacedRule {
  readonly rule: Rule;
  readonly offset: number;
  readonly length: number;
  /** What stands between it and the rule before it. */
  readonly joint?: { readonly offset: number; readonly length: number };
}

const key = (value: unknown): string => JSON.stringify(value);

const ALL: readonly DayPick[] = [0, 1, 2, 3, 4, 5, 6].map((day) => ({ day, nth: null }));

/** The days a rule names; holidays alone name no weekday. */
const picks = (rule: Rule): readonly DayPick[] => rule.days ?? (rule.holidays ? [] : ALL);

/** Whether every day that `a` names is named by `b` too. */
const covers = (b: Rule, a: Rule): boolean => {
  if (b.dates !== null && key(b.dates) !== key(a.dates)) return false;
  if (a.holidays && !b.holidays && b.days !== null) return false;
  return picks(a).every((d) =>
    picks(b).some((other) => other.day === d.day && (other.nth === null || key(other.nth) === key(d.nth))),
  );
};

/** A rule for dates or holidays that a later rule for weekdays of every week overrides on some of them: the exception belongs last. */
const overrides = (b: Rule, a: Rule): boolean =>
  b.dates === null &&
  (a.dates !== null || (a.holidays && a.days === null)) &&
  picks(b).some((d) => a.days === null || a.days.some((other) => other.day === d.day));

/** The weekdays that two rules share, where each names others too: `Mon-Thu` beside `Thu-Sat` is a slip more likely than an exception. */
const crossing = (b: Rule, a: Rule): readonly DayPick[] => {
  if (key(a.dates) !== key(b.dates) || !a.open || !b.open) return [];
  const shared = (a.days ?? []).filter((d) => d.nth === null && (b.days ?? []).some((o) => o.day === d.day && o.nth === null));
  const wider = (rule: Rule): boolean => (rule.days ?? []).length > shared.length;
  return wider(a) && wider(b) ? shared : [];
};

const same = (a: Rule, b: Rule): boolean => a.open === b.open && key(a.spans) === key(b.spans);

/** @returns the first rule that a later one takes away what it says, told at the later one's place; undefined where there is none */
export const checkRules = (rules: readonly PlacedRule[]) => {
  for (const [j, later] of rules.entries()) {
    // Hours that are added to a day replace nothing there, but a closed day they open: who writes "closed Mondays, 11-22" means the Mondays.
    const replaces = (rule: Rule): boolean => (later.rule.open ? !later.rule.adds || !rule.open : later.rule.spans === null);
    const earlier = rules
      .slice(0, j)
      .find(
        ({ rule }) =>
          replaces(rule) &&
          (covers(later.rule, rule) || overrides(later.rule, rule) || crossing(later.rule, rule).length > 0) &&
          !same(rule, later.rule),
      );
    if (earlier) {
      const shared = crossing(later.rule, earlier.rule);
      return {
        fault: 'contradicting' as const,
        offset: later.offset,
        length: later.length,
        data: {
          days: writeDays(shared.length > 0 ? { ...earlier.rule, days: shared } : earlier.rule) || 'Mo-Su',
          first: writeRule(earlier.rule),
          second: writeRule(later.rule),
        },
      };
    }
  }
  return undefined;
};
