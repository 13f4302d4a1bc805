/**
 * The end of a build: its part of the ledger, what is left over, and where the part is the whole, the ledger itself. The journals go last.
 */
import { prune, partOfBuild, type BuildFacts, type BuildPlan } from './build.js';
import { gather, headOfWhole } from './gather.js';
import { INDEX, makeIndex } from './index-page/index.js';
import { journalsOf } from './journal.js';
import { LEDGER, ledgerText, type Ledger, type LeftOver, type StoreRecord } from './ledger.js';
import { writeIfNew, type Outside } from './outside.js';
import { partLedgers, type Past } from './past.js';
import { partLedger, shardLabel } from './shard.js';
import type { Workshop } from './workshop.js';

export interface Finished {
  readonly left: readonly LeftOver[];
  readonly removed: readonly string[];
  /** Left over, but no longer as an earlier build wrote it: not removed. */
  readonly changed: readonly LeftOver[];
}

/** Writes the ledger of a whole chain and the page of all its stores; the parts that it came from go. */
export const writeLedger = (ledger: Ledger, workshop: Workshop, { out }: Outside): void => {
  writeIfNew(out, INDEX, makeIndex(ledger, workshop));
  writeIfNew(out, LEDGER, ledgerText(ledger));
  for (const name of partLedgers(out)) out.drop(name);
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
    writeLedger(whole ?? { ...part, head: headOfWhole(part.head) }, facts.workshop, outside);
  } else writeIfNew(outside.out, partLedger(facts.shard), ledgerText(part));
  for (const journal of journalsOf(outside.out, shardLabel(facts.shard))) outside.out.drop(journal);
  return { left: part.left, removed: pruned.removed, changed: pruned.changed };
};
