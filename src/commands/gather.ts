/**
 * `nightrail gather`: the parts of a build that several machines made, joined into what one machine would have written.
 */
import { join } from 'node:path';
import { error } from '../base/finding.js';
import { place } from '../base/place.js';
import { writeLedger } from '../fleet/finish.js';
import { gather as joined } from '../fleet/gather.js';
import { LEDGER, ledgerFrom } from '../fleet/ledger.js';
import { FolderFault } from '../fleet/outside.js';
import { partLedgers } from '../fleet/past.js';
import { takeLock } from '../host/lock.js';
import { openOutside } from '../host/out-folder.js';
import { counted } from '../base/counted.js';
import { EXIT } from './shared/exit.js';
import { openSession, type CommonOptions } from './shared/session.js';

export interface GatherOptions extends CommonOptions {
  readonly out: string;
}

export const gather = async (options: GatherOptions): Promise<number> => {
  const session = openSession(options);
  const { terminal } = session;
  const { workshop } = session.opened;
  const conclude = (says = ''): number => {
    if (options.json) terminal.line(JSON.stringify({ findings: session.spoken() }, null, 2));
    else {
      session.conclude();
      if (says) terminal.line(says);
    }
    return session.exitCode();
  };
  if (!workshop) return conclude();
  const lock = await takeLock(options.out, 'gather');
  if ('says' in lock) {
    session.add([error('folder-in-use', place(options.out), { who: lock.says || '?' })]);
    return conclude();
  }
  try {
    const outside = openOutside(options.out);
    const names = partLedgers(outside.out);
    const parts = names.map((name) => ledgerFrom(outside.out.read(name), outside.hash));
    const broken = names.filter((_, i) => parts[i] === undefined);
    session.add(broken.map((name) => error('gather-unreadable', place(join(options.out, name)), {})));
    const { ledger, findings } =
      broken.length > 0
        ? { findings: [] }
        : joined(
            parts.flatMap((part) => part ?? []),
            outside.hash,
          );
    session.add(findings);
    if (!ledger) return conclude();
    writeLedger(ledger, workshop, outside);
    const documents = [...ledger.stores.values()].reduce((sum, record) => sum + record.documents.length, 0);
    return conclude(
      `${counted(names.length, 'part')} gathered: ${counted(ledger.stores.size, 'store')}, ${counted(documents, 'document')}, in ${join(options.out, LEDGER)}`,
    );
  } catch (fault) {
    if (!(fault instanceof FolderFault)) throw fault;
    terminal.problem(fault.message);
    return EXIT.findings;
  } finally {
    lock.release();
  }
};
