/**
 * The basic shapes of SVG 1.1 (chapter 9) as path data. An attribute that is no plain number of the user's units is not understood.
 */
export const SHAPES = ['path', 'rect', 'circle', 'ellipse', 'polygon', 'polyline'] as const;
export type ShapeName = (typeof SHAPES)[number];

/** @returns undefined for what is no plain number. */
export const numberIn = (text: string): number | undefined =>
  /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?(px)?\s*$/i.test(text) ? Number.parseFloat(text) : undefined;

const oval = (cx: number, cy: number, rx: number, ry: number): string =>
  rx <= 0 || ry <= 0 ? '' : `M ${cx - rx} ${cy} A ${rx} ${ry} 0 1 0 ${cx + rx} ${cy} A ${rx} ${ry} 0 1 0 ${cx - rx} ${cy} Z`;

const rect = (x: number, y: number, w: number, h: number, rx: number, ry: number): string => {
  if (w <= 0 || h <= 0) return '';
  const a = Math.min(rx, w / 2);
  const b = Math.min(ry, h / 2);
  if (a <= 0 || b <= 0) return `M ${x} ${y} h ${w} v ${h} h ${-w} Z`;
  const corner = (dx: number, dy: number): string => `a ${a} ${b} 0 0 1 ${dx} ${dy}`;
  return [
    `M ${x + a} ${y} h ${w - 2 * a} ${corner(a, b)} v ${h - 2 * b} ${corner(-a, b)}`,
    `h ${2 * a - w} ${corner(-a, -b)} v ${2 * b - h} ${corner(a, -b)} Z`,
  ].join(' ');
};

/**
 * @param attribute value by name, '' for one that is not written.
 * @returns path data, '' for a shape that paints nothing, undefined for one with an attribute that is not understood.
 */
export const pathOfShape = (name: ShapeName, attribute: (name: string) => string): string | undefined => {
  const numbers = (...names: readonly string[]): readonly number[] | undefined => {
    const read = names.map((n) => (attribute(n) === '' ? 0 : numberIn(attribute(n))));
    return read.every((n) => n !== undefined) ? read : undefined;
  };
  switch (name) {
    case 'path':
      return attribute('d');
    case 'polygon':
    case 'polyline': {
      const points = attribute('points').trim();
      return points === '' ? '' : `M ${points} Z`;
    }
    case 'circle': {
      const [cx, cy, r] = numbers('cx', 'cy', 'r') ?? [];
      return cx === undefined || cy === undefined || r === undefined ? undefined : oval(cx, cy, r, r);
    }
    case 'ellipse': {
      const [cx, cy, rx, ry] = numbers('cx', 'cy', 'rx', 'ry') ?? [];
      return cx === undefined || cy === undefined || rx === undefined || ry === undefined ? undefined : oval(cx, cy, rx, ry);
    }
    case 'rect': {
      const read = numbers('x', 'y', 'width', 'height', 'rx', 'ry');
      if (!read) return undefined;
      const [x, y, w, h, rx, ry] = read as [number, number, number, number, number, number];
      // A radius that is not written is the other one.
      return rect(x, y, w, h, attribute('rx') === '' ? ry : rx, attribute('ry') === '' ? rx : ry);
    }
  }
};
