/**
 * Files as they were read, for showing the lines that findings speak of: parsed only when one is shown, and only the last is kept.
 */
import { readYaml, type Source } from '../../read/yaml.js';
import type { Files } from '../../read/shelf.js';

export class Sources extends Map<string, Source> {
  readonly #files: Files;
  #last: Source | undefined;

  constructor(files: Files, known: ReadonlyMap<string, Source>) {
    super(known);
    this.#files = files;
  }

  override get(doc: string): Source | undefined {
    const known = super.get(doc);
    if (known) return known;
    const bytes = this.#files.get(doc);
    if (!bytes || !/\.ya?ml$/.test(doc)) return undefined;
    if (this.#last?.doc !== doc) this.#last = readYaml(doc, bytes).source;
    return this.#last;
  }
}
