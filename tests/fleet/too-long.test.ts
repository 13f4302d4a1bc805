/**
 * A paper that is too long for its sheet says which sheets hold it; posters of ordinary hours fit what office printers take, in each language.
 */
import { expect, it } from 'vitest';
import { CHAIN, STORE } from '../support/chain.js';
import { memoryFolder, smallBuild, threeStores } from './small-build.js';

const LANGUAGES = ['en', 'es', 'fr'];

const posters = async (hours: string, more: string, sheet: string) => {
  const files = threeStores({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [poster]').replace('[en]', `[${LANGUAGES.join(', ')}]`),
    'sites/alder.yaml': `${STORE.replace('Mo-Su 07:00-22:00', hours)}${more}sheet: ${sheet}\n`,
    'sites/birch.yaml': undefined,
    'sites/cedar.yaml': undefined,
  });
  const made = new Map<string, Uint8Array>();
  const { findings } = await smallBuild(files, memoryFolder(made).out, { formats: ['pdf'] });
  return findings.filter((f) => f.code === 'does-not-fit');
};

it.each(['letter', 'a4', 'tabloid', 'a3', 'legal'])('three closing times fit a %s sheet in each language', async (sheet) => {
  expect(await posters('Mo-Th 11:00-22:00; Fr-Sa 11:00-00:30; Su 12:00-21:00', '', sheet)).toEqual([]);
});

it('five with am and pm do not fit every sheet: those that hold it are named, and do', async () => {
  const [hours, clock] = [
    'Mo-We 11:00-22:00; Th 11:00-23:00; Fr 11:00-01:00; Sa 11:00-01:30; Su 12:00-21:00',
    'clock_shows: 12-hour\n',
  ];
  const long = await posters(hours, clock, 'letter');
  expect(long.length).toBeGreaterThan(0);
  for (const { data } of long) {
    const held = data['sheets'] as readonly string[];
    expect(held.length).toBeGreaterThan(0);
    for (const sheet of held) {
      const still = await posters(hours, clock, sheet);
      expect(still.map((f) => f.data['lang'])).not.toContain(data['lang']);
    }
  }
});
