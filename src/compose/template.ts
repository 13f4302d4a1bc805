/**
 * A template to Markdown with sentinels: Handlebars with our helpers alone, strict about names, checked on its syntax tree before it runs.
 */
import Handlebars from 'handlebars';
import { error, type Finding } from '../base/finding.js';
import { nearest, suggestion } from '../base/spelling.js';
import type { Run } from '../base/run.js';
import { SHIPPED } from '../read/reader.js';
import { codeOf, FORBIDDEN } from '../read/yaml.js';
import { NoWords, type Speaker } from '../say/speaker.js';
import { asksFor } from '../say/words.js';
import { Leaf, LINE_CLOSE, LINE_OPEN, type Pot } from './leaf.js';
import type { View } from './view.js';

/** A template or a partial, as read. */
export interface TemplateFile {
  readonly doc: string;
  readonly text: string;
  /** Of a chain's own partial, what ships under its name. */
  readonly ships?: string;
}

export interface Template {
  readonly main: TemplateFile;
  /** Partials by name. */
  readonly partials: ReadonlyMap<string, TemplateFile>;
  /** Files by the number that line marks carry. */
  readonly files: readonly TemplateFile[];
  readonly render: (view: View, speaker: Speaker, pot: Pot) => { text: string; findings: readonly Finding[] };
}

/** Calls of partials in a template's text, by name. */
export const partialsIn = (text: string): readonly string[] =>
  [...text.matchAll(/\{\{~?#?>\s*\[?([a-z0-9-]+)/g)].map(([, name]) => name as string);

/** Partials that a template calls, and those that they call, by name. Dynamic calls are no part of a template. */
export const calledFrom = (
  file: TemplateFile,
  partials: ReadonlyMap<string, TemplateFile>,
  found = new Map<string, TemplateFile>(),
): ReadonlyMap<string, TemplateFile> => {
  for (const name of partialsIn(file.text)) {
    const partial = partials.get(name);
    if (!partial || found.has(name)) continue;
    found.set(name, partial);
    calledFrom(partial, partials, found);
  }
  return found;
};

const HELPERS = ['if', 'unless', 'each', 'with', 't', 'when', 'digits', 'half'];
const DEEPEST = 3;

/**
 * Puts `U+E002 file:line U+E003` at the end of each line that becomes text, so that a block knows its template line. The last line ends like the others:
 * a partial takes in the end of the line that calls it, and what stands below would be a part of its text.
 */
const markLines = (file: TemplateFile, number: number): string => {
  let fenced = false;
  let inTag = false;
  return file.text
    .split('\n')
    .map((line, i) => {
      // Within a tag that goes on in the next line a mark would be a part of it.
      const [opens, closes] = [line.lastIndexOf('{{'), line.lastIndexOf('}}')];
      if (opens !== closes) inTag = opens > closes;
      if (inTag) return line;
      const trimmed = line.trim();
      const fence = trimmed.startsWith('```');
      if (fence) fenced = !fenced;
      // A directive's opening line carries the mark among its words.
      if ((fence && fenced) || /^:{3,}\s*[a-z]/.test(trimmed)) return `${line}${LINE_OPEN}${number}:${i + 1}${LINE_CLOSE}`;
      const silent =
        fenced ||
        trimmed === '' ||
        (trimmed.startsWith('|') && !trimmed.endsWith('|')) ||
        /^(```|:{3,})/.test(trimmed) ||
        /^\{\{[~]?(#|\/|>|!|else\b|\^)[^}]*\}\}$/.test(trimmed) ||
        /^[-*_|:\s]+$/.test(trimmed);
      if (silent) return line;
      const mark = `${LINE_OPEN}${number}:${i + 1}${LINE_CLOSE}`;
      return /\|\s*$/.test(line) ? line.replace(/\|\s*$/, `${mark}|`) : `${line}${mark}`;
    })
    .join('\n')
    .replace(/\n?$/, '\n');
};

interface Node {
  readonly type: string;
  readonly loc: { readonly start: { readonly line: number; readonly column: number } };
  readonly path?: Node & { readonly original?: string };
  readonly params?: readonly Node[];
  readonly hash?: { readonly pairs: readonly { readonly value: Node }[] };
  readonly name?: Node & { readonly original?: string };
  readonly program?: { readonly body: readonly Node[] };
  readonly inverse?: { readonly body: readonly Node[] };
  readonly original?: string;
  readonly parts?: readonly string[];
}

/** The place of a piece of text in a template; its first line where it isn't there. */
export const spotOf = ({ doc, text }: TemplateFile, index: number) => {
  const before = text.slice(0, Math.max(index, 0)).split('\n');
  return { doc, path: [], line: before.length, column: index < 0 ? 1 : (before.at(-1)?.length ?? 0) + 1 };
};

/** Braces and quotes that a person or a word processor sets otherwise than a template does; and characters that no text may hold. */
const mistyped = (file: TemplateFile): readonly Finding[] => [
  ...[...file.text.matchAll(new RegExp(FORBIDDEN, 'gu'))].map((found) =>
    error('forbidden-character', spotOf(file, found.index), { character: codeOf(found[0]) }),
  ),
  ...[...file.text.matchAll(/\{\{[^{}]*[“”„‟‘’‚«»][^{}]*\}\}/g)]
    .filter(([wrote]) => !wrote.startsWith('{{!'))
    .map((found) => error('template-quotes', spotOf(file, found.index), { wrote: found[0] })),
  ...[...file.text.matchAll(/(?<!\{)\{\s*(?:t|when|digits|half)\s[^{}\n]*\}{1,2}|\{\{\s*t\s[^{}\n]*\}(?!\})/g)].map((found) =>
    error('template-brace', spotOf(file, found.index), { wrote: found[0], meant: `{{${found[0].replace(/[{}]/g, '').trim()}}}` }),
  ),
];

/** Findings of the syntax tree: what can loop, reach out or run is not a template of ours. */
const checkTree = (
  file: TemplateFile,
  partials: ReadonlySet<string>,
): { findings: readonly Finding[]; uses: readonly string[] } => {
  const findings: Finding[] = [];
  const uses: string[] = [];
  const at = (node: Node) => ({ doc: file.doc, path: [], line: node.loc.start.line, column: node.loc.start.column + 1 });
  const walk = (body: readonly Node[], depth: number): void => {
    for (const node of body) {
      for (const named of [node, node.path]) {
        const inherited = named?.parts?.find((part) => part in {});
        if (named && inherited !== undefined) findings.push(error('template-unknown-value', at(named), { wrote: inherited }));
      }
      const called = node.path?.original ?? '';
      const isCall =
        (node.params?.length ?? 0) > 0 ||
        node.type === 'BlockStatement' ||
        node.type === 'SubExpression' ||
        HELPERS.includes(called);
      if (
        ['MustacheStatement', 'BlockStatement', 'SubExpression'].includes(node.type) &&
        isCall &&
        (!HELPERS.includes(called) || (node.params?.length ?? 0) === 0)
      ) {
        findings.push(error('template-helper', at(node), { wrote: called, ...suggestion(called, HELPERS) }));
      }
      if (node.type === 'PartialStatement' || node.type === 'PartialBlockStatement') {
        const name = node.name?.original;
        if (node.name?.type !== 'PathExpression' || name === undefined || !partials.has(name)) {
          findings.push(error('template-partial', at(node), { wrote: name ?? '?', ...suggestion(name ?? '', [...partials]) }));
        } else uses.push(name);
      }
      if (node.type === 'DecoratorBlock' || node.type === 'Decorator')
        findings.push(error('template-helper', at(node), { wrote: called, names: HELPERS }));
      const inner = node.type === 'BlockStatement' && called === 'each' ? depth + 1 : depth;
      if (inner > DEEPEST) findings.push(error('template-too-deep', at(node), { most: DEEPEST }));
      walk([...(node.params ?? []), ...(node.hash?.pairs.map((pair) => pair.value) ?? [])], depth);
      walk(node.program?.body ?? [], inner);
      walk(node.inverse?.body ?? [], depth);
    }
  };
  findings.push(...mistyped(file));
  if (findings.length > 0) return { findings, uses };
  try {
    walk((Handlebars.parse(file.text) as unknown as { body: Node[] }).body, 0);
  } catch (fault) {
    const says = fault instanceof Error ? fault.message : String(fault);
    findings.push(
      error(
        'template-syntax',
        { doc: file.doc, path: [], line: Number(/line (\d+)/.exec(says)?.[1] ?? 1), column: 1 },
        { says: says.split('\n')[0] ?? '' },
      ),
    );
  }
  return { findings, uses };
};

/** Keys of a view, all the way down: for the nearest name to a wrong one. */
const keysOf = (view: View, found = new Set<string>(), depth = 0): Set<string> => {
  if (depth > 6 || typeof view !== 'object' || view instanceof Leaf) return found;
  for (const [key, inner] of Object.entries(view)) {
    if (!Array.isArray(view)) found.add(key);
    keysOf(inner, found, depth + 1);
  }
  return found;
};

const runsOf = (value: unknown): readonly Run[] | undefined =>
  value instanceof Leaf ? Leaf.runsOf(value) : typeof value === 'string' ? [{ text: value }] : undefined;

/** Of partials, those that call themselves, by whatever way round, and those that call one. Each is looked at once. */
const inLoops = (uses: (name: string) => readonly string[], names: readonly string[]): ReadonlySet<string> => {
  const looping = new Set<string>();
  const known = new Map<string, 'open' | 'done'>();
  const visit = (name: string): boolean => {
    if (known.get(name) === 'open') return true;
    if (known.get(name) === 'done') return looping.has(name);
    known.set(name, 'open');
    const loops = uses(name).map(visit).includes(true);
    known.set(name, 'done');
    if (loops) looping.add(name);
    return loops;
  };
  names.forEach(visit);
  return looping;
};

/** Calls of partials that one page may make in all, calls within calls among them. */
const MOST_EXPANSIONS = 1000;

/** How many calls come of some, where none goes round in a loop; each partial is looked at once. */
const expansionsOf = (uses: (name: string) => readonly string[], from: readonly string[]): number => {
  const known = new Map<string, number>();
  const of = (name: string): number => {
    const found = known.get(name) ?? 1 + uses(name).reduce((sum, next) => sum + of(next), 0);
    known.set(name, found);
    return found;
  };
  return from.reduce((sum, name) => sum + of(name), 0);
};

/** Compiles a template with its partials, or says what is wrong with them. */
export const makeTemplate = (
  main: TemplateFile,
  partials: ReadonlyMap<string, TemplateFile>,
): { template?: Template; findings: readonly Finding[] } => {
  const names = new Set(partials.keys());
  const checked = new Map([...partials].map(([name, file]) => [name, checkTree(file, names)] as const));
  const top = checkTree(main, names);
  const findings = [...top.findings, ...[...checked.values()].flatMap((c) => c.findings)];
  const looping = inLoops((name) => checked.get(name)?.uses ?? [], [...partials.keys()]);
  for (const [name, file] of partials) {
    if (looping.has(name))
      findings.push(error('template-cycle', { doc: file.doc, path: [], line: 1, column: 1 }, { partial: name }));
  }
  if (findings.length === 0 && expansionsOf((name) => checked.get(name)?.uses ?? [], top.uses) > MOST_EXPANSIONS)
    findings.push(error('template-too-many', { doc: main.doc, path: [], line: 1, column: 1 }, { most: MOST_EXPANSIONS }));
  if (findings.length > 0) return { findings };

  const files = [main, ...partials.values()];
  const engine = Handlebars.create();
  const options = {
    strict: true,
    knownHelpersOnly: true,
    knownHelpers: Object.fromEntries(HELPERS.map((h) => [h, true])),
    explicitPartialContext: false,
  };
  const run = engine.compile(markLines(main, 0), options);
  /** The partials in which a rendering broke off, the innermost first. */
  const broken: TemplateFile[] = [];
  /** A chain's own partials that said nothing where the ones that ship say something. */
  const silent = new Map<string, TemplateFile>();
  const ready = Object.fromEntries(
    [...partials].map(([name, file]) => {
      const inner = engine.compile(markLines(file, files.indexOf(file)), options);
      const shipped = file.ships === undefined ? undefined : engine.compile(file.ships, options);
      const watched: typeof inner = (...given) => {
        try {
          const text = inner(...given);
          if (shipped && saysNothing(text) && !saysNothing(shipped(...given))) silent.set(name, file);
          return text;
        } catch (fault) {
          broken.push(file);
          throw fault;
        }
      };
      return [name, watched];
    }),
  );

  const render: Template['render'] = (view, speaker, pot) => {
    const helpers = {
      /** `{{t "poster.tonight" limit=limit}}`: a sentence of the word list. */
      t: (code: unknown, { hash }: Handlebars.HelperOptions) => {
        const sentence = speaker.word(String(code));
        const values: Record<string, readonly Run[]> = {};
        for (const name of asksFor(sentence)) {
          const runs = runsOf((hash as Record<string, unknown>)[name]);
          if (!runs) throw new TemplateFault(`{${name}} of ${String(code)}`);
          values[name] = runs;
        }
        const runs = speaker.phrase(String(code), values);
        return new Leaf(pot, () => ({ runs }));
      },
      /** `{{when at}}`: the clock time of a step, set out before its words. */
      when: (value: unknown) => {
        const runs = runsOf(value);
        return runs ? new Leaf(pot, () => ({ runs, when: true })) : '';
      },
      /** `{{digits time}}`: a clock time for the largest type, without am or pm; `{{half time}}` says that beside it. */
      digits: (value: unknown) => new Leaf(pot, () => ({ runs: (runsOf(value) ?? []).slice(0, 1) })),
      half: (value: unknown) =>
        new Leaf(pot, () => ({ runs: (runsOf(value) ?? []).slice(1).map((run) => ({ ...run, text: run.text.trim() })) })),
    };
    broken.length = 0;
    silent.clear();
    try {
      const text = run(view, { helpers, partials: ready });
      const spot = groupPrinted(text);
      const at = spot && { doc: (files[spot.file] ?? main).doc, path: [], line: spot.line, column: 1 };
      const nothing = [...silent].map(([partial, { doc }]) =>
        error('partial-empty', { doc, path: [], line: 1, column: 1 }, { partial }),
      );
      return { text, findings: [...(at ? [error('template-group', at)] : []), ...nothing] };
    } catch (fault) {
      return { text: '', findings: [renderFault(fault, broken[0] ?? main, view)] };
    }
  };
  return { template: { main, partials, files, render }, findings };
};

/** Of a rendered text, what no page prints: marks, comments, definitions of links, spaces of any kind. */
const UNPRINTED = new RegExp(
  `${LINE_OPEN}\\d+:\\d+${LINE_CLOSE}|<!--[\\s\\S]*?-->|^\\s*\\[[^\\]\\n]*\\]:.*$|&[a-zA-Z]+;|[\\u200b-\\u200f\\u2060\\ufeff]`,
  'gm',
);
const saysNothing = (text: string): boolean => text.replace(UNPRINTED, '').trim() === '';

class TemplateFault extends Error {}

/** What JavaScript makes of a group of values that is printed as if it were one. */
const GROUP = '[object Object]';
const MARK = new RegExp(`${LINE_OPEN}(\\d+):(\\d+)${LINE_CLOSE}`);

/** The line of a template that prints a group of values, by the mark at its end. */
const groupPrinted = (text: string): { readonly file: number; readonly line: number } | undefined => {
  const from = text.indexOf(GROUP);
  if (from < 0) return undefined;
  const [, file, line] = MARK.exec(text.slice(from)) ?? [];
  return { file: Number(file ?? 0), line: Number(line ?? 1) };
};

const renderFault = (fault: unknown, file: TemplateFile, view: View): Finding => {
  if (!(fault instanceof Error)) throw fault;
  const where = fault as Error & { lineNumber?: number; column?: number };
  const at =
    where.lineNumber === undefined
      ? spotOf(file, file.text.indexOf(fault instanceof NoWords ? `"${fault.data.code}"` : '\0'))
      : { doc: file.doc, path: [], line: where.lineNumber, column: (where.column ?? 0) + 1 };
  // A name that the view lacks, or a name inside of what this unit hasn't got.
  const unknown = /^"(.+?)" not defined|^Cannot read properties of undefined \(reading '(.+?)'\)/
    .exec(fault.message)
    ?.slice(1)
    .find(Boolean);
  if (unknown !== undefined) {
    const near = nearest(unknown, [...keysOf(view)]);
    return error('template-unknown-value', at, { wrote: unknown, ...(near ? { nearest: near } : {}) });
  }
  if (fault instanceof TemplateFault) return error('template-unknown-value', at, { wrote: fault.message });
  if (fault instanceof NoWords) return error('template-no-words', at, fault.data);
  // What Handlebars itself says of a tag: a helper with too few values, one that is not closed on its line.
  if (fault.constructor === Error || fault instanceof Handlebars.Exception || !file.doc.startsWith(SHIPPED))
    return error('template-failed', at, { why: fault.message.split('\n')[0] ?? '' });
  throw fault;
};
