/**
 * From a store as read to its plan: every time, temperature and pressure that its papers may say, each with its basis.
 */
import { error, warning, type Finding } from '../base/finding.js';
import { WEEKDAYS } from '../base/moment.js';
import { flag, term, verbatim, type Value } from '../base/value.js';
import type { ReadStore, Shelf } from '../read/shelf.js';
import type { Trait } from '../trade/cautions.js';
import { openHours } from './business-days.js';
import { cautionsFor } from './cautions.js';
import { checkStore } from './checks-of-store.js';
import { storeContext } from './context.js';
import { listedFindings } from './date-findings.js';
import { storeFacts } from './facts.js';
import { Beside, computed, leaves, practice, settle, type Tree } from './known.js';
import { leavingsOf } from './leaving.js';
import { checkPeople } from './people.js';
import { solveRests } from './rests.js';
import { seasonFindings, seasonOn, workingDate } from './season.js';
import { typedTexts } from './typed-texts.js';
import { planUnit } from './unit.js';

/**
 * @param on a date that tells the season of hours that change by season; without it only hours that hold all year count
 * @param first the first day of the week for which is planned
 */
export const planStore = (shelf: Shelf, read: ReadStore, languages: readonly string[], on?: string, first = on) => {
  const facts = storeFacts(shelf, read, first);
  const findings: Finding[] = [...checkStore({ shelf, read }, languages, first), ...checkPeople(read)];
  const day = on === undefined ? undefined : workingDate(read.store, on);
  const season = day === undefined ? undefined : seasonOn(read.store, day);
  if (season && on !== undefined) findings.push(...seasonFindings(read.store, season, on, read.id, read.originOf('hours').at));
  const context = storeContext(shelf, read, facts, season && day);
  const { week, days, crew, afternoon } = context;
  const open = WEEKDAYS.filter((day) => days.some((d) => d.day === day));
  if (open.length === 0)
    findings.push(
      error('never-rests', read.originOf(read.store.quiet_window ? 'quiet_window' : 'hours').at, {
        hours: read.store.hours.wrote,
      }),
    );
  const late = days.filter((d) => d.firstPan.min > d.opens.min).map((d) => d.day);
  if (late.length > 0) findings.push(warning('pans-after-opening', read.originOf('crew', 'first_pan').at, { days: late }));
  const rests = solveRests(context);
  findings.push(...listedFindings(read, rests.week));
  const { leavings, findings: ofLeaving } = leavingsOf(context, rests);
  findings.push(...ofLeaving);
  const planned = read.units.map((unit) => planUnit({ ...context, rests, leavings }, unit));
  findings.push(...planned.flatMap((p) => p.findings));
  const traits: ReadonlySet<Trait> = new Set(planned.flatMap((p) => [...p.traits]));
  const units = planned.map((p) => p.tree);
  const plan = {
    store: facts,
    days: WEEKDAYS.map((day) => ({ open: practice(flag(open.includes(day)), 'trait') })),
    crew,
    /** Its afternoon closings, where there are any and the crew's times around them are known. */
    afternoon,
    open_hours: computed(openHours(week), 'hours-as-read', [facts.hours]),
    units: Object.fromEntries(units.map((unit) => [unit.id.value.text, unit])),
    cautions: { staff: cautionsFor('staff', traits, facts), technician: cautionsFor('technician', traits, facts) },
  };
  settle(plan as unknown as Tree);
  findings.push(...typedTexts(plan as unknown as Tree));
  const beside = { assumed: assumedIn(plan as unknown as Tree), since: season?.from, solved: new Beside(rests) };
  return { plan: { ...plan, ...beside }, findings };
};

/** What nobody wrote, so that a reader sees on what the papers rest: in words, with the key to write. The values keep the paths that they have. */
const assumedIn = (tree: Tree) =>
  leaves(tree).flatMap(([path, value]) => {
    if (value.basis.how !== 'assumed' || path !== value.path) return [];
    const steps = value.basis.at.path.map(String);
    const what: Value = term(`of-store-${steps.join('-').replaceAll('_', '-')}`);
    return [
      { what: { ...practice(what, 'assumed'), path }, key: { ...practice(verbatim(steps.join('.')), 'assumed'), path }, value },
    ];
  });

export type StorePlan = ReturnType<typeof planStore>['plan'];
