/**
 * Files below a chain's templates/ that nothing reads: a wrong name, place or ending loses a paragraph without a trace.
 */
import { warning, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import { nearest } from '../base/spelling.js';
import { SHIPPED, type Files } from '../read/shelf.js';
import { partialsIn } from '../compose/template.js';
import { TEMPLATE } from './own-templates.js';

const PAPER_FILES = ['paper.yaml', 'page.md.hbs'];
/** What a person may have written in the belief that it is read. */
const WRITTEN = /\.(md|markdown|hbs|handlebars|html?|ya?ml|txt|rtf|docx?)$/i;

const own = (doc: string): string => (doc.startsWith(SHIPPED) ? doc.slice(SHIPPED.length) : doc);
const partial = (name: string): string => `templates/partials/${name}.md.hbs`;

/** The template that a person meant by a file. */
const meant = (doc: string, called: readonly string[], papers: readonly string[]): string | undefined => {
  const [, folder = '', file = ''] = /^templates\/(?:(.*)\/)?([^/]*)$/.exec(doc.toLowerCase()) ?? [];
  const stem = file.replace(/\..*$/, '');
  const as = PAPER_FILES.find((name) => name.startsWith(`${stem}.`));
  const paper = as && nearest(folder, papers);
  if (paper) return `templates/${paper}/${as}`;
  const near = nearest(stem, called);
  return near === undefined ? undefined : partial(near);
};

export const unreadTemplates = (files: Files): readonly Finding[] => {
  const docs = [...files.keys()].filter((doc) => own(doc).startsWith('templates/'));
  const texts = docs.filter((doc) => doc.endsWith('.md.hbs')).map((doc) => new TextDecoder().decode(files.get(doc)));
  const called = [...new Set(texts.flatMap(partialsIn))].sort();
  const papers = [...new Set(docs.map(own).flatMap((doc) => /^templates\/([a-z0-9-]+)\/page\.md\.hbs$/.exec(doc)?.[1] ?? []))];
  const isRead = (doc: string): boolean => {
    const [, folder = '', file = ''] = TEMPLATE.exec(doc) ?? [];
    return folder === 'partials' ? called.includes(file.replace('.md.hbs', '')) : PAPER_FILES.includes(file);
  };
  return docs
    .filter((doc) => !doc.startsWith(SHIPPED) && WRITTEN.test(doc) && !isRead(doc))
    .map((doc) => {
      const near = meant(doc, called, papers);
      const fillable = called.filter((name) => name.endsWith('-own')).map(partial);
      return warning('template-unread', place(doc), near === undefined ? { names: fillable } : { nearest: near });
    });
};
