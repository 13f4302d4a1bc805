/**
 * Logos as people have them: what can be printed comes out as opaque pixels or plain paths, and everything else is a finding at its place.
 */
import { PNG, type PNGOptions } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { place } from '../../src/base/place.js';
import { readLogo, type ReadLogo } from '../../src/fleet/logo/read-logo.js';

const read = (bytes: Uint8Array): ReadLogo => readLogo(bytes, place('brand/logo'));
const codes = (bytes: Uint8Array): readonly string[] => read(bytes).findings.map((f) => f.code);

/** A picture whose pixels all are `rgba`. */
const png = (rgba: readonly [number, number, number, number], options: PNGOptions = {}, width = 6, height = 4): Uint8Array => {
  const made = new PNG({ width, height });
  for (let i = 0; i < made.data.length; i++) made.data[i] = rgba[i % 4] as number;
  return new Uint8Array(PNG.sync.write(made, options));
};

const imageOf = (bytes: Uint8Array) => {
  const { logo } = read(bytes);
  if (logo?.kind !== 'image') throw new Error('no picture');
  return logo;
};

describe('a PNG', () => {
  // PNG specification 11.2.2: colour type 2 is RGB without an alpha channel, interlace method 0 is none.
  const header = (bytes: Uint8Array) => ({ depth: bytes[24], colour: bytes[25], interlace: bytes[28] });

  it('with transparency is set on white: half of black is a middle grey', () => {
    const logo = imageOf(png([0, 0, 0, 128]));
    expect(header(logo.bytes)).toEqual({ depth: 8, colour: 2, interlace: 0 });
    expect([...PNG.sync.read(Buffer.from(logo.bytes)).data.subarray(0, 4)]).toEqual([127, 127, 127, 255]);
    expect([logo.width, logo.height, logo.type]).toEqual([6, 4, 'png']);
  });

  it('without transparency keeps its colours', () => {
    const logo = imageOf(png([31, 77, 58, 255], { colorType: 2 }));
    expect([...PNG.sync.read(Buffer.from(logo.bytes)).data.subarray(0, 4)]).toEqual([31, 77, 58, 255]);
  });

  it('is the same each time that it is read', () => {
    expect(imageOf(png([9, 9, 9, 40])).bytes).toEqual(imageOf(png([9, 9, 9, 40])).bytes);
  });

  it('that is nearly white, or that nothing is left of on paper, is a warning', () => {
    expect(read(png([255, 255, 255, 255])).findings).toMatchObject([{ code: 'logo-faint', severity: 'warning' }]);
    expect(codes(png([0, 0, 0, 0]))).toEqual(['logo-faint']);
  });

  it('that is broken off is a finding', () => {
    const whole = png([0, 0, 0, 255], {}, 40, 40);
    for (const length of [9, 20, 40, whole.length - 14]) {
      const [finding] = read(whole.subarray(0, length)).findings;
      expect(finding?.code).toMatch(/^logo-(cut-short|broken)$/);
      expect(finding?.severity).toBe('error');
    }
  });

  it('that says it is enormous is not decoded', () => {
    const bomb = png([0, 0, 0, 255]);
    new DataView(bomb.buffer).setUint32(16, 60_000);
    new DataView(bomb.buffer).setUint32(20, 60_000);
    expect(read(bomb).findings).toMatchObject([{ code: 'logo-too-many-pixels', data: { width: 60_000, height: 60_000 } }]);
  });
});

/** 8 by 4 pixels of one green, quality 10, written by an image program without notes. */
const JPEG = Uint8Array.from(
  atob(
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAFA3PEY8MlBGQUZaVVBfeMiCeG5uePWvuZHI////////////////////////////////////////////////////2wBDAVVaWnhpeOuCguv/////////////////////////////////////////////////////////////////////////wAARCAAEAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAP/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAAL/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCAAl//2Q==',
  ),
  (c) => c.charCodeAt(0),
);

/** The picture with a segment put in after its first marker. */
const withSegment = (marker: number, content: readonly number[]): Uint8Array =>
  Uint8Array.from([...JPEG.subarray(0, 2), 0xff, marker, 0, content.length + 2, ...content, ...JPEG.subarray(2)]);

/** An Exif block with one entry, the orientation (tag 0x0112, a short), in big-endian order. */
const exif = (orientation: number): readonly number[] => [
  ...[...'Exif\0\0MM\0*'].map((c) => c.charCodeAt(0)),
  ...[0, 0, 0, 8, 0, 1],
  ...[0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0],
];

describe('a JPEG', () => {
  it('keeps its pixels', () => {
    expect(imageOf(JPEG)).toEqual({ kind: 'image', type: 'jpeg', width: 8, height: 4, bytes: JPEG });
  });

  it('loses what was noted beside them', () => {
    const secret = [...'51.5 N 0.1 W'].map((c) => c.charCodeAt(0));
    expect(imageOf(withSegment(0xfe, secret)).bytes).toEqual(JPEG);
    expect(imageOf(withSegment(0xe1, exif(1))).bytes).toEqual(JPEG);
  });

  it('that a camera turned is a finding', () => {
    expect(codes(withSegment(0xe1, exif(6)))).toEqual(['logo-turned']);
  });

  it('that is broken off is a finding', () => {
    for (const length of [2, 30, 200, JPEG.length - 2]) expect(codes(JPEG.subarray(0, length))).toEqual(['logo-cut-short']);
  });

  it('of a rare kind is a finding', () => {
    const lossless = JPEG.slice();
    lossless[lossless.indexOf(0xc0)] = 0xc3;
    expect(codes(lossless)).toEqual(['logo-rare-jpeg']);
  });
});

const svg = (content: string, attributes = 'viewBox="0 0 40 20"'): Uint8Array =>
  new TextEncoder().encode(
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${attributes}>\n${content}\n</svg>`,
  );
const pathsOf = (content: string, attributes?: string) => {
  const { logo, findings } = read(svg(content, attributes));
  expect(findings).toEqual([]);
  if (logo?.kind !== 'paths') throw new Error('no paths');
  return logo.paths;
};

describe('an SVG', () => {
  it('becomes paths of absolute moves, lines and curves', () => {
    expect(pathsOf('<path d="m1 2 3 4h5v-6z" fill="#1f4d3a"/>')).toEqual([{ d: 'M 1 2 L 4 6 H 9 V 0 Z', fill: '#1f4d3a' }]);
    const [round] = pathsOf('<circle cx="10" cy="10" r="4"/>');
    expect(round?.d).toMatch(/^M 6 10 C [^A]+Z$/);
    expect(round?.fill).toBe('#000000');
  });

  it('has rectangles, rounded or not, and polygons', () => {
    expect(pathsOf('<rect x="1" y="2" width="3" height="4"/>')[0]?.d).toBe('M 1 2 H 4 V 6 H 1 Z');
    // A quarter of an ellipse as one cubic: the control points lie 4/3 (sqrt 2 - 1) of a radius along (any text on Bézier curves).
    expect(pathsOf('<rect width="10" height="10" rx="2"/>')[0]?.d).toContain('C 9.1046 0 10 0.8954 10 2');
    expect(pathsOf('<polygon points="0,0 4,0 4,4"/>')[0]?.d).toBe('M 0 0 L 4 0 L 4 4 Z');
  });

  it('hands on fills, rules and transforms of groups', () => {
    expect(
      pathsOf(
        '<g fill="rgb(255, 0, 0)" fill-rule="evenodd" transform="translate(2 1)"><path transform="scale(2)" d="M1 1h1v1z"/></g>',
      ),
    ).toEqual([{ d: 'M 4 3 H 6 V 5 Z', fill: '#ff0000', evenOdd: true }]);
    expect(pathsOf('<path d="M1 1h1v1z" style="fill:#35A; stroke: none"/><path d="M0 0h1v1z" fill="none"/>')).toEqual([
      { d: 'M 1 1 H 2 V 2 Z', fill: '#3355aa' },
    ]);
  });

  it('starts at the corner of its viewBox', () => {
    expect(pathsOf('<path d="M10 10h1v1z"/>', 'viewBox="10 10 5 5"')[0]?.d).toBe('M 0 0 H 1 V 1 Z');
    expect(read(svg('<path d="M0 0h1v1z"/>', 'width="12px" height="6"')).logo).toMatchObject({ width: 12, height: 6 });
  });

  it('leaves out what is not drawn: titles, notes of programs, definitions', () => {
    expect(
      pathsOf(
        '<title>Name</title><metadata><x:y xmlns:x="urn:x" z="1"/></metadata><defs><linearGradient id="a"/></defs><path d="M0 0h1v1z"/>',
      ),
    ).toHaveLength(1);
  });

  it.each([
    ['a script', '<script>alert(1)</script>', 'logo-active', 2],
    ['a script among definitions', '<defs>\n<script/></defs>', 'logo-active', 3],
    ['a handler', '<path onclick="x()" d="M0 0h1v1z"/>', 'logo-active', 2],
    ['a picture from elsewhere', '<image href="http://example.com/x.png"/>', 'logo-active', 2],
    ['a copy of something elsewhere', '<use xlink:href="other.svg#a"/>', 'logo-active', 2],
    ['HTML', '<foreignObject/>', 'logo-active', 2],
    ['a style sheet', '<style>path{fill:red}</style>', 'logo-active', 2],
    ['an animation', '<animate attributeName="d"/>', 'logo-not-plain', 2],
    ['text', '<text>Name</text>', 'logo-not-plain', 2],
    ['a line', '<path stroke="#000" d="M0 0h1v1z"/>', 'logo-not-plain', 2],
    ['half transparency', '<g opacity=".5"><path d="M0 0h1v1z"/></g>', 'logo-not-plain', 2],
    ['a mask', '<path mask="url(#a)" d="M0 0h1v1z"/>', 'logo-not-plain', 2],
    ['a width in percent', '<rect width="50%" height="1"/>', 'logo-not-plain', 2],
    ['a path with a fault', '<path d="M0 0 L banana"/>', 'logo-not-plain', 2],
    ['a transform with a fault', '<path transform="wobble(3)" d="M0 0h1v1z"/>', 'logo-not-plain', 2],
    ['a gradient', '<path fill="url(#a)" d="M0 0h1v1z"/>', 'logo-colour', 2],
    ['a colour that no one knows', '<path fill="mauvish" d="M0 0h1v1z"/>', 'logo-colour', 2],
    ['a tag left open', '<g><path d="M0 0h1v1z"/>', 'logo-broken', 3],
    ['an entity of its own', '<path d="&x;"/>', 'logo-broken', 2],
    ['nothing', '', 'logo-empty', undefined],
  ])('with %s is a finding at its line', (_, content, code, line) => {
    const { logo, findings } = read(svg(content));
    expect(logo).toBeUndefined();
    expect(findings.map((f) => [f.code, f.severity, f.at.doc, f.at.line])).toEqual([[code, 'error', 'brand/logo', line]]);
  });

  it('without a size is a finding', () => {
    expect(codes(svg('<path d="M0 0h1v1z"/>', ''))).toEqual(['logo-no-size']);
    expect(codes(svg('<path d="M0 0h1v1z"/>', 'viewBox="0 0 wide high"'))).toEqual(['logo-no-size']);
  });

  it('with definitions of entities is a finding: they can grow without end', () => {
    const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>`;
    expect(codes(new TextEncoder().encode(bomb))).toEqual(['logo-active']);
  });

  it('says the same thing once', () => {
    expect(codes(svg('<path stroke="#000" d="M0 0h1v1z"/>'.repeat(50)))).toEqual(['logo-not-plain']);
  });

  it('in white alone is a warning', () => {
    expect(read(svg('<path fill="#fff" d="M0 0h1v1z"/>')).findings).toMatchObject([{ code: 'logo-faint', severity: 'warning' }]);
  });
});

describe('what is no picture', () => {
  it.each([
    ['text', 'hello'],
    ['nothing', ''],
    ['a GIF', 'GIF89a\x01\x00'],
  ])('%s', (_, text) => {
    expect(codes(new TextEncoder().encode(text))).toEqual(['logo-unknown']);
  });
  it('bytes that are no text', () => {
    expect(codes(Uint8Array.from([0, 159, 146, 150]))).toEqual(['logo-unknown']);
  });
  it('HTML', () => {
    expect(codes(new TextEncoder().encode('<html><body>x</body></html>'))[0]).toMatch(/^logo-/);
  });
});
