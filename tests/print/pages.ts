/**
 * Six pages of a kitchen that is not, fixed whatever the plan says: what print makes of blocks, not what the templates say.
 */
import type { Block, Page } from '../../src/compose/block.js';
import { callout, cell, columns, everyBlock, face, heading, list, page, paragraph, runs, steps, drawing } from './make.js';

const figure = (share: number, caption?: string): Block => ({
  block: 'figure',
  drawing,
  share,
  line: 1,
  ...(caption === undefined ? {} : { caption: runs(caption) }),
});

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const rowOf = (task: string, times: readonly string[]): readonly ReturnType<typeof cell>[] => [
  cell(task, { head: true }),
  ...times.map((time) => (time === '' ? cell('', { tone: 'mute' }) : cell(`{${time}}`, { hand: 'tick' }))),
];
const nights = ['', '22:00', '22:00', '22:00', '23:30', '23:30', '21:00'];

const label = (name: string, text: string): readonly Block[] => [paragraph(name, 'label'), paragraph(text)];

export const PAGES = {
  /** Read from across the room and at the unit: one large sheet. */
  poster: page(
    [
      face('room', paragraph('{22:45}', 'signal'), paragraph('Top empty. The bottom stays on.', 'message')),
      face(
        'unit',
        columns(
          [
            heading(2, 'At night'),
            steps(['{22:15}', 'Move the pans.'], ['{22:45}', 'Leave the covers open.'], ['', 'Nothing else.']),
          ],
          [heading(2, 'Never'), list('never', '**Never chip ice.** It breaks the wall.', 'Never turn a knob.'), figure(1)],
        ),
        callout('danger', 'Fire or sparks: get out.', 'Call {911} from outside.'),
      ),
    ],
    { sheet: 'tabloid', length: 'one', finish: 'laminated', distance: 'room' },
  ),
  /** The night of a pair, on a smaller sheet, of a chain that nobody approved yet. */
  night: page(
    [
      face('room', paragraph('{22:45}', 'signal'), paragraph('Top empty.', 'message')),
      face('unit', steps(['{22:15}', 'Move the pans.'], ['', 'Wipe.']), list('never', 'Chip ice.')),
    ],
    {
      length: 'one',
      finish: 'laminated',
      distance: 'room',
      words: { ...everyBlock.words, draft: 'Draft: not approved' },
      brand: {
        colour: '#8a1f11',
        logo: { kind: 'paths', width: 60, height: 20, paths: [{ d: 'M 0 20 L 30 0 L 60 20 Z', fill: '#8a1f11' }] },
      },
    },
  ),
  /** A column a day. */
  week: page(
    [
      heading(1, 'Week'),
      {
        block: 'table',
        columns: [{ weight: 3, align: 'start' }, ...DAYS.map(() => ({ weight: 1, align: 'middle' as const }))],
        head: [[cell('Line 2'), ...DAYS.map((day) => cell(day))]],
        rows: [
          [cell('Close down', { head: true, tone: 'strong', span: 8 })],
          rowOf('Empty the top', nights),
          rowOf('Covers open', nights),
          [cell('Warmest pan', { head: true }), ...DAYS.map((_, i) => cell('', i === 0 ? { tone: 'mute' } : { hand: 'write' }))],
        ],
        line: 1,
      },
      { block: 'blank', label: runs('What was odd'), lines: 2, line: 1 },
    ],
    { orientation: 'landscape' },
  ),
  /** The four signal words, and what a callout may hold. */
  callouts: page([
    heading(1, 'Signal words'),
    callout('danger', 'Live parts.', 'Leave the panel shut.'),
    callout('warning', 'Gas that burns.', 'No flame.'),
    callout('caution', 'Sharp fins.', 'Wear gloves.'),
    callout('notice', 'Ask for a new sheet.'),
  ]),
  /** Narrow columns in Spanish: hyphens, words that are too long, a serial number. */
  columns: page(
    [
      heading(1, 'Instrucciones de descongelamiento'),
      columns(
        [
          heading(3, 'Antes'),
          paragraph('El descongelamiento automático necesita que la parte superior esté completamente vacía.'),
        ],
        [heading(3, 'Después'), list('dot', 'Compruebe la temperatura.', 'Número de serie {OC15-20417-B9}.')],
        [heading(3, 'Responsable'), list('tick', 'Encargada', 'Técnico de refrigeración')],
      ),
      figure(0.6, 'Una noche.'),
    ],
    { lang: 'es' },
  ),
  /** Labels to cut out. */
  labels: page([
    heading(1, 'Labels'),
    {
      block: 'cut-outs',
      across: 2,
      items: [
        label('Top only', 'This clock stops the top.'),
        label('Never off', 'The bottom stays on day and night.'),
        label('Left so by', '{A. Person}'),
      ],
      line: 1,
    },
  ]),
} as const satisfies Readonly<Record<string, Page>>;
