/** The faces of the tests, read from the package that ships them. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { makeFaces, type Faces } from '../../src/print/faces.js';

const { resolve } = createRequire(import.meta.url);
const read = (weight: string): Uint8Array =>
  readFileSync(resolve(`@expo-google-fonts/atkinson-hyperlegible-next/${weight}/AtkinsonHyperlegibleNext_${weight}.ttf`));

/** Faces that have not been used yet. */
export const freshFaces = (): Faces =>
  makeFaces({ regular: read('400Regular'), strong: read('700Bold'), heavy: read('800ExtraBold') });

export const faces = freshFaces();
