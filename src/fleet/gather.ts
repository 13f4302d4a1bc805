/**
 * Parts of a build to one ledger. A build on one machine is part 1 of 1 and goes the same way, so both write the same bytes.
 */
import { error, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { canonical } from '../base/canonical.js';
import { LEDGER, type Ledger, type LedgerHead, type StoreRecord } from './ledger.js';
import type { Outside } from './outside.js';
import { readShard } from './shard.js';

/** A hash of all ids of a chain's stores, in any order. */
export const idsKey = (ids: readonly string[], hash: Outside['hash']): string => hash(canonical([...ids].sort()));

export interface Gathered {
  readonly ledger?: Ledger;
  readonly findings: readonly Finding[];
}

export const headOfWhole = ({ shard: _, ...head }: LedgerHead): LedgerHead => head;

/** @returns findings `gather-missing`, `gather-mixed`, `gather-twice`, `gather-incomplete` */
export const gather = (parts: readonly Ledger[], hash: Outside['hash']): Gathered => {
  const at = place(LEDGER);
  const [first] = parts;
  if (!first) return { findings: [error('gather-nothing', at)] };
  const shards = parts.flatMap((part) => readShard(part.head.shard ?? '1/1') ?? []);
  const { of } = shards[0] ?? { of: 1 };
  const findings: Finding[] = [];
  const fields = ['nightrail', 'engine', 'chain', 'shared', 'stores', 'ids'] as const;
  const differing = fields.filter((field) => parts.some((part) => part.head[field] !== first.head[field]));
  if (shards.some((shard) => shard.of !== of)) differing.push('ledger' as never);
  if (differing.length > 0) findings.push(error('gather-mixed', at, { what: differing }));
  const missing = Array.from({ length: of }, (_, i) => i + 1).filter((n) => !shards.some((shard) => shard.number === n));
  if (missing.length > 0) findings.push(error('gather-missing', at, { missing: missing.map((n) => `${n}/${of}`), of }));
  if (findings.length > 0) return { findings };

  const stores = new Map<string, StoreRecord>();
  for (const part of parts)
    for (const [id, record] of part.stores) {
      if (stores.has(id)) findings.push(error('gather-twice', at, { store: id }));
      stores.set(id, record);
    }
  if (idsKey([...stores.keys()], hash) !== first.head.ids)
    findings.push(error('gather-incomplete', at, { has: stores.size, wanted: first.head.stores }));
  if (findings.length > 0) return { findings };
  return { ledger: { head: headOfWhole(first.head), stores, left: parts.flatMap((part) => part.left) }, findings: [] };
};
