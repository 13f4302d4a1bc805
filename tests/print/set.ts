/** Sets a page on its sheets without writing a file, and the boxes of what is painted. */
import { place } from '../../src/base/place.js';
import type { Page } from '../../src/compose/block.js';
import { fit, type Fitted } from '../../src/print/fit.js';
import { hyphenatorFor } from '../../src/print/hyphens.js';
import type { Sheet } from '../../src/print/sheet.js';
import { paletteOf } from '../../src/print/theme.js';
import { faces } from './faces.js';

const en = await hyphenatorFor('en-US');
const es = await hyphenatorFor('es');

export const set = (page: Page): Fitted =>
  fit({
    page,
    faces,
    palette: paletteOf(page.brand.colour),
    hyphenator: (lang = page.lang) => (lang.startsWith('es') ? es : en),
    at: place('page.md.hbs'),
  });

export interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Boxes of the texts of a sheet, from the top of the capitals to the foot of a `p`. */
export const textBoxes = (sheet: Sheet): readonly Box[] =>
  sheet.paints.flatMap((paint) => {
    if (paint.kind !== 'text') return [];
    const text = paint.pieces.join('');
    const shown = text.trimEnd();
    if (shown === '') return [];
    const width = faces[paint.face].width(shown) * paint.size;
    return [
      {
        text: shown,
        left: paint.x,
        right: paint.x + width,
        top: paint.y - 0.668 * paint.size,
        bottom: paint.y + 0.2 * paint.size,
      },
    ];
  });

/** Points by which boxes may touch: rounding, and the kerning of a word that was measured in parts. */
const SLACK = 0.5;

export const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right - SLACK && b.left < a.right - SLACK && a.top < b.bottom - SLACK && b.top < a.bottom - SLACK;
