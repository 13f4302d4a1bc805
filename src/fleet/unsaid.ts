/**
 * Sentences that a chain's own templates ask for and that no language has: a slip in a code, or a list that nobody has written yet.
 */
import { error, type Finding } from '../base/finding.js';
import { nearest } from '../base/spelling.js';
import { spotOf } from '../compose/template.js';
import type { Files } from '../read/shelf.js';
import { isRefused } from '../say/words.js';
import { blanked, ownTemplates } from './own-templates.js';
import type { Workshop } from './workshop.js';

const COMMENT = /\{\{!--[\s\S]*?--\}\}|\{\{![\s\S]*?\}\}/g;
/** `{{t "ours.filters"`, in a tag or within one. */
const ASKED = /(?<=[{(]\s*t\s+)(["'])([a-z0-9-]+(?:\.[a-z0-9-]+)+)\1/g;

/** As a build tells it of a page, here for a template: once, and with the sentence that may be meant. */
export const unsaid = (files: Files, { words, shelf }: Workshop): readonly Finding[] => {
  const all = [...words.values()];
  const codes = [...new Set(all.flatMap((one) => one.codes))];
  const isSaid = (code: string): boolean => all.some((one) => one.get(code) !== undefined || isRefused(one, code));
  return ownTemplates(files).flatMap((file) =>
    [...blanked(file.text, COMMENT).matchAll(ASKED)].flatMap(({ 2: code = '', index }) => {
      if (isSaid(code)) return [];
      const near = nearest(code, codes);
      const data = { code, file: `words/${shelf.lang}/${code.split('.')[0] ?? ''}.yaml`, ...(near ? { nearest: near } : {}) };
      return [error('template-no-words', spotOf(file, index), data)];
    }),
  );
};
