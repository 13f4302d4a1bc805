/**
 * `nightrail build`: every paper of every store, or of those named, into a folder. A store with an error in its files gets no paper at all.
 */
import { join, relative } from 'node:path';
import { error, type Finding } from '../base/finding.js';
import { nearest } from '../base/nearest.js';
import { place } from '../base/place.js';
import { mayBuild, papersOf, planOf, type Document, type Format } from '../fleet/store-papers.js';
import { today } from '../host/clock.js';
import { readFaces, writeWhole } from '../host/disk.js';
import { comingWeek, weekFrom, weekOfIso, type WeekDates } from '../plan/week.js';
import { makeFaces } from '../print/faces.js';
import { storeDocs } from '../read/shelf.js';
import { EXIT } from './exit.js';
import { openSession, type CommonOptions } from './session.js';

export interface BuildOptions extends CommonOptions {
  readonly out: string;
  readonly only?: readonly string[];
  readonly week?: string;
  readonly from?: string;
  readonly format: readonly Format[];
}

const idOf = (doc: string): string => doc.slice('sites/'.length).replace(/\.ya?ml$/, '');

const isFinding = (item: Document | Finding): item is Finding => 'severity' in item;

export const build = async (stores: readonly string[], options: BuildOptions): Promise<number> => {
  const session = openSession(options);
  const { terminal, opened, files } = session;
  const { workshop } = opened;
  const written: { path: string; sheets: number; bytes: number }[] = [];
  const conclude = (): number => {
    if (options.json) terminal.line(JSON.stringify({ documents: written, findings: session.spoken() }, null, 2));
    else {
      session.conclude();
      terminal.line(`${written.length} files in ${relative('.', options.out) || '.'}`);
    }
    return session.exitCode();
  };
  if (!workshop) return conclude();
  const { shelf } = workshop;
  const week: WeekDates | undefined = options.week
    ? weekOfIso(options.week, shelf.chain.week_starts)
    : options.from
      ? weekFrom(options.from)
      : comingWeek(today(), shelf.chain.week_starts);
  if (!week) {
    terminal.problem(`${options.week ?? options.from}: write a week like 2026-W49, or a date like 2026-11-30`);
    return EXIT.usage;
  }
  const names = workshop.papers.map((p) => p.id);
  for (const id of options.only ?? []) {
    if (!names.includes(id)) session.add([error('no-paper', shelf.chainAt, { paper: id, names })]);
  }
  const docs = storeDocs(files);
  const ids = docs.map(idOf);
  for (const store of stores) {
    const near = nearest(store, ids);
    if (!ids.includes(store))
      session.add([error('no-store', place('sites'), { store, ...(near ? { nearest: near } : { names: ids }) })]);
  }
  const chosen = docs.filter((doc) => stores.length === 0 || stores.includes(idOf(doc)));
  const faces = makeFaces(readFaces());
  const order = { week, formats: options.format, ...(options.only ? { only: options.only } : {}) };
  let done = 0;
  for (const doc of chosen) {
    terminal.progress(`${++done} of ${chosen.length}  ${idOf(doc)}`);
    const planned = planOf(workshop, doc, files.get(doc) as Uint8Array);
    session.sources.set(doc, planned.source);
    session.add(planned.findings);
    if (!planned.read || !planned.plan || !mayBuild(planned.findings)) continue;
    for await (const item of papersOf(workshop, planned.read, planned.plan, order, faces, undefined)) {
      if (isFinding(item)) session.add([item]);
      else {
        writeWhole(join(options.out, item.path), item.bytes);
        written.push({ path: item.path, sheets: item.sheets, bytes: item.bytes.length });
      }
    }
  }
  return conclude();
};
