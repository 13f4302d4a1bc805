/**
 * Text of templates as runs: made strong, and tidied of the white space that Markdown leaves.
 */
import type { Run } from '../base/run.js';
import type { Payload } from './leaf.js';

export const strengthen = (payloads: readonly Payload[], strong: boolean): readonly Payload[] =>
  strong ? payloads.map((p) => ({ ...p, runs: p.runs.map((run) => ({ ...run, strong: true as const })) })) : payloads;

/** One space for any run of them, none at the ends, no empty runs. */
export const tidy = (runs: readonly Run[]): readonly Run[] => {
  const tidied: Run[] = [];
  for (const run of runs) {
    const text = run.text.replace(/[ \t\n]+/g, ' ');
    const before = tidied.at(-1)?.text;
    const next = before === undefined || before.endsWith(' ') ? text.trimStart() : text;
    if (next !== '') tidied.push({ ...run, text: next });
  }
  const end = tidied.at(-1);
  if (end) tidied[tidied.length - 1] = { ...end, text: end.text.trimEnd() };
  return tidied.filter((run) => run.text !== '');
};
