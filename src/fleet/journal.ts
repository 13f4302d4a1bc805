/**
 * The journal of a build under way: each file before it is written, each store when it is done. A build that died left it behind; the next one goes on from it.
 */
import { parseLines, recordFrom, recordLines, type StoreRecord } from './ledger.js';
import { partOf, type OutFolder } from './outside.js';

/** Several writers of one build keep a journal each, so that no line is cut by another's. */
const nameOf = (label: string, writer: number): string => `.journal.${label}.${writer}.jsonl`;

export interface Journal {
  /** A file is about to be written. */
  readonly writing: (store: string, path: string) => void;
  readonly done: (record: StoreRecord) => void;
}

export const journalsOf = (out: OutFolder, label: string): readonly string[] =>
  out.names().filter((name) => name.startsWith(`.journal.${label}.`) && name.endsWith('.jsonl'));

export const openJournal = (out: OutFolder, label: string, writer: number): Journal => {
  let first = true;
  const add = (text: string): void => {
    // The line before may have been torn.
    out.append(nameOf(label, writer), first ? `\n${text}` : text);
    first = false;
  };
  return {
    writing: (store, path) => add(`${JSON.stringify({ writing: path, store })}\n`),
    done: (record) =>
      add(`${JSON.stringify({ done: record.store.store })}\n${recordLines(record)}${JSON.stringify({ whole: true })}\n`),
  };
};

export interface Unfinished {
  /** Stores that were done before it died. */
  readonly records: ReadonlyMap<string, StoreRecord>;
  /** Files of other stores that it had begun to write, by path: old, new or missing, nobody knows. */
  readonly doubtful: ReadonlyMap<string, string>;
}

interface Writing {
  readonly writing: string;
  readonly store: string;
}

/** What an earlier build of this label left behind. */
export const readJournals = (out: OutFolder, label: string): Unfinished => {
  const records = new Map<string, StoreRecord>();
  const doubtful = new Map<string, string>();
  for (const name of journalsOf(out, label)) {
    // A death tears at most the last line; a later run of the same writer goes on behind it, so a torn line may stand anywhere.
    let block: string[] | undefined;
    for (const line of new TextDecoder().decode(out.read(name)).split('\n')) {
      const [entry] = parseLines(`${line}\n`) ?? [];
      if (typeof entry !== 'object' || (entry as unknown) === null) continue;
      if ('done' in entry) block = [];
      else if ('writing' in entry) {
        const { writing, store } = entry as unknown as Writing;
        doubtful.set(writing, store);
      } else if ('whole' in entry) {
        const record = recordFrom(new TextEncoder().encode((block ?? []).map((l) => `${l}\n`).join('')));
        if (block?.length) {
          const id = record.store.store;
          records.set(id, record);
          for (const [path, store] of doubtful) if (store === id) doubtful.delete(path);
        }
        block = undefined;
      } else block?.push(line);
    }
  }
  return { records, doubtful };
};

/** Takes away what a death left under other names. */
export const sweep = (out: OutFolder, doubtful: Iterable<string>): void => {
  for (const path of doubtful) if (out.size(partOf(path)) !== undefined) out.drop(partOf(path));
};
