/**
 * Makes the stores of a build: in this process when there is little to do, in workers otherwise, with a bar, and with Ctrl-C.
 */
import { availableParallelism } from 'node:os';
import type { BuildPlan } from '../../fleet/build.js';
import { recordBytes, recordFrom, type StoreRecord } from '../../fleet/ledger.js';
import { failed, makeStore, type MadeStore, type StoreJob } from '../../fleet/make-store.js';
import { FolderFault } from '../../fleet/outside.js';
import type { Workshop } from '../../fleet/workshop.js';
import { now } from '../../host/clock.js';
import type { Lock } from '../../host/lock.js';
import { packed } from '../../host/packed.js';
import { makeProgress } from '../../host/progress.js';
import { listenForStop } from '../../host/stop.js';
import type { Terminal } from '../../host/terminal.js';
import { runPool, WorkerFault } from '../../host/workers.js';
import { setUpBench, type BenchData } from './bench.js';
import type { SentJob, SentStore } from './worker.js';

/** Below so many documents a second worker costs more than it saves. */
const FEW = 100;
/** Megabytes of heap for one worker; and of them for what is new, of which Node would take twice as much and be hardly quicker. */
const MEMORY = { old: 512, young: 24 };

export interface Making {
  readonly plan: BuildPlan;
  readonly data: BenchData;
  readonly workshop: Workshop;
  readonly options: { readonly workers?: number; readonly patience: number; readonly json?: boolean };
  readonly terminal: Terminal;
  readonly lock: Lock;
}

/** Documents to come, as far as the ledger knows; for a new store about so many. */
const guess = (jobs: readonly StoreJob[], data: BenchData, papers: number): number =>
  jobs.reduce((sum, job) => sum + (job.old?.documents.length ?? 2 * papers * data.order.formats.length), 0);

/** A store alone is made in this process; several never are, so that one that hangs can be given up without the others. */
export const workersFor = ({ plan, data, workshop, options }: Making): number => {
  const { jobs } = plan;
  const few = guess(jobs, data, workshop.papers.length) < FEW;
  return Math.min(options.workers ?? (jobs.length < 2 ? 0 : few ? 1 : availableParallelism()), jobs.length);
};

/** A copy of a store's own lines: a view would take the whole ledger along. */
const sent = function* (jobs: readonly StoreJob[]): Generator<SentJob> {
  for (const { old, ...job } of jobs) yield { ...job, ...(old ? { old: recordBytes(old).slice() } : {}) };
};

export interface MadeStores {
  readonly records: ReadonlyMap<string, StoreRecord>;
  readonly written: number;
}

/** @returns undefined when it was stopped before the end */
export const makeStores = async (making: Making): Promise<MadeStores | undefined> => {
  const { plan, data, workshop, options, terminal, lock } = making;
  const records = new Map<string, StoreRecord>();
  const progress = makeProgress(terminal, plan.jobs.length, now);
  let written = 0;
  const done = (job: { readonly id: string }, made: MadeStore): void => {
    records.set(job.id, recordFrom(packed(recordBytes(made.record))));
    written += made.written;
    progress.step(job.id);
    lock.tell(progress.text());
  };
  const size = workersFor(making);
  const stop = listenForStop(() => terminal.problem('Stopping when the stores under way are done. Once more stops at once.'));
  try {
    if (size === 0) {
      const bench = plan.jobs.length > 0 ? setUpBench(data, 0, workshop) : undefined;
      for (const job of plan.jobs) {
        if (!bench || stop.asked()) break;
        done(job, await makeStore(bench, job));
        // Lets Ctrl-C and whoever asks for the lock be heard.
        await new Promise(setImmediate);
      }
    } else
      await runPool<SentJob, SentStore>({
        entry: new URL('./worker.js', import.meta.url),
        size,
        data,
        jobs: sent(plan.jobs),
        budget: options.patience * 1000,
        memory: MEMORY,
        done: (job, { lines, written }) => done(job, { record: recordFrom(lines), written }),
        failed: ({ old, ...job }, why) => {
          const data = why === 'time' ? { seconds: options.patience } : {};
          done(job, { record: failed({ ...job, ...(old ? { old: recordFrom(old) } : {}) }, `store-${why}`, data), written: 0 });
        },
        stopped: stop.asked,
      });
  } catch (fault) {
    if (fault instanceof WorkerFault) throw new FolderFault(fault.message);
    throw fault;
  } finally {
    stop.off();
  }
  return records.size < plan.jobs.length ? undefined : { records, written };
};
