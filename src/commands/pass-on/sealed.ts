/**
 * A profile as one file for colleagues: a head that says which form it has and what its content sums up to, so that a change by hand is seen.
 * The sum is of the text below the head, with its line ends and the white at their ends evened, since mail changes both.
 */
import { createHash } from 'node:crypto';
import { error, type Finding } from '../../base/finding.js';
import { readText } from '../../read/yaml.js';

const FORM = 'nightrail pass-on 1';
const HEAD = /^# (nightrail pass-on \d+)\n# content sha256 ([0-9a-f]{64})\n/;

const even = (text: string): string =>
  `${text
    .replace(/\r\n?/g, '\n')
    .replace(/[ \t]+$/gm, '')
    .trim()}\n`;

const sumOf = (body: string): string => createHash('sha256').update(even(body)).digest('hex');

export const seal = (body: string): string => `# ${FORM}\n# content sha256 ${sumOf(body)}\n${even(body)}`;

/** What is wrong with a file as one that was passed on. */
export const broken = (doc: string, bytes: Uint8Array): readonly Finding[] => {
  const { text, findings } = readText(doc, bytes);
  if (findings.some((f) => f.severity === 'error')) return findings;
  const whole = even(text);
  const found = HEAD.exec(whole);
  const at = (line: number) => ({ doc, path: [], line, column: 1 });
  if (!found) return [error('pass-on-no-head', at(1))];
  const [head, form, sum] = found as unknown as [string, string, string];
  if (form !== FORM) return [error('pass-on-form', at(1), { wrote: form, form: FORM })];
  return sumOf(whole.slice(head.length)) === sum ? [] : [error('pass-on-altered', at(2))];
};
