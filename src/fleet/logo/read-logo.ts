/**
 * A chain's logo from the bytes of its file, by what it is and not by what it is called.
 */
import { error, warning, type Finding } from '../../base/finding.js';
import type { Place } from '../../base/place.js';
import type { Logo } from '../../compose/block.js';
import { standsOut } from '../../print/theme.js';
import { readText } from '../../read/yaml.js';
import { readJpeg } from './jpeg.js';
import { readPng } from './png.js';
import { readSvg } from './svg.js';

export interface ReadLogo {
  /** Absent when a finding of severity error says why. */
  readonly logo?: Logo;
  readonly findings: readonly Finding[];
}

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean => start.every((byte, i) => bytes[i] === byte);

/** @param at the logo's file. */
export const readLogo = (bytes: Uint8Array, at: Place): ReadLogo => {
  if (startsWith(bytes, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return readPng(bytes, at);
  if (startsWith(bytes, 0xff, 0xd8)) return readJpeg(bytes, at);
  const { text, findings } = readText(at.doc, bytes);
  const large = findings.filter((f) => f.code === 'file-too-large');
  if (large.length > 0) return { findings: large };
  if (!/^\s*</.test(text)) return { findings: [error('logo-unknown', at)] };
  const read = readSvg(text, at);
  const faint = read.logo?.kind === 'paths' && !read.logo.paths.some((path) => standsOut(path.fill));
  return faint ? { ...read, findings: [...read.findings, warning('logo-faint', at)] } : read;
};
