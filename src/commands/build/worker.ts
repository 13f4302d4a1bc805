/**
 * A worker of a build: sets up its own bench, then makes the stores that it is given, one after another.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { recordBytes, recordFrom } from '../../fleet/ledger.js';
import { makeStore, type StoreJob } from '../../fleet/make-store.js';
import { FolderFault } from '../../fleet/outside.js';
import type { FromWorker } from '../../host/workers.js';
import { setUpBench, type BenchData } from './bench.js';

/** What passes between threads: records go as their lines. */
export type SentJob = Omit<StoreJob, 'old'> & { readonly old?: Uint8Array };
export interface SentStore {
  readonly lines: Uint8Array;
  /** How many files were written. */
  readonly written: number;
}

const port = parentPort;
if (!port) throw new Error('this is a worker');
const say = (message: FromWorker<SentStore>): void => port.postMessage(message);
const { number, ...data } = workerData as BenchData & { readonly number: number };
const bench = setUpBench(data, number);
port.on('message', ({ old, ...job }: SentJob) => {
  makeStore(bench, { ...job, ...(old ? { old: recordFrom(old) } : {}) }).then(
    ({ record, written }) => say({ result: { lines: recordBytes(record), written } }),
    (fault: unknown) => {
      if (!(fault instanceof FolderFault)) throw fault;
      say({ fault: fault.message });
    },
  );
});
say({ ready: true });
