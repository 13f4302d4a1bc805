/**
 * A ledger by what a person names: a folder of papers, or the ledger's file.
 */
import { dirname, basename } from 'node:path';
import { LEDGER, ledgerFrom, type Ledger } from '../../fleet/ledger.js';
import { openOut, sha256 } from '../../host/out-folder.js';

export const ledgerAt = (path: string): Ledger | undefined => {
  const [folder, name] = path.endsWith('.jsonl') ? [dirname(path), basename(path)] : [path, LEDGER];
  return ledgerFrom(openOut(folder).read(name), sha256);
};
