/**
 * Parts made by engines that exist: GNU parallel, a Slurm job array on one machine; and the manifest for Kubernetes against the published schema.
 * Where one of them is missing, its test fails: scripts/checkers installs them.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { startCluster } from './one-machine-cluster.js';

const CLI = resolve('dist/cli.js');
const COMMON = ['--week', '2026-W49', '--only', 'week', '--workers', '0'];
let work: string;
let chain: string;

const hashes = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name))
    .sort()
    .map((path) => `${path.slice(folder.length + 1)} ${createHash('sha256').update(readFileSync(path)).digest('hex')}`);

const nightrail = (...args: string[]) => spawnSync(process.execPath, [CLI, ...args], { cwd: chain, encoding: 'utf8' });

const gathered = (out: string): readonly string[] => {
  const done = nightrail('gather', '--out', join(work, out));
  expect(done.status, done.stdout + done.stderr).toBe(0);
  return hashes(join(work, out));
};

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-engines-'));
  chain = join(work, 'chain');
  for (const folder of ['equipment', 'sites']) mkdirSync(join(chain, folder), { recursive: true });
  writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
  writeFileSync(join(chain, 'equipment/table.yaml'), TABLE);
  for (let i = 1; i <= 9; i++) writeFileSync(join(chain, `sites/store-${i}.yaml`), STORE.replace('Test Street', `Store ${i}`));
  const done = nightrail('build', '--out', join(work, 'one'), ...COMMON);
  expect(done.status, done.stdout + done.stderr).toBe(0);
}, 120_000);
afterAll(() => rmSync(work, { recursive: true, force: true }));

describe('parts', () => {
  it('made by GNU parallel and gathered are what one machine makes', () => {
    const line = `${process.execPath} ${CLI} build --out ${join(work, 'parallel')} ${COMMON.join(' ')} --shard {}/4`;
    execFileSync('parallel', ['--will-cite', '--jobs', '2', '--halt', 'now,fail=1', line, ':::', '1', '2', '3', '4'], {
      cwd: chain,
    });
    expect(gathered('parallel')).toEqual(hashes(join(work, 'one')));
  }, 120_000);
  it('made by a Slurm job array and gathered are what one machine makes', async () => {
    const cluster = await startCluster(join(work, 'slurm'), 26817);
    try {
      const script = join(work, 'array.sh');
      const command = `${process.execPath} ${CLI} build --chain ${chain} --out ${join(work, 'array')} ${COMMON.join(' ')} --shard "$SLURM_ARRAY_TASK_ID/$SLURM_ARRAY_TASK_COUNT"`;
      writeFileSync(script, `#!/bin/sh\n#SBATCH --array=1-4\n#SBATCH --output=${work}/array-%a.log\nexec ${command}\n`, {
        mode: 0o755,
      });
      cluster.run('sbatch', ['--wait', script], work);
      expect(gathered('array')).toEqual(hashes(join(work, 'one')));
    } finally {
      cluster.end();
    }
  }, 400_000);
  it('of which one is missing are not gathered', () => {
    for (const n of [1, 2, 4])
      expect(nightrail('build', '--out', join(work, 'missing'), ...COMMON, '--shard', `${n}/4`).status).toBe(0);
    const done = nightrail('gather', '--out', join(work, 'missing'));
    expect([done.status, done.stdout]).toEqual([
      1,
      expect.stringContaining('error gather-missing  of 4 parts these are missing: 3/4'),
    ]);
  }, 120_000);
});

describe('the manifest for Kubernetes', () => {
  const MANIFEST = 'docs/kubernetes-job.yaml';
  const validate = (path: string) => spawnSync('kubernetes-validate', ['--strict', path], { encoding: 'utf8' });
  it('is what the published schema asks, and a fault in it would be seen', () => {
    const done = validate(MANIFEST);
    expect(done.status, done.error?.message ?? done.stdout + done.stderr).toBe(0);
    const bad = join(work, 'bad.yaml');
    writeFileSync(bad, readFileSync(MANIFEST, 'utf8').replace('completions: 16', 'completion: 16'));
    expect(validate(bad).status).toBe(1);
  });
  it('makes as many parts as it says, counted from 1', () => {
    const { spec } = parse(readFileSync(MANIFEST, 'utf8')) as {
      spec: { completions: number; completionMode: string; template: { spec: { containers: [{ args: [string] }] } } };
    };
    const [args] = spec.template.spec.containers[0].args;
    expect(spec.completionMode).toBe('Indexed');
    for (const index of [0, spec.completions - 1]) {
      const said = execFileSync('sh', ['-c', args.replace('exec nightrail', 'echo')], {
        encoding: 'utf8',
        env: { ...process.env, JOB_COMPLETION_INDEX: String(index), WEEK: '2026-W49' },
      });
      expect(said.trim()).toMatch(new RegExp(` --shard ${index + 1}/${spec.completions}$`));
    }
  });
});
