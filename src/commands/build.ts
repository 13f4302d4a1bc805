/**
 * `nightrail build`: every paper of every store, or of those named, into a folder; only what changed. A store with an error in its files gets no paper at all.
 */
import { relative } from 'node:path';
import { error, note, warning, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { openBrand, type ReadFile } from '../fleet/brand.js';
import { planBuild, tellingOf, type BuildFacts, type Telling } from '../fleet/build.js';
import { finish } from '../fleet/finish.js';
import { leftFindings } from '../fleet/left-over.js';
import type { StoreRecord } from '../fleet/ledger.js';
import { FolderFault } from '../fleet/outside.js';
import { readPast } from '../fleet/past.js';
import { shardLabel, WHOLE, type Shard } from '../fleet/shard.js';
import type { Order } from '../fleet/store-papers.js';
import { today } from '../host/clock.js';
import { readFaces, readInside, readVersion } from '../host/disk.js';
import { engineKey } from '../host/engine.js';
import { takeLock } from '../host/lock.js';
import { openOutside } from '../host/out-folder.js';
import { comingWeek, weekFrom, weekOfIso, type WeekDates } from '../plan/week-dates.js';
import { FORMATS } from '../print/formats.js';
import { noStoresYet, storeSources, unknownStore } from '../read/stores.js';
import type { BenchData } from './build/bench.js';
import { counted } from '../base/counted.js';
import { EXIT } from './shared/exit.js';
import { makeStores } from './build/make-stores.js';
import { openSession, type CommonOptions, type Session } from './shared/session.js';

export interface BuildOptions extends CommonOptions {
  readonly out: string;
  readonly only?: readonly string[];
  readonly language?: readonly string[];
  readonly week?: string;
  readonly from?: string;
  /** How many weeks of dated sheets, one after another. */
  readonly weeks: number;
  readonly format: readonly string[];
  readonly shard?: Shard;
  readonly prune?: boolean;
  readonly verify?: boolean;
  /** 0 makes everything in this process. */
  readonly workers?: number;
  /** Seconds that one store may take. */
  readonly patience: number;
  /** Of a build again and again (commands/watch): findings that were told before, and what was saved. */
  readonly watched?: { readonly told: Set<string>; readonly saved: string };
}

/** What `--json` says beside the findings. */
interface Told {
  readonly documents: Telling['documents'][number][];
  left: readonly { readonly path: string; readonly why: string }[];
  written: number;
}

/** The weeks that are asked for; undefined where the first can't be understood. */
const weeksFor = (options: BuildOptions, starts: Parameters<typeof comingWeek>[1]): readonly WeekDates[] | undefined => {
  const week = options.week
    ? weekOfIso(options.week, starts)
    : options.from
      ? weekFrom(options.from)
      : comingWeek(today(), starts);
  return week && Array.from({ length: options.weeks }, (_, n) => ({ first: week.first + 7 * n }));
};

/** Names of papers and stores that nobody knows. */
const unknownNames = (
  session: Session,
  stores: readonly string[],
  ids: readonly string[],
  options: BuildOptions,
): readonly Finding[] => {
  const { workshop } = session.opened;
  // One whose template has errors is told by these.
  const papers = workshop?.shelf.chain.papers ?? [];
  return [
    ...(options.only ?? [])
      .filter((id) => workshop && !papers.includes(id))
      .map((id) => {
        const at = workshop?.shelf.chainAt ?? place('');
        const written = [...session.files.keys()].some((doc) => doc.endsWith(`templates/${id}/paper.yaml`));
        return written ? error('paper-not-chosen', at, { paper: id }) : error('no-paper', at, { paper: id, names: papers });
      }),
    ...stores.filter((store) => !ids.includes(store)).map((store) => unknownStore(store, ids)),
  ];
};

/** Languages that were asked for and that no planned store has. */
const ofNobody = (languages: readonly string[] = [], records: readonly StoreRecord[]): readonly Finding[] => {
  if (languages.length === 0) return [];
  const planned = records.filter(({ units }) => units.length > 0);
  const spoken = new Set(planned.flatMap(({ documents }) => documents.map((d) => d.language)));
  return planned.length === 0
    ? []
    : languages.filter((lang) => !spoken.has(lang)).map((lang) => warning('language-of-nobody', place('sites'), { lang }));
};

export const build = async (chosen: readonly string[], options: BuildOptions): Promise<number> => {
  const wrong = options.format.filter((f) => !Object.hasOwn(FORMATS, f));
  const session = openSession(options);
  if (wrong.length > 0 || options.format.length === 0) {
    session.terminal.problem(`error: no format is called ${wrong.join(', ')}: write ${Object.keys(FORMATS).join(', ')}`);
    return EXIT.usage;
  }
  const { terminal, opened, files, parsed } = session;
  const { workshop } = opened;
  const told: Told = { documents: [], left: [], written: 0 };
  const conclude = (says?: string): number => {
    if (options.json) terminal.line(JSON.stringify({ ...told, findings: session.spoken() }, null, 2));
    else if (options.watched) {
      session.tellNew(options.watched.told);
      terminal.line([options.watched.saved, says, session.counts()].filter(Boolean).join(': '));
    } else {
      session.conclude();
      if (says) terminal.line(says);
    }
    return session.exitCode();
  };
  if (!workshop) return conclude();
  const weeks = weeksFor(options, workshop.shelf.chain.week_starts);
  if (!weeks) {
    terminal.problem(`${options.week ?? options.from}: write a week as --week 2026-W49, or its first day as --from 2026-11-30`);
    return EXIT.usage;
  }
  const strange = (options.language ?? []).filter((lang) => !workshop.words.has(lang));
  if (strange.length > 0) {
    terminal.problem(`error: no language is called ${strange.join(', ')}: write ${[...workshop.words.keys()].join(', ')}`);
    return EXIT.usage;
  }
  const written = storeSources(files);
  const sources = written.stores;
  const nobody = noStoresYet(files, written);
  session.add(nobody);
  session.add(
    unknownNames(
      session,
      nobody.length > 0 ? [] : chosen,
      [...sources, ...written.lost].map((s) => s.id),
      options,
    ),
  );

  const brandFiles = new Map<string, ReadFile>();
  const faces = readFaces();
  const read = (path: string, most: number): ReadFile => {
    const found = readInside(session.folder, path, most);
    brandFiles.set(path, found);
    return found;
  };
  const { brand, findings } = openBrand(workshop, { read, faces });
  session.add(findings);
  if (!brand) return conclude();

  const outside = openOutside(options.out);
  const shard = options.shard ?? WHOLE;
  const lock = await takeLock(options.out, shardLabel(shard));
  if ('says' in lock) {
    session.add([error('folder-in-use', place(options.out), { who: lock.says || '?' })]);
    return conclude();
  }
  try {
    const order: Order = {
      weeks,
      formats: options.format,
      ...(options.only ? { only: options.only } : {}),
      ...(options.language ? { languages: options.language } : {}),
    };
    const brandKey = outside.hash(JSON.stringify(brand.files.map((bytes) => outside.hash(bytes))));
    const engine = engineKey();
    const verify = options.verify ?? false;
    const facts: BuildFacts = {
      files,
      workshop,
      stores: sources,
      lost: written.lost,
      findings: opened.findings,
      ...(chosen.length > 0 ? { chosen } : {}),
      order,
      shard,
      engine,
      verify,
      brandKey,
      nightrail: readVersion(),
    };
    const past = readPast(outside, shardLabel(shard));
    const plan = planBuild(facts, past, outside);
    const shared = new Map([...files].filter(([doc]) => !doc.startsWith('sites/')));
    const { inputs, papers } = plan;
    const keys = { engine, brandKey, inputs, papers };
    const data: BenchData = { files: shared, parsed, out: options.out, order, shard, verify, ...keys, brandFiles, faces };
    const made = await makeStores({ plan, data, workshop, options, terminal, lock });
    if (!made) {
      terminal.problem('Stopped. What is done is kept: run it again to go on.');
      return EXIT.stopped;
    }
    const { left, removed, changed } = finish(facts, past, plan, made.records, outside, options.prune ?? false);
    for (const { id } of sources) {
      const record = made.records.get(id);
      const telling = record ? tellingOf(record, order) : plan.told.get(id);
      session.add(telling?.findings ?? []);
      told.documents.push(...(telling?.documents ?? []));
    }
    // Of a paper whose template can't be read no language has a document.
    const whole = workshop.papers.length === workshop.shelf.chain.papers.length;
    if (whole) session.add(ofNobody(options.language, [...plan.settled.values(), ...made.records.values()]));
    told.documents.sort((a, b) => (a.path < b.path ? -1 : 1));
    told.written = made.written;
    told.left = left.map((l) => ({ path: l.left, why: l.why }));
    session.add(changed.map((l) => note('left-changed', place(l.left), {})));
    session.add(leftFindings(left, options.out));
    if (removed.length > 0 && !options.json) terminal.line(`${counted(removed.length, 'file')} removed, no longer needed`);
    const where = relative('.', options.out) || '.';
    return conclude(
      `${counted(made.written, 'file')} written, ${told.documents.length - made.written} as they were, in ${where}`,
    );
  } catch (fault) {
    if (!(fault instanceof FolderFault)) throw fault;
    terminal.problem(fault.message);
    return EXIT.findings;
  } finally {
    lock.release();
  }
};
