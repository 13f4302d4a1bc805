/**
 * The plan of each store of the demo: its times as a small golden to review, and what must hold of every leaf.
 */
import { describe, expect, it } from 'vitest';
import { WEEKDAYS } from '../../src/base/moment.js';
import { textOf } from '../../src/base/run.js';
import { readerOf } from '../../src/fleet/store-papers.js';
import { leaves, type Tree } from '../../src/plan/known.js';
import { demoFiles, tryFiles } from '../support/chain.js';

const tried = tryFiles(demoFiles());
const { workshop } = tried;
if (!workshop) throw new Error('the demo does not open');
const stores = [...tried.stores].flatMap(([id, { plan, read, findings }]) =>
  plan && read ? [{ id, plan, read, findings }] : [],
);

const TIMES = ['start', 'empty_by', 'off', 'wipe', 'on', 'cold_by', 'first_pan'] as const;

describe.each(stores)('$id', ({ id, plan, read, findings }) => {
  it('has the times that were reviewed', async () => {
    const words = workshop.words.get('en');
    if (!words) throw new Error('no English');
    const speaker = readerOf(words, { ...read, store: { ...read.store, clock_shows: '24-hour' } }, workshop.shelf);
    const lines = [`${plan.store.name.value.text}: ${plan.store.hours.value.text}`];
    for (const unit of Object.values(plan.units)) {
      if (!unit.rest && !unit.leaving) continue;
      lines.push('', unit.id.value.text);
      for (const day of WEEKDAYS) {
        const at = (name: (typeof TIMES)[number]) =>
          (unit.rest ? unit.rest[name] : name === 'start' || name === 'empty_by' ? unit.leaving?.[name] : undefined)?.value.at[
            day
          ];
        const cells = TIMES.map((name) => {
          const m = at(name);
          return `${name} ${m ? speaker.times.momentOf(day, m) : '-'}`;
        });
        lines.push(`  ${day}  ${cells.join('  ')}`);
      }
      for (const s of unit.rest?.settings ?? [])
        lines.push(
          `  set ${textOf(speaker.say(s.days).runs)}: off ${textOf(speaker.say(s.off).runs)} on ${textOf(speaker.say(s.on).runs)}`,
        );
    }
    lines.push('', ...findings.filter((f) => f.severity !== 'note').map((f) => `${f.severity} ${f.code}`));
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`golden/${id}.txt`);
  });

  it('can say every leaf in every language, and why', () => {
    for (const words of workshop.words.values()) {
      const speaker = readerOf(words, read, workshop.shelf);
      for (const [path, known] of leaves(plan as unknown as Tree)) {
        expect(() => speaker.say(known), `${path} in ${words.lang}`).not.toThrow();
        expect(textOf(speaker.say(known).runs), path).not.toMatch(/undefined|NaN|\{/);
        if (known.basis.how === 'computed')
          expect(workshop.words.get('en')?.get(`why.${known.basis.rule}`), known.basis.rule).toBeDefined();
      }
    }
  });

  it('leads every computed leaf back to leaves of the plan', () => {
    const all = [...leaves(plan as unknown as Tree)];
    const paths = new Set(all.map(([path]) => path));
    for (const [, known] of all) {
      expect(paths.has(known.path), known.path).toBe(true);
      if (known.basis.how === 'computed') for (const from of known.basis.from) expect(paths.has(from.path), from.path).toBe(true);
    }
  });

  it('never has food in a rail that is off, nor a rail off while it is loaded', () => {
    for (const unit of Object.values(plan.units)) {
      const { rest } = unit;
      if (!rest?.off || !rest.empty_by || !rest.start || !rest.on || !rest.cold_by) continue;
      for (const day of WEEKDAYS) {
        const [start, empty, off] = [rest.start, rest.empty_by, rest.off].map((t) => t.value.at[day]?.min);
        if (off === undefined || empty === undefined || start === undefined) continue;
        expect(start).toBeLessThan(empty);
        expect(empty).toBeLessThan(off + (rest.by_hand.value.is ? 1 : 0));
        const [on, cold, pan] = [rest.on, rest.cold_by, rest.first_pan].map((t) => t.value.at[day]?.min);
        if (on !== undefined && cold !== undefined && pan !== undefined) {
          expect(cold - on).toBeGreaterThanOrEqual((unit.needs?.pull_down.value.si ?? 0) / 60);
          expect(cold).toBeLessThan(pan);
        }
      }
      expect(rest.shortest?.value.si).toBeGreaterThanOrEqual(Math.max(4 * 3600, unit.needs?.maker?.value.si ?? 0));
    }
  });
});
