/**
 * Workers: each makes one thing after another and is given the next when it is done. One that dies or outruns its time loses what it was at, and is replaced.
 */
import { Worker } from 'node:worker_threads';

export interface PoolOptions<J, R> {
  readonly entry: URL;
  readonly size: number;
  /** Given to each worker when it starts. */
  readonly data: unknown;
  readonly jobs: Iterable<J>;
  /** Milliseconds for one job. */
  readonly budget: number;
  /** Megabytes for one worker: for what stays, and for what is new. */
  readonly memory: { readonly old: number; readonly young: number };
  readonly done: (job: J, result: R) => void;
  readonly failed: (job: J, why: 'time' | 'memory' | 'died') => void;
  /** Asked before each job: true ends the pool when what is under way is done. */
  readonly stopped: () => boolean;
}

/** What a worker sends: `ready` once, then results; a fault of the machine's own ends the pool. */
export type FromWorker<R> = { readonly ready: true } | { readonly result: R } | { readonly fault: string };

/** Reading the chain and the typeface may take a slow disk its time. */
const START = 120_000;

export class WorkerFault extends Error {}

export const runPool = async <J, R>(options: PoolOptions<J, R>): Promise<void> => {
  const jobs = options.jobs[Symbol.iterator]();
  const next = (): J | undefined => {
    if (options.stopped()) return undefined;
    const step = jobs.next();
    return step.done ? undefined : step.value;
  };

  /** One worker until there is nothing more to do, or until it is lost. @returns true when another should take its place */
  const serve = (number: number): Promise<boolean> =>
    new Promise((end, refuse) => {
      const worker = new Worker(options.entry, {
        workerData: { ...(options.data as object), number },
        resourceLimits: { maxOldGenerationSizeMb: options.memory.old, maxYoungGenerationSizeMb: options.memory.young },
      });
      let job: J | undefined;
      let timer: NodeJS.Timeout | undefined;
      let settled = false;
      const settle = (act: () => void): void => {
        if (settled) return;
        settled = true;
        clearTimeout(timer);
        void worker.terminate().then(act);
      };
      const lose = (why: 'time' | 'memory' | 'died', fault?: Error): void =>
        settle(() => {
          if (job === undefined) return void refuse(fault ?? new WorkerFault('a worker could not start'));
          options.failed(job, why);
          end(true);
        });
      const give = (): void => {
        clearTimeout(timer);
        job = next();
        if (job === undefined) return void settle(() => end(false));
        timer = setTimeout(() => lose('time'), options.budget);
        worker.postMessage(job);
      };
      timer = setTimeout(() => lose('time'), START);
      worker.on('message', (message: FromWorker<R>) => {
        if (settled) return;
        if ('fault' in message) return void settle(() => refuse(new WorkerFault(message.fault)));
        if ('result' in message && job !== undefined) options.done(job, message.result);
        give();
      });
      worker.on('error', (fault: NodeJS.ErrnoException) =>
        lose(fault.code === 'ERR_WORKER_OUT_OF_MEMORY' ? 'memory' : 'died', fault),
      );
      worker.on('exit', () => lose('died'));
    });

  const line = async (number: number): Promise<void> => {
    while (await serve(number));
  };
  await Promise.all(Array.from({ length: options.size }, (_, i) => line(i + 1)));
};
