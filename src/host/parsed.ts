/**
 * The YAML that ships with nightrail, parsed once when it is compiled: parsing it is a fifth of a run that changes nothing. Values are found by the hash
 * of a file's bytes, so that a file that was changed since is parsed anew, and a table that is missing costs nothing but time.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { SHIPPED, type Files, type Parsed } from '../read/reader.js';
import { readYaml } from '../read/yaml.js';
import { PACKAGE, readFiles } from './disk.js';
import { sha256 } from './out-folder.js';

const TABLE = join(PACKAGE, 'dist/parsed.json');
const YAML = /^(words|templates|equipment\/tables)\/.*\.ya?ml$/;

type Table = Readonly<Record<string, unknown>>;

const yamlIn = (files: Files): readonly (readonly [string, Uint8Array])[] =>
  [...files].filter(([doc]) => YAML.test(doc.replace(SHIPPED, '')));

/** Values by the hash of the bytes that hold them; only of files without a finding. */
export const tableOf = (files: Files): Table =>
  Object.fromEntries(
    yamlIn(files).flatMap(([doc, bytes]) => {
      const { value, findings } = readYaml(doc, bytes);
      return findings.length === 0 ? [[sha256(bytes), value] as const] : [];
    }),
  );

export const valuesIn = (table: Table, files: Files): Parsed => {
  const known = yamlIn(files).map(([doc, bytes]) => [doc, table[sha256(bytes)]] as const);
  return new Map(known.filter(([, value]) => value !== undefined));
};

export const readParsed = (files: Files): Parsed =>
  existsSync(TABLE) ? valuesIn(JSON.parse(readFileSync(TABLE, 'utf8')) as Table, files) : new Map();

/** Writes the table for the files that ship with nightrail. */
export const writeParsed = (): void => writeFileSync(TABLE, JSON.stringify(tableOf(readFiles(PACKAGE, SHIPPED))));
