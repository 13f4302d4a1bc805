/**
 * Bytes of a YAML 1.2 file to plain values, or findings with their line and column. Pure: the bytes come from the caller.
 * Anchors, aliases, tags and several documents in a file are refused: a reader finds every fact where it is written, and nothing can blow up.
 */
import {
  isAlias,
  isNode,
  isPair,
  isScalar,
  LineCounter,
  parseDocument,
  visit,
  type Document,
  type Scalar,
  type YAMLError,
} from 'yaml';
import { error, note, warning, type Finding } from '../base/finding.js';
import type { Place } from '../base/place.js';

/** A file as it was read; `locate` needs it to turn a path into a line. */
export interface Source {
  readonly doc: string;
  readonly text: string;
  readonly lines: LineCounter;
  readonly yaml?: Document;
}

export interface ReadYaml {
  readonly source: Source;
  /** Undefined when there are errors. */
  readonly value?: unknown;
  readonly findings: readonly Finding[];
}

const LARGEST = 1_000_000;

/** Controls, marks that turn the direction of text, and the private characters that templates use: never part of a name or a sentence. */

export const FORBIDDEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2028\u2029\u2066-\u2069\ue000-\ue003\ufeff\ufffe\uffff]/u;

/** A character by its number, as `U+200B`. */
export const codeOf = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

export const decode = (bytes: Uint8Array): string | undefined => {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
};

/** The text of a file, without its byte order mark, and what is wrong with it as text. */
/** No line that a person writes is longer; patterns that look through one take too long. */
const LONGEST_LINE = 20_000;

export const readText = (doc: string, bytes: Uint8Array): { text: string; findings: Finding[] } => {
  const at: Place = { doc, path: [], line: 1, column: 1 };
  if (bytes.length > LARGEST) return { text: '', findings: [error('file-too-large', at, { most: LARGEST })] };
  const decoded = decode(bytes);
  if (decoded === undefined) return { text: '', findings: [error('not-utf-8', at)] };
  const bom = decoded.startsWith('\ufeff');
  const text = (bom ? decoded.slice(1) : decoded).replace(/\r\n?/g, '\n');
  const long = text.split('\n').findIndex((line) => line.length > LONGEST_LINE);
  if (long >= 0) return { text: '', findings: [error('line-too-long', { ...at, line: long + 1 }, { most: LONGEST_LINE })] };
  return { text, findings: bom ? [note('byte-order-mark', at)] : [] };
};

/** Steps from the root to a value; no file of a chain needs a quarter of them. */
const DEEPEST = 100;

/** What goes so deep that the reader itself runs out of stack is told like what goes too deep. */
const inStack = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch (fault) {
    if (fault instanceof RangeError) return undefined;
    throw fault;
  }
};

const SYNTAX: Record<string, string> = {
  TAB_AS_INDENT: 'yaml-tab',
  DUPLICATE_KEY: 'yaml-duplicate-key',
  MULTIPLE_DOCS: 'yaml-several-documents',
};

/** A sentence that stands without quotes where YAML needs them: after its key, with a colon in it, or begun with a sign of YAML's own. */
const UNQUOTED = /^\s*[\w-]+:\s+([^"'\s].*)$/;
const NEEDS_QUOTES = /^[*&!%@`[{]|:(\s|$)/;

/** A ? alone for what nobody knows, as an interview takes it; in YAML it begins a key. */
const UNKNOWN = /([\w-]+):\s+\?\s*(?:[,}\]#]|$)/;

/** In a word list, how a line's sentence is written. */
const quotedIn = (doc: string, text: string, line: number): Finding['data'] => {
  const sentence = UNQUOTED.exec(text.split('\n')[line - 1] ?? '')?.[1]?.trimEnd();
  if (!/^(nightrail:)?words\//.test(doc) || sentence === undefined || !NEEDS_QUOTES.test(sentence)) return {};
  return { quoted: `"${sentence.replace(/["\\]/g, '\\$&')}"` };
};

/** So many faults of one file are told. */
const MOST = 8;

/** After these words the parser has lost its way: each further piece of the file is a fault to it. */
const GIVEN_UP = /in YAML stream|at node end/;

const UNCLOSED = /^Missing closing (["'])quote/;

/** A quote that is never closed is told where it is opened. */
const syntax = (fault: YAMLError, where: Place, wrote: string, quoted: Finding['data']): Finding => {
  const [, quote] = UNCLOSED.exec(fault.message) ?? [];
  const opened = quote === undefined ? -1 : wrote.indexOf(quote);
  const unclosed = quote !== undefined && opened >= 0;
  return error(SYNTAX[fault.code] ?? 'yaml-syntax', unclosed ? { ...where, column: opened + 1 } : where, {
    says: fault.message,
    ...(unclosed ? { quote } : quoted),
  });
};

/** A space that no line breaks at, or another that looks like one, where YAML wants a plain one: before a key, or behind its colon. */
const HARD_SPACE = /^(?:[ -]*|\s*[\w-]+:)[\u00a0\u2000-\u200a\u202f\u205f\u3000]/;

/** The places of such spaces. Only a file that can't be read, or is no map because of them, has them for a mistake. */
const hardSpaces = (doc: string, text: string): readonly Finding[] =>
  text.split('\n').flatMap((line, i) => {
    const found = HARD_SPACE.exec(line)?.[0].length;
    return found === undefined ? [] : [error('yaml-hard-space', { doc, path: [], line: i + 1, column: found })];
  });

/** A text without quotes that a number sign ends: `Line #2` is the text Line and a comment. In sentences no comment is looked for behind a text. */
const isCut = (doc: string, { type, value, comment, range }: Scalar, text: string): boolean => {
  if (type !== 'PLAIN' || typeof value !== 'string' || typeof comment !== 'string') return false;
  // Behind it on its own line: one that begins a line is a comment to everybody.
  const end = range?.[1] ?? 0;
  const behind = text.slice(end, text.indexOf('#', end));
  return !behind.includes('\n') && (doc.startsWith('words/') || /^\S/.test(comment));
};

export const readYaml = (doc: string, bytes: Uint8Array): ReadYaml => {
  const { text, findings } = readText(doc, bytes);
  const lines = new LineCounter();
  const source: Source = { doc, text, lines };
  if (findings.some((f) => f.severity === 'error')) return { source, findings };
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { doc, path: [], line: Math.max(1, line), column: Math.max(1, col) };
  };
  const deep = (where: Place): Finding => error('yaml-too-deep', where, { most: DEEPEST });
  const yaml = inStack(() =>
    parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      stringKeys: true,
      strict: true,
      version: '1.2',
      merge: false,
    }),
  );
  if (!yaml) return { source, findings: [...findings, deep({ doc, path: [], line: 1, column: 1 })] };
  const hard = yaml.errors.length > 0 || isScalar(yaml.contents) ? hardSpaces(doc, text) : [];
  if (hard.length > 0) return { source, findings: [...findings, ...hard.slice(0, MOST)] };
  // What else YAML says of a line that wants quotes, or has a ? alone, comes of the same.
  const quotedLines = new Set<number>();
  const broken: Place[] = [];
  for (const fault of [...yaml.errors, ...yaml.warnings]) {
    const where = at(fault.pos[0]);
    const line = where.line ?? 0;
    if (/call stack/.test(fault.message)) findings.push(deep(where));
    else if (!quotedLines.has(line)) {
      const wrote = text.split('\n')[line - 1] ?? '';
      const quoted = quotedIn(doc, text, line);
      const [, key] = UNKNOWN.exec(wrote) ?? [];
      const known = quoted['quoted'] !== undefined || key !== undefined;
      const told = findings.filter((f) => f.severity === 'error').length;
      if (told >= MOST || (told > 0 && !known && GIVEN_UP.test(fault.message))) broken.push(where);
      else if (key !== undefined) findings.push(error('yaml-unknown', where, { key }));
      else findings.push(syntax(fault, where, wrote, quoted));
      if (known) quotedLines.add(line);
    }
  }
  if (broken[0]) findings.push(warning('yaml-more', broken[0], { count: broken.length }));
  visit(yaml, (_, node, above) => {
    if (above.length > 2 * DEEPEST) {
      findings.push(deep(at(isNode(node) ? (node.range?.[0] ?? 0) : 0)));
      return visit.BREAK;
    }
    if (isPair(node) && isScalar(node.key) && node.key.value === '__proto__') {
      findings.push(error('forbidden-key', at(node.key.range?.[0] ?? 0), { key: '__proto__' }));
    } else if (isAlias(node)) {
      const where = at(node.range?.[0] ?? 0);
      if (!quotedLines.has(where.line ?? 0))
        findings.push(error('yaml-alias', where, { name: node.source, ...quotedIn(doc, text, where.line ?? 1) }));
    } else if (isScalar(node) && typeof node.value === 'string' && FORBIDDEN.test(node.value)) {
      const character = FORBIDDEN.exec(node.value)?.[0] ?? '';
      findings.push(error('forbidden-character', at(node.range?.[0] ?? 0), { character: codeOf(character) }));
    }
    if (isScalar(node) && isCut(doc, node, text)) {
      const where = at(node.range?.[0] ?? 0);
      findings.push(warning('text-cut', where, { wrote: node.source ?? '', rest: `#${node.comment ?? ''}` }));
    }
    return undefined;
  });
  if (findings.some((f) => f.severity === 'error')) return { source, findings };
  const value: unknown = yaml.toJS({ maxAliasCount: 0 });
  if (value === null || value === undefined)
    return { source, findings: [...findings, error('empty-file', { doc, path: [], line: 1, column: 1 })] };
  return { source: { ...source, yaml }, value, findings };
};
