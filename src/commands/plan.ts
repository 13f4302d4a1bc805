/**
 * `nightrail plan`: the plan of one store as a summary, as JSON, or the chain of reasons behind one value.
 */
import { textOf } from '../base/run.js';
import type { Known } from '../base/basis.js';
import { WEEKDAYS } from '../base/moment.js';
import type { Value } from '../base/value.js';
import { planOf, readerOf } from '../fleet/store-papers.js';
import { withAllScenes } from '../plan/consequences/index.js';
import { leaves, type Tree } from '../plan/known.js';
import { WHENS } from '../plan/steps.js';
import type { StorePlan } from '../plan/index.js';
import { today } from '../host/clock.js';
import { weekEndingOn } from '../plan/as-of.js';
import { storeSources, unknownStore } from '../read/stores.js';
import type { Speaker } from '../say/speaker.js';
import { why } from './plan/why.js';
import { openSession, type CommonOptions, type Session } from './shared/session.js';
import { columns } from './shared/table.js';

export interface PlanOptions extends CommonOptions {
  readonly why?: string;
  readonly scenes?: boolean;
}

const fromPaths = (known: Known<unknown>): readonly string[] =>
  known.basis.how === 'computed' ? known.basis.from.map((k) => k.path) : [];

/** The plan with paths in place of references, for other programs. */
const plain = (tree: Tree, speaker: Speaker): unknown =>
  Object.fromEntries(
    [...leaves(tree)].map(([path, known]) => [
      path,
      {
        value: known.value,
        says: textOf(speaker.say(known).runs),
        basis: known.basis.how === 'computed' ? { ...known.basis, from: fromPaths(known) } : known.basis,
      },
    ]),
  );

const summary = (plan: StorePlan, wantsAll: boolean, session: Session, speaker: Speaker): void => {
  const { terminal } = session;
  const say = (known: Known<Value> | undefined): string => (known ? textOf(speaker.say(known).runs) : '-');
  terminal.line(terminal.strong(say(plan.store.name)));
  terminal.line(
    `hours ${say(plan.open_hours)}   crew ${say(plan.crew.comes)} to ${say(plan.crew.leaves)}   limit ${say(plan.store.law.limit)}, ${plan.store.law.name.value.text}`,
  );
  if (plan.assumed.length > 0)
    terminal.line(
      `assumed, since nobody wrote it: ${plan.assumed.map(({ key, value }) => `${key.value.text} ${say(value)}`).join('; ')}`,
    );
  for (const unit of Object.values(plan.units)) {
    terminal.line();
    terminal.line(`${terminal.strong(unit.id.value.text)}  ${say(unit.nickname)}, ${say(unit.position)}: ${say(unit.name)}`);
    const { rest } = unit;
    if (rest?.off) {
      const head = ['day', ...WHENS.map((name) => name.replace('_', ' '))];
      const rows = WEEKDAYS.map((day) => [
        speaker.times.weekday(day),
        ...WHENS.map((name) => {
          const m = rest[name]?.value.at[day];
          return m ? speaker.times.momentOf(day, m) : '-';
        }),
      ]);
      for (const line of columns([head, ...rows])) terminal.line(`  ${line}`);
      for (const setting of rest.settings)
        terminal.line(
          `  clock (${say(rest.clock)}): off ${say(setting.off_days)} ${say(setting.off)}, on ${say(setting.on_days)} ${say(setting.on)}`,
        );
      terminal.line(
        `  shortest rest ${say(rest.shortest)}; needs ${say(unit.needs?.least)}${rest.kept.value.is ? '; the clock is right as it stands' : ''}`,
      );
      if (unit.leaving)
        terminal.line(`  at night: start ${say(unit.leaving.start)}; empty by ${say(unit.leaving.empty_by)}; the top stays on`);
      if (rest.gap) terminal.line(`  ${say(rest.gap)}`);
      for (const row of rest.why) {
        const several = rest.why.length > 1 ? `after ${say(row.nights)}: ` : '';
        terminal.line(`  ${several}${say(row.off)} ${say(row.on)} ${say(row.spare)}`);
      }
    } else if (unit.is.unsolved.value.is) {
      terminal.line('  no safe rest is set: see the findings');
      if (unit.remedies.length > 0) terminal.line('  any one of these would do, and was tried:');
      for (const remedy of unit.remedies) terminal.line(`    - ${say(remedy.written ?? remedy.text)}`);
    } else if (unit.leaving)
      terminal.line(`  start ${say(unit.leaving.start)}; empty by ${say(unit.leaving.empty_by)}; the unit stays on`);
    if (unit.room)
      terminal.line(`  food goes to ${say(unit.destination)}: needs ${say(unit.room.needs)}, ${say(unit.room.free)} free`);
    for (const fault of unit.found?.clock?.did ?? []) terminal.line(`  as found: ${say(fault.text)}`);
    for (const food of unit.found?.clock?.food ?? []) terminal.line(`  ${say(food.says)}`);
    for (const sentence of wantsAll ? (unit.scenes?.says ?? []) : []) terminal.line(`  predicted: ${say(sentence)}`);
    const { dial, usual } = unit.pressure;
    if (dial?.cut_in.mean && dial.cut_out.mean)
      terminal.line(
        `  dial ${say(dial.cut_in.dial)} / ${say(dial.cut_out.dial)} stands for ${say(dial.cut_in.mean)} / ${say(dial.cut_out.mean)} here; set ${say(dial.cut_in.set_here)} ${dial.by_difference.value.is ? `and a difference of ${say(dial.difference_here)}` : `/ ${say(dial.cut_out.set_here)}`} for the coil that the maker means`,
      );
    if (unit.pressure.not_known) terminal.line(`  pressure control: ${say(unit.pressure.not_known)}`);
    for (const zone of Object.values(unit.zones))
      if (zone.control_not_known) terminal.line(`  thermostat of ${say(zone.name ?? zone.kind)}: ${say(zone.control_not_known)}`);
    if (usual)
      terminal.line(
        `  head at ${say(usual.air)}: condensing ${say(usual.condensing)}, ${say(usual.mean)} (${say(usual.dew)} to ${say(usual.bubble)})`,
      );
  }
};

export const plan = (storeId: string, options: PlanOptions): number => {
  const session = openSession(options);
  const { workshop } = session.opened;
  if (!workshop) return session.conclude();
  const { stores } = storeSources(session.files);
  const ids = stores.map((store) => store.id);
  const source = stores[ids.indexOf(storeId)];
  if (source === undefined) {
    session.add([unknownStore(storeId, ids)]);
    return session.conclude();
  }
  const planned = planOf(workshop, source.doc, source.bytes, today(), weekEndingOn(today()));
  if (planned.source) session.sources.set(source.doc, planned.source);
  session.add(planned.findings);
  const words = workshop.words.get('en');
  if (!planned.plan || !planned.read || !words) return session.conclude();
  const speaker = readerOf(words, planned.read, workshop.shelf);
  const wantsScenes = options.scenes === true || options.why?.includes('.scenes') === true;
  const shown = wantsScenes ? withAllScenes(workshop.shelf, planned.read, planned.plan) : planned.plan;
  const tree = shown as unknown as Tree;
  if (options.why !== undefined) return why(tree, options.why, session, speaker);
  if (options.json) {
    session.terminal.line(JSON.stringify({ plan: plain(tree, speaker), findings: session.spoken() }, null, 2));
    return session.exitCode();
  }
  summary(shown, options.scenes === true, session, speaker);
  session.terminal.line();
  return session.conclude();
};
