/**
 * What `check` would say of a spreadsheet's stores once a copy of it is built from, told before that: all in one round.
 */
import { error, type Finding } from '../../base/finding.js';
import type { Workshop } from '../../fleet/workshop.js';
import { LANG } from '../../model/fields.js';
import { cellValue } from '../../read/columns.js';
import { readStore } from '../../read/shelf.js';
import { forTrial, readRows, type SheetStore } from '../../read/spreadsheet.js';

/** Told by column or by table here. */
const TOLD_OTHERWISE = /^(missing-key|csv-no-units|no-place-for-food|csv-has-errors)$|^hours-/;

/** Languages of which no page can be made. */
const languageFaults = (store: SheetStore, languages: readonly string[]): readonly Finding[] => {
  const { value, placeOf } = readRows(store.doc, forTrial(store.bytes));
  const { languages: wrote } = (value ?? {}) as { languages?: unknown };
  const asked = typeof wrote === 'string' ? cellValue(wrote, ['list']) : wrote;
  return (Array.isArray(asked) ? asked : [])
    .filter((lang): lang is string => typeof lang === 'string' && LANG.test(lang) && !languages.includes(lang))
    .map((lang) => error('no-language', placeOf(['languages']), { wrote: lang, names: languages }));
};

export const tryStores = (stores: readonly SheetStore[], workshop: Workshop | undefined): readonly Finding[] =>
  stores
    .flatMap((store): readonly Finding[] => {
      const bytes = forTrial(store.bytes);
      if (!workshop) return readRows(store.doc, bytes).findings;
      return [...readStore(workshop.shelf, store.doc, bytes).findings, ...languageFaults(store, workshop.languages)];
    })
    .filter(({ code, severity }) => severity !== 'note' && !TOLD_OTHERWISE.test(code));
