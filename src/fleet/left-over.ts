/**
 * Files of earlier builds that this one doesn't make again, as findings. Of a store that could not be read nobody knows yet what it needs: its sheets are no
 * longer made, but they are neither called useless nor removed.
 */
import { note, warning, type Finding } from '../base/finding.js';
import { place } from '../base/place.js';
import type { DocumentEntry, LeftOver } from './ledger.js';

/** A document of an earlier build, as one that nothing makes again. */
export const leftOf = ({ document, store, made, from }: DocumentEntry): LeftOver => ({
  left: document,
  store,
  why: 'not-made',
  ...(made ? { made } : {}),
  ...(from === undefined ? {} : { from }),
});

export const isOfUnread = ({ why }: LeftOver): boolean => why === 'store-has-errors';

/** Neither called useless nor removed: what may still be needed, and the dated sheets of other weeks. */
export const isKept = (left: LeftOver): boolean => isOfUnread(left) || left.why === 'other-week';

/** So many are named. */
const SOME = 5;

export const leftFindings = (left: readonly LeftOver[], out: string): readonly Finding[] => {
  const tell = (make: typeof note, code: string, files: readonly LeftOver[]): readonly Finding[] =>
    files.length > 0 ? [make(code, place(out), { count: files.length, some: files.slice(0, SOME).map((l) => l.left) })] : [];
  return [
    ...tell(
      warning,
      'left-over',
      left.filter((l) => !isKept(l)),
    ),
    ...tell(note, 'left-of-unread', left.filter(isOfUnread)),
  ];
};
