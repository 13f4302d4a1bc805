/**
 * From a draft to its file: the YAML with its comments, and whether it may be written.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { error, type Finding } from '../../base/finding.js';
import { place } from '../../base/place.js';
import type { Words } from '../../say/words.js';
import { asYaml } from './as-yaml.js';
import { say } from '../shared/say.js';
import { at } from './tree.js';

const SECTIONS = ['nameplate', 'condensing', 'control', 'zones', 'loading', 'cleaning', 'not_known', 'origins', 'crew', 'units'];

/** @param what the folder's own schema: `equipment` or `store` */
export const fileText = (value: unknown, what: 'equipment' | 'store', about: string, words: Words): string =>
  asYaml(value, {
    head: [`yaml-language-server: $schema=../schema/${what}.json`, about],
    above: Object.fromEntries(SECTIONS.map((section) => [section, say(words, `above.${section}`)])),
    beside: (key, item) =>
      key === 'not_known' ? say(words, at(value, item.split('.')) === undefined ? 'unknown' : 'unknown-kept') : undefined,
    open: ['zones', 'units', 'rest', 'nameplate', 'condensing', 'crew'],
  });

/** A file that is there already is never written over unasked. */
export const isThere = (folder: string, doc: string): readonly Finding[] =>
  existsSync(join(folder, doc)) ? [error('file-exists', place(doc), { file: doc })] : [];
