/**
 * The chain's own questions for a unit, by its traits; they are asked after those that ship.
 */
import type { Known } from '../base/basis.js';
import { within } from '../base/place.js';
import type { Flag, Told } from '../base/value.js';
import type { ASKED_OF } from '../model/chain.js';
import type { Shelf } from '../read/shelf.js';
import { told, written } from './known.js';
import type { Question } from './lesson.js';

export const ownQuestions = (
  { chain, chainAt, lang }: Shelf,
  is: Readonly<Record<(typeof ASKED_OF)[number], Known<Flag>>>,
): readonly Question[] =>
  (chain.questions ?? []).flatMap((question, i) => {
    if (question.of !== undefined && !is[question.of].value.is) return [];
    const say = (key: 'ask' | 'answer'): Known<Told> =>
      written(told(question[key], lang), { at: within(chainAt, 'questions', i, key), assumed: false });
    return [{ ask: say('ask'), answer: say('answer') }];
  });
