/**
 * What the ledger keeps of a plan: times by weekday, and the written facts that each comes from, so that two ledgers can be compared in words.
 */
import type { Known } from '../base/basis.js';
import { textOf } from '../base/run.js';
import type { ByDay, Value } from '../base/value.js';
import { settingNeeded } from '../plan/found-settings.js';
import { isKnown } from '../plan/known.js';
import type { StorePlan } from '../plan/index.js';
import { WHENS } from '../plan/steps.js';
import type { UnitPlan } from '../plan/unit.js';
import type { ReadStore } from '../read/shelf.js';
import type { Speaker } from '../say/speaker.js';
import { assumedOf } from './assumed.js';
import type { Because, Facts, HottestDay, StoreEntry, Times, UnitEntry } from './ledger.js';

/** The first pan is the store's. */
const TIMES = WHENS.filter((when) => when !== 'first_pan');

const minutes = (known: Known<ByDay>): Times[string] =>
  Object.fromEntries(Object.entries(known.value.at).map(([day, moment]) => [day, moment.min]));

/** The facts at the far end of a value's reasons: what a person, a law or the trade says. */
const rootsOf = (leaf: Known<unknown>): ReadonlyMap<string, Known<Value>> => {
  const roots = new Map<string, Known<Value>>();
  const met = new Set<Known<unknown>>();
  const visit = (known: Known<unknown>): void => {
    if (met.has(known)) return;
    met.add(known);
    if (known.basis.how === 'computed' && known.basis.from.length > 0) known.basis.from.forEach(visit);
    else roots.set(known.path, known as Known<Value>);
  };
  visit(leaf);
  return roots;
};

/** A finding's data may hold sentences with values of the plan; the ledger keeps the values, not what they were worked out from. */
export const slim = <T>(node: T): T => {
  if (isKnown(node)) {
    const { value, basis, path } = node;
    return { path, basis: basis.how === 'computed' ? { ...basis, from: [] } : basis, value: slim(value) } as T;
  }
  if (Array.isArray(node)) return node.map((inner: unknown) => slim(inner)) as T;
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(Object.entries(node).map(([key, inner]) => [key, slim(inner)])) as T;
};

interface Recorded {
  readonly times: Times;
  readonly facts: Facts;
  readonly because: Because;
}

const record = (leaves: readonly (readonly [string, Known<ByDay> | undefined])[], speaker: Speaker): Recorded => {
  const times = leaves.flatMap(([name, leaf]) => (leaf ? [{ name, at: minutes(leaf), roots: rootsOf(leaf) }] : []));
  const facts = [...new Map(times.flatMap(({ roots }) => [...roots]))].sort(([a], [b]) => (a < b ? -1 : 1));
  const places = new Map(facts.map(([path], i) => [path, i] as const));
  return {
    times: Object.fromEntries(times.map(({ name, at }) => [name, at])),
    because: Object.fromEntries(
      times.map(({ name, roots }) => [name, [...roots.keys()].map((path) => places.get(path) as number).sort((a, b) => a - b)]),
    ),
    facts: Object.fromEntries(facts.map(([path, known]) => [path, textOf(speaker.say(known).runs)])),
  };
};

const hottestDay = ({ store }: StorePlan, { physics }: UnitPlan): HottestDay | undefined =>
  physics?.hot && {
    kitchen: physics.hottest.value,
    limit: store.law.limit.value,
    open: physics.hot.open.value,
    shut: physics.hot.shut.value,
    ...(store.kitchen.hottest.basis.how === 'assumed' ? { assumed: true as const } : {}),
  };

export const unitEntry = (read: ReadStore, plan: StorePlan, unit: UnitPlan, speaker: Speaker): UnitEntry => {
  const id = unit.id.value.text;
  const leaves = TIMES.map(
    (name) => [name, unit.rest?.[name] ?? (name === 'start' || name === 'empty_by' ? unit.leaving?.[name] : undefined)] as const,
  );
  const hottest = hottestDay(plan, unit);
  const { rest } = unit;
  const isTimed = rest !== undefined && rest.settings.length > 0 && !rest.by_hand.value.is;
  return {
    unit: id,
    store: read.id,
    profile: read.units.find((u) => u.id === id)?.unit.profile ?? '',
    nickname: speaker.told(unit.nickname.value).text,
    ...(rest ? { solved: !unit.is.unsolved.value.is } : {}),
    ...(isTimed ? { clock: rest.settings.map(settingNeeded) } : {}),
    ...(isTimed && !unit.set_by ? { unsigned: true as const } : {}),
    ...(rest?.shortest && unit.needs && !unit.is.unsolved.value.is
      ? { rest: { shortest: rest.shortest.value, least: unit.needs.least.value } }
      : {}),
    ...(hottest ? { hottest } : {}),
    ...record(leaves, speaker),
  };
};

export const storeFacts = (
  read: ReadStore,
  plan: StorePlan,
  speaker: Speaker,
): Pick<StoreEntry, 'name' | 'region' | 'assumed' | 'times' | 'facts' | 'because'> => ({
  name: read.store.name,
  ...(read.store.region === undefined ? {} : { region: read.store.region }),
  ...assumedOf(plan, speaker),
  ...record(Object.entries(plan.crew), speaker),
});
