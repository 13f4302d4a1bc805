/**
 * A paper that is too long for its sheet says which sheets hold it; posters of ordinary hours fit what office printers take, in each language.
 */
import { expect, it } from 'vitest';
import { CHAIN, demoFiles, STORE } from '../support/chain.js';
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

it.each(['letter', 'a4'])('so they do of each unit of the demo: %s', async (sheet) => {
  const demo = demoFiles();
  const profiles = [...demo.keys()].flatMap((doc) => /^equipment\/([a-z0-9-]+)\.yaml$/.exec(doc)?.[1] ?? []);
  expect(profiles.length).toBeGreaterThan(5);
  const unit = (profile: string) => `  ${profile}:
    profile: ${profile}
    nickname: { en: Class table, es: Mesa de la clase, fr: Table du cours }
    position: { en: by the wall, es: junto a la pared, fr: contre le mur }
`;
  const goes = (profile: string): string =>
    /kind: refrigerated-base/.test(new TextDecoder().decode(demo.get(`equipment/${profile}.yaml`)))
      ? '    food_goes_to: { zone: base }\n'
      : '';
  const files = threeStores({
    ...Object.fromEntries(
      profiles.map((p) => [`equipment/${p}.yaml`, new TextDecoder().decode(demo.get(`equipment/${p}.yaml`))] as const),
    ),
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [poster]')
      .replace('[en]', `[${LANGUAGES.join(', ')}]`)
      .replace('backup: the walk-in', 'backup: { en: the walk-in cooler, es: la cámara fría, fr: la chambre froide }'),
    'sites/alder.yaml': `name: Our class
timezone: America/Chicago
sheet: ${sheet}
hours: Mo-Th 11:00-22:00; Fr-Sa 11:00-00:30; Su 12:00-21:00
units:
${profiles.map((p) => unit(p) + goes(p)).join('')}`,
    'sites/birch.yaml': undefined,
    'sites/cedar.yaml': undefined,
  });
  const { findings } = await smallBuild(files, memoryFolder(new Map()).out, { formats: ['pdf'] });
  expect(
    findings.filter((f) => f.severity === 'error').map((f) => [f.code, f.data['unit'], f.data['lang'], f.data['over']]),
  ).toEqual([]);
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
