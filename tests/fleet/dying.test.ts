/**
 * A build that dies around any operation on the disk leaves no half of a document, and the next build finishes it.
 */
import { describe, expect, it } from 'vitest';
import { STORE } from '../support/chain.js';
import { Died, memoryFolder, smallBuild, threeStores } from './small-build.js';

type Folder = Map<string, Uint8Array>;

const OPTIONS = { only: ['week', 'card'] } as const;

const built = async (files: ReadonlyMap<string, Uint8Array>, prune = false): Promise<Folder> => {
  const folder: Folder = new Map();
  await smallBuild(files, memoryFolder(folder).out, { ...OPTIONS, prune });
  return folder;
};

const first = threeStores();
/** One store less, one with other hours, one as it was. */
const second = threeStores({
  'sites/alder.yaml': STORE.replace('Test Street', 'Alder').replace('22:00', '21:00'),
  'sites/cedar.yaml': undefined,
});

const sorted = (folder: Folder): readonly (readonly [string, string])[] =>
  [...folder].map(([path, bytes]) => [path, new TextDecoder().decode(bytes)] as const).sort(([a], [b]) => (a < b ? -1 : 1));

const isDocument = (path: string): boolean => path.endsWith('.html') && !/(^|\/)\./.test(path);

/** What may stand under a document's name, from before or from after. */
const wholeOnes = (...folders: readonly Folder[]): ReadonlyMap<string, ReadonlySet<string>> => {
  const known = new Map<string, Set<string>>();
  for (const folder of folders)
    for (const [path, text] of sorted(folder)) known.set(path, (known.get(path) ?? new Set()).add(text));
  return known;
};

const HOW = ['before', 'half', 'after'] as const;

describe('dying', () => {
  it.each([
    { what: 'a first build', from: undefined, files: first, prune: false },
    { what: 'a build after changes', from: first, files: second, prune: true },
  ])(
    'around every operation of $what',
    async ({ from, files, prune }) => {
      const start: Folder = from ? await built(from) : new Map<string, Uint8Array>();
      const goal: Folder = new Map(start);
      const counting = memoryFolder(goal);
      await smallBuild(files, counting.out, { ...OPTIONS, prune });
      const whole = wholeOnes(start, goal);
      expect(counting.operations()).toBeGreaterThan(10);
      for (let k = 1; k <= counting.operations(); k++)
        for (const how of HOW) {
          const folder: Folder = new Map(start);
          await expect(smallBuild(files, memoryFolder(folder, k, how).out, { ...OPTIONS, prune }), `${k} ${how}`).rejects.toThrow(
            Died,
          );
          for (const [path, text] of sorted(folder).filter(([p]) => isDocument(p)))
            expect(whole.get(path)?.has(text), `${k} ${how} ${path}`).toBe(true);
          await smallBuild(files, memoryFolder(folder).out, { ...OPTIONS, prune });
          expect(sorted(folder), `${k} ${how}`).toEqual(sorted(goal));
        }
    },
    300_000,
  );

  it('twice, and with other files in between', async () => {
    const start = await built(first);
    const goal = sorted(await built(first));
    const total = 40;
    for (let k = 1; k <= total; k += 3) {
      const folder: Folder = new Map(start);
      // Dies on the way to the second state, dies on the way back, and is then let finish: everything is as it was.
      await smallBuild(second, memoryFolder(folder, k, 'half').out, OPTIONS).catch(() => undefined);
      await smallBuild(first, memoryFolder(folder, (k % 7) + 1, 'half').out, OPTIONS).catch(() => undefined);
      await smallBuild(first, memoryFolder(folder).out, OPTIONS);
      expect(sorted(folder), String(k)).toEqual(goal);
    }
  });
});
