/**
 * What every command begins with: the chain's folder opened, and a way to tell its findings.
 */
import { error, type Finding } from '../../base/finding.js';
import { place, type Place } from '../../base/place.js';
import { unreadFolders } from '../../fleet/unread-folders.js';
import { openWorkshop, type OpenedWorkshop } from '../../fleet/workshop.js';
import { findChain, linksIn, otherFolders, readFiles } from '../../host/disk.js';
import { readParsed } from '../../host/parsed.js';
import { counted } from '../../base/counted.js';
import { EXIT } from './exit.js';
import { makeTerminal, showFinding, spoken, type SpokenFinding, type Terminal } from '../../host/terminal.js';
import { SHIPPED, type Files, type Parsed } from '../../read/shelf.js';
import { fileOf, storeOf } from '../../read/spreadsheet.js';
import type { Source } from '../../read/yaml.js';
import { findingWords, type FindingWords } from '../../say/findings.js';
import { speaker, type Speaker } from '../../say/speaker.js';
import { noWords, type Words } from '../../say/words.js';
import { Sources } from './sources.js';

export interface CommonOptions {
  readonly chain?: string;
  readonly json?: boolean;
  /** Show notes too, not only their number. */
  readonly notes?: boolean;
  /** The folder of papers, of commands that have one. */
  readonly out?: string;
}

export interface Session {
  readonly folder: string;
  readonly files: Files;
  /** Values of some of them, parsed before. */
  readonly parsed: Parsed;
  readonly opened: OpenedWorkshop;
  readonly terminal: Terminal;
  readonly sources: Map<string, Source>;
  /** Adds findings; the same thing said of the same place is told once. */
  readonly add: (findings: readonly Finding[]) => void;
  /** Says values at the terminal; none in an installation whose words are broken. */
  readonly speaker: Speaker | undefined;
  /** What a finding says, and what to write instead. */
  readonly wordsOf: (finding: Finding) => FindingWords;
  readonly spoken: () => readonly SpokenFinding[];
  /** Prints what was found, worst last, with a count; the exit code follows. */
  readonly conclude: () => number;
  /** Prints what is not among what was told, which it then becomes. */
  readonly tellNew: (told: Set<string>) => void;
  /** `0 errors, 3 warnings, 20 notes`. */
  readonly counts: () => string;
  readonly exitCode: () => number;
}

/** Findings with the other places of the same sheet of which the same is said: a column that lacks in sixty rows is one matter. */
const together = (
  findings: readonly Finding[],
  wordsOf: (finding: Finding) => FindingWords,
): readonly (readonly [Finding, readonly Place[]])[] => {
  const groups = new Map<string, [Finding, Place[]]>();
  for (const [i, finding] of findings.entries()) {
    const { at, code, severity } = finding;
    const inSheet = at.cell !== undefined || storeOf(at.doc) !== undefined;
    // Each row has an id of its own: how it is mended is one matter all the same.
    const says = code === 'bad-id' && at.cell === 'id' ? [] : wordsOf(finding);
    const key = inSheet ? JSON.stringify([severity, code, fileOf(at.doc), at.cell, says]) : String(i);
    const before = groups.get(key);
    if (before) before[1].push(at);
    else groups.set(key, [finding, []]);
  }
  return [...groups.values()];
};

/** A finding of one place as it is told of several: what would mend this one alone is left out. */
const ofAll = (finding: Finding, { length }: readonly Place[]): Finding => {
  const { suggestion: _, ...data } = finding.data;
  return finding.code === 'bad-id' && length > 0 ? { ...finding, data } : finding;
};

const ORDER = { note: 0, warning: 1, error: 2 } as const;

/** @param without files that are passed over: what a command writes anew */
export const openSession = (options: CommonOptions, without: readonly string[] = []): Session => {
  const terminal = makeTerminal();
  const folder = findChain(options.chain ?? '.');
  const files: Files = new Map([...readFiles(folder, SHIPPED)].filter(([doc]) => !without.includes(doc)));
  const parsed = readParsed(files);
  const opened = openWorkshop(files, parsed);
  const sources = new Sources(files, opened.sources);
  const found = new Map<string, Finding>();
  const keyOf = (finding: Finding): string => JSON.stringify([finding.code, finding.at, finding.data]);
  const add = (findings: readonly Finding[]): void => {
    for (const finding of findings) {
      const key = keyOf(finding);
      // What only follows from another finding is kept in the ledger, and not told beside its cause.
      if (finding.data['told_at'] !== undefined) continue;
      if (!found.has(key)) found.set(key, finding);
    }
  };
  add(opened.findings);
  add(unreadFolders(files, otherFolders(folder, options.out)));
  add(linksIn(folder).map((doc) => error('file-linked', place(doc), { wrote: doc })));
  const words: Words = opened.words.get('en') ?? noWords('en');
  const weekStarts = opened.workshop?.shelf.chain.week_starts ?? 'mon';
  const english =
    words.get('language.locale') === undefined
      ? undefined
      : speaker(words, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts });
  const wordsOf = (finding: Finding) =>
    english
      ? findingWords(finding, words, english)
      : { says: `${finding.code} ${JSON.stringify(finding.data)}`, hint: undefined };
  const sorted = (): readonly Finding[] =>
    [...found.values()].sort(
      (a, b) => ORDER[a.severity] - ORDER[b.severity] || (a.at.doc < b.at.doc ? -1 : a.at.doc > b.at.doc ? 1 : 0),
    );
  const tell = (findings: readonly Finding[]): void => {
    const shown = options.notes ? findings : findings.filter((f) => f.severity !== 'note');
    for (const [finding, same] of together(shown, wordsOf))
      terminal.line(`${showFinding(finding, wordsOf(ofAll(finding, same)), sources, terminal, same)}\n`);
  };
  const counts = (): string => {
    const count = (severity: Finding['severity']): string =>
      counted([...found.values()].filter((f) => f.severity === severity).length, severity);
    return `${count('error')}, ${count('warning')}, ${count('note')}`;
  };
  const exitCode = (): number => ([...found.values()].some((f) => f.severity === 'error') ? EXIT.findings : EXIT.fine);
  return {
    folder,
    files,
    parsed,
    opened,
    terminal,
    sources,
    add,
    speaker: english,
    wordsOf,
    exitCode,
    spoken: () => sorted().map((f) => spoken(f, wordsOf(f), sources)),
    counts,
    tellNew: (told) => {
      const all = sorted();
      tell(all.filter((f) => !told.has(keyOf(f))));
      told.clear();
      for (const finding of all) told.add(keyOf(finding));
    },
    conclude: () => {
      tell(sorted());
      const hidden = !options.notes && [...found.values()].some((f) => f.severity === 'note');
      terminal.line(`${counts()}${hidden ? ' (--notes shows them)' : ''}`);
      return exitCode();
    },
  };
};
