/**
 * A JPEG logo: its pixels stay as they are; what a camera or a program noted beside them is left out, since nobody chose to publish it.
 */
import { error } from '../../base/finding.js';
import type { Place } from '../../base/place.js';
import type { ReadLogo } from './read-logo.js';

/** Markers (ITU-T T.81, table B.1). */
const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COM = 0xfe;
const APP0 = 0xe0;
const APP1 = 0xe1;
/** Says how colours are coded, so it stays. */
const APP14 = 0xee;
const APP15 = 0xef;
/** Starts of frames that every reader knows: baseline, extended and progressive. */
const FRAMES: readonly number[] = [0xc0, 0xc1, 0xc2];
/** Length of a frame's head at least, and how many colour components one may have: grey, RGB, CMYK. */
const FRAME = 10;
const COMPONENTS: readonly number[] = [1, 3, 4];

/** Tag of the orientation in an Exif block (TIFF 6.0: 12 bytes an entry, the value at its end); 1 is upright. */
const orientationIn = (segment: DataView): number => {
  const exif = 10; // marker, length, "Exif", two zeros
  if (segment.byteLength < exif + 8 || segment.getUint32(4) !== 0x45786966) return 1;
  const little = segment.getUint16(exif) === 0x4949;
  const directory = exif + segment.getUint32(exif + 4, little);
  if (directory + 2 > segment.byteLength) return 1;
  for (let i = 0; i < segment.getUint16(directory, little); i++) {
    const entry = directory + 2 + i * 12;
    if (entry + 12 > segment.byteLength) return 1;
    if (segment.getUint16(entry, little) === 0x0112) return segment.getUint16(entry + 8, little);
  }
  return 1;
};

export const readJpeg = (bytes: Uint8Array, at: Place): ReadLogo => {
  const short: ReadLogo = { findings: [error('logo-cut-short', at)] };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length;
  if (bytes[end - 2] !== 0xff || bytes[end - 1] !== EOI) return short;
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let size: { readonly width: number; readonly height: number } | undefined;
  let from = 2;
  for (;;) {
    if (from + 4 > end || view.getUint8(from) !== 0xff) return short;
    const marker = view.getUint8(from + 1);
    const to = from + 2 + view.getUint16(from + 2);
    if (marker === SOI || to > end) return short;
    if (marker === APP1 && orientationIn(new DataView(bytes.buffer, bytes.byteOffset + from, to - from)) !== 1)
      return { findings: [error('logo-turned', at)] };
    if (
      FRAMES.includes(marker) &&
      to - from >= FRAME &&
      view.getUint8(from + 4) === 8 &&
      COMPONENTS.includes(view.getUint8(from + 9))
    )
      size = { height: view.getUint16(from + 5), width: view.getUint16(from + 7) };
    if (marker === SOS) break;
    const note = marker === COM || (marker > APP0 && marker <= APP15 && marker !== APP14);
    if (!note) kept.push(bytes.subarray(from, to));
    from = to;
  }
  if (!size || size.width === 0 || size.height === 0) return { findings: [error('logo-rare-jpeg', at)] };
  kept.push(bytes.subarray(from));
  const whole = new Uint8Array(kept.reduce((sum, part) => sum + part.length, 0));
  let filled = 0;
  for (const part of kept) {
    whole.set(part, filled);
    filled += part.length;
  }
  return { logo: { kind: 'image', ...size, bytes: whole, type: 'jpeg' }, findings: [] };
};
