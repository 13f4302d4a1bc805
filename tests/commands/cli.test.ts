/**
 * The program as people run it: exit codes, what lands on the disk, what is refused, and that it works from a packed file in another folder.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHAIN, STORE, TABLE } from '../support/chain.js';
import { filesIn, hashesIn } from '../support/folder.js';

const CLI = resolve('dist/cli.js');
let work: string;
let chain: string;

const run = (args: readonly string[], more: { cwd?: string; env?: Record<string, string> } = {}) => {
  const done = spawnSync(process.execPath, [CLI, ...args], {
    cwd: more.cwd ?? chain,
    encoding: 'utf8',
    env: { ...process.env, ...more.env },
  });
  return { code: done.status, out: done.stdout, problem: done.stderr };
};

const write = (path: string, text: string): void => {
  mkdirSync(join(chain, path, '..'), { recursive: true });
  writeFileSync(join(chain, path), text);
};

beforeAll(() => {
  work = mkdtempSync(join(tmpdir(), 'nightrail-'));
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** A chain of its own for each group of tests. */
const fresh = (name: string, files: Readonly<Record<string, string>> = {}): void => {
  chain = join(work, name);
  for (const [path, text] of Object.entries({
    'nightrail.yaml': CHAIN,
    'equipment/table.yaml': TABLE,
    'sites/street.yaml': STORE,
    ...files,
  }))
    write(path, text);
};

const WEEK = ['--week', '2026-W49'];

describe('exit codes', () => {
  beforeAll(() =>
    fresh('codes', {
      'sites/wrong.yaml': STORE.replace('timezone:', 'timezon:'),
      'sites/half.yaml': `${STORE}languages: [en, pt]\n`,
      'words/pt/language.yaml': 'name: Português\nlocale: pt-BR\nsigns: close\n',
    }),
  );
  it.each([
    [['--help'], 0],
    [['--version'], 0],
    [['build', '--help'], 0],
    [['check', 'sites/street.yaml'], 0],
    [['check'], 1],
    [['check', 'street'], 0],
    [['check', 'stret'], 1],
    [['check', 'sites/nowhere.yaml'], 1],
    [['plan', 'street'], 0],
    [['plan', 'stret'], 1],
    [['plan', 'street', '--why', 'units.line-1.rest.off'], 0],
    [['plan', 'street', '--why', 'nothing'], 2],
    [['calendar', 'street', '--from', '2026-11-30'], 0],
    [['calendar', 'street', '--from', 'soon'], 2],
    [['calendar', 'street', '--from', '2026-11-30', '--language', 'es'], 1],
    [['calendar', 'street', '--lang', 'en'], 2],
    [['calendar', 'nobody'], 1],
    [['dance'], 2],
    [['check', '--dance'], 2],
    [['build', '--format', 'docx'], 2],
    [['build', '--week', '2026-W60'], 2],
    [['build', '--week', '2026-W49', '--from', '2026-12-01'], 2],
    [['build', 'nobody'], 1],
  ] as const)('nightrail %s: %i', (args, code) => {
    const done = run(args);
    expect(done.code, done.out + done.problem).toBe(code);
    expect(done.out + done.problem).not.toMatch(/\n {4}at /);
  });

  it('writes no calendar of which a sentence lacks', () => {
    const done = run(['calendar', 'half', '--from', '2026-11-30', '--language', 'pt']);
    expect(done.code).toBe(1);
    expect(done.out).toContain('the calendar is not made in pt');
    expect(done.out).not.toContain('BEGIN:VCALENDAR');
  });

  it('says that no store has its papers in a language that was asked for', () => {
    const done = run(['build', 'street', '--only', 'week', '--format', 'html', '--language', 'fr', ...WEEK]);
    expect(done.out).toContain('none of these stores has its papers in fr');
    expect(run(['build', 'street', '--only', 'week', '--format', 'html', '--language', 'en', ...WEEK]).out).not.toContain(
      'none of',
    );
  });

  // The reader is gone before the first word: no trace of ours on its screen.
  it.each(['--help', 'build --help', 'new --help', 'check', 'schema --json'])('%s ends quietly when nobody reads on', (args) => {
    const done = spawnSync('sh', ['-c', `"${process.execPath}" "${CLI}" ${args} | true`], { cwd: chain, encoding: 'utf8' });
    expect(done.stderr).toBe('');
  });

  it('outside of any chain says so', () => {
    const done = run(['check'], { cwd: work });
    expect(done.code).toBe(1);
    expect(done.out).toContain('no-chain');
  });
});

describe('check', () => {
  beforeAll(() => fresh('check', { 'sites/wrong.yaml': STORE.replace('timezone:', 'timezon:') }));
  it('shows the line, the place and the word that was meant', () => {
    const { out } = run(['check']);
    expect(out).toContain('error unknown-key  no key is called timezon here');
    expect(out).toContain('sites/wrong.yaml:2:1');
    expect(out).toContain('2 | timezon: America/Chicago');
    expect(out).toContain('    | ^^^^^^^');
    expect(out).toContain('hint: write timezone');
  });
  it('says the same as JSON', () => {
    const { findings } = JSON.parse(run(['check', '--json']).out) as {
      findings: { code: string; file: string; line: number; hint: string }[];
    };
    expect(findings.find((f) => f.code === 'unknown-key')).toMatchObject({
      file: 'sites/wrong.yaml',
      line: 2,
      column: 1,
      hint: 'write timezone',
    });
  });
  it('colours only where it is asked to', () => {
    expect(run(['check']).out).not.toContain('\u001b');
    expect(run(['check'], { env: { FORCE_COLOR: '1' } }).out).toContain('\u001b[31m');
    expect(run(['check'], { env: { FORCE_COLOR: '1', NO_COLOR: '1' } }).out).not.toContain('\u001b');
  });
});

describe('build', () => {
  beforeAll(() =>
    fresh('build', {
      'sites/broken.yaml': STORE.replace('serial: X1', 'serail: X1'),
      // Closes at 22:00 and opens at 02:00: no time for a rest.
      'sites/restless.yaml': STORE.replace('Mo-Su 07:00-22:00', 'Mo-Su 02:00-22:00'),
    }),
  );
  it('writes the papers of sound stores, whole, and none of a broken one', () => {
    const done = run(['build', ...WEEK]);
    expect(done.code).toBe(1);
    const files = filesIn(join(chain, 'out'));
    expect(files).toEqual(
      expect.arrayContaining(
        ['line-1-card', 'line-1-handout', 'line-1-poster', 'week'].flatMap((p) => [`street/${p}.en.html`, `street/${p}.en.pdf`]),
      ),
    );
    expect(files.filter((f) => f.startsWith('broken/'))).toEqual([]);
    expect(files.filter((f) => f.includes('.part'))).toEqual([]);
  });
  it('gives a unit without a schedule no poster, and says so on its sheet', () => {
    const files = filesIn(join(chain, 'out')).filter((f) => f.startsWith('restless/'));
    expect(files).toContain('restless/week.en.pdf');
    expect(files.filter((f) => f.includes('poster'))).toEqual([]);
    const sheet = readFileSync(join(chain, 'out/restless/week.en.html'), 'utf8');
    expect(sheet).toContain('No safe rest is set for this top');
    expect(sheet).toContain('First of all: warmest food in the bottom reads');
    expect(sheet).not.toContain('Top is on');
  });
  it('gives the same bytes in any time zone and any order', () => {
    run(['build', 'street', ...WEEK, '--out', join(work, 'a')], { env: { TZ: 'Asia/Tokyo' } });
    run(['build', 'street', ...WEEK, '--out', join(work, 'b'), '--only', 'week,card,handout,poster'], {
      env: { TZ: 'America/New_York', LANG: 'de_DE.UTF-8' },
    });
    // The ledger also says which papers were asked for; the documents know nothing of that.
    const documents = (folder: string) => hashesIn(join(work, folder)).filter((h) => !h.startsWith('ledger.'));
    expect(documents('a')).toEqual(documents('b'));
    run(['build', 'street', ...WEEK, '--out', join(work, 'c')], { env: { TZ: 'America/New_York', LANG: 'de_DE.UTF-8' } });
    expect(hashesIn(join(work, 'a'))).toEqual(hashesIn(join(work, 'c')));
  });
  it('writes PDFs that qpdf finds no fault with and that read as text', () => {
    for (const file of filesIn(join(chain, 'out/street')).filter((f) => f.endsWith('.pdf'))) {
      const path = join(chain, 'out/street', file);
      expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors');
      expect(execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' })).toMatch(/Line 1|Test Street/);
      expect(execFileSync('pdffonts', [path], { encoding: 'utf8' })).not.toMatch(/ no +(yes|no) +(yes|no) +\d/);
    }
  });
  it('does not follow a link out of the chain', () => {
    const outside = join(chain, '..', 'outside.yaml');
    writeFileSync(outside, 'somebody-elses: 1\n');
    symlinkSync(outside, join(chain, 'sites', 'link.yaml'));
    const { out } = run(['check']);
    expect(out).toContain('error file-linked');
    expect(out).not.toContain('somebody-elses');
  });
});

describe('plan --why', () => {
  beforeAll(() => fresh('why'));
  it('leads down to what a person wrote, a law, or common practice', () => {
    const { out } = run(['plan', 'street', '--why', 'units.line-1.rest.off']);
    expect(out).toMatch(/units\.line-1\.rest\.off = /);
    expect(out).toMatch(/written in sites\/street\.yaml:3/);
    expect(out).toMatch(/common practice, no source/);
    expect(run(['plan', 'street', '--why', 'store.law.limit']).out).toContain('FDA Food Code 2022, 3-501.16(A)(2) (not checked)');
  });
  it('lists the values of a branch, each with its path', () => {
    const { code, out } = run(['plan', 'street', '--why', 'units.line-1.rest']);
    expect(code).toBe(0);
    expect(out).toMatch(/^units\.line-1\.rest\.off = .*\d\d:\d\d/m);
    expect(out).toMatch(/^units\.line-1\.rest\.clock = .*dial/m);
    expect(
      out
        .trim()
        .split('\n')
        .every((line) => line.startsWith('units.line-1.rest.')),
    ).toBe(true);
  });
  it.each([
    ['units.line-1.rest.of', 'units.line-1.rest.off'],
    ['rest.off', 'units.line-1.rest.off'],
    ['line-1', 'units.line-1'],
    ['units.lin-1', 'units.line-1'],
    ['cut_in', 'units.line-1.pressure.dial.cut_in'],
  ])('names for %s what was probably meant', (wrote, meant) => {
    const { code, problem } = run(['plan', 'street', '--why', wrote]);
    expect(code).toBe(2);
    expect(problem.split('\n')).toContain(`  ${meant}`);
    expect(problem.trim().split('\n').length).toBeLessThan(9);
  });
});

describe('packed', () => {
  it('works from the packed file, in another folder, with nothing but Node', () => {
    fresh('elsewhere');
    const store = join(work, 'global');
    const [packed] = JSON.parse(
      execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', work], { encoding: 'utf8' }),
    ) as [{ filename: string }];
    execFileSync(
      'npm',
      ['install', '--global', '--prefix', store, '--no-audit', '--no-fund', '--prefer-offline', join(work, packed.filename)],
      { stdio: 'pipe' },
    );
    const done = spawnSync(join(store, 'bin', 'nightrail'), ['build', ...WEEK, '--out', 'papers'], {
      cwd: chain,
      encoding: 'utf8',
    });
    expect(done.status, done.stdout + done.stderr).toBe(0);
    expect(filesIn(join(chain, 'papers'))).toContain('street/line-1-poster.en.pdf');
  }, 180_000);
});

describe('the demo', () => {
  it('builds with exit 0 and shows its warnings', () => {
    const demo = join(work, 'demo');
    for (const part of ['nightrail.yaml', 'brand', 'equipment', 'sites']) cpSync(part, join(demo, part), { recursive: true });
    const done = run(['build', ...WEEK, '--out', join(work, 'demo-out'), '--format', 'pdf'], { cwd: demo });
    expect(done.code, done.out).toBe(0);
    expect(done.out).toMatch(/warning (clock-found-wrong|override-found)/);
    expect(done.out).toMatch(/^0 errors/m);
  }, 240_000);
});
