/** The JSON Schemas that ship for editors are those that `nightrail schema` makes of the kinds and keys as they are. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { schemas } from '../../src/commands/schema.js';

it('schema/ holds what `nightrail schema --write` would write', () => {
  const made = schemas();
  expect(readdirSync('schema').sort()).toEqual(Object.keys(made).sort());
  for (const [name, body] of Object.entries(made))
    expect(readFileSync(`schema/${name}`, 'utf8') === `${JSON.stringify(body, null, 2)}\n`, name).toBe(true);
});
