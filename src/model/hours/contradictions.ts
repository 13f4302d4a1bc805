/**
 * Two rules that say different things of the same days: the later one would silently win, so the person is asked which is meant.
 */
import type { Rule } from './hours.js';
import type { PlacedRule } from './read.js';
import { writeDays, writeRule } from './write.js';

const key = (value: unknown): string => JSON.stringify(value);

/** Whether every day that `a` names is named by `b` too. */
const covers = (b: Rule, a: Rule): boolean => {
  if (b.dates !== null && key(b.dates) !== key(a.dates)) return false;
  if (b.days === null && !b.holidays) return true;
  if (a.days === null && !a.holidays) return false;
  return (!a.holidays || b.holidays) && (a.days ?? []).every((d) => b.days?.some((other) => other.day === d.day && (other.nth === null || key(other.nth) === key(d.nth))));
};

const same = (a: Rule, b: Rule): boolean => a.open === b.open && key(a.spans) === key(b.spans);

/** @returns the first rule that a later one leaves nothing of, at the later one's place; undefined where there is none */
export const checkRules = (rules: readonly PlacedRule[]) => {
  for (const [j, later] of rules.entries()) {
    const replaces = later.rule.open ? !later.rule.adds : later.rule.spans === null;
    const earlier = replaces ? rules.slice(0, j).find(({ rule }) => covers(later.rule, rule) && !same(rule, later.rule)) : undefined;
    // Whole rules written over with the same season stand for a slip; "every day, then Sunday" does not come here.
    if (earlier && (key(earlier.rule.dates) === key(later.rule.dates))) {
      return {
        fault: 'contradicting' as const,
        offset: later.offset,
        length: later.length,
        data: { days: writeDays(earlier.rule), first: writeRule(earlier.rule), second: writeRule(later.rule) },
      };
    }
  }
  return undefined;
};
