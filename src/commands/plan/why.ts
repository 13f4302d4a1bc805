/**
 * `nightrail plan --why`: of a value, the chain of reasons behind it; of a unit or any other branch, its values; of a path that the plan has not,
 * those that were probably meant.
 */
import { isUnconfirmed, type Known } from '../../base/basis.js';
import { textOf } from '../../base/run.js';
import { nearestFew } from '../../base/spelling.js';
import type { Value } from '../../base/value.js';
import { leaves, type Tree } from '../../plan/known.js';
import { locate } from '../../read/locate.js';
import type { Speaker } from '../../say/speaker.js';
import { EXIT } from '../shared/exit.js';
import type { Session } from '../shared/session.js';

/** Where a basis points, as a person finds it. */
const whence = (known: Known<Value>, session: Session, speaker: Speaker): string => {
  const { basis } = known;
  if (basis.how === 'computed' || basis.how === 'practice') {
    const words = session.opened.workshop?.words.get('en')?.get(`why.${basis.rule}`);
    const rounded = basis.how === 'computed' && basis.rounded ? `, rounded ${basis.rounded}` : '';
    const band = basis.how === 'computed' && basis.band ? `, band ${speaker.figures.span(basis.band.low, basis.band.high)}` : '';
    return basis.how === 'practice'
      ? `common practice, no source${words ? `: ${words}` : ''}`
      : `${words ?? basis.rule}${rounded}${band}`;
  }
  const spot = locate(basis.at, session.sources.get(basis.at.doc));
  const at = `${basis.at.doc}${spot ? `:${spot.line}` : ''}`;
  if (basis.how === 'law')
    return `${basis.law}, ${basis.section}${basis.checked ? '' : ` (${speaker.word('terms.not-checked')})`}, ${at}`;
  const confirmed = isUnconfirmed(basis) ? `, ${speaker.word('terms.not-confirmed')}` : '';
  return `${basis.how} in ${at}${confirmed}`;
};

/** A path with each of the branches that hold it: `units`, `units.line-1`. */
const withBranches = (path: string): readonly string[] => {
  const steps = path.split('.');
  return steps.map((_, i) => steps.slice(0, i + 1).join('.'));
};

/** Whether a path has all of these steps, in this order, whatever stands between. */
const passes = (path: string, steps: readonly string[]): boolean =>
  path.split('.').reduce((met, step) => (step === steps[met] ? met + 1 : met), 0) === steps.length;

const MOST = 6;

/** Paths and branches that may have been meant: those that hold all steps of it, the shortest first; where none does, those that are written nearly so. */
const meant = (wrote: string, all: readonly string[]): readonly string[] => {
  const names = [...new Set(all.flatMap(withBranches))];
  const holding = names.filter((name) => passes(name, wrote.split('.'))).sort((a, b) => a.length - b.length);
  return holding.length > 0 ? holding.slice(0, MOST) : nearestFew(wrote, names, MOST);
};

/** @returns the exit code */
export const why = (tree: Tree, path: string, session: Session, speaker: Speaker): number => {
  const { terminal } = session;
  const all = new Map<string, Known<Value>>();
  for (const [name, known] of leaves(tree)) {
    all.set(name, known);
    if (!all.has(known.path)) all.set(known.path, known);
  }
  const say = (known: Known<Value>): string => terminal.strong(textOf(speaker.say(known).runs));
  const top = all.get(path);
  if (!top) {
    const below = [...all].filter(([name]) => name.startsWith(`${path}.`));
    for (const [name, known] of below) terminal.line(`${name} = ${say(known)}`);
    if (below.length > 0) return EXIT.fine;
    terminal.problem(
      [`the plan has no ${path}; nearest to it:`, ...meant(path, [...all.keys()]).map((name) => `  ${name}`)].join('\n'),
    );
    return EXIT.usage;
  }
  const seen = new Set<string>();
  const tell = (known: Known<Value>, depth: number): void => {
    const again = seen.has(known.path);
    seen.add(known.path);
    const from = again ? '(see above)' : whence(known, session, speaker);
    terminal.line(`${'  '.repeat(depth)}${known.path} = ${say(known)}  ${terminal.quiet(from)}`);
    if (!again && known.basis.how === 'computed') for (const one of known.basis.from) tell(one as Known<Value>, depth + 1);
  };
  tell(top, 0);
  return EXIT.fine;
};
