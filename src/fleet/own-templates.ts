/**
 * The templates that a chain wrote itself, as texts to look through.
 */
import { SHIPPED, type Files } from '../read/shelf.js';

/** A template's own two kinds of file, by folder and name. */
export const TEMPLATE = /^templates\/([a-z0-9-]+)\/(paper\.yaml|[a-z0-9-]+\.md\.hbs)$/;

export const ownTemplates = (files: Files): readonly { readonly doc: string; readonly text: string }[] =>
  [...files].flatMap(([doc, bytes]) =>
    !doc.startsWith(SHIPPED) && doc.endsWith('.hbs') && TEMPLATE.test(doc)
      ? [{ doc, text: new TextDecoder().decode(bytes) }]
      : [],
  );

/** The text with nothing where a pattern matches, each character and line where it was. */
export const blanked = (text: string, pattern: RegExp): string => text.replace(pattern, (part) => part.replace(/[^\n]/g, '\0'));
