/**
 * Plain data by the steps that lead to a value: reading, and a copy with one value changed.
 */
export type Path = readonly (string | number)[];

const isTree = (value: unknown): value is Record<string | number, unknown> => typeof value === 'object' && value !== null;

export const at = (tree: unknown, path: Path): unknown =>
  path.reduce<unknown>((here, step) => (isTree(here) && Object.hasOwn(here, step) ? here[step] : undefined), tree);

/** A copy in which the value at the path is another one; undefined takes it out, with the maps that are left empty. */
export const changed = (tree: unknown, path: Path, value: unknown): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  const copy: Record<string | number, unknown> | unknown[] = Array.isArray(tree)
    ? [...(tree as readonly unknown[])]
    : isTree(tree)
      ? { ...tree }
      : {};
  const next = changed(isTree(tree) ? tree[step] : undefined, rest, value);
  const gone = next === undefined || (value === undefined && isTree(next) && Object.keys(next).length === 0);
  if (Array.isArray(copy)) copy[Number(step)] = next;
  else if (gone) return Object.fromEntries(Object.entries(copy).filter(([key]) => key !== String(step)));
  else copy[step] = next;
  return copy;
};

/** A copy without the value at the path; what held it stays, even empty. */
export const without = (tree: unknown, path: Path): unknown => {
  const [step, ...rest] = path;
  if (step === undefined || !isTree(tree)) return tree;
  if (Array.isArray(tree)) return tree.map((item: unknown, i) => (i === Number(step) ? without(item, rest) : item));
  return Object.fromEntries(
    Object.entries(tree).flatMap(([key, inner]) => {
      if (key !== String(step)) return [[key, inner]];
      return rest.length === 0 ? [] : [[key, without(inner, rest)]];
    }),
  );
};

/** Every path of the tree that a pattern meets; `*` stands for any step. The last step need not be there. */
export const meeting = (tree: unknown, pattern: readonly string[], from: Path = []): readonly Path[] => {
  const [step, ...rest] = pattern;
  if (step === undefined) return [from];
  if (step !== '*') return rest.length > 0 && !isTree(at(tree, [...from, step])) ? [] : meeting(tree, rest, [...from, step]);
  const here = at(tree, from);
  if (!isTree(here)) return [];
  const steps = Array.isArray(here) ? here.map((_, i) => i) : Object.keys(here);
  return steps.flatMap((one) => meeting(tree, rest, [...from, one]));
};

/** Paths of what is no map: single values and whole lists. */
export const leaves = (tree: unknown, from: Path = []): readonly Path[] =>
  isTree(tree) && !Array.isArray(tree) ? Object.entries(tree).flatMap(([key, inner]) => leaves(inner, [...from, key])) : [from];

/** The same, with each part of a list of maps by itself. */
export const facts = (tree: unknown): readonly Path[] =>
  leaves(tree).flatMap((path) => {
    const list = at(tree, path);
    if (!Array.isArray(list) || !list.every((item) => isTree(item) && !Array.isArray(item))) return [path];
    return list.flatMap((item, i) => facts(item).map((inner) => [...path, i, ...inner]));
  });

/** The same with its keys in the order of another tree, new ones last. */
export const inOrderOf = (tree: unknown, order: unknown): unknown => {
  if (!isTree(tree) || Array.isArray(tree)) return tree;
  const known = isTree(order) && !Array.isArray(order) ? Object.keys(order) : [];
  const keys = [...known.filter((key) => Object.hasOwn(tree, key)), ...Object.keys(tree).filter((key) => !known.includes(key))];
  return Object.fromEntries(keys.map((key) => [key, inOrderOf(tree[key], at(order, [key]))]));
};
