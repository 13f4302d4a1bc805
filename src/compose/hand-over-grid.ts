/**
 * Readings of a unit before and after the work: the kitchen, the air and the food of each zone, pressures where there are ports; beside each what it should be.
 */
import type { Known } from '../base/basis.js';
import type { Run } from '../base/run.js';
import type { Value } from '../base/value.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Speaker } from '../say/speaker.js';
import type { Block, Cell } from './block.js';

export const readingsGrid = (unit: UnitPlan, speaker: Speaker, line: number): Block => {
  const t = (code: string): readonly Run[] => speaker.phrase(`handover.${code}`);
  const blank: Cell = { text: [], hand: 'write' };
  const row = (label: readonly Run[], should: Known<Value> | readonly Run[] | undefined): readonly Cell[] => [
    { text: label, head: true },
    { text: should === undefined ? [] : 'basis' in should ? speaker.say(should).runs : should },
    blank,
    blank,
  ];
  const zones = Object.values(unit.zones).flatMap((zone) => {
    const name = speaker.say(zone.name ?? zone.kind).runs;
    const of = (code: string): readonly Run[] => [...name, { text: speaker.colon }, ...t(code)];
    return [row(of('air'), zone.air), ...(unit.is.sealed.value.is ? [] : [row(of('food'), unit.limit)])];
  });
  const usual = unit.pressure.usual;
  // A head pressure is one only beside the air for which it was worked out.
  const byTable = unit.pressure.heads.length > 0 ? speaker.phrase('handover.head-by-table') : [];
  const head: readonly Run[] = usual ? speaker.phrase('handover.head-at', { head: usual.mean, air: usual.air }) : byTable;
  const pressures = unit.is.ports.value.is ? [row(t('suction'), undefined), row(t('head'), head)] : [];
  return {
    block: 'table',
    line,
    columns: [2.4, 3, 1.8, 1.8].map((weight) => ({ weight, align: 'start' })),
    head: [(['what', 'should', 'before', 'after'] as const).map((code) => ({ text: t(code) }))],
    rows: [
      row(t('time'), undefined),
      row(t('kitchen'), undefined),
      ...zones,
      row(t('entering'), undefined),
      ...pressures,
      row(t('amps'), unit.nameplate.amps),
    ],
  };
};
