/**
 * A figure's marks as paint of a sheet: scaled, in the colours of the page.
 */
import { printable } from './characters.js';
import type { Faces } from './faces.js';
import type { Paint } from './sheet.js';
import type { Palette } from './theme.js';

export const drawingPaints = (placed: Extract<Paint, { kind: 'drawing' }>, faces: Faces, palette: Palette): readonly Paint[] => {
  const { x, y, scale, drawing } = placed;
  return drawing.marks.map((mark): Paint => {
    if (mark.mark === 'path') {
      return {
        kind: 'path',
        x,
        y,
        scale,
        d: mark.d,
        ...(mark.fill === undefined ? {} : { fill: palette.shape(mark.fill) }),
        ...(mark.stroke === undefined ? {} : { stroke: palette.shape(mark.stroke) }),
        ...(mark.width === undefined ? {} : { width: mark.width }),
        ...(mark.dash === undefined ? {} : { dash: mark.dash }),
      };
    }
    const face = mark.strong ? 'strong' : 'regular';
    const text = printable(mark.text);
    const width = faces[face].width(text) * mark.size;
    const left = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? width / 2 : width;
    return {
      kind: 'text',
      x: x + (mark.x - left) * scale,
      y: y + mark.y * scale,
      size: mark.size * scale,
      face,
      pieces: [text],
      colour: palette.text(mark.tone),
    };
  });
};
