/**
 * What head office has to do, from the ledger alone: a row a matter, by topic.
 */
import type { Amount } from '../base/amount.js';
import { warning, type Finding, type RoundedAmount } from '../base/finding.js';
import { place, type Place } from '../base/place.js';
import { csvText } from './csv-text.js';
import { isKept, isOfUnread } from './left-over.js';
import type { LeftOver, Ledger, LedgerHead, Lost, StoreRecord, UnitEntry } from './ledger.js';

/** In the order in which they are best mended: what stops all papers of a store, then what stops a unit's. */
export const TOPICS = [
  'broken',
  'still-hang',
  'no-schedule',
  'failed',
  'clock',
  'unsigned',
  'dates',
  'too-warm',
  'tight',
  'coming',
  'unconfirmed',
  'take-down',
] as const;
export type Topic = (typeof TOPICS)[number];

/**
 * What a row holds, in order. `store` is empty where the matter is no store's own: a profile's facts. `file`, `row` (of a sheet) and `key` (in a sheet the
 * column) say where it was written, and are empty where nothing was. `change` is the smallest one that mends it; of a sheet to take down, why.
 */
const COLUMNS = ['topic', 'store', 'name', 'region', 'unit', 'file', 'row', 'key', 'says', 'change'] as const;

export type ReportRow = Readonly<Record<Exclude<(typeof COLUMNS)[number], 'topic'>, string>> & { readonly topic: Topic };

/** How many there are of what a topic's rows are about: stores, or for facts that nobody confirmed, profiles. */
export const subjectsIn = (
  topic: Topic,
  rows: readonly ReportRow[],
): { readonly of: 'stores' | 'profiles'; readonly count: number } => {
  const of = topic === 'unconfirmed' ? 'profiles' : 'stores';
  return { of, count: new Set(rows.map((row) => (of === 'stores' ? row.store : row.name))).size };
};

export interface Speaking {
  readonly says: string;
  readonly hint: string | undefined;
}

const CODES: readonly (readonly [RegExp, Topic])[] = [
  [/^(date-technician|clock-since-change)$/, 'dates'],
  [/^(no-rest-|date-|short-night$|(defrosts-no-room|crew-too-few)$)/, 'no-schedule'],
  [
    /^(clock-found-((wrong|other)(-settings)?|slow|fast)|clock-set-for-other-times(-settings)?|override-found|control-found-(different|off)(-in|-out)?|dial-for-altitude)$/,
    'clock',
  ],
  [/^food-over-usual$/, 'too-warm'],
  [/^hours-change-soon$/, 'coming'],
  [/^(signed|found)-later$/, 'unsigned'],
  [/^fact-(without-origin|not-confirmed)$/, 'unconfirmed'],
  [/^(does-not-fit|page-lacks-words|not-printed|no-glyph|too-narrow)$/, 'failed'],
];

/** @param bare whether the store has no papers: in one that has, an error costs some paper alone */
const topicOf = ({ code, severity }: Finding, bare: boolean): Topic | undefined =>
  CODES.find(([pattern]) => pattern.test(code))?.[1] ?? (severity === 'error' ? (bare ? 'broken' : 'failed') : undefined);

const NOWHERE = { file: '', row: '', key: '' };

const whereOf = ({ doc, line, path, cell }: Place): Pick<ReportRow, 'file' | 'row' | 'key'> =>
  cell === undefined ? { file: doc, row: '', key: path.join('.') } : { file: doc, row: String(line ?? ''), key: cell };

const unitOf = ({ data, at, also }: Finding): string => {
  if (typeof data['unit'] === 'string') return data['unit'];
  const place = [at, ...(also ?? [])].find(({ path }) => path[0] === 'units');
  return place ? String(place.path[1]) : '';
};

/** What is predicted over the law's limit in the store's hottest kitchen: with the covers shut, or only with them open all day. */
const tooWarm = ({ hottest }: UnitEntry, doc: string): Finding | undefined => {
  if (!hottest) return undefined;
  const { limit, open, shut, assumed } = hottest;
  const told = (code: string, food: Amount): Finding =>
    warning(assumed ? `${code}-assumed` : code, place(doc), { ...data, food: up(food) });
  const up = (of: Amount): RoundedAmount => ({ ...of, rounded: 'up' });
  const data = { kitchen: up(hottest.kitchen), limit };
  if (shut.si > limit.si) return told('predicted-over-limit', shut);
  return open.si > limit.si ? told('predicted-over-limit-open', open) : undefined;
};

/** A rest that is longer than it needs by less than this is at its limit, s: one longer evening takes it. Common practice, no source. */
const SPARE = 3600;

/** A schedule that works, and only just. */
const tight = ({ rest }: UnitEntry, doc: string): Finding | undefined =>
  rest && rest.shortest.si - rest.least.si < SPARE ? warning('rest-at-limit', place(doc), rest) : undefined;

const unsigned = ({ unsigned: open }: UnitEntry, doc: string): Finding | undefined =>
  open && warning('clock-unsigned', place(doc), {});

/** What a unit's entry says by itself, whatever was found: by topic. */
const OF_UNITS: readonly (readonly [Topic, (unit: UnitEntry, doc: string) => Finding | undefined])[] = [
  ['too-warm', tooWarm],
  ['tight', tight],
  ['unsigned', unsigned],
];

const unitRows = ({ store, units }: StoreRecord, speak: (finding: Finding) => Speaking): readonly ReportRow[] =>
  units.flatMap((unit) =>
    OF_UNITS.flatMap(([topic, of]) => {
      const finding = of(unit, store.doc);
      if (!finding) return [];
      const { says, hint = '' } = speak(finding);
      const { store: id, name = id, region = '' } = store;
      return [{ topic, store: id, name, region, unit: unit.unit, ...NOWHERE, says, change: hint }];
    }),
  );

/** Nothing of it was planned: its files have errors, or making it failed. */
const isBare = ({ units }: StoreRecord): boolean => units.length === 0;

const findingsOf = ({ store, documents }: StoreRecord): readonly Finding[] => [
  ...store.findings,
  ...documents.flatMap((d) => d.findings),
];

const rowsOf = (record: StoreRecord, speak: (finding: Finding) => Speaking): readonly ReportRow[] => {
  const { store, units } = record;
  const bare = isBare(record);
  return findingsOf(record).flatMap((finding): readonly ReportRow[] => {
    const topic = topicOf(finding, bare);
    if (!topic) return [];
    const { says, hint } = speak(finding);
    // A profile's facts are the profile's, whichever store it stands in.
    const profile =
      units.find((u) => u.unit === unitOf(finding))?.profile ??
      /^equipment\/([a-z0-9-]+)/.exec(finding.at.doc)?.[1] ??
      finding.at.doc;
    const own = topic === 'unconfirmed' ? { store: '', name: profile, region: '', unit: '', ...NOWHERE } : undefined;
    const { store: id, name = id, region = '' } = store;
    return [
      { topic, ...(own ?? { store: id, name, region, unit: unitOf(finding), ...whereOf(finding.at) }), says, change: hint ?? '' },
    ];
  });
};

/** What no record holds: rows and files of which no store could be made, each at its place, and errors that are no store's own. */
const lostRows = ({ lost = [], errors = [] }: LedgerHead, speak: (finding: Finding) => Speaking): readonly ReportRow[] => {
  const all: readonly (Partial<Lost> & Pick<Lost, 'at' | 'finding'>)[] = [
    ...lost,
    ...errors.map((finding) => ({ at: finding.at, finding })),
  ];
  return all.map(({ store = '', name = store, region = '', at, finding }) => {
    const { says, hint = '' } = speak(finding);
    return { topic: 'broken', store, name, region, unit: '', ...whereOf(at), says, change: hint };
  });
};

/** How many stores were written, how many of them get no papers, and how many nobody has built yet. */
export interface StoreCount {
  readonly all: number;
  readonly bare: number;
  readonly unbuilt: number;
}

export const storesIn = ({ head, stores }: Ledger): StoreCount => {
  const lost = head.lost?.length ?? 0;
  const unbuilt = Math.max(0, head.stores - stores.size);
  return { all: stores.size + unbuilt + lost, bare: [...stores.values()].filter(isBare).length + lost, unbuilt };
};

/** Whether the build that a ledger tells of ended with errors. */
export const hasErrors = ({ head, stores }: Ledger): boolean =>
  (head.lost ?? []).length + (head.errors ?? []).length > 0 ||
  [...stores.values()].some((record) => findingsOf(record).some((f) => f.severity === 'error'));

/** A file without its language and format: one a paper. */
const paperOf = (file: string): string => file.replace(/(\.[a-z0-9]+){1,2}$/, '');

const papersLeft = (left: readonly LeftOver[]): ReadonlyMap<string, readonly string[]> => {
  const found = new Map<string, readonly string[]>();
  for (const { store, left: file } of left) found.set(store, [...new Set([...(found.get(store) ?? []), paperOf(file)])]);
  return found;
};

export const reportOf = (ledger: Ledger, speak: (finding: Finding) => Speaking): readonly ReportRow[] => {
  const rows = new Map<string, ReportRow>(lostRows(ledger.head, speak).map((row) => [JSON.stringify(row), row]));
  for (const record of ledger.stores.values())
    for (const row of [...rowsOf(record, speak), ...unitRows(record, speak)]) rows.set(JSON.stringify(row), row);
  const about = (topic: Topic, store: string, { says, hint = '' }: Speaking): void => {
    const { name = store, region = '' } = ledger.stores.get(store)?.store ?? {};
    const row: ReportRow = { topic, store, name, region, unit: '', ...NOWHERE, says, change: hint };
    rows.set(JSON.stringify(row), row);
  };
  // Of a store that could not be read nobody knows what it needs: its sheets stay where they are, and one row tells of them.
  for (const [store, papers] of papersLeft(ledger.left.filter(isOfUnread)))
    about('still-hang', store, speak(warning('papers-still-hang', place(store), { count: papers.length })));
  for (const { left, store, why } of ledger.left.filter((one) => !isKept(one)))
    about('take-down', store, { says: paperOf(left), hint: why });
  // What is wrong in files is mended file by file, from the top.
  const spot = ({ topic, file, row }: ReportRow): string => (topic === 'broken' ? `${file}\u0000${row.padStart(7, '0')}` : '');
  const key = (row: ReportRow): string =>
    [String(TOPICS.indexOf(row.topic)).padStart(2, '0'), spot(row), row.region, row.name, row.store, row.unit, row.says].join(
      '\u0000',
    );
  return [...rows.values()].sort((a, b) => (key(a) < key(b) ? -1 : 1));
};

export const reportCsv = (rows: readonly ReportRow[]): string =>
  csvText([[...COLUMNS], ...rows.map((row) => COLUMNS.map((column) => row[column]))]);
