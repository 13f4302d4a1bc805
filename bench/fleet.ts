/**
 * A generated chain of N stores (three units each, two languages for a third of them), built as people build it: documents a second cold, with nothing changed
 * and with one store changed, peak memory, and how both grow. Compile first; then, from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/bench/fleet.js [stores,stores,...] [papers] [workers]
 * Then some of its week sheets by others, in the same run (fleet-peers.ts). Nothing is asserted.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium, sheetsIn, typst } from './fleet-peers.js';

const CLI = resolve('dist/cli.js');
const counts = (process.argv[2] ?? '50,200').split(',').map(Number);
const papers = process.argv[3] ?? 'poster,week,handout,card';
/** As many as nightrail chooses, unless told. */
const workers = process.argv[4];
/** Stores whose week sheets the others print. */
const FEW = 30;

const CHAIN = `name: Bench Kitchens
brand: { colour: '#1f4d3a' }
papers: [poster, week, handout, card]
week_starts: mon
approved: { by: Somebody, from: 2026-11-16 }
defaults:
  backup: { en: the walk-in, es: la cámara fría }
  phones: { service: { name: Bench Service, phone: 555-0100 }, emergency: '911' }
`;

/** A store of its own for each number: hours, crew and names differ. */
const store = (n: number): string => `name: Store number ${n}
region: Region ${n % 17}
timezone: America/Chicago
hours: Mo-Th ${String(8 + (n % 3)).padStart(2, '0')}:00-2${n % 3}:${n % 2 ? '30' : '00'}; Fr-Su 09:00-2${1 + (n % 2)}:30
crew: { comes: ${60 + (n % 4) * 10} min before opening, leaves: ${40 + (n % 5) * 5} min after closing, closers: 2 }
altitude: ${(n * 37) % 4000} ft
languages: [${n % 3 === 0 ? 'en, es' : 'en'}]
units:
  line-1:
    profile: prep-table-60
    nickname: { en: Line 1, es: Línea 1 }
    position: { en: left of the grill, es: a la izquierda }
    serial: A${n}
    food_goes_to: { zone: base, free_shelf: 6 sq ft, height: 6 in }
  line-2:
    profile: prep-table-60
    nickname: { en: Line 2, es: Línea 2 }
    position: { en: by the door, es: junto a la puerta }
    serial: B${n}
    food_goes_to: { zone: base, free_shelf: 6 sq ft, height: 6 in }
  reach-in:
    profile: reach-in-refrigerator
    nickname: { en: Reach-in, es: Refrigerador }
    position: { en: at the back, es: al fondo }
    serial: C${n}
`;

interface Run {
  readonly seconds: number;
  /** Seconds of processor time: on a busy machine they tell more. */
  readonly cpu: number;
  /** Megabytes of memory at the most, workers included: they are threads. */
  readonly peak: number;
  readonly documents: number;
  readonly written: number;
}

const TELL = `data:text/javascript,${encodeURIComponent("import { isMainThread } from 'node:worker_threads'; if (isMainThread) process.on('exit', () => (({ maxRSS, userCPUTime, systemCPUTime }) => process.stderr.write('PEAK ' + maxRSS + ' CPU ' + (userCPUTime + systemCPUTime) + '\\n'))(process.resourceUsage()));")}`;

const build = (chain: string, out: string, only = papers, format = 'pdf'): Run => {
  const begun = performance.now();
  const args = [
    '--import',
    TELL,
    CLI,
    'build',
    '--chain',
    chain,
    '--out',
    out,
    '--only',
    only,
    '--format',
    format,
    ...(workers === undefined ? [] : ['--workers', workers]),
    '--week',
    '2026-W49',
  ];
  const done = spawnSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
  const seconds = (performance.now() - begun) / 1000;
  const said = /(\d+) files written, (\d+) as they were/.exec(done.stdout);
  if (!said) throw new Error(done.stdout.slice(-2000) + done.stderr.slice(-2000));
  const written = Number(said[1]);
  const [, peak, cpu] = /PEAK (\d+) CPU (\d+)/.exec(done.stderr) ?? [];
  return { seconds, cpu: Number(cpu) / 1e6, peak: Number(peak) / 1024, documents: written + Number(said[2]), written };
};

const row = (...cells: (string | number)[]): void => console.log(cells.map((cell) => String(cell).padStart(12)).join(''));

const work = mkdtempSync(join(tmpdir(), 'nightrail-bench-'));
try {
  const chainOf = (count: number): string => {
    const chain = join(work, `chain-${count}`);
    mkdirSync(join(chain, 'sites'), { recursive: true });
    cpSync('equipment', join(chain, 'equipment'), { recursive: true });
    writeFileSync(join(chain, 'nightrail.yaml'), CHAIN);
    for (let n = 0; n < count; n++) writeFileSync(join(chain, `sites/store-${n}.yaml`), store(n));
    return chain;
  };
  console.log(`${cpus().length} cores (${cpus()[0]?.model ?? ''}), load before it began: ${(loadavg()[0] ?? 0).toFixed(1)}`);
  console.log(
    `papers: ${papers}; Node ${process.version}; growth is from the row before: 1.00 is in proportion to the documents`,
  );
  row(
    'stores',
    'documents',
    'cold s',
    'cpu s',
    'a second',
    'growth',
    'peak MB',
    'unchanged s',
    'cpu s',
    'peak MB',
    'one store s',
    'cpu s',
    'written',
    'ledger KB',
  );
  let before: { documents: number; seconds: number } | undefined;
  for (const count of counts) {
    const chain = chainOf(count);
    const out = join(work, `out-${count}`);
    const cold = build(chain, out);
    const unchanged = build(chain, out);
    if (unchanged.written !== 0) throw new Error(`${unchanged.written} files were written though nothing had changed`);
    writeFileSync(join(chain, 'sites/store-0.yaml'), store(0).replace('Store number 0', 'Store number zero'));
    const one = build(chain, out);
    const growth = before ? Math.log(cold.seconds / before.seconds) / Math.log(cold.documents / before.documents) : undefined;
    row(
      count,
      cold.documents,
      cold.seconds.toFixed(1),
      cold.cpu.toFixed(0),
      (cold.documents / cold.seconds).toFixed(1),
      growth?.toFixed(2) ?? '-',
      cold.peak.toFixed(0),
      unchanged.seconds.toFixed(2),
      unchanged.cpu.toFixed(2),
      unchanged.peak.toFixed(0),
      one.seconds.toFixed(2),
      one.cpu.toFixed(2),
      one.written,
      (statSync(join(out, 'ledger.jsonl')).size / 1024).toFixed(0),
    );
    before = cold;
    rmSync(out, { recursive: true });
    rmSync(chain, { recursive: true });
  }
  const chain = chainOf(FEW);
  const ours = build(chain, join(work, 'few'), 'week');
  const html = join(work, 'few-html');
  build(chain, html, 'week', 'html');
  console.log(
    `\nweek sheets of ${FEW} stores, cold, with starting and reading where it is ours; load ${(loadavg()[0] ?? 0).toFixed(1)}`,
  );
  for (const peer of [
    { name: `nightrail, workers: ${workers ?? 'as it chooses'}`, documents: ours.documents, seconds: ours.seconds },
    await chromium(sheetsIn(html)),
    await typst(sheetsIn(html)),
  ])
    if (peer)
      console.log(
        `${peer.name}: ${peer.documents} documents in ${peer.seconds.toFixed(1)} s, ${(peer.documents / peer.seconds).toFixed(1)} a second`,
      );
} finally {
  rmSync(work, { recursive: true, force: true });
}
