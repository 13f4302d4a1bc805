/**
 * Clock times and temperatures that a chain typed where nothing computes or checks them: in its own questions, and straight into its templates.
 * People act on these, and they stay as they are when a store's hours or its law change.
 */
import { warning, type Finding } from '../base/finding.js';
import { within } from '../base/place.js';
import { typedIn, type Typed } from '../base/typed.js';
import { spotOf } from '../compose/template.js';
import type { Files, Shelf } from '../read/shelf.js';
import { blanked, ownTemplates } from './own-templates.js';

/** What a template writes instead: on a page of a unit, and on one of the whole store. */
const VALUES: Readonly<Record<Typed['kind'], readonly [string, string]>> = {
  time: [
    '{{#if unit.is.timed}}{{unit.rest.empty_by}}{{/if}}',
    '{{#each units}}{{#if is.timed}}{{nickname}}: {{rest.empty_by}} {{/if}}{{/each}}',
  ],
  temperature: ['{{unit.limit}}', '{{store.law.limit}}'],
};

/** What the answer of a question that ships is given, and which. */
const GIVEN: Readonly<Record<Typed['kind'], readonly [string, string]>> = {
  time: ['{empty_by}, {off}', 'when-empty'],
  temperature: ['{limit}', 'warm-pan'],
};

/** Tags, fences and directives: what a template doesn't print as it stands. */
const MACHINERY = /\{\{!--[\s\S]*?--\}\}|\{{2,3}[\s\S]*?\}{2,3}|^\s*```[\s\S]*?^\s*```|^\s*:{3,}.*$/gm;

export const typedInTemplates = (files: Files): readonly Finding[] =>
  ownTemplates(files).flatMap((file) =>
    typedIn(blanked(file.text, MACHINERY)).map(({ kind, figure, index }) => {
      const [of_unit, of_store] = VALUES[kind];
      return warning('figure-typed', spotOf(file, index), { figure, of_unit, of_store });
    }),
  );

export const typedInQuestions = ({ chain, chainAt, lang }: Shelf): readonly Finding[] =>
  (chain.questions ?? []).flatMap((question, i) =>
    (['ask', 'answer'] as const).flatMap((part) => {
      const at = within(chainAt, 'questions', i, part);
      const wrote = question[part];
      const texts =
        typeof wrote === 'string'
          ? [{ text: wrote, at, in: lang }]
          : Object.entries(wrote).map(([key, text]) => ({ text, at: within(at, key), in: key }));
      return texts.flatMap((one) =>
        typedIn(one.text).map(({ kind, figure }) => {
          const [value, question] = GIVEN[kind];
          return warning('figure-typed', one.at, { figure, value, question, lang: one.in });
        }),
      );
    }),
  );
