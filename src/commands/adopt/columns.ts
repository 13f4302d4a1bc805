/**
 * What a spreadsheet's columns mean, as far as it can be told: a key for each, or why it is left out.
 */
import { counted } from '../../base/counted.js';
import { asId } from '../../model/fields.js';
import { columnsOf, type Column } from '../../read/columns.js';
import type { Csv } from '../../read/csv.js';

export interface Understood {
  readonly column: string;
  readonly means: string;
  readonly key?: string;
  /** What stands in it: of one that is left out, up to three different cells. */
  readonly example: string;
}

const understood = ({ name, means }: Column): Omit<Understood, 'example'> => {
  switch (means.is) {
    case 'id':
      return { column: name, key: 'id', means: "the store's id: a name for its folder" };
    case 'unit':
      return { column: name, key: 'unit', means: "the unit's id, where a row is a unit" };
    case 'hours':
      return { column: name, key: name, means: 'opening hours, where the column hours is empty' };
    case 'left-out':
      return { column: name, means: 'left out' };
    case 'key':
      return { column: name, key: name, means: `${means.of === 'unit' ? "the unit's" : "the store's"} ${means.path.join('.')}` };
    case 'unknown':
      return means.suggestion === undefined
        ? { column: name, means: 'nothing that nightrail knows; it would be left out' }
        : { column: name, key: means.suggestion, means: `perhaps ${means.suggestion}` };
  }
};

type Told = Omit<Understood, 'example'>;

/** A key is given once, and to the column that is called so before one that may mean it. */
const eachOnce = (columns: readonly Told[]): readonly Told[] =>
  columns.map((one, i) => {
    const { column, key } = one;
    const other = columns.find((c, j) =>
      c.key === key && (c.column === key) !== (column === key) ? c.column === key : c.key === key && j < i,
    );
    return key === undefined || !other
      ? one
      : { column, means: `perhaps ${key} too, as ${other.column} is; it would be left out` };
  });

/** A column most of whose cells name profiles is the units' profile, whatever it is called. */
const byItsCells =
  (csv: Csv, profiles: ReadonlySet<string>) =>
  (one: Told, i: number): Told => {
    const cells = filledIn(csv, i);
    const known = cells.filter((cell) => profiles.has(asId(cell))).length;
    if (one.key !== undefined || one.column.startsWith('#') || known * 2 <= cells.length) return one;
    return { ...one, key: 'unit.profile', means: 'perhaps unit.profile: its cells name profiles' };
  };

/** Where a store lies, the larger part of a country first. */
const LIES = [/^(state|province)$/i, /^(city|town)\s*[/,&]\s*(state|province)$/i, /^county$/i, /^(city|town)$/i];

/** Where no column is a region, one that says where a store lies may be: index, packing list and report go by it. */
const withRegion = (columns: readonly Told[]): readonly Told[] => {
  const free = columns.filter(({ key, column }) => key === undefined && LIES.some((form) => form.test(column)));
  const best = LIES.flatMap((form) => free.find(({ column }) => form.test(column)) ?? [])[0];
  if (!best || columns.some(({ key }) => key === 'region')) return columns;
  return columns.map((one) => (one === best ? { ...one, key: 'region', means: 'perhaps region, by which lists go' } : one));
};

const filledIn = (csv: Csv, i: number): readonly string[] =>
  csv.rows.map((row) => row.cells[i] ?? '').filter((cell) => cell !== '');

const EXAMPLES = 3;
const WIDEST = 40;

/** Of what is left out, how much that is and how it reads, so that nothing of weight is passed over. */
const withExamples =
  (csv: Csv) =>
  (one: Told, i: number): Understood => {
    const cells = filledIn(csv, i);
    const [first = ''] = cells;
    if (one.key !== undefined || cells.length === 0) return { ...one, example: first.slice(0, WIDEST) };
    const some = [...new Set(cells)].slice(0, EXAMPLES).map((cell) => cell.slice(0, WIDEST));
    return { ...one, example: `${counted(cells.length, 'cell')}: ${some.join(' | ')}` };
  };

/** @param profiles ids of the chain's kinds of unit */
export const understand = (csv: Csv, profiles: ReadonlySet<string>): readonly Understood[] =>
  withRegion(eachOnce(columnsOf(csv.header).map(understood).map(byItsCells(csv, profiles)))).map(withExamples(csv));

/** The header's row with keys for names: what is not known gets a # in front. */
export const renamed = (columns: readonly Understood[], delimiter: string): string =>
  columns
    .map(({ column, key }) => {
      const name = key ?? (column.startsWith('#') || column === '' ? column : `# ${column}`);
      return /["\n;,\t]/.test(name) ? `"${name.replace(/"/g, '""')}"` : name;
    })
    .join(delimiter);
