/**
 * `nightrail schema`: the JSON Schemas of everything that a person writes, for the editor.
 */
import { join } from 'node:path';
import { z } from 'zod';
import { writeWhole } from '../host/disk.js';
import { makeTerminal } from '../host/terminal.js';
import { chainSchema } from '../model/chain.js';
import { profileSchema } from '../model/profile.js';
import { storeSchema } from '../model/store.js';
import { EXIT } from './shared/exit.js';

interface Json {
  [key: string]: unknown;
}

/** In the chain's defaults, and where a chain fills in, nothing is required. */
const loosened = (schema: unknown): unknown => {
  if (Array.isArray(schema)) return schema.map(loosened);
  if (typeof schema !== 'object' || schema === null) return schema;
  const { required: _, ...rest } = schema as Json;
  return Object.fromEntries(Object.entries(rest).map(([key, inner]) => [key, key === 'examples' ? inner : loosened(inner)]));
};

const json = (schema: z.ZodType): Json => z.toJSONSchema(schema, { target: 'draft-07', io: 'input', unrepresentable: 'any' });

/** What differs at a unit has the keys of its profile, and none is required. */
const withDiffers = (store: Json, equipment: Json): Json => {
  const put = (tree: Json, [step, ...rest]: readonly string[]): Json =>
    step === undefined
      ? { ...(loosened(equipment) as Json), $schema: undefined, description: tree['description'] }
      : { ...tree, [step]: put(tree[step] as Json, rest) };
  return put(store, ['properties', 'units', 'additionalProperties', 'properties', 'differs']);
};

/** Files by name. What a store or a profile must hold is checked when all layers are laid, so an editor asks for nothing. */
export const schemas = (): Readonly<Record<string, Json>> => {
  const equipment = json(profileSchema);
  const store = loosened(json(storeSchema)) as Json;
  const chain = json(chainSchema);
  const all = chain['properties'] as Json;
  const { description } = all['defaults'] as Json;
  all['defaults'] = { ...store, $schema: undefined, description };
  return { 'equipment.json': equipment, 'store.json': withDiffers(store, equipment), 'chain.json': chain };
};

export const schema = (options: { readonly write: string | true; readonly json?: boolean }): number => {
  const terminal = makeTerminal();
  const all = schemas();
  if (options.json) {
    terminal.line(JSON.stringify(all, null, 2));
    return EXIT.fine;
  }
  const folder = options.write === true ? 'schema' : options.write;
  for (const [name, body] of Object.entries(all)) {
    writeWhole(join(folder, name), `${JSON.stringify(body, null, 2)}\n`);
    terminal.line(join(folder, name));
  }
  return EXIT.fine;
};
