/** The JSON Schemas that ship for editors are those that `nightrail schema` makes of the kinds and keys as they are. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { schemas } from '../../src/commands/schema.js';
import { sources } from '../support/sources.js';

it('schema/ holds what `nightrail schema --write` would write', () => {
  const made = schemas();
  expect(readdirSync('schema').sort()).toEqual(Object.keys(made).sort());
  for (const [name, body] of Object.entries(made))
    expect(readFileSync(`schema/${name}`, 'utf8') === `${JSON.stringify(body, null, 2)}\n`, name).toBe(true);
});

interface Node {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: Node | boolean;
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
  readonly oneOf?: readonly Node[];
  readonly allOf?: readonly Node[];
}

/** Every key that a person may write, with what an editor shows beside it. */
const keys = (node: Node, at: string): readonly (readonly [string, string | undefined])[] => [
  ...Object.entries(node.properties ?? {}).flatMap(([key, inner]): readonly (readonly [string, string | undefined])[] => [
    [`${at}.${key}`, inner.description],
    ...keys(inner, `${at}.${key}`),
  ]),
  ...(typeof node.additionalProperties === 'object' ? keys(node.additionalProperties, `${at}.*`) : []),
  ...(node.items ? keys(node.items, `${at}.*`) : []),
  ...[...(node.anyOf ?? []), ...(node.oneOf ?? []), ...(node.allOf ?? [])].flatMap((one) => keys(one, at)),
];

it.each(Object.entries(schemas()))('%s says of every key in a sentence what it is', (name, schema) => {
  const all = keys(schema, name);
  expect(all.length).toBeGreaterThan(75);
  const silent = all.filter(([, says]) => says === undefined || !/^[A-Z].{8,}\.$/s.test(says)).map(([key]) => key);
  expect(silent).toEqual([]);
});

it('keeps beside a sentence the examples of the kind of amount', () => {
  const { properties } = schemas()['equipment.json'] as { properties: Record<string, { properties: Record<string, object> }> };
  expect(properties['condensing']?.properties['split']).toMatchObject({
    description: expect.stringContaining('Condensing temperature') as string,
    examples: ['27 °F', '15 °C'],
  });
});

it('what a person may write is read by what comes behind the schema: a key that is accepted is obeyed', () => {
  const behind = [...sources()]
    .filter(([file]) => !/^src\/(model|commands\/new|read\/columns)/.test(file))
    .map(([, text]) => text)
    .join('\n');
  const names = new Set(
    Object.entries(schemas()).flatMap(([name, schema]) => keys(schema, name).map(([key]) => key.split('.').at(-1) ?? '')),
  );
  expect(names.size).toBeGreaterThan(150);
  expect([...names].filter((name) => !new RegExp(`(?<![\\w-])${name}(?![\\w-])`).test(behind))).toEqual([]);
});
