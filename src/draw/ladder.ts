/**
 * The temperatures of a unit on one scale: the air and the food of each zone as bars, the law's limit as a strong line, and where water freezes.
 */
import { scaleLinear } from 'd3-scale';
import { toSI, type Measure } from '../base/amount.js';
import type { Known } from '../base/basis.js';
import type { SpanValue } from '../base/value.js';
import { pathOf, rectangle, type Mark } from './drawing.js';
import type { Figure } from './figure.js';
import { sentences } from './telling.js';
import { block, bold, capital, LARGE, MEDIUM, oneLine, plain, put, SMALL, type Line } from './lettering.js';
import { EDGE, fill, HAIR, hatched, HEAVY, OUTLINE, shape, stroke } from './strokes.js';

const WIDTH = 540;
/** Lines of the whole picture end here; where water freezes is named right of it. */
const SIDE = 462;
const SCALE = 250;
const BAR = 20;
const ICE = 273.15;
/** Left of a zone's first bar. */
const RUNGS = 20;
/** White above and below all that is shown. */
const OVER = 10;
const UNDER = 24;

interface Zone {
  readonly name: Line;
  readonly bars: readonly { readonly code: 'air' | 'food' | 'drinks'; readonly span: Known<SpanValue> }[];
}

/** A rung for each degree of the reader's, a longer one for each tenth. */
const degrees = (y: (kelvin: number) => number, measure: Measure, top: number, foot: number): Mark => {
  const kelvin = (degree: number): number => toSI(measure === 'us' ? '°F' : '°C', degree);
  const rungs = Array.from({ length: 200 }, (_, i) => i - 100).filter((d) => y(kelvin(d)) >= top && y(kelvin(d)) <= foot);
  return stroke(rungs.map((d) => pathOf('M', 0, y(kelvin(d)), 'h', d % 10 === 0 ? 16 : 7)).join(' '), HAIR, 'soft-ink');
};

export const ladder: Figure = ({ unit, speaker, width }) => {
  if (!unit) return undefined;
  const sealed = unit.is.sealed.value.is;
  const food = sealed ? ('drinks' as const) : ('food' as const);
  const zones = Object.values(unit.zones).flatMap((zone): readonly Zone[] => {
    const bars: Zone['bars'] = [
      ...(zone.air ? [{ code: 'air' as const, span: zone.air }] : []),
      ...(zone.aim ? [{ code: food, span: zone.aim }] : []),
    ];
    return bars.length > 0 ? [{ name: capital(bold(speaker.say(zone.name ?? zone.kind).runs)), bars }] : [];
  });
  if (zones.length === 0) return undefined;

  // A limit for food says nothing of sealed drinks.
  const limit = sealed ? undefined : unit.limit;
  const shown = [
    ICE,
    ...(limit ? [limit.value.si] : []),
    ...zones.flatMap((z) => z.bars.flatMap(({ span }) => [span.value.span.low.si, span.value.span.high.si])),
  ];
  const column = SIDE / zones.length;
  const names = zones.map((zone) => block(zone.name, LARGE, column - RUNGS - 8, width));
  const head = Math.max(...names.map((n) => n.height)) + 8;
  // A law may only say "kept frozen": then the figure is the maker's, not the law's.
  const whose = limit?.basis.how === 'law' ? '' : '-own';
  const said = limit && block(speaker.phrase(`ladder.limit${whose}`, { limit }), MEDIUM, SIDE - RUNGS, width);
  const y = scaleLinear([Math.min(...shown), Math.max(...shown)], [head + SCALE - UNDER, head + OVER + (said?.height ?? 0)]);

  const marks: Mark[] = [];
  const across = (kelvin: number): string => pathOf('M', 0, y(kelvin), 'H', SIDE);
  if (limit) marks.push(fill(rectangle(0, head, SIDE, y(limit.value.si) - head), 'wash'));
  marks.push(degrees(y, speaker.reader.measure, head, head + SCALE));
  marks.push(stroke(across(ICE), EDGE, 'ink', [2, 5]));
  if (limit) marks.push(stroke(across(limit.value.si), HEAVY));

  const feet = head + SCALE + 6;
  let bottom = feet;
  zones.forEach((zone, i) => {
    const left = i * column;
    const half = (column - RUNGS - 4) / zone.bars.length;
    marks.push(...put(names[i] as (typeof names)[number], left + RUNGS, 0, 'start', width));
    if (i > 0)
      marks.push(
        stroke(
          pathOf('M', left + 4, 4, 'V', head - 4, 'M', left + 4, limit ? y(limit.value.si) : head, 'V', feet + 16),
          HAIR,
          'rule',
        ),
      );
    zone.bars.forEach(({ code, span }, k) => {
      const x = left + RUNGS + k * half;
      const [top, foot] = [y(span.value.span.high.si), y(span.value.span.low.si)];
      const bar = rectangle(x, top, BAR, foot - top);
      if (code === 'air') marks.push(fill(bar, 'paper'), stroke(hatched(x, top, BAR, foot - top, 6), HAIR), stroke(bar, OUTLINE));
      else marks.push(shape(bar, 'cold', OUTLINE));
      const figure = oneLine(speaker.say(span).runs, SMALL, half - 6, width);
      // Beside its bar, or under it where the next bar is too near.
      if (figure.width <= half - BAR - 6) {
        const from = (top + foot - figure.height) / 2;
        // The line of freezing water stops before it, not across it.
        if (y(ICE) > from - 1 && y(ICE) < from + figure.height + 1)
          marks.push(fill(rectangle(x + BAR + 2, from, figure.width + 6, figure.height), 'paper'));
        marks.push(...put(figure, x + BAR + 5, from, 'start', width));
      } else
        marks.push(
          fill(rectangle(x, foot + 3, figure.width, figure.height), 'paper'),
          ...put(figure, x, foot + 3, 'start', width),
        );
      const word = block(plain(speaker.word(`ladder.${code}`)), MEDIUM, half, width);
      marks.push(...put(word, x, feet, 'start', width));
      bottom = Math.max(bottom, feet + word.height);
    });
  });

  if (said) marks.push(...put(said, RUNGS, head + 4, 'start', width));
  const ice = block(plain(speaker.word('ladder.ice')), SMALL, WIDTH - SIDE - 6, width);
  marks.push(...put(ice, SIDE + 6, Math.max(0, Math.min(y(ICE) - ice.height / 2, bottom - ice.height)), 'start', width));

  const told = zones.map((zone): Line => [
    ...zone.name,
    ...zone.bars.flatMap(({ code, span }, k) => [
      { text: `${k === 0 ? ':' : ','} ${speaker.word(`ladder.${code}`)} ` },
      ...speaker.say(span).runs,
    ]),
  ]);
  const alt = sentences([
    speaker.phrase('ladder.alt'),
    ...told,
    ...(limit ? [speaker.phrase(`ladder.alt-limit${whose}`, { limit })] : []),
  ]);
  return { name: 'ladder', width: WIDTH, height: Math.max(bottom, ice.height), alt, marks };
};
