/**
 * An SVG logo to plain filled paths. Whatever could run, reach out, or look different in print than on a screen is a finding with its line:
 * the drawing program can write the same picture as filled outlines.
 */
import { SaxesParser, type SaxesTagNS } from 'saxes';
import svgpath from 'svgpath';
import { error, type Finding } from '../../base/finding.js';
import type { Place } from '../../base/place.js';
import type { Logo } from '../../compose/block.js';
import { numberIn, pathOfShape, SHAPES } from './svg-shape.js';
import type { ReadLogo } from './read-logo.js';

type Paths = Extract<Logo, { kind: 'paths' }>;

const SVG = 'http://www.w3.org/2000/svg';
/** Said to people and machines, not drawn. Definitions are of use only to what is refused. */
const UNSEEN: readonly string[] = ['title', 'desc', 'metadata', 'defs'];
/** May run or fetch something wherever they stand. */
const ACTIVE: readonly string[] = ['script', 'style', 'foreignObject', 'image', 'use', 'a', 'handler', 'listener'];
/** Properties that change a shape beyond its fill, with the values that change nothing. */
const PLAIN: Readonly<Record<string, RegExp>> = {
  'clip-path': /^none$/,
  mask: /^none$/,
  filter: /^none$/,
  marker: /^none$/,
  'marker-start': /^none$/,
  'marker-mid': /^none$/,
  'marker-end': /^none$/,
  stroke: /^(none|transparent)$/,
  opacity: /^(1|1?\.0+|100%)$/,
  'fill-opacity': /^(1|1?\.0+|100%)$/,
  'mix-blend-mode': /^normal$/,
  display: /^(inline|block)$/,
  visibility: /^visible$/,
  'transform-origin': /^0( 0)?$/,
};
/** Decimals kept of a coordinate: fine enough for a viewBox of one unit. */
const DECIMALS = 4;
/** Groups in groups: each more costs every one inside of it. */
const DEEPEST = 32;
/** A coordinate beyond this is on no page. */
const FARTHEST = 1e6;
const TRANSFORM = /^\s*(?:(?:matrix|translate|scale|rotate|skewX|skewY)\s*\([\d\s,.eE+-]*\)[\s,]*)*$/;

/** What a shape inherits. */
interface Style {
  readonly fill: string;
  readonly evenOdd: boolean;
  /** Transforms, outermost first. */
  readonly transform: string;
}

/** @returns `#rrggbb`, 'none', or undefined for what is no plain colour. */
const colourOf = (text: string): string | undefined => {
  const value = text.trim().toLowerCase();
  if (value === 'none' || value === 'transparent') return 'none';
  if (value === 'black') return '#000000';
  if (value === 'white') return '#ffffff';
  if (/^#[0-9a-f]{6}$/.test(value)) return value;
  if (/^#[0-9a-f]{3}$/.test(value)) return `#${[...value.slice(1)].map((c) => c + c).join('')}`;
  const rgb = /^rgb\(\s*(\d{1,3})\s*,\s*(\d{1,3})\s*,\s*(\d{1,3})\s*\)$/.exec(value);
  if (!rgb) return undefined;
  return `#${rgb
    .slice(1)
    .map((n) => Math.min(255, Number(n)).toString(16).padStart(2, '0'))
    .join('')}`;
};

/** Attributes of a tag by name, those of its `style` over them. */
const propertiesOf = (tag: SaxesTagNS): ReadonlyMap<string, string> => {
  const found = new Map<string, string>();
  for (const { prefix, local, value } of Object.values(tag.attributes)) if (prefix === '') found.set(local, value.trim());
  for (const declaration of (found.get('style') ?? '').split(';')) {
    const colon = declaration.indexOf(':');
    if (colon > 0) found.set(declaration.slice(0, colon).trim().toLowerCase(), declaration.slice(colon + 1).trim());
  }
  return found;
};

/** Path data in absolute moves, lines and curves alone; undefined for what can't be read. */
const plainPath = (d: string, transform: string): string | undefined => {
  const path = svgpath(d);
  // The reason is there, though the published types leave it out.
  if ((path as unknown as { err: string }).err !== '') return undefined;
  const parts: (string | number)[] = [];
  path
    .transform(transform)
    .abs()
    .unshort()
    .unarc()
    .round(DECIMALS)
    .iterate((segment) => void parts.push(...segment));
  const drawable = parts.every((part) => typeof part === 'string' || Math.abs(part) <= FARTHEST);
  return drawable ? parts.join(' ') : undefined;
};

/** A drawing smaller than this, in its own units, has no coordinates that a page could print. */
const LEAST = 1e-6;

interface Size {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const sizeOf = (properties: ReadonlyMap<string, string>): Size | undefined => {
  const box = properties
    .get('viewBox')
    ?.split(/[\s,]+/)
    .map(Number);
  const [x, y, width, height] = box ?? [0, 0, numberIn(properties.get('width') ?? ''), numberIn(properties.get('height') ?? '')];
  if (x === undefined || y === undefined || width === undefined || height === undefined) return undefined;
  return [x, y, width, height].every(Number.isFinite) && width > LEAST && height > LEAST ? { x, y, width, height } : undefined;
};

/** Why reading ended at the place reached: what follows would be guesses. */
class Broken extends Error {
  constructor(
    readonly code: string,
    readonly data: Finding['data'],
  ) {
    super(code);
  }
}

/** @param at the logo's file. */
export const readSvg = (text: string, at: Place): ReadLogo => {
  const parser = new SaxesParser({ xmlns: true });
  const paths: Paths['paths'][number][] = [];
  let size: Size | undefined;
  // The same thing said once: a picture with a thousand strokes has one mistake.
  const findings = new Map<string, Finding>();
  const refuse = (code: string, data: Finding['data'] = {}): void => {
    const key = JSON.stringify([code, data]);
    if (!findings.has(key)) findings.set(key, error(code, { ...at, line: parser.line, column: parser.column + 1 }, data));
  };
  const styles: Style[] = [{ fill: '#000000', evenOdd: false, transform: '' }];
  let unseen = 0;

  const checkProperties = (properties: ReadonlyMap<string, string>): void => {
    for (const [name, value] of properties) {
      const plain = PLAIN[name];
      if (/^on/i.test(name) || name === 'href') refuse('logo-active', { what: name });
      else if (name === 'transform' && !TRANSFORM.test(value)) refuse('logo-not-plain', { what: name });
      else if (plain && value !== '' && !plain.test(value)) refuse('logo-not-plain', { what: name });
    }
  };

  const draw = (tag: SaxesTagNS, properties: ReadonlyMap<string, string>, style: Style): void => {
    const shape = SHAPES.find((name) => name === tag.local);
    if (!shape) return void refuse('logo-not-plain', { what: tag.local });
    const d = pathOfShape(shape, (name) => properties.get(name) ?? '');
    const plain = d === undefined ? undefined : plainPath(d, style.transform);
    if (plain === undefined) refuse('logo-not-plain', { what: shape });
    else if (plain !== '' && style.fill !== 'none')
      paths.push({ d: plain, fill: style.fill, ...(style.evenOdd ? { evenOdd: true } : {}) });
  };

  const open = (tag: SaxesTagNS): void => {
    if (styles.length + unseen > DEEPEST) throw new Broken('logo-nested', { most: DEEPEST });
    const active = ACTIVE.includes(tag.local);
    if (active) refuse('logo-active', { what: tag.local });
    // What programs note for themselves stands in a space of names of their own, and is not drawn.
    if (active || unseen > 0 || tag.uri !== SVG || UNSEEN.includes(tag.local)) return void unseen++;
    const properties = propertiesOf(tag);
    checkProperties(properties);
    const outer = styles.at(-1) as Style;
    const written = properties.get('fill');
    const fill = written === undefined ? outer.fill : colourOf(written);
    if (fill === undefined) refuse('logo-colour', { wrote: (written ?? '').slice(0, 40) });
    const root = styles.length === 1;
    if (root) size = sizeOf(properties);
    const corner = root && size ? `translate(${-size.x} ${-size.y})` : '';
    const style: Style = {
      fill: fill ?? outer.fill,
      evenOdd: properties.has('fill-rule') ? properties.get('fill-rule') === 'evenodd' : outer.evenOdd,
      transform: `${outer.transform} ${corner} ${properties.get('transform') ?? ''}`.trim(),
    };
    styles.push(style);
    if (root && tag.local === 'svg' && !size) refuse('logo-no-size');
    else if (tag.local !== (root ? 'svg' : 'g')) draw(tag, properties, style);
  };

  parser.on('opentag', open);
  parser.on('closetag', () => void (unseen > 0 ? unseen-- : styles.pop()));
  parser.on('doctype', (doctype) => {
    if (doctype.includes('[')) refuse('logo-active', { what: 'DOCTYPE' });
  });
  parser.on('error', (fault) => {
    throw new Broken('logo-broken', { says: fault.message.replace(/^\d+:\d+: /, '') });
  });
  try {
    parser.write(text).close();
  } catch (fault) {
    if (!(fault instanceof Broken)) throw fault;
    refuse(fault.code, fault.data);
  }
  if (findings.size > 0) return { findings: [...findings.values()] };
  if (!size || paths.length === 0) return { findings: [error('logo-empty', at)] };
  return { logo: { kind: 'paths', width: size.width, height: size.height, paths }, findings: [] };
};
