/** From a ledger to out/index.html. */
import type { Finding } from '../../base/finding.js';
import { findingWords } from '../../say/findings.js';
import { speaker } from '../../say/speaker.js';
import type { Ledger } from '../ledger.js';
import { officeWords, type Workshop } from '../workshop.js';
import { indexData, shownBy } from './data.js';
import { dataIn, indexPage } from './page.js';

export const INDEX = 'index.html';

/** A finding in English, as head office reads it; its code where nobody has words for it. */
export const englishOf = ({ words, shelf }: Workshop): ((finding: Finding) => string) => {
  const english = words.get('en');
  if (!english) return (finding) => finding.code;
  const says = speaker(english, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: shelf.chain.week_starts });
  return (finding) => findingWords(finding, english, says).says;
};

/** A page that was made from a ledger with the same words and the same code. */
export interface EarlierPage {
  readonly stores: Ledger['stores'];
  readonly page: string;
}

/** Of an earlier page, the stores whose records are the same ones. */
const stillShown = ({ stores, page }: EarlierPage, now: Ledger['stores']) =>
  new Map([...shownBy(dataIn(page))].filter(([id]) => stores.get(id) === now.get(id)));

export const makeIndex = (ledger: Ledger, workshop: Workshop, before?: EarlierPage): string => {
  const { shelf } = workshop;
  const own = officeWords(workshop);
  if (!own) return '';
  const says = {
    says: englishOf(workshop),
    paperName: (paper: string) => own.get(`${paper}.name`) ?? paper,
    notMade: own.get('index.not-made') ?? '',
  };
  const data = indexData(ledger, says, before && stillShown(before, ledger.stores));
  return indexPage({ chain: shelf.chain.name, approved: shelf.chain.approved !== undefined, data }, own);
};
