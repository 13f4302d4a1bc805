/**
 * Which cautions a unit's papers must carry, by reader: codes with the values that their words name. A paper's template cannot drop one.
 */
import type { Known } from '../base/basis.js';
import { phrase, type Phrase } from '../base/value.js';
import { CAUTIONS, cautionCodes, type Caution, type CautionCode, type Reader, type Trait } from '../trade/cautions.js';
import type { StoreFacts } from './facts.js';
import { practice } from './known.js';

export interface PlannedCaution {
  readonly code: CautionCode;
  readonly level: Caution['level'];
  readonly as: Caution['as'];
  readonly on: Caution['on'];
  readonly title: Known<Phrase>;
  readonly text: Known<Phrase>;
}

/** @param has which traits the unit (or any unit of the store) has */
export const cautionsFor = (reader: Reader, has: ReadonlySet<Trait>, facts: StoreFacts): readonly PlannedCaution[] => {
  const values = {
    limit: facts.law.limit,
    emergency: facts.phones.emergency,
    service: facts.phones.service,
    phone: facts.phones.number,
  };
  const needs = ({ readers, when, unless }: Caution): boolean =>
    readers.includes(reader) && has.has(when) && !(unless && has.has(unless));
  return cautionCodes
    .filter((code) => needs(CAUTIONS[code]))
    .map((code) => ({
      code,
      level: CAUTIONS[code].level,
      as: CAUTIONS[code].as,
      on: CAUTIONS[code].on,
      title: practice(phrase(`cautions.${code}.title`), `caution-${code}`),
      text: practice(phrase(`cautions.${code}.text`, values), `caution-${code}`),
    }));
};
