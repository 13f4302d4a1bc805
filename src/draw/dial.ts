/**
 * The clock as it should be set: a ring of the day for a face with trippers, a small panel of times for a face with figures.
 * Nobody's face: a technician finds the same hours on any.
 */
import type { Known } from '../base/basis.js';
import type { Moment, Weekday } from '../base/moment.js';
import type { Term } from '../base/value.js';
import type { Speaker } from '../say/speaker.js';
import { CLOCK_KINDS, type ClockKindName } from '../trade/clocks.js';
import { pathOf, rectangle, type Mark, type TextWidth } from './drawing.js';
import type { Figure, FigureContext } from './figure.js';
import { block, bold, LARGE, MEDIUM, oneLine, plain, put, SMALL, type Block, type Line } from './lettering.js';
import { arrowHead } from './marks.js';
import { FREE, reach, REACH, RING, ring, type Polarity } from './ring.js';
import { patternsOf, type Pattern } from './settings.js';
import { EDGE, fill, HAIR, hatched, OUTLINE, polygon, shape, stroke } from './strokes.js';

const WIDTH = 540;
const ICON = 26;

type Rest = NonNullable<NonNullable<FigureContext['unit']>['rest']>;

const polarityOf = (polarity: Known<Term> | undefined): Polarity =>
  polarity?.value.code === 'out-is-on' || polarity?.value.code === 'out-is-off' ? polarity.value.code : undefined;

const timeOf = (known: Known<Moment>, speaker: Speaker): Line => [
  { text: speaker.times.moment(known.value), value: known.path, strong: true },
];

/** One dial with its words inside: midnight, off, on, noon from the top down. */
const face = (
  pattern: Pattern,
  step: number,
  polarity: Polarity,
  x: number,
  y: number,
  speaker: Speaker,
  width: TextWidth,
): readonly Mark[] => {
  const word = (code: string): Line => plain(speaker.word(`dial.${code}`));
  const label = (line: Line, size: number): Block => oneLine(line, size, FREE * 1.7, width);
  const middle = [
    label(word('off'), MEDIUM),
    label(timeOf(pattern.off, speaker), LARGE),
    label(word('on'), MEDIUM),
    label(timeOf(pattern.on, speaker), LARGE),
  ];
  let top = y - middle.reduce((sum, b) => sum + b.height, 0) / 2;
  const [midnight, noon] = [oneLine(word('midnight'), SMALL, FREE * 1.2, width), oneLine(word('noon'), SMALL, FREE * 1.2, width)];
  return [
    ...ring(x, y, { off: pattern.off.value.min, on: pattern.on.value.min, step, polarity }),
    ...middle.flatMap((b) => {
      const marks = put(b, x, top, 'middle', width);
      top += b.height;
      return marks;
    }),
    ...put(midnight, x, y - FREE + 3, 'middle', width),
    ...put(noon, x, y + FREE - 3 - noon.height, 'middle', width),
  ];
};

/** What the marks of a dial mean. */
const legend = (
  polarity: Polarity,
  room: number,
  speaker: Speaker,
  width: TextWidth,
): readonly { readonly icon: (x: number, y: number) => readonly Mark[]; readonly words: Block }[] => {
  const tab =
    (isOn: boolean) =>
    (x: number, y: number): readonly Mark[] => {
      const [inner, outer] = reach(isOn, polarity);
      const height = outer - inner;
      const top = y - (outer - RING) * 0.9;
      const tabs = [2, 10, 18].map((dx) => rectangle(x + dx, top, 6, height)).join(' ');
      return [isOn ? fill(tabs, 'ink') : shape(tabs, 'paper', HAIR), stroke(pathOf('M', x - 1, y, 'h', ICON + 1), EDGE)];
    };
  const item = (code: string, icon: (x: number, y: number) => readonly Mark[]) => ({
    icon,
    words: block(plain(speaker.word(`dial.${code}`)), MEDIUM, room, width),
  });
  const side = (isOn: boolean): string => (polarity === undefined ? 'dark' : isOn === (polarity === 'out-is-on') ? 'out' : 'in');
  return [
    item(`tabs-${side(true)}-on`, tab(true)),
    item(polarity === undefined ? 'tabs-open-off' : `tabs-${side(false)}-off`, tab(false)),
    item('hours-run', (x, y) => [stroke(pathOf('M', x, y, 'h', ICON - 8), EDGE), arrowHead(x + ICON, y, 0, 11)]),
    item('time-mark', (x, y) => [fill(polygon([x + 5, y - 8], [x + 5, y + 8], [x + 22, y]), 'ink')]),
  ];
};

const ROW = 12;

/** Items of a legend under each other. */
const listed = (items: ReturnType<typeof legend>, x: number, top: number, width: TextWidth): readonly Mark[] => {
  let y = top;
  return items.flatMap(({ icon, words }) => {
    const marks = [...icon(x, y + words.size * 0.57), ...put(words, x + ICON + 10, y, 'start', width)];
    y += words.height + ROW;
    return marks;
  });
};

const heightOf = (items: ReturnType<typeof legend>): number => items.reduce((sum, { words }) => sum + words.height + ROW, -ROW);

const daysName = (days: readonly Weekday[], speaker: Speaker): Line =>
  bold(plain(days.length === 7 ? speaker.word('dial.every-day') : speaker.times.days(days)));

const trippers = (
  patterns: readonly Pattern[],
  step: number,
  polarity: Polarity,
  { speaker, width }: FigureContext,
): { readonly height: number; readonly marks: readonly Mark[] } => {
  const column = WIDTH / 2;
  const names = patterns.map(({ days }) => block(daysName(days, speaker), LARGE, column - 10, width));
  const head = Math.max(...names.map((n) => n.height)) + 6;
  const dials = patterns.flatMap((pattern, i) =>
    face(pattern, step, polarity, column * i + REACH + 1, head + REACH, speaker, width),
  );
  const titles = names.flatMap((name, i) => put(name, column * i + REACH + 1, 0, 'middle', width));
  const under = head + 2 * REACH + 4;
  const items = legend(polarity, column - ICON - 24, speaker, width);
  if (patterns.length === 1) {
    const top = Math.max(0, head + REACH - heightOf(items) / 2);
    return {
      height: Math.max(under, top + heightOf(items)),
      marks: [...titles, ...dials, ...listed(items, column + 12, top, width)],
    };
  }
  const halves = [items.slice(0, 2), items.slice(2)] as const;
  return {
    height: under + 10 + Math.max(...halves.map(heightOf)),
    marks: [...titles, ...dials, ...halves.flatMap((half, i) => listed(half, column * i + 6, under + 10, width))],
  };
};

const PANEL = { width: 262, pad: 12 } as const;

/** A setting as a panel: its nights, and on which days of the calendar and when the clock turns the top off and on. */
const figures = (rest: Rest, { speaker, width }: FigureContext): { readonly height: number; readonly marks: readonly Mark[] } => {
  const half = PANEL.width / 2;
  const panels = rest.settings.map((setting) => {
    const nights: Line = [{ text: speaker.times.days(setting.days.value.days), value: setting.days.path }];
    const name = block(
      bold(speaker.phrase(rest.afternoon.value.is ? 'dial.afternoons' : 'dial.nights', { days: nights })),
      MEDIUM,
      PANEL.width - 2 * PANEL.pad,
      width,
    );
    const cells = (['off', 'on'] as const).map((code) => ({
      // A clock counts calendar days: Friday night's 00:45 is set on Saturday.
      word: block(
        [...plain(`${speaker.word(`dial.${code}`)}, `), ...speaker.say(setting[`${code}_days`]).runs],
        MEDIUM,
        half - 2 * PANEL.pad,
        width,
      ),
      time: block(timeOf(setting[code], speaker), LARGE * 1.3, half - 2 * PANEL.pad, width),
    }));
    return { name, cells };
  });
  const head = Math.max(...panels.map((p) => p.name.height)) + PANEL.pad;
  const cell = Math.max(...panels.flatMap((p) => p.cells.map((c) => c.word.height + c.time.height))) + PANEL.pad + 4;
  const height = head + cell;
  const marks = panels.flatMap(({ name, cells }, i): readonly Mark[] => {
    const x = (i % 2) * (WIDTH - PANEL.width - OUTLINE) + OUTLINE / 2;
    const y = Math.floor(i / 2) * (height + 14) + OUTLINE / 2;
    return [
      stroke(hatched(x, y + head, half, 8, 6), HAIR),
      fill(rectangle(x + half, y + head, half, 8), 'ink'),
      stroke(rectangle(x, y, PANEL.width, height), OUTLINE),
      stroke(
        pathOf('M', x, y + head, 'h', PANEL.width, 'M', x + half, y + head, 'v', cell, 'M', x, y + head + 8, 'h', PANEL.width),
        EDGE,
      ),
      ...put(name, x + PANEL.pad, y + PANEL.pad / 2, 'start', width),
      ...cells.flatMap(({ word, time }, k) => {
        const left = x + k * half + PANEL.pad;
        return [
          ...put(word, left, y + head + 12, 'start', width),
          ...put(time, left, y + head + 10 + word.height, 'start', width),
        ];
      }),
    ];
  });
  return { height: Math.ceil(panels.length / 2) * (height + 14) - 14 + OUTLINE, marks };
};

export const dial: Figure = (context) => {
  const { unit, speaker } = context;
  const rest = unit?.rest;
  if (!rest?.off || !rest.on || rest.settings.length === 0) return undefined;
  const clock = CLOCK_KINDS[rest.clock.value.code as ClockKindName];
  const drawn = ((): { readonly height: number; readonly marks: readonly Mark[] } | undefined => {
    switch (clock.face) {
      case 'trippers': {
        const patterns = patternsOf(rest, clock);
        return patterns.length > 0 && patterns.length <= 2
          ? trippers(patterns, rest.step.value.si / 60, polarityOf(rest.polarity), context)
          : undefined;
      }
      case 'figures':
        return figures(rest, context);
      case 'pins':
      case 'switch':
        return undefined;
    }
  })();
  return drawn && { name: 'dial', width: WIDTH, ...drawn, alt: speaker.phrase('dial.alt', { off: rest.off, on: rest.on }) };
};
