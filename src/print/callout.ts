/**
 * Callouts: a signal-word panel in the manner of ANSI Z535.4 over the message, in one frame that never breaks.
 */
import type { Block } from '../compose/block.js';
import { space, typeAt, type Setting } from './setting.js';
import { element, heightOf, slab, stack, type Slab } from './sheet.js';
import { alertSymbol, alertWidth, bar, filled, put } from './signs.js';
import { rectangle } from '../draw/drawing.js';
import { setText, textSlabs } from './text.js';
import { PANELS, PAPER } from './theme.js';

type Callout = Extract<Block, { block: 'callout' }>;

export const layCallout = (block: Callout, setting: Setting): readonly Slab[] => {
  const { job } = setting;
  const panel = PANELS[block.level];
  const body = typeAt(setting, 'body');
  const of = element('Sect', setting.parent);
  const frame = body.size * 0.14;
  const pad = body.size * 0.6;
  const inner = { ...setting, x: setting.x + pad + frame, width: setting.width - 2 * (pad + frame), parent: of };

  const signal = { ...typeAt(setting, 'h3'), face: 'heavy' as const };
  const symbol = panel.alert ? signal.size * 0.95 : 0;
  const left = panel.alert ? alertWidth(symbol) + signal.size * 0.35 : 0;
  const word = setText(
    [{ text: job.levelWords[block.level].toUpperCase() }],
    signal,
    { ...inner, x: inner.x + left, width: inner.width - left },
    { colour: panel.letters, of: element('P', of) },
  );
  const strip = Math.max(word.height, symbol * 1.35) + signal.size * 0.1;
  const wordTop = (strip - word.height) / 2;
  const head = slab(block, 0, strip, (top) => [
    ...put(setting.x, top, [bar(setting.width, strip, panel.ground)]),
    ...(panel.alert
      ? put(inner.x, top + (strip - symbol) / 2 - symbol * 0.04, alertSymbol(symbol, panel.letters, panel.ground))
      : []),
    ...word.paint(top + wordTop),
  ]);

  const title =
    block.title.length === 0
      ? []
      : textSlabs(
          setText(block.title, { ...body, face: 'strong' }, inner, { colour: job.palette.text('ink'), of: element('P', of) }),
          block,
          pad * 0.7,
        );
  const message = setting.job
    .lay(block.body, inner)
    .map((s, i) => (i === 0 ? { ...s, gap: title.length === 0 ? pad * 0.7 : space(setting, 0.25) } : s));
  const slabs = [head, ...title, ...message, slab(block, pad * 0.8, 0)];
  const height = heightOf(slabs);
  const box = [
    filled(rectangle(0, 0, setting.width, height), PAPER),
    {
      d: rectangle(frame / 2, frame / 2, setting.width - frame, height - frame),
      stroke: panel.alert || block.level === 'notice' ? job.palette.shape('ink') : panel.ground,
      width: frame,
    },
  ];
  return [slab(block, space(setting, 0.8), height, (top) => [...put(setting.x, top, box), ...stack(slabs, top).paints])];
};
