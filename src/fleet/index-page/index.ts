/** From a ledger to out/index.html. */
import type { Finding } from '../../base/finding.js';
import { findingWords } from '../../say/findings.js';
import { speaker } from '../../say/speaker.js';
import type { Ledger } from '../ledger.js';
import type { Workshop } from '../workshop.js';
import { indexData } from './data.js';
import { indexPage } from './page.js';

export const INDEX = 'index.html';

/** A finding in English, as head office reads it; its code where nobody has words for it. */
export const englishOf = ({ words, shelf }: Workshop): ((finding: Finding) => string) => {
  const english = words.get('en');
  if (!english) return (finding) => finding.code;
  const says = speaker(english, { lang: 'en', measure: 'us', clockShows: '24-hour', weekStarts: shelf.chain.week_starts });
  return (finding) => findingWords(finding, english, says).says;
};

export const makeIndex = (ledger: Ledger, workshop: Workshop): string => {
  const { shelf, words } = workshop;
  const own = words.get(shelf.lang) ?? words.get('en');
  if (!own) return '';
  const data = indexData(ledger, {
    says: englishOf(workshop),
    paperName: (paper) => own.get(`${paper}.name`) ?? paper,
    notMade: own.get('index.not-made') ?? '',
  });
  return indexPage({ chain: shelf.chain.name, approved: shelf.chain.approved !== undefined, data }, own);
};
