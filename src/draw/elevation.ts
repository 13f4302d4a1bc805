/**
 * The unit from the front, cut open where food is: its pans or shelves or drawers, the lines that food stays under, where to probe,
 * and what rules the top and what rules the bottom, told apart. A drawing of the sort, not of a make.
 */
import type { Known } from '../base/basis.js';
import type { Value } from '../base/value.js';
import type { UnitPlan } from '../plan/unit.js';
import type { Speaker } from '../say/speaker.js';
import { ZONE_KINDS, type ZoneKind, type ZoneKindName } from '../trade/zones.js';
import { boxFront, feet } from './box-front.js';
import { body, CONTROLS, louvre, rules, type Box } from './cabinet.js';
import { callouts } from './leaders.js';
import { pathOf, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { sentences } from './telling.js';
import type { Front, Spot } from './front.js';
import { block, bold, capital, SMALL, type Line } from './lettering.js';
import { railFront, tableWidth } from './rail-front.js';

const WIDTH = 540;
const PICTURE = 300;
/** Leaders run level to the edge of the picture, labels stand right of it. */
const COLUMN = { edge: PICTURE + 4, left: PICTURE + 22, apart: 9 } as const;
const LOW = { least: 122, most: 220 } as const;
const MACHINE = 60;

const kindOf = (zone: { readonly kind: Known<{ readonly code: string } & Value> }): ZoneKind =>
  ZONE_KINDS[zone.kind.value.code as ZoneKindName];

/** What turns the top off at night. */
const railControl = (unit: UnitPlan, rail: ZoneKind | undefined): 'clock' | 'switch' | 'controller' | undefined => {
  if (unit.rest) return unit.rest.by_hand.value.is ? 'switch' : 'clock';
  return rail?.rests === 'as-maker' ? 'controller' : undefined;
};

/**
 * A table: its top over its low box, controls in the machine's compartment at the right, each with a dashed line to what it rules.
 * @param height of its labels: the box is drawn as high as brings them near
 */
const table = (unit: UnitPlan, rail: ZoneKind, height: number): Front => {
  const width = tableWidth(unit.rail?.pans);
  const x = (PICTURE - width) / 2;
  const top = railFront(x, width, unit.rail?.pans, rail.cooled);
  const deep = Math.min(LOW.most, Math.max(LOW.least, height - top.bottom - 8));
  const machine: Box = { x: x + width - MACHINE, y: top.bottom, width: MACHINE, height: deep };
  const low: Box = { x, y: top.bottom, width: width - MACHINE, height: deep };
  const box = unit.box && boxFront(unit.box, kindOf(unit.box), { middle: PICTURE / 2, low, machine: true });
  const control = railControl(unit, rail);
  const at = machine.x + MACHINE / 2;
  const [upper, lower] = [machine.y + deep * 0.22, machine.y + deep * 0.56];
  const own = control ? [rules(pathOf('M', at, upper, 'V', top.bottom - 14)), ...CONTROLS[control](at, upper)] : [];
  const both = control === undefined ? [rules(pathOf('M', at, lower, 'V', top.bottom - 14))] : [];
  return {
    marks: [
      ...top.marks,
      ...(box?.marks ?? []),
      body(machine),
      louvre({ x: machine.x + 10, y: machine.y + deep * 0.76, width: MACHINE - 20, height: deep * 0.18 }),
      ...own,
      ...both,
      rules(pathOf('M', at, lower, 'H', machine.x - 12)),
      ...CONTROLS.thermostat(at, lower),
      ...feet(x, width, machine.y + deep),
    ],
    bottom: machine.y + deep + 8,
    spots: {
      ...top.spots,
      ...box?.spots,
      ...(control ? { railControl: [at + 14, upper] as const } : {}),
      boxControl: [at + 8, lower + 6],
    },
  };
};

const standing = (unit: UnitPlan): Front | undefined => {
  if (!unit.box) return undefined;
  const kind = kindOf(unit.box);
  const front = boxFront(unit.box, kind, {
    middle: PICTURE / 2,
    low: undefined,
    machine: unit.condensing.place.value.code === 'in-unit',
  });
  const { box } = front;
  // In the machine's compartment, or on a room's wall beside its door.
  const [x, y] =
    kind.carries === 'room'
      ? [box.x + box.width * 0.39, box.y + box.height * 0.75]
      : [box.x + box.width - 26, box.y + box.height / 2];
  return {
    ...front,
    marks: [...front.marks, ...CONTROLS.thermostat(x, y)],
    spots: { ...front.spots, boxControl: [x + 8, y + 6] },
  };
};

/** What the label at each spot says; nothing where the plan is silent. */
const labels = (unit: UnitPlan, rail: ZoneKind | undefined, speaker: Speaker): Readonly<Record<Spot, Line | undefined>> => {
  const { rail: top, box } = unit;
  const say = (code: string, values: Readonly<Record<string, Known<Value>>> = {}): Line =>
    speaker.phrase(`elevation.${code}`, values);
  const name = (zone: NonNullable<typeof top>): Line =>
    bold(capital(speaker.say(zone.name ?? (top ? zone.kind : unit.sort)).runs));
  const named = (zone: NonNullable<typeof top>, rest: Line | undefined): Line => [
    ...name(zone),
    ...(rest ? [{ text: speaker.colon }, ...rest] : []),
  ];
  const holds =
    box &&
    (box.drawers
      ? say('drawers', { count: box.drawers.count, pans: box.drawers.pans_each })
      : box.shelves
        ? say('shelves', { count: box.shelves.count })
        : undefined);
  const control = railControl(unit, rail);
  const where = unit.rest?.where;
  return {
    covers: top && unit.is.covered.value.is ? say('covers') : undefined,
    pans: top && named(top, top.pans && say('pans', { count: top.pans.count, size: top.pans.size })),
    railLine: top?.pans && say('below-edge', { load_line: top.pans.load_line }),
    railProbe: top && say('probe', { where: top.probe.where }),
    // Live parts are behind a clock's panel: nobody is told which, and nobody goes to look.
    railControl:
      control &&
      (control === 'clock' && !unit.rest?.in_reach.value.is
        ? say('top-by-clock-boxed')
        : where
          ? say(`top-by-${control}-where`, { where })
          : say(`top-by-${control}`)),
    box: box && named(box, holds),
    boxLine: box?.shelves?.load_line && say('load-line', { line: box.shelves.load_line }),
    boxProbe: box && say(unit.is.sealed.value.is ? 'probe-drinks' : 'probe', { where: box.probe.where }),
    boxControl: say(!top ? 'unit-never-off' : control ? 'bottom-never-off' : 'both-never-off'),
  };
};

export const elevation: Figure = ({ unit, speaker, width }) => {
  if (!unit) return undefined;
  const rail = unit.rail && kindOf(unit.rail);
  const texts = (Object.entries(labels(unit, rail, speaker)) as [Spot, Line | undefined][]).flatMap(([spot, line]) =>
    line ? [{ spot, line, label: block(line, SMALL, WIDTH - COLUMN.left, width) }] : [],
  );
  const front = rail
    ? table(
        unit,
        rail,
        texts.reduce((sum, { label }) => sum + label.height + COLUMN.apart, 0),
      )
    : standing(unit);
  if (!front) return undefined;
  const named = texts.flatMap((text) => {
    const at = front.spots[text.spot];
    return at ? [{ ...text, x: at[0], y: at[1] }] : [];
  });
  const placed = callouts(named, COLUMN, front.bottom, width);
  const marks: readonly Mark[] = [...front.marks, ...placed.marks];
  const alt = sentences([speaker.phrase('elevation.alt'), ...named.map(({ line }) => line)]);
  return { name: 'elevation', width: WIDTH, height: Math.max(front.bottom, placed.bottom) + 2, alt, marks };
};
