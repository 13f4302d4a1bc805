/**
 * What stores are made with, set up from plain data: the same in this process and in each worker, so that both make the same bytes.
 */
import { openBrand, type ReadFile } from '../../fleet/brand.js';
import { openJournal } from '../../fleet/journal.js';
import type { InputKeys } from '../../fleet/keys.js';
import type { Bench } from '../../fleet/make-store.js';
import { shardLabel, type Shard } from '../../fleet/shard.js';
import type { Order } from '../../fleet/store-papers.js';
import { openWorkshop, type Workshop } from '../../fleet/workshop.js';
import { openOutside } from '../../host/out-folder.js';
import type { FaceName } from '../../print/faces.js';
import type { Files, Parsed } from '../../read/shelf.js';

/** All that a bench is set up from; it can be sent to a worker. */
export interface BenchData {
  /** Everything but the stores. */
  readonly files: Files;
  readonly parsed: Parsed;
  readonly out: string;
  readonly order: Order;
  readonly shard: Shard;
  readonly engine: string;
  readonly verify: boolean;
  readonly brandKey: string;
  readonly inputs: InputKeys;
  /** By paper and language: `poster.en`. */
  readonly papers: ReadonlyMap<string, string>;
  /** Files that the brand names, as they were read. */
  readonly brandFiles: ReadonlyMap<string, ReadFile>;
  readonly faces: Readonly<Record<FaceName, Uint8Array>>;
}

/** @param writer 0 in this process, from 1 in workers: each keeps a journal of its own */
export const setUpBench = (data: BenchData, writer: number, opened?: Workshop): Bench => {
  const workshop = opened ?? openWorkshop(data.files, data.parsed).workshop;
  if (!workshop) throw new Error('the chain could be read before, but not now');
  const read = (path: string): ReadFile => data.brandFiles.get(path) ?? { fault: 'file-missing' };
  const { brand } = openBrand(workshop, { read, faces: data.faces });
  if (!brand) throw new Error('the brand could be read before, but not now');
  const outside = openOutside(data.out);
  const { order, shard, engine, verify, brandKey, inputs, papers } = data;
  return {
    workshop,
    faces: brand.faces,
    look: brand.look,
    brandKey,
    order,
    engine,
    verify,
    inputs,
    papers,
    outside,
    journal: openJournal(outside.out, shardLabel(shard), writer),
  };
};
