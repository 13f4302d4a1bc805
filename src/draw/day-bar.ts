/**
 * The night as a bar: when the top is emptied, off, cold again and loaded; under it the bottom, which stays on.
 * Food is a dark fill that sinks and rises; off is hatched. Short stretches are drawn longer than they are, so that ten minutes can be seen.
 */
import { onTheWall } from '../base/moment.js';
import type { Run } from '../base/run.js';
import type { Speaker } from '../say/speaker.js';
import { rectangle, type Mark, type TextWidth } from './drawing.js';
import type { Figure } from './figure.js';
import { flags } from './flags.js';
import { block, bold, capital, LARGE, lineWidth, MEDIUM, plain, put, SMALL } from './lettering.js';
import { nightsOf, type Event, type Happening, type Night } from './nights.js';
import { fill, HAIR, hatched, OUTLINE, polygon, stroke } from './strokes.js';

const WIDTH = 540;
const LEFT = OUTLINE / 2;
const RIGHT = WIDTH - OUTLINE / 2;
const TOP = 44;
const BOTTOM = 36;
const GAP = 12;
/** Least widths: food in use at both ends, a stretch that matters, the hours off with room for labels on each side of their middle. */
const IN_USE = 52;
const SEEN = 34;
const OFF = 272;
/** Of the hours off, left free beside their words, which stand on a plate over the hatch. */
const PLATE = 60;

/** Widths in proportion to durations, none under its least. */
const shared = (durations: readonly number[], least: readonly number[], total: number): readonly number[] => {
  let fixed: ReadonlySet<number> = new Set<number>();
  for (;;) {
    const sum = (of: readonly number[], held: boolean): number => of.reduce((s, n, i) => s + (fixed.has(i) === held ? n : 0), 0);
    const scale = (total - sum(least, true)) / sum(durations, false);
    const widths = durations.map((d, i) => (fixed.has(i) ? (least[i] as number) : d * scale));
    const short = widths.flatMap((w, i) => (!fixed.has(i) && w < (least[i] as number) ? [i] : []));
    if (short.length === 0) return widths;
    fixed = new Set([...fixed, ...short]);
  }
};

/** Where each happening stands on the bar. */
const placesOf = ({ happenings }: Night): ReadonlyMap<Event, number> => {
  const wiped = happenings.some((h) => h.event === 'wipe');
  const stretches = happenings.slice(1).map((to, i) => {
    const from = happenings[i] as Happening;
    const minutes = Math.max(0, to.at.min - from.at.min);
    return { minutes, least: minutes === 0 ? 0 : from.event === 'off' ? OFF - (wiped ? SEEN : 0) : SEEN };
  });
  const widths = shared(
    stretches.map((s) => s.minutes),
    stretches.map((s) => s.least),
    WIDTH - 2 * IN_USE,
  );
  let x = IN_USE;
  return new Map(happenings.map((h, i) => [h.event, (x += i === 0 ? 0 : (widths[i - 1] as number))]));
};

const label = (event: Event, byHand: boolean, speaker: Speaker): string =>
  speaker.word(`day-bar.${byHand && (event === 'off' || event === 'on') ? `switch-${event}` : event}`);

const timeOf = ({ at, path }: Happening, speaker: Speaker): Run => ({ text: speaker.times.moment(at), value: path });

const nameOf = (night: Night, afternoon: boolean, speaker: Speaker): readonly Run[] => {
  const days = speaker.times.days(night.days);
  return bold(afternoon ? plain(days) : capital(speaker.phrase('times.night-of', { days })));
};

/** What a cook goes by; the rest of another night follows from it. */
const TOLD: readonly Event[] = ['empty_by', 'off', 'on', 'first_pan'];

/** A night that differs from the one drawn: what differs, in a line. */
const otherwise = (
  night: Night,
  drawn: Night,
  afternoon: boolean,
  say: (event: Event) => string,
  speaker: Speaker,
): readonly Run[] => {
  const usual = new Map(drawn.happenings.map((h) => [h.event, onTheWall(h.at)]));
  const differs = night.happenings.filter((h) => usual.get(h.event) !== onTheWall(h.at));
  const main = differs.filter((h) => TOLD.includes(h.event));
  const told = main.length > 0 ? main : differs;
  return [
    ...bold([...nameOf(night, afternoon, speaker), { text: speaker.colon }]),
    ...told.flatMap((h, i): readonly Run[] => [
      ...(i > 0 ? [{ text: ', ' }] : []),
      ...bold([timeOf(h, speaker)]),
      { text: ` ${say(h.event)}` },
    ]),
  ];
};

/** The two bars with their words, the top's first edge at `top`. @param bottomSays what the bottom's bar says */
const bars = (
  places: ReadonlyMap<Event, number>,
  bottomSays: string,
  top: number,
  poles: readonly Mark[],
  speaker: Speaker,
  width: TextWidth,
): readonly Mark[] => {
  const x = (event: Event): number => places.get(event) as number;
  const foot = top + TOP;
  const bottom = foot + GAP;
  /** Words in the middle of a stretch, as large as leaves `free` of it; none where they don't fit. */
  const written = (
    says: string,
    from: number,
    to: number,
    tone: 'ink' | 'paper',
    free: number,
    at = top,
    height = TOP,
  ): readonly Mark[] => {
    const line = bold(plain(says));
    const size = [LARGE, MEDIUM, SMALL].find((s) => lineWidth(line, s, width) < to - from - free);
    if (size === undefined) return [];
    const words = block(line, size, to - from, width);
    const middle = (from + to) / 2;
    const plate = fill(rectangle(middle - words.width / 2 - 7, at + 8, words.width + 14, height - 16), 'paper');
    return [...(free === PLATE ? [plate] : []), ...put(words, middle, at + (height - words.height) / 2, 'middle', width, tone)];
  };
  const within = (code: string, from: number, to: number, tone: 'ink' | 'paper', free: number): readonly Mark[] =>
    written(speaker.word(`day-bar.${code}`), from, to, tone, free);
  return [
    fill(rectangle(LEFT, top, RIGHT - LEFT, TOP), 'wash'),
    fill(polygon([LEFT, top], [x('start'), top], [x('empty_by'), foot], [LEFT, foot]), 'cold'),
    fill(polygon([RIGHT, top], [x('first_pan'), top], [x('cold_by'), foot], [RIGHT, foot]), 'cold'),
    fill(rectangle(x('off'), top, x('on') - x('off'), TOP), 'paper'),
    stroke(hatched(x('off'), top, x('on') - x('off'), TOP), HAIR, 'soft-ink'),
    ...within('food', LEFT, x('start'), 'paper', 8),
    ...within('still-on', x('empty_by'), x('off'), 'ink', 12),
    ...within('top-off', x('off'), places.get('wipe') ?? x('on'), 'ink', PLATE),
    ...within('cooling', x('on'), x('cold_by'), 'ink', 12),
    ...within('food', x('first_pan'), RIGHT, 'paper', 8),
    stroke(rectangle(LEFT, top, RIGHT - LEFT, TOP), OUTLINE),
    ...poles,
    fill(rectangle(LEFT, bottom, RIGHT - LEFT, BOTTOM), 'cold'),
    ...written(bottomSays, LEFT, RIGHT, 'paper', 12, bottom, BOTTOM),
    stroke(rectangle(LEFT, bottom, RIGHT - LEFT, BOTTOM), OUTLINE),
  ];
};

export const dayBar: Figure = ({ unit, speaker, width }) => {
  const rest = unit?.rest;
  if (!unit || !rest?.start || !rest.empty_by || !rest.off || !rest.on) return undefined;
  const afternoon = rest.afternoon.value.is;
  const [night, ...others] = nightsOf(rest, speaker.reader.weekStarts);
  if (!night) return undefined;
  const say = (event: Event): string => label(event, rest.by_hand.value.is, speaker);
  const places = placesOf(night);
  const x = (event: Event): number => places.get(event) as number;
  const marks: Mark[] = [];
  let y = 0;
  const write = (line: readonly Run[], size: number): void => {
    const text = block(line, size, WIDTH, width);
    marks.push(...put(text, 0, y, 'start', width));
    y += text.height + 3;
  };
  if (others.length > 0) write(nameOf(night, afternoon, speaker), MEDIUM);
  const poles = flags(
    night.happenings.map((h) => ({
      x: x(h.event),
      value: timeOf(h, speaker),
      words: say(h.event),
      main: h.event === 'empty_by',
    })),
    (x('off') + x('on')) / 2,
    width,
  );
  const top = y + poles.height + 4;
  const stays = speaker.word(afternoon ? 'day-bar.bottom-on-afternoon' : 'day-bar.bottom-on');
  const holds = unit.is.elsewhere.value.is ? '' : speaker.word('day-bar.with-food');
  marks.push(...bars(places, stays + holds, top, poles.at(top, TOP), speaker, width));
  y = top + TOP + GAP + BOTTOM + (others.length > 0 ? 8 : OUTLINE / 2);
  for (const other of others) write(otherwise(other, night, afternoon, say, speaker), SMALL);

  const { start, empty_by: empty, off, on, first_pan: pan } = rest;
  const { destination } = unit;
  return {
    name: 'day-bar',
    width: WIDTH,
    height: y,
    alt: speaker.phrase(`day-bar.alt${afternoon ? '-afternoon' : ''}`, {
      start,
      empty,
      off,
      on,
      pan,
      ...(destination ? { destination } : {}),
    }),
    marks,
  };
};
