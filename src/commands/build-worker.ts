/**
 * A worker of a build: sets up its own bench, then makes the stores that it is given, one after another.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { makeStore, type MadeStore, type StoreJob } from '../fleet/make-store.js';
import { FolderFault } from '../fleet/outside.js';
import type { FromWorker } from '../host/workers.js';
import { setUpBench, type BenchData } from './bench.js';

const port = parentPort;
if (!port) throw new Error('this is a worker');
const say = (message: FromWorker<MadeStore>): void => port.postMessage(message);
const { number, ...data } = workerData as BenchData & { readonly number: number };
const bench = setUpBench(data, number);
port.on('message', (job: StoreJob) => {
  makeStore(bench, job).then(
    (result) => say({ result }),
    (fault: unknown) => {
      if (!(fault instanceof FolderFault)) throw fault;
      say({ fault: fault.message });
    },
  );
});
say({ ready: true });
