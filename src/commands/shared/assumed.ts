/** In how many stores facts that matter are assumed, a line a key. */
import type { Assumed } from '../../fleet/assumed.js';
import { say } from './say.js';
import type { Session } from './session.js';
import { table } from './table.js';

/** @param all how many stores there are */
export const showAssumed = (assumed: readonly Assumed[], all: number, { terminal, opened }: Session): void => {
  const words = opened.words.get('en');
  if (assumed.length === 0 || !words) return;
  terminal.line(terminal.strong(say(words, 'assumed', {}, 'report')));
  for (const line of table(
    ['key', 'assumed', 'stores'],
    assumed.map(({ key, value, stores }) => [key, value, `${stores} of ${all}`]),
  ))
    terminal.line(line);
  terminal.line();
};
