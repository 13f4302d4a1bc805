/** Noughts are the widest figures of the face: the time of a poster has its place on Letter with as many of them as a clock can show. */
import { expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import type { Page } from '../../src/compose/block.js';
import { printPdf } from '../../src/print/print-pdf.js';
import { STORE, tryChain } from '../support/chain.js';
import { pagesOf, runsIn } from '../support/pages.js';
import { faces } from './faces.js';

it.each(['09:00', '20:00', '00:00'])('prints %s on the poster', async (time) => {
  const closes = { '09:00': '06:00-08:15', '20:00': '07:00-19:15', '00:00': '10:00-23:15' }[time] as string;
  const store = `${STORE.replace('07:00-22:00', closes)}clock_shows: 24-hour\nsheet: letter\n`;
  const { workshop, stores, told } = tryChain({ 'sites/street.yaml': store });
  if (!workshop) throw new Error(told.join('\n'));
  const page = pagesOf(workshop, stores).find(({ paper, lang }) => paper.id === 'poster' && lang === 'en')?.page as Page;
  expect(textOf(runsIn(page.body))).toMatch(new RegExp(`^Top empty by\\s*${time}`));
  const { bytes, findings } = await printPdf(page, faces);
  expect(findings.filter((f) => f.code === 'too-narrow')).toEqual([]);
  expect(bytes).toBeDefined();
});
