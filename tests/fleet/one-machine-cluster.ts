/**
 * A Slurm of one machine: its daemons in the foreground, in a folder of their own, ended with the test. Throws with what they said where it can't start.
 */
import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { chmodSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, hostname } from 'node:os';
import { join } from 'node:path';

export interface Cluster {
  readonly run: (command: string, args: readonly string[], cwd: string) => string;
  readonly end: () => void;
}

const wait = (ms: number): Promise<void> => new Promise((r) => setTimeout(r, ms));

/** @param folder for its state and logs; @param port two free ports from here */
export const startCluster = async (folder: string, port: number): Promise<Cluster> => {
  mkdirSync(folder, { recursive: true });
  const host = hostname().split('.')[0] as string;
  const socket = join(folder, 'munge.socket');
  const conf = join(folder, 'slurm.conf');
  const key = join(folder, 'munge.key');
  writeFileSync(key, Buffer.alloc(1024, 'nightrail test key, of no worth '));
  chmodSync(key, 0o400);
  for (const below of ['state', 'spool', 'munge']) mkdirSync(join(folder, below), { recursive: true });
  writeFileSync(
    conf,
    [
      'ClusterName=one',
      `SlurmctldHost=${host}(127.0.0.1)`,
      `SlurmctldPort=${port}`,
      `SlurmdPort=${port + 1}`,
      'SlurmUser=root',
      'SlurmdUser=root',
      'AuthType=auth/munge',
      `AuthInfo=socket=${socket}`,
      'CredType=cred/munge',
      'ProctrackType=proctrack/linuxproc',
      'TaskPlugin=task/none',
      'MpiDefault=none',
      'JobAcctGatherType=jobacct_gather/none',
      'AccountingStorageType=accounting_storage/none',
      'SchedulerType=sched/backfill',
      'SelectType=select/cons_tres',
      'SelectTypeParameters=CR_Core',
      'ReturnToService=2',
      `StateSaveLocation=${join(folder, 'state')}`,
      `SlurmdSpoolDir=${join(folder, 'spool')}`,
      `SlurmctldPidFile=${join(folder, 'slurmctld.pid')}`,
      `SlurmdPidFile=${join(folder, 'slurmd.pid')}`,
      `NodeName=${host} NodeAddr=127.0.0.1 CPUs=${availableParallelism()} State=UNKNOWN`,
      `PartitionName=all Nodes=${host} Default=YES MaxTime=INFINITE State=UP`,
      '',
    ].join('\n'),
  );
  const env = { ...process.env, SLURM_CONF: conf };
  const logs: string[] = [];
  const children: ChildProcess[] = [];
  const start = (name: string, args: readonly string[]): void => {
    const log = join(folder, `${name}.log`);
    logs.push(log);
    const out = openSync(log, 'a');
    children.push(spawn(name, args, { env, stdio: ['ignore', out, out] }));
  };
  const end = (): void => {
    for (const child of [...children].reverse()) child.kill('SIGTERM');
  };
  start('munged', [
    '--foreground',
    '--force',
    `--key-file=${key}`,
    `--socket=${socket}`,
    `--pid-file=${join(folder, 'munge.pid')}`,
    `--seed-file=${join(folder, 'munge.seed')}`,
    `--log-file=${join(folder, 'munge/munged.log')}`,
  ]);
  await wait(1000);
  start('slurmctld', ['-D', '-i', '-f', conf]);
  await wait(1000);
  start('slurmd', ['-D', '-f', conf, '-N', host]);
  for (let i = 0; i < 60; i++) {
    const asked = spawnSync('sinfo', ['-h', '-o', '%T'], { env, encoding: 'utf8' });
    if (/^(idle|mixed|allocated)/m.test(asked.stdout)) {
      const run: Cluster['run'] = (command, args, cwd) => {
        const done = spawnSync(command, args, { env, cwd, encoding: 'utf8', timeout: 300_000 });
        if (done.status !== 0) throw new Error(`${command} ended with ${done.status}: ${done.stdout}${done.stderr}`);
        return done.stdout;
      };
      return { run, end };
    }
    await wait(1000);
  }
  end();
  const said = logs.map((log) => `${log}:\n${readFileSync(log, 'utf8').slice(-1500)}`).join('\n');
  throw new Error(`Slurm did not start on this machine, so nothing was shown about it:\n${said}`);
};
