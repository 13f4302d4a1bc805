/**
 * `nightrail saturation` as a technician types it: figures against CoolProp 8.0.0 (tests/outside/reference), and what is refused.
 */
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';

const run = (...args: readonly string[]) => {
  const done = spawnSync(process.execPath, [resolve('dist/cli.js'), 'saturation', ...args], { cwd: tmpdir(), encoding: 'utf8' });
  return { code: done.status, out: done.stdout, problem: done.stderr };
};

it('tells both ends of the glide and their use, at the altitude', () => {
  const { out, code } = run('R-448A', '24', 'psig', '--altitude', '5280ft');
  expect(code).toBe(0);
  expect(out).toContain('R-448A at 24 psig, 36.1 psia');
  expect(out).toMatch(/dew +-2\.9 °F .* superheat/);
  expect(out).toMatch(/mean evaporating +-6\.8 °F .* pressure control/);
  expect(out).toMatch(/bubble +-14\.3 °F .* subcooling/);
});

it('reads a temperature back to pressures, and knows a name typed loosely', () => {
  const { out } = run('r404a', '20F');
  expect(out).toMatch(/dew +55\.3 psig +70\.0 psia/);
  expect(run('R-404A', '-30', 'F').out).toMatch(/dew +9\.\d psig/);
});

it('says a vacuum in inches of mercury, and that a pure fluid has no glide', () => {
  const { out } = run('R-134a', '-25F');
  expect(out).toMatch(/saturated +\d+(\.\d)? inHg .* no glide/);
});

it('tells what lies outside of one curve, and gives no figure for it', () => {
  const { out, code } = run('R-448A', '250', 'psig');
  expect(code).toBe(0);
  expect(out).toMatch(/mean evaporating +- +outside the curve/);
  expect(out).toMatch(/bubble +101\.7 °F/);
});

it.each([
  [['R-404A', '900', 'psig'], 1, 'outside-saturation'],
  [['R-744', '-100', 'F'], 1, 'outside-saturation'],
  [['R-404A', '-40', 'psig'], 1, 'outside-saturation'],
  [['R-448', '24', 'psig'], 1, 'write R-448A'],
  [['R-448A', '24', 'psi'], 1, 'amount-no-zero'],
  [['R-448A', '24'], 1, 'amount-no-unit'],
  [['R-448A', 'much'], 1, 'amount-no-number'],
  [['R-448A', '24', 'psig', '--altitude', '40000ft'], 1, 'altitude-out-of-range'],
  [['R-448A', '24', 'psig', '--altitude', '5280'], 1, 'amount-no-unit'],
] as const)('refuses %s', (args, code, says) => {
  const done = run(...args);
  expect(done.code).toBe(code);
  expect(done.out).toContain(says);
  expect(done.out).not.toMatch(/NaN|undefined|\{/);
});

it('takes wrong usage for wrong usage', () => {
  expect(run('R-448A').code).toBe(2);
  expect(run('R-448A', '24', 'psig', '--altitud', '3').code).toBe(2);
  expect(run('--help').code).toBe(0);
  expect(run('--help').out).toContain('nightrail saturation R-448A 24 psig --altitude 5280ft');
});

it('gives the same figures as JSON', () => {
  const { kelvin } = JSON.parse(run('R-448A', '24', 'psig', '--json').out) as { kelvin: Record<string, number> };
  expect(kelvin['dew']).toBeCloseTo((0.2 + 459.67) / 1.8, 0);
  expect((JSON.parse(run('R-448A', '24', 'psi', '--json').out) as { findings: { code: string }[] }).findings[0]?.code).toBe(
    'amount-no-zero',
  );
});

it('asks whether a comma in a height or a pressure parts thousands, below the sea too', () => {
  const high = run('R-290', '14', 'psig', '--altitude', '5,100ft');
  expect(high.code).not.toBe(0);
  expect(high.out + high.problem).toContain('write 5100ft\n');
  expect(run('R-290', '14', 'psig', '--altitude', '-1,200 ft').out).toContain('write -1200 ft\n');
  expect(run('R-744', '1,200', 'psig').out).toContain('write 1200 psig or 1.2 psig');
});
