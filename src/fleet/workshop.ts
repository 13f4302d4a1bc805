/**
 * All that a build needs beside the stores: the shelf, the words of every language, the papers with their templates. Made once, from bytes.
 */
import { error, note, warning, type Finding } from '../base/finding.js';
import { suggestion } from '../base/spelling.js';
import { place, within } from '../base/place.js';
import { paperSchema, type Paper, type PaperSpec } from '../compose/paper.js';
import { calledFrom, makeTemplate, type TemplateFile } from '../compose/template.js';
import { makeReader, type Reader } from '../read/reader.js';
import { readShelf, SHIPPED, type Files, type Parsed, type Shelf } from '../read/shelf.js';
import { readText, type Source } from '../read/yaml.js';
import { besideFirst, compareLanguages, isSpoken, ownGaps } from '../say/compare.js';
import { gatherWords, type WordFile } from '../say/gather-words.js';
import type { Words } from '../say/words.js';
import { TEMPLATE } from './own-templates.js';
import { typedInQuestions, typedInTemplates } from './typed-figures.js';
import { unreadTemplates } from './unread-templates.js';

export interface Workshop {
  readonly shelf: Shelf;
  /** By language code. */
  readonly words: ReadonlyMap<string, Words>;
  /** Languages that a store may ask for. A page is made where the language has every sentence that the page says. */
  readonly languages: readonly string[];
  /** By language code, what it lacks of the chain's own sentences. */
  readonly lacking: ReadonlyMap<string, readonly Finding[]>;
  /** In the order in which the chain names them. */
  readonly papers: readonly Paper[];
}

export interface OpenedWorkshop {
  readonly workshop?: Workshop;
  /** Words are there even without a chain: a finding must be said. */
  readonly words: ReadonlyMap<string, Words>;
  readonly findings: readonly Finding[];
  readonly sources: ReadonlyMap<string, Source>;
}

const own = (doc: string): string => (doc.startsWith(SHIPPED) ? doc.slice(SHIPPED.length) : doc);

/** Shipped files first, so that the chain's own come later and win. */
const ordered = (files: Files): readonly string[] =>
  [...files.keys()].sort((a, b) => Number(b.startsWith(SHIPPED)) - Number(a.startsWith(SHIPPED)) || (a < b ? -1 : 1));

/** What the chain's office reads: its language where that is whole, else English. */
export const officeWords = ({ words, shelf }: Workshop): Words | undefined => {
  const own = words.get(shelf.lang);
  return own?.lacks.size === 0 ? own : words.get('en');
};

interface ReadWords {
  readonly words: ReadonlyMap<string, Words>;
  /** English as it comes with nightrail; as it is, where nothing tells this from the chain's own. */
  readonly shipped: Words | undefined;
}

/** The words of every language that the files hold. */
export const readWords = ({ files, open, findings }: Reader): ReadWords => {
  const byLang = new Map<string, WordFile[]>();
  const strange = new Set<string>();
  for (const doc of ordered(files)) {
    const found = /^words\/([a-z]{2})\/([a-z0-9-]+)\.ya?ml$/.exec(own(doc));
    if (!found) {
      const folder = /^words\/([^/]+)\//.exec(own(doc))?.[1];
      if (folder !== undefined && !/^[a-z]{2}$/.test(folder)) strange.add(folder);
      else if (own(doc).startsWith('words/')) findings.push(warning('words-unread', place(doc)));
      continue;
    }
    const [, lang, name] = found as unknown as [string, string, string];
    byLang.set(lang, [...(byLang.get(lang) ?? []), { name, doc, value: open(doc), shipped: doc.startsWith(SHIPPED) }]);
  }
  for (const wrote of strange) {
    const [, lang, ...rest] = /^([A-Za-z]{2})[-_](.+)$/.exec(wrote) ?? [];
    const meant = lang && { lang: lang.toLowerCase(), locale: [lang.toLowerCase(), ...rest].join('-').replaceAll('_', '-') };
    findings.push(warning('words-folder', place(`words/${wrote}`), { wrote, ...meant }));
  }
  const anyShips = [...byLang.values()].flat().some(({ shipped }) => shipped);
  const gather = (lang: string, english: readonly Words[]): Words => {
    const gathered = gatherWords(lang, byLang.get(lang) ?? [], english);
    findings.push(...gathered.findings);
    return { ...gathered.words, isOwn: anyShips && gathered.words.isOwn };
  };
  const english = byLang.get('en');
  if (!english) return { words: new Map([...byLang.keys()].map((lang) => [lang, gather(lang, [])])), shipped: undefined };
  const shipping = english.filter(({ shipped }) => shipped);
  const mixed = shipping.length > 0 && shipping.length < english.length;
  const base = mixed ? gatherWords('en', shipping).words : undefined;
  const first = gather('en', base ? [base] : []);
  const shipped = base ?? first;
  const words = [...byLang.keys()].map(
    (lang) => [lang, lang === 'en' ? first : besideFirst(gather(lang, [shipped, first]), first)] as const,
  );
  return { words: new Map(words), shipped };
};

/** Codes of sentences that templates ask for, in `t`, in a blank's label or a form's heads, and the names of their papers. */
const usedWords = (files: Files): ReadonlySet<string> =>
  new Set(
    [...files].flatMap(([doc, bytes]): readonly string[] => {
      const [, folder, file] = TEMPLATE.exec(own(doc)) ?? [];
      if (file === undefined) return [];
      if (file === 'paper.yaml') return [`${folder}.name`];
      return new TextDecoder().decode(bytes).match(/[a-z][a-z0-9-]*(?:\.[a-z0-9-]+)+/g) ?? [];
    }),
  );

/** From how far a paper is read: the farther, the larger its smallest type. */
const FAR: Readonly<Record<PaperSpec['distance'], number>> = { hand: 0, unit: 1, room: 2 };

/**
 * Which cautions a paper carries follows from its reader and from where it hangs, whether they can be read from its distance, and whether it is made
 * where no schedule is safe from `needs_schedule`: a chain's own paper of a name that ships may ask for more, never for less.
 */
const dropsCautions = (own: PaperSpec, ships: PaperSpec): boolean =>
  own.reader !== ships.reader ||
  (ships.at_unit && !own.at_unit) ||
  (ships.teaches === true && own.teaches !== true) ||
  (ships.needs_schedule && !own.needs_schedule) ||
  FAR[own.distance] < FAR[ships.distance];

/** Partials that say what people do at which time of a night and a morning. */
const STEPS: readonly string[] = ['headline', 'night', 'night-steps', 'morning'];

const readPapers = ({ files, open, findings, checked }: Reader, shelf: Shelf): readonly Paper[] => {
  const texts = new Map<string, TemplateFile>();
  const specs = new Map<string, string>();
  const shipped = new Map<string, string>();
  for (const doc of ordered(files)) {
    const found = TEMPLATE.exec(own(doc));
    if (!found) continue;
    const [, folder, file] = found as unknown as [string, string, string];
    if (file === 'paper.yaml') {
      specs.set(folder, doc);
      if (doc.startsWith(SHIPPED)) shipped.set(folder, doc);
    } else {
      const read = readText(doc, files.get(doc) as Uint8Array);
      findings.push(...read.findings);
      texts.set(`${folder}/${file.replace('.md.hbs', '')}`, { doc, text: read.text });
    }
  }
  const partials = new Map(
    [...texts]
      .filter(([name]) => name.startsWith('partials/'))
      .map(([name, file]) => {
        const ships = file.doc.startsWith(SHIPPED) ? undefined : files.get(`${SHIPPED}templates/${name}.md.hbs`);
        return [name.slice('partials/'.length), ships ? { ...file, ships: new TextDecoder().decode(ships) } : file] as const;
      }),
  );
  findings.push(...unreadTemplates(files), ...typedInTemplates(files), ...typedInQuestions(shelf));
  if (shelf.chain.papers.includes('poster') && !shelf.chain.papers.includes('week'))
    findings.push(note('paper-without-week', within(shelf.chainAt, 'papers')));
  return shelf.chain.papers.flatMap((id, i): readonly Paper[] => {
    const doc = specs.get(id);
    const main = texts.get(`${id}/page`);
    if (doc === undefined || !main) {
      findings.push(error('no-paper', within(shelf.chainAt, 'papers', i), { paper: id, ...suggestion(id, [...specs.keys()]) }));
      return [];
    }
    const spec = checked(paperSchema, open(doc), doc);
    if (!spec) return [];
    const ships = shipped.get(id);
    const first = ships === undefined || ships === doc ? undefined : checked(paperSchema, open(ships), ships);
    if (first && dropsCautions(spec, first)) {
      findings.push(error('paper-drops-cautions', place(doc), { paper: id }));
      return [];
    }
    const called = calledFrom(main, partials);
    const hasSteps = spec.per === 'unit' && STEPS.some((name) => called.has(name));
    if (ships === undefined && hasSteps && (spec.reader !== 'staff' || !spec.needs_schedule)) {
      findings.push(error('paper-of-steps', place(doc), { paper: id }));
      return [];
    }
    const made = makeTemplate(main, partials);
    findings.push(...made.findings);
    return made.template ? [{ id, at: place(doc), spec, template: made.template }] : [];
  });
};

export const openWorkshop = (files: Files, parsed?: Parsed): OpenedWorkshop => {
  const read = readShelf(files, parsed);
  const reader = makeReader(files, parsed);
  const { words, shipped: english } = readWords(reader);
  const first = words.get('en');
  const shipped = new Set(english?.codes);
  const used = usedWords(files);
  if (first) reader.findings.push(...compareLanguages(words, first, used, shipped));
  const approved = read.shelf?.chain.approved?.languages ?? [];
  approved.forEach((lang, i) => {
    if (read.shelf && !words.has(lang))
      reader.findings.push(warning('approved-language', within(read.shelf.chainAt, 'approved', 'languages', i), { lang }));
  });
  for (const own of words.values())
    if (own.isOwn && isSpoken(own) && !approved.includes(own.lang))
      reader.findings.push(warning('language-own', place(`words/${own.lang}`), { lang: own.lang, count: own.codes.length }));
  const languages = [...words.values()].filter(isSpoken).map((own) => own.lang);
  const papers = read.shelf && readPapers(reader, read.shelf);
  const findings = [...read.findings, ...reader.findings];
  const sources = new Map([...read.sources, ...reader.sources]);
  if (!read.shelf || !papers) return { words, findings, sources };
  const ours = new Set([...words.values()].flatMap(({ codes }) => codes.filter((code) => used.has(code) && !shipped.has(code))));
  const lacking = new Map(
    first ? [...words.values()].map((own) => [own.lang, ownGaps(own, first, shipped, ours, [...words.values()])]) : [],
  );
  return { workshop: { shelf: read.shelf, words, languages, lacking, papers }, words, findings, sources };
};
