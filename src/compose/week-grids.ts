/**
 * Tables of a sheet of a week: a row a task, a column a day, that day's time and a box or a line to write on in each; and the rounds with the probe.
 */
import type { Known } from '../base/basis.js';
import type { Run } from '../base/run.js';
import type { Value } from '../base/value.js';
import type { WeekNote } from '../plan/date-notes.js';
import type { StorePlan } from '../plan/index.js';
import type { Step } from '../plan/steps.js';
import type { UnitPlan } from '../plan/unit.js';
import { boxOf } from '../plan/day-rounds.js';
import { timeOn, type Week } from '../plan/week.js';
import type { WeekDay } from '../plan/week-days.js';
import type { Speaker } from '../say/speaker.js';
import { cell, type Block, type Cell } from './block.js';

const TASK_WEIGHT = 3.2;

/** A day's cell of a step: mute where the store is closed, else that date's time and what a hand does. */
const stepCell = (step: Step, unit: UnitPlan, day: WeekDay, speaker: Speaker): Cell => {
  if (!day.open) return cell([], { tone: 'mute' });
  const at = timeOn(step, unit, day);
  const time: readonly Run[] = at ? [{ text: speaker.times.momentOf(day.weekday, at.value), value: at.path, strong: true }] : [];
  return cell(time, step.reads.value.is ? { hand: 'write' } : { hand: 'tick' });
};

const stepRow = (step: Step, unit: UnitPlan, week: Week, speaker: Speaker): readonly Cell[] => {
  const limit = step.reading ? speaker.phrase('week.limit', { limit: step.reading }) : [];
  const row = speaker.say(step.row).runs;
  const otherwise = step.otherwise ? [{ text: '. ' }, ...speaker.say(step.otherwise).runs] : [];
  return [
    // In brackets: behind a dot, a minus reads as a dash.
    cell(limit.length > 0 ? [...row, { text: ' (' }, ...limit, { text: ')' }, ...otherwise] : row, { head: true }),
    ...week.days.map((day) => stepCell(step, unit, day, speaker)),
  ];
};

/** A row of an afternoon closing: mute on a date on which the rail does not rest in it. */
const afternoonRow = (cells: readonly Cell[], unit: UnitPlan, week: Week): readonly Cell[] =>
  cells.map((one, i) => {
    const day = week.days[i - 1];
    return day && !day.units[unit.id.value.text]?.empty_by ? cell([], { tone: 'mute' }) : one;
  });

/** A row over the column of tasks and those of the days. */
const across = (week: Week): number => week.days.length + 1;

const band = (text: readonly Run[], again: readonly Run[], week: Week): readonly Cell[] => [
  cell(text, { head: true, tone: 'strong', span: across(week), again }),
];

/** The head of a morning or a night; that nothing warm goes in stands beside it. */
const part = (code: string, unit: UnitPlan, week: Week, speaker: Speaker): readonly Cell[] => {
  const name = speaker.phrase(`week.${code}`);
  return band(unit.is.sealed.value.is ? name : [...name, { text: ' · ' }, ...speaker.phrase('week.warm')], name, week);
};

const dayHeads = (week: Week, speaker: Speaker): readonly Cell[] =>
  week.days.map((day) =>
    cell([
      { text: speaker.times.weekday(day.weekday), strong: true },
      { text: ` ${speaker.times.shortDate(day.date.value.iso)}`, value: day.date.path },
      ...(day.open ? [] : [{ text: ` ${speaker.word('week.closed')}` }]),
      ...day.marks.flatMap((mark) => [{ text: ' ' }, ...speaker.say(mark).runs]),
    ]),
  );

/** A line to write on for each day that the store is open. */
const handCells = (week: Week): readonly Cell[] =>
  week.days.map((day) => cell([], day.open ? { hand: 'write' } : { tone: 'mute' }));

/** The last row of a sheet. */
const checkedBy = (week: Week, speaker: Speaker): readonly Cell[] => [
  cell(speaker.phrase('week.checked-by'), { head: true }),
  ...handCells(week),
];

const columns = (week: Week) => [
  { weight: TASK_WEIGHT, align: 'start' as const },
  ...week.days.map(() => ({ weight: 1, align: 'middle' as const })),
];

const paragraph = (text: readonly Run[], line: number): Block => ({ block: 'paragraph', role: 'body', line, text });

const boxed = (title: readonly Run[], body: readonly (readonly Run[])[], line: number, more: readonly Block[] = []): Block => ({
  block: 'callout',
  level: 'warning',
  line,
  title,
  body: [...body.map((text) => paragraph(text, line)), ...more],
});

/** What would make a schedule possible, for the manager. */
const remedyList = ({ remedies }: UnitPlan, speaker: Speaker, line: number): readonly Block[] =>
  remedies.length === 0
    ? []
    : [
        paragraph(speaker.phrase('week.remedies'), line),
        { block: 'list', mark: 'dot', line, items: remedies.map((r) => [paragraph(speaker.say(r.text).runs, line)]) },
      ];

/** A date, the unit it is about, and what is different. */
const noteLine = ({ date, unit, text, otherwise, who }: WeekNote, speaker: Speaker): readonly Run[] => [
  { ...(speaker.say(date).runs[0] as Run), strong: true },
  ...(unit ? [{ text: ', ' }, ...speaker.say(unit).runs] : []),
  { text: ' (' },
  ...speaker.say(who).runs,
  { text: '): ' },
  ...speaker.say(text).runs,
  ...(otherwise ? [{ text: ' ' }, ...speaker.say(otherwise).runs] : []),
];

/** A date of other hours: when it is open, and why. */
const differentLine = ({ date, open, different }: WeekDay, speaker: Speaker): readonly Run[] => [
  { ...(speaker.say(date).runs[0] as Run), strong: true },
  { text: speaker.colon },
  ...(open ? [] : [{ text: speaker.word('week.closed') }, { text: '. ' }]),
  ...different.flatMap((one) => [...speaker.say(one).runs, { text: '. ' }]),
];

/** What is different this week; nothing in an ordinary one. */
export const noteGrid = (week: Week, speaker: Speaker, line: number): readonly Block[] => {
  const notes = [
    ...week.days.flatMap((day) => (day.different.length > 0 ? [differentLine(day, speaker)] : [])),
    ...week.tree.notes.map((note) => noteLine(note, speaker)),
  ];
  if (notes.length === 0) return [];
  return [
    { block: 'heading', level: 2, line, text: speaker.phrase('week.this-week') },
    // A list each: pages may break between notes.
    ...notes.map((note): Block => ({ block: 'list', mark: 'dot', line, items: [[paragraph(note, line)]] })),
  ];
};

/** When the top goes off by its clock, and what stays on: that night's times, and nothing for a hand to do. */
const goesOff = (unit: UnitPlan, week: Week, speaker: Speaker): readonly (readonly Cell[])[] => {
  if (!unit.rest?.off || unit.rest.by_hand.value.is) return [];
  const row = speaker.phrase(unit.is.box.value.is ? 'week.goes-off' : 'week.goes-off-alone');
  const times = week.days.map((day) => {
    const off = day.open ? day.units[unit.id.value.text]?.off : undefined;
    return off
      ? cell([{ text: speaker.times.momentOf(day.weekday, off.value), value: off.path, strong: true }])
      : cell([], { tone: 'mute' });
  });
  return [[cell(row, { head: true }), ...times]];
};

/** What to do with a top after a power cut, and with a clock that stood still in it: a row over all columns. For other units the sheet's head says it. */
const powerCut = (unit: UnitPlan, week: Week, service: Known<Value>, speaker: Speaker): readonly (readonly Cell[])[] => {
  const { rest, ready, limit, is } = unit;
  if (!is.rail.value.is) return [];
  const hand = rest?.in_reach.value.is ? '-manager' : '';
  const t = (code: string): readonly Run[] => speaker.phrase(`week.power-cut${code}`, { limit, service, ready });
  const space: Run = { text: ' ' };
  const clock = !rest || is.unsolved.value.is ? [] : [space, ...t(rest.by_hand.value.is ? '-by-hand' : `-clock${hand}`)];
  const text = rest?.after_cut
    ? speaker.phrase(`week.power-cut${hand}`, { long: rest.after_cut.by_day, ready, service })
    : [...t('-cold'), ...clock, ...(is.fan_rail.value.is && !rest ? [space, ...t('-own-rest')] : []), space, ...t('-again')];
  return [[cell(text, { span: across(week) })]];
};

/** The rows of one unit; one without a schedule keeps its readings and says, in place of times, that no safe rest is set; under the last one who checked each day. */
const unitGrid = (
  unit: UnitPlan,
  week: Week,
  service: Known<Value>,
  last: boolean,
  speaker: Speaker,
  line: number,
): readonly Block[] => {
  const title: Block = {
    block: 'heading',
    level: 2,
    line,
    text: [...speaker.say(unit.nickname).runs, { text: ', ' }, ...speaker.say(unit.position).runs],
  };
  const unsolved = unit.is.unsolved.value.is
    ? [
        boxed(
          speaker.phrase('week.no-rest-title'),
          [speaker.phrase('week.no-rest', { who: speaker.word('terms.technician') })],
          line,
          remedyList(unit, speaker, line),
        ),
      ]
    : [];
  const wrong = week.tree.errors.filter((note) => note.unit === unit.nickname);
  const nights =
    wrong.length === 0
      ? []
      : [
          boxed(
            speaker.phrase('week.no-rest-night-title'),
            [
              ...wrong.map((note) => noteLine(note, speaker)),
              speaker.phrase('week.no-rest-night', { who: speaker.word('terms.technician') }),
            ],
            line,
          ),
        ];
  const initials: readonly Cell[] = [cell(speaker.phrase('week.initials'), { head: true }), ...handCells(week)];
  const inAfternoon = (cells: readonly Cell[]): readonly Cell[] => afternoonRow(cells, unit, week);
  const steps = (all: readonly Step[]): readonly Step[] =>
    all.filter((s) => !s.every && (s.reading !== undefined || !unit.is.unsolved.value.is));
  return [
    title,
    ...unsolved,
    ...nights,
    {
      block: 'table',
      line,
      byDay: true,
      columns: columns(week),
      head: [[cell(speaker.say(unit.nickname).runs, { head: true }), ...dayHeads(week, speaker)]],
      rows: [
        part('open-up', unit, week, speaker),
        ...steps(unit.open).map((step) => stepRow(step, unit, week, speaker)),
        initials,
        ...(unit.afternoon
          ? [
              part('afternoon-close', unit, week, speaker),
              ...[
                ...steps(unit.afternoon.close).map((step) => stepRow(step, unit, week, speaker)),
                ...goesOff(unit, week, speaker),
                initials,
              ].map(inAfternoon),
              part('afternoon-open', unit, week, speaker),
              ...[...steps(unit.afternoon.open).map((step) => stepRow(step, unit, week, speaker)), initials].map(inAfternoon),
            ]
          : []),
        part('close-down', unit, week, speaker),
        ...steps(unit.close).map((step) => stepRow(step, unit, week, speaker)),
        ...(unit.afternoon ? [] : goesOff(unit, week, speaker)),
        initials,
        ...powerCut(unit, week, service, speaker),
        ...(last ? [checkedBy(week, speaker)] : []),
      ],
    },
  ];
};

/** The rounds with the probe: of each its hour on each day, a line for each thing that is read on it, and who read. */
const roundsGrid = ({ units: byId, store }: StorePlan, week: Week, speaker: Speaker, line: number): readonly Block[] => {
  const units = Object.values(byId);
  const most = Math.max(0, ...week.days.map((day) => day.rounds.length));
  if (most === 0) return [];
  const cells = (of: (round: WeekDay['rounds'][number], day: WeekDay) => Cell | undefined, k: number): readonly Cell[] =>
    week.days.map((day) => {
      const round = day.open ? day.rounds[k] : undefined;
      return (round && of(round, day)) ?? cell([], { tone: 'mute' });
    });
  const rowsOf = (unit: UnitPlan, k: number): readonly (readonly Cell[])[] => {
    const id = unit.id.value.text;
    const step = [...unit.open, ...(unit.afternoon?.open ?? [])].find(({ every }) => every);
    if (!step) return [];
    const rows = [{ what: step.row, of: [id] }, ...(step.also ? [{ what: step.also, of: [id, boxOf(id)] }] : [])];
    return rows.flatMap(({ what, of }): readonly (readonly Cell[])[] => {
      const isRead = ({ units: read }: WeekDay['rounds'][number]): boolean => read.some((one) => of.includes(one));
      if (!week.days.some(({ rounds }) => rounds[k] && isRead(rounds[k]))) return [];
      const row = [...speaker.say(unit.nickname).runs, { text: ', ' }, ...speaker.say(what).runs];
      return [[cell(row, { head: true }), ...cells((round) => (isRead(round) ? cell([], { hand: 'write' }) : undefined), k)]];
    });
  };
  const hourOf = ({ at }: WeekDay['rounds'][number], day: WeekDay): Cell =>
    cell([{ text: speaker.times.momentOf(day.weekday, at.value), value: at.path, strong: true }]);
  const notes: readonly Run[] = [
    ...speaker.phrase('week.rounds-over', { limit: store.law.limit }),
    { text: ' ' },
    ...(units.some((unit) => unit.is.rail.value.is) ? [...speaker.phrase('week.rounds-board'), { text: ' ' }] : []),
    ...speaker.phrase('week.rounds-moved'),
  ];
  return [
    { block: 'heading', level: 2, line, text: speaker.phrase('week.rounds', { limit: store.law.limit }) },
    {
      block: 'table',
      line,
      byDay: true,
      columns: columns(week),
      head: [[cell(speaker.phrase('week.rounds-head'), { head: true }), ...dayHeads(week, speaker)]],
      rows: [
        ...(notes.length > 0 ? [[cell(notes, { span: across(week) })]] : []),
        ...Array.from({ length: most }, (_, k) => [
          [cell(speaker.phrase('week.round-by'), { head: true, tone: 'strong', again: 'row' }), ...cells(hourOf, k)],
          ...units.flatMap((unit) => rowsOf(unit, k)),
          [cell(speaker.phrase('week.initials'), { head: true }), ...cells(() => cell([], { hand: 'write' }), k)],
        ]).flat(),
        checkedBy(week, speaker),
      ],
    },
  ];
};

/** The rows of all units, the rounds through them, and under the last row who checked the sheet. */
export const unitsGrid = (plan: StorePlan, week: Week, speaker: Speaker, line: number): readonly Block[] => {
  if (!week.days.some(({ open }) => open)) return [];
  const units = Object.values(plan.units);
  const rounds = roundsGrid(plan, week, speaker, line);
  const last = rounds.length > 0 ? undefined : units.at(-1);
  return [...units.flatMap((one) => unitGrid(one, week, plan.store.phones.service, one === last, speaker, line)), ...rounds];
};
