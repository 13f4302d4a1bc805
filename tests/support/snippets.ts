/**
 * The pieces of template in docs/blocks.md, and each as a paper of its own.
 */
import type { Paper } from '../../src/compose/paper.js';
import { makeTemplate } from '../../src/compose/template.js';
import type { Files } from '../../src/read/shelf.js';

export interface Snippet {
  readonly name: string;
  readonly text: string;
  /** Shown as whole sheets. */
  readonly sheets: boolean;
}

export const snippetsOf = (markdown: string): readonly Snippet[] =>
  [...markdown.matchAll(/^````template (\S+)( sheets)?\n([\s\S]*?)^````$/gm)].map(([, name = '', sheets, text = '']) => ({
    name,
    text,
    sheets: sheets !== undefined,
  }));

/** @throws with the findings of a piece that is no template */
export const snippetPaper = ({ name, text }: Snippet, files: Files): Paper => {
  const partials = new Map(
    [...files].flatMap(([doc, bytes]) => {
      const found = /^templates\/partials\/([a-z0-9-]+)\.md\.hbs$/.exec(doc);
      return found ? [[found[1] as string, { doc, text: new TextDecoder().decode(bytes) }] as const] : [];
    }),
  );
  const { template, findings } = makeTemplate({ doc: `docs/blocks.md#${name}`, text }, partials);
  if (!template) throw new Error(`${name}: ${JSON.stringify(findings)}`);
  return {
    // Its name is asked of the word list.
    id: 'handout',
    at: { doc: 'docs/blocks.md', path: [] },
    template,
    spec: {
      per: 'unit',
      when: 'standing',
      reader: 'staff',
      at_unit: true,
      distance: 'hand',
      length: 'flow',
      finish: 'plain',
      orientation: 'portrait',
      needs_schedule: false,
    },
  };
};
