/**
 * `nightrail check`: reads everything, plans every store, prints nothing but findings.
 */
import { error, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { openBrand } from '../fleet/brand.js';
import { planOf } from '../fleet/store-papers.js';
import type { Workshop } from '../fleet/workshop.js';
import { unsaid } from '../fleet/unsaid.js';
import { untranslated } from '../fleet/untranslated.js';
import { today } from '../host/clock.js';
import { weekEndingOn } from '../plan/as-of.js';
import { readFaces, readInside } from '../host/disk.js';
import { SHIPPED, type Files } from '../read/shelf.js';
import { fileOf } from '../read/spreadsheet.js';
import { noStoresYet, storeSources, unknownStore, type StoreSource } from '../read/stores.js';
import { EXIT } from './shared/exit.js';
import { tryProfile } from './new/trial.js';
import { openSession, type CommonOptions } from './shared/session.js';

/** A path that a person gave, as the chain's files are named. */
const clean = (path: string): string => path.replace(/\\/g, '/').replace(/^\.\//, '').replace(/\/$/, '');

/** Whether a person named a document's file, or a folder above it. */
const isNamed = (doc: string, paths: readonly string[]): boolean =>
  paths.map(clean).some((path) => fileOf(doc) === path || doc.startsWith(`${path}/`));

const chosen = (stores: readonly StoreSource[], paths: readonly string[]): readonly StoreSource[] =>
  paths.length === 0 ? stores : stores.filter(({ id, doc }) => paths.includes(id) || isNamed(doc, paths));

/** What a person named that is neither a store nor a file or folder of the chain. */
const unknown = (files: Files, stores: readonly StoreSource[], paths: readonly string[]): readonly Finding[] => {
  const ids = stores.map(({ id }) => id);
  const docs = [...files.keys()];
  return paths
    .filter((path) => !ids.includes(path) && !docs.some((doc) => isNamed(doc, [path])))
    .map((path) => (/[/\\.]/.test(path) ? error('no-file', place(clean(path)), { wrote: path }) : unknownStore(path, ids)));
};

/** The chain's own profiles that a person named, or all of them where no store has one yet: each is tried in a store that nobody wrote. */
const tried = (files: Files, workshop: Workshop, all: boolean, paths: readonly string[]): readonly Finding[] =>
  [...workshop.shelf.profiles].flatMap(([id, { raw, at, sound }]) => {
    const { doc } = at;
    const bytes = files.get(doc);
    if (!(all || isNamed(doc, paths)) || !sound || !bytes || doc.startsWith(SHIPPED)) return [];
    return tryProfile(files, doc, id, new TextDecoder().decode(bytes), raw);
  });

export const check = (paths: readonly string[], options: CommonOptions): number => {
  const session = openSession(options);
  const { workshop } = session.opened;
  const sources = storeSources(session.files);
  session.add(unknown(session.files, sources.stores, paths));
  if (workshop) {
    session.add(
      openBrand(workshop, { read: (path, most) => readInside(session.folder, path, most), faces: readFaces() }).findings,
    );
    session.add(unsaid(session.files, workshop));
    if (paths.length === 0) session.add(noStoresYet(session.files, sources));
    session.add(tried(session.files, workshop, paths.length === 0 && sources.stores.length === 0, paths));
    for (const { doc, bytes } of chosen(sources.stores, paths)) {
      const planned = planOf(workshop, doc, bytes, today(), weekEndingOn(today()));
      if (planned.source) session.sources.set(doc, planned.source);
      session.add(planned.findings);
      if (planned.plan && planned.read) session.add(untranslated(planned.plan, planned.read.store.languages));
    }
  }
  if (!options.json) return session.conclude();
  session.terminal.line(JSON.stringify({ findings: session.spoken() }, null, 2));
  return workshop ? session.exitCode() : EXIT.findings;
};
