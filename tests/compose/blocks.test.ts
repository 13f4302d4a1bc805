/**
 * What two templates become, block for block, before anything is laid: kept and read as text. `{22:45 units.line-1...}` is a value with its path in the plan.
 */
import { expect, it } from 'vitest';
import type { Run } from '../../src/base/run.js';
import { CHAIN, tryChain } from '../support/chain.js';
import { pagesOf } from '../support/pages.js';

const told = ({ text, value, strong }: Run): string => {
  const said = value === undefined ? text : `{${text} ${value}}`;
  return strong ? `**${said}**` : said;
};

const isRuns = (value: unknown): value is readonly Run[] =>
  Array.isArray(value) && value.length > 0 && (value as readonly Partial<Run>[]).every((one) => typeof one.text === 'string');

/** Runs as one line, a picture by its name, and lines of templates left out: they move with every edit. */
const compact = (key: string, value: unknown): unknown => {
  if (key === 'line' || key === 'doc') return undefined;
  if (key === 'drawing') return (value as { name: string }).name;
  if (key === 'text' && Array.isArray(value) && value.length === 0) return '';
  return isRuns(value) && !('hand' in (value[0] ?? {})) ? value.map(told).join('') : value;
};

const tried = tryChain({ 'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [poster, handover]') });
const made = tried.workshop ? pagesOf(tried.workshop, tried.stores) : [];

it.each(['poster', 'handover'])('the %s', async (id) => {
  const page = made.find(({ paper }) => paper.id === id)?.page;
  await expect(`${JSON.stringify(page?.body, compact, 1)}\n`).toMatchFileSnapshot(`golden/${id}.blocks.json`);
});
