/**
 * Parts of a chain made apart and gathered are what one machine makes; parts that don't belong together are refused.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gather } from '../../src/fleet/gather.js';
import { ledgerFrom, type Ledger } from '../../src/fleet/ledger.js';
import { writeLedger } from '../../src/fleet/finish.js';
import { inShard, partLedger, readShard, shardOf } from '../../src/fleet/shard.js';
import { STORE } from '../support/chain.js';
import { hash, memoryFolder, openedOf, smallBuild, threeStores } from './small-build.js';

type Folder = Map<string, Uint8Array>;

const files = threeStores({
  'sites/dogwood.yaml': STORE,
  'sites/elm.yaml': STORE,
  'sites/wrong.yaml': STORE.replace('serial', 'serail'),
});
const OF = 3;
const numbers = Array.from({ length: OF }, (_, i) => i + 1);

const partsIn = (folder: Folder): readonly Ledger[] =>
  numbers.flatMap((number) => ledgerFrom(folder.get(partLedger({ number, of: OF })), hash) ?? []);

const sharded = async (some: readonly number[], folder: Folder = new Map(), more = {}): Promise<Folder> => {
  for (const number of some) await smallBuild(files, memoryFolder(folder).out, { shard: { number, of: OF }, ...more });
  return folder;
};

const text = (folder: Folder) =>
  [...folder]
    .map(([path, bytes]) => [path, new TextDecoder().decode(bytes)])
    .sort(([a], [b]) => ((a as string) < (b as string) ? -1 : 1));

describe('a part', () => {
  it.each(['0/3', '4/3', '3', '1/0', '1/99999', '-1/3', '1/3/5', 'a/b', ''])('is not %s', (wrote) =>
    expect(readShard(wrote)).toBeUndefined(),
  );
  it('holds each store once, whatever other stores there are', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1 }), fc.integer({ min: 1, max: 64 }), (id, of) => {
        const holding = Array.from({ length: of }, (_, i) => i + 1).filter((number) => inShard(id, { number, of }, hash));
        expect(holding).toEqual([shardOf(id, of, hash)]);
      }),
    );
  });
  it('is about as large as another', () => {
    const counts = numbers.map(
      (n) => Array.from({ length: 3000 }, (_, i) => `store-${i}`).filter((id) => shardOf(id, OF, hash) === n).length,
    );
    for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(100);
  });
});

describe('parts gathered', () => {
  it('are what one machine makes, byte by byte, in any order', async () => {
    const one: Folder = new Map();
    await smallBuild(files, memoryFolder(one).out);
    for (const order of [numbers, [...numbers].reverse()]) {
      const folder = await sharded(order);
      const { ledger, findings } = gather(partsIn(folder), hash);
      expect(findings).toEqual([]);
      writeLedger(ledger as Ledger, openedOf(files), { out: memoryFolder(folder).out, hash });
      expect(text(folder)).toEqual(text(one));
    }
  });
  it('are nothing to do for one machine afterwards', async () => {
    const folder = await sharded(numbers);
    writeLedger(gather(partsIn(folder), hash).ledger as Ledger, openedOf(files), { out: memoryFolder(folder).out, hash });
    const again = memoryFolder(folder);
    expect((await smallBuild(files, again.out)).jobs).toEqual([]);
    expect(again.operations()).toBe(0);
  });
  it('are refused when one is missing', async () => {
    const [finding] = gather(partsIn(await sharded([1, 3])), hash).findings;
    expect(finding).toMatchObject({ code: 'gather-missing', data: { missing: ['2/3'] } });
  });
  it('are refused when they are of two engines, or of two orders', async () => {
    for (const more of [{ engine: 'other' }, { week: '2026-W50' }, { formats: ['pdf'] }]) {
      const folder = await sharded([1, 2]);
      await sharded([3], folder, more);
      expect(gather(partsIn(folder), hash).findings).toMatchObject([{ code: 'gather-mixed' }]);
    }
  });
  it('are refused when stores are missing or twice', async () => {
    const parts = partsIn(await sharded(numbers));
    const largest = [...parts].sort((a, b) => b.stores.size - a.stores.size)[0] as Ledger;
    const others = parts.filter((part) => part !== largest);
    const less = { ...largest, stores: new Map([...largest.stores].slice(1)) };
    expect(gather([less, ...others], hash).findings).toMatchObject([{ code: 'gather-incomplete' }]);
    const more = others.map((part) => ({ ...part, stores: new Map([...part.stores, ...largest.stores]) }));
    expect(gather([largest, ...more], hash).findings[0]).toMatchObject({ code: 'gather-twice' });
  });
});
