import { parse } from 'parse5';
import { expect, it } from 'vitest';
import { printHtml } from '../../src/print/html.js';
import { everyBlock } from './make.js';

it('writes well-formed HTML', () => {
  const faults: string[] = [];
  const { html, findings } = printHtml(everyBlock);
  parse(html, { onParseError: (fault) => faults.push(fault.code) });
  expect(findings).toEqual([]);
  expect(faults).toEqual([]);
});
