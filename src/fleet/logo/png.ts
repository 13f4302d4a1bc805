/**
 * A PNG logo to opaque pixels: what shines through is set on white, as on paper, and the file is written anew, so that every page can embed it as it is.
 * (A PNG with transparency or interlacing would be decoded on other threads, in an order that no one can repeat.)
 */
import { PNG } from 'pngjs';
import { error, warning } from '../../base/finding.js';
import type { Place } from '../../base/place.js';
import { standsOut } from '../../print/theme.js';
import type { ReadLogo } from './read-logo.js';

/** A logo is printed 45 mm wide: this is 100 times what a printer can show of it, and small enough to decode. */
const MOST_PIXELS = 8_000_000;
/** Of a logo a mark is wide and high; a single row of millions takes seconds to look through. */
const LONGEST_SIDE = 8000;

/** Where the header holds width and height, both in four bytes, and whether it is interlaced (PNG specification, 11.2.2 IHDR). */
const IHDR = 16;
const INTERLACED = 28;

/** The names of its chunks, in order, as far as they are whole (PNG specification, 5.3): length, name, data, sum. */
const chunksOf = (bytes: Uint8Array): readonly string[] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found: string[] = [];
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at))
    found.push(String.fromCharCode(...bytes.subarray(at + 4, at + 8)));
  return found;
};

const hex = (r: number, g: number, b: number): string => `#${((r << 16) | (g << 8) | b).toString(16).padStart(6, '0')}`;

export const readPng = (bytes: Uint8Array, at: Place): ReadLogo => {
  if (bytes.length <= INTERLACED) return { findings: [error('logo-cut-short', at)] };
  const header = new DataView(bytes.buffer, bytes.byteOffset);
  const [width, height] = [header.getUint32(IHDR), header.getUint32(IHDR + 4)];
  if (width === 0 || height === 0) return { findings: [error('logo-broken', at, { says: 'a side of it has no length' })] };
  if (width * height > MOST_PIXELS || Math.max(width, height) > LONGEST_SIDE)
    return { findings: [error('logo-too-many-pixels', at, { width, height })] };
  // A second header would change the size after it was looked at, and what is interlaced unpacks to whatever length.
  if (chunksOf(bytes).filter((name) => name === 'IHDR').length !== 1)
    return { findings: [error('logo-broken', at, { says: 'it has not one header' })] };
  if (bytes[INTERLACED] === 1) return { findings: [error('logo-interlaced', at)] };
  let png: PNG;
  try {
    png = PNG.sync.read(Buffer.from(bytes));
  } catch (fault) {
    return { findings: [error('logo-broken', at, { says: fault instanceof Error ? fault.message : String(fault) })] };
  }
  const { data } = png;
  let stands = false;
  for (let i = 0; i < data.length; i += 4) {
    const alpha = (data[i + 3] as number) / 255;
    for (let c = i; c < i + 3; c++) data[c] = Math.round((data[c] as number) * alpha + 255 * (1 - alpha));
    data[i + 3] = 255;
    stands ||= standsOut(hex(data[i] as number, data[i + 1] as number, data[i + 2] as number));
  }
  const opaque = PNG.sync.write(png, { colorType: 2, inputColorType: 6, bitDepth: 8, inputHasAlpha: true });
  return {
    logo: { kind: 'image', width: png.width, height: png.height, bytes: new Uint8Array(opaque), type: 'png' },
    findings: stands ? [] : [warning('logo-faint', at)],
  };
};
