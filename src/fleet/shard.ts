/**
 * Which part of a chain a machine makes: a store's part is a hash of its id, so that it stays where it is when others come and go.
 */
import type { Outside } from './outside.js';

export interface Shard {
  readonly number: number;
  readonly of: number;
}

export const WHOLE: Shard = { number: 1, of: 1 };

/** `3/16`, from 1 to at most 10,000. */
export const readShard = (wrote: string): Shard | undefined => {
  const found = /^([1-9]\d{0,4})\/([1-9]\d{0,4})$/.exec(wrote.trim());
  const [number, of] = [Number(found?.[1]), Number(found?.[2])];
  return found && number <= of && of <= 10_000 ? { number, of } : undefined;
};

export const shardName = ({ number, of }: Shard): string => `${number}/${of}`;

/** As a part of a file's name. */
export const shardLabel = ({ number, of }: Shard): string => `${number}-of-${of}`;

/** The ledger of one part. */
export const partLedger = (shard: Shard): string => `ledger.${shardLabel(shard)}.jsonl`;

export const shardOf = (store: string, of: number, hash: Outside['hash']): number =>
  (Number.parseInt(hash(store).slice(0, 12), 16) % of) + 1;

export const inShard = (store: string, shard: Shard, hash: Outside['hash']): boolean =>
  shard.of === 1 || shardOf(store, shard.of, hash) === shard.number;
