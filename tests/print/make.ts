/** Short ways to write blocks and pages in tests. `{value}` marks a value of the plan, `**strong**` strong text. */
import type { Block, Cell, Distance, Level, Page, Role } from '../../src/compose/block.js';
import type { Run } from '../../src/base/run.js';
import type { Drawing } from '../../src/draw/drawing.js';

export const runs = (text: string): readonly Run[] =>
  text
    .split(/(\*\*[^*]+\*\*|\{[^}]+\})/)
    .filter((part) => part !== '')
    .map((part) =>
      part.startsWith('**')
        ? { text: part.slice(2, -2), strong: true }
        : part.startsWith('{')
          ? { text: part.slice(1, -1), value: 'plan.path' }
          : { text: part },
    );

export const heading = (level: 1 | 2 | 3 | 4, text: string, line = 1): Block => ({
  block: 'heading',
  level,
  text: runs(text),
  line,
});
export const paragraph = (text: string, role: Role = 'body', line = 1): Block => ({
  block: 'paragraph',
  role,
  text: runs(text),
  line,
});
export const list = (mark: 'dot' | 'tick' | 'never', ...items: string[]): Block => ({
  block: 'list',
  mark,
  items: items.map((item) => [paragraph(item)]),
  line: 1,
});
export const steps = (...items: readonly (readonly [when: string, words: string])[]): Block => ({
  block: 'steps',
  items: items.map(([when, words]) => ({ ...(when === '' ? {} : { when: runs(when) }), body: [paragraph(words)] })),
  line: 1,
});
export const callout = (level: Level, title: string, ...body: string[]): Block => ({
  block: 'callout',
  level,
  title: runs(title),
  body: body.map((text) => paragraph(text)),
  line: 1,
});
export const face = (distance: Distance, ...body: Block[]): Block => ({ block: 'face', distance, body, line: 1 });
export const columns = (...bodies: Block[][]): Block => ({
  block: 'columns',
  columns: bodies.map((body) => ({ weight: 1, body })),
  line: 1,
});
export const cell = (text: string, traits: Omit<Cell, 'text'> = {}): Cell => ({ text: runs(text), ...traits });

export const drawing: Drawing = {
  name: 'bar',
  width: 300,
  height: 60,
  alt: [{ text: 'The top is off from 23:15 to 05:15. The bottom is always on.' }],
  marks: [
    { mark: 'path', d: 'M 0 10 h 300 v 20 h -300 Z', fill: 'cold' },
    { mark: 'path', d: 'M 100 10 Q 150 0 200 10 v 20 h -100 Z', fill: 'wash' },
    { mark: 'text', x: 150, y: 50, text: '23:15', size: 14, anchor: 'middle', tone: 'ink', value: 'plan.path' },
  ],
};

export const page = (body: readonly Block[], over: Partial<Page> = {}): Page => ({
  title: 'A page',
  lang: 'en-US',
  sheet: 'letter',
  orientation: 'portrait',
  length: 'flow',
  finish: 'plain',
  distance: 'hand',
  head: runs('{Sandwich line 2}, north wall'),
  foot: [runs('Your local health rules come first.')],
  brand: { colour: '#00625c' },
  words: { sheetOf: '{n} of {of}', levels: { danger: 'Danger', warning: 'Warning', caution: 'Caution', notice: 'Notice' } },
  body,
  ...over,
});

/** A page with every kind of block. */
export const everyBlock: Page = page([
  face('unit', paragraph('Top empty by {22:45}', 'signal'), paragraph('The top goes off at {23:15}.', 'message')),
  heading(2, 'Tonight', 10),
  steps(['22:15', 'Wash your hands.'], ['', 'Probe the food in **each** pan.']),
  columns(
    [heading(2, 'Never', 20), list('never', 'Chip ice.', 'Turn a knob.')],
    [heading(2, 'Call', 22), list('dot', 'Ice in the bottom.')],
  ),
  list('tick', 'Doors shut.'),
  { block: 'figure', drawing, caption: runs('One night.'), share: 0.8, line: 30 },
  {
    block: 'table',
    caption: runs('Tick each box.'),
    columns: [
      { weight: 2, align: 'start' },
      { weight: 1, align: 'middle' },
      { weight: 1, align: 'end' },
    ],
    head: [[cell('Task'), cell('Mon'), cell('Tue')]],
    rows: [
      [cell('Lid on', { head: true }), cell('', { hand: 'tick' }), cell('closed', { tone: 'mute' })],
      [cell('Reading', { head: true }), cell('', { hand: 'write' }), cell('{38 °F}', { tone: 'strong' })],
      [cell('Two days', { head: true }), cell('both', { span: 2 })],
    ],
    line: 40,
  },
  callout('danger', 'Fire: get out.', 'Call {911}.'),
  callout('notice', 'Ask for a new sheet.'),
  { block: 'optional', rank: 3, body: [paragraph('Have both readings ready.', 'fine')], line: 50 },
  { block: 'blank', label: runs('Anything odd?'), lines: 2, line: 52 },
  paragraph('Page two says {hola} and more.'),
  { block: 'new-sheet', line: 60 },
  heading(3, 'Morning', 61),
  paragraph('The top comes on by itself.', 'label'),
]);
