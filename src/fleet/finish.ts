/**
 * The end of a build: its part of the ledger, what is left over, and where the part is the whole, the ledger itself. The journals go last.
 */
import { canonical } from '../base/canonical.js';
import { prune, partOfBuild, type BuildFacts, type BuildPlan } from './build.js';
import { gather, headOfWhole } from './gather.js';
import { INDEX, makeIndex, type EarlierPage } from './index-page/index.js';
import { journalsOf } from './journal.js';
import { endLine, LEDGER, ledgerLines, type Ledger, type LeftOver, type ReadLedger, type StoreRecord } from './ledger.js';
import { writeIfNew, writeWhole, type Outside } from './outside.js';
import { partLedgers, type Past } from './past.js';
import { partLedger, shardLabel } from './shard.js';
import type { Workshop } from './workshop.js';

export interface Finished {
  readonly left: readonly LeftOver[];
  readonly removed: readonly string[];
  /** Left over, but no longer as an earlier build wrote it: not removed. */
  readonly changed: readonly LeftOver[];
}

/** Whether a ledger says what another does, told without looking at what nobody touched. */
const same = (a: Ledger, b: Ledger): boolean =>
  a.stores.size === b.stores.size &&
  [...a.stores].every(([id, record]) => b.stores.get(id) === record) &&
  canonical([a.head, a.left]) === canonical([b.head, b.left]);

/** A ledger's lines, and the hash that stands at its end. */
const linesOf = (ledger: Ledger, before: ReadLedger | undefined, hash: Outside['hash']) => {
  const lines = ledgerLines(ledger);
  return { lines, end: before && same(ledger, before) ? before.end.end : hash(lines) };
};

/** The page that lies there, where the same code made it from a ledger with the same words. */
const earlierPage = ({ head }: Ledger, before: ReadLedger | undefined, { out, hash }: Outside): EarlierPage | undefined => {
  if (!before || (['nightrail', 'engine', 'shared'] as const).some((key) => head[key] !== before.head[key])) return undefined;
  const bytes = out.read(INDEX);
  if (!bytes || hash(bytes) !== before.end.index?.hash) return undefined;
  return { stores: before.stores, page: new TextDecoder().decode(bytes) };
};

/** Writes the ledger of a whole chain and the page of all its stores; the parts that it came from go. @param before what lies there */
export const writeLedger = (ledger: Ledger, workshop: Workshop, outside: Outside, before?: ReadLedger): void => {
  const { out, hash } = outside;
  const { lines, end } = linesOf(ledger, before, hash);
  const old = before?.end;
  if (old?.end !== end || old.index === undefined || out.size(INDEX) !== old.index.bytes) {
    const page = new TextEncoder().encode(makeIndex(ledger, workshop, earlierPage(ledger, before, outside)));
    writeIfNew(out, INDEX, page);
    const index = { bytes: page.length, hash: hash(page) };
    if (old?.end !== end || old.index?.hash !== index.hash) writeWhole(out, LEDGER, [...lines, endLine({ end, index })]);
  }
  for (const name of partLedgers(out)) out.drop(name);
};

const writePart = (part: Ledger, name: string, { out, hash }: Outside, before: ReadLedger | undefined): void => {
  const { lines, end } = linesOf(part, before, hash);
  if (before?.end.end !== end) writeWhole(out, name, [...lines, endLine({ end })]);
};

export const finish = (
  facts: BuildFacts,
  past: Past,
  plan: BuildPlan,
  records: ReadonlyMap<string, StoreRecord>,
  outside: Outside,
  pruning: boolean,
): Finished => {
  const made = partOfBuild(facts, past, plan, records, outside);
  const pruned = pruning ? prune(made, outside) : { ledger: made, removed: [], changed: [] };
  const part = pruned.ledger;
  if (facts.shard.of === 1) {
    const ids = facts.stores.map((s) => s.id);
    // Stores that were never built are no part of what lies there yet.
    const whole = ids.every((id) => part.stores.has(id)) ? gather([part], outside.hash).ledger : undefined;
    const before = facts.verify ? undefined : past.ledgers.get(LEDGER);
    writeLedger(whole ?? { ...part, head: headOfWhole(part.head) }, facts.workshop, outside, before);
  } else {
    const name = partLedger(facts.shard);
    writePart(part, name, outside, past.ledgers.get(name));
  }
  for (const journal of journalsOf(outside.out, shardLabel(facts.shard))) outside.out.drop(journal);
  return { left: part.left, removed: pruned.removed, changed: pruned.changed };
};
