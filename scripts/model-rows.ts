/** All rows of the model's table, in its order: the one list that the command prints and the tests hold. */
import type { Row } from './model-row.js';
import { pans, properties } from './model-rows-properties.js';
import { practice } from './model-rows-rail.js';

export const MODEL_ROWS: readonly Row[] = [...properties, ...pans, ...practice];
