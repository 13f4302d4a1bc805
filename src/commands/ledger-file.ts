/**
 * A ledger by what a person names: a folder of papers, or the ledger's file.
 */
import { dirname, basename } from 'node:path';
import { LEDGER, ledgerFrom, type Ledger } from '../fleet/ledger.js';
import { openOut } from '../host/out-folder.js';

export const ledgerAt = (path: string): Ledger | undefined =>
  path.endsWith('.jsonl') ? ledgerFrom(openOut(dirname(path)).read(basename(path))) : ledgerFrom(openOut(path).read(LEDGER));
