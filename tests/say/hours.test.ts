/**
 * Opening hours as a page tells them: any number of spans a day, in the reader's weekdays and style of time, never in the words of the grammar.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { readerOf, type PlannedStore } from '../../src/fleet/store-papers.js';
import { STORE, tryChain } from '../support/chain.js';

const LANGUAGES = ['en', 'es', 'fr'] as const;

const told = (hours: string, more = ''): Record<string, string> => {
  const store = `${STORE.replace('Mo-Su 07:00-22:00', `'${hours}'`)}languages: [${LANGUAGES.join(', ')}]\n${more}`;
  const { workshop, stores } = tryChain({ 'sites/street.yaml': store }, LANGUAGES);
  const { read, plan } = stores.get('street') as PlannedStore;
  if (!workshop || !read || !plan) throw new Error('no plan');
  return Object.fromEntries(
    LANGUAGES.map((lang) => {
      const words = workshop.words.get(lang);
      if (!words) throw new Error(`no ${lang}`);
      return [lang, textOf(readerOf(words, read, workshop.shelf).say(plan.open_hours).runs).replaceAll('\u00a0', ' ')];
    }),
  );
};

describe('hours on a page', () => {
  it('are one span a day in each language', () => {
    expect(told('Mo-Th 11:00-22:00; Fr,Sa 11:00-00:30; Su off')).toEqual({
      en: 'Mon–Thu 11:00–22:00; Fri, Sat 11:00–00:30',
      es: 'Lun–Jue 11:00–22:00; Vie, Sáb 11:00–00:30',
      fr: 'Lun–Jeu 11:00–22:00 ; Ven, Sam 11:00–00:30',
    });
  });

  it('are two spans a day, or three, the days with the same ones together', () => {
    expect(told('Mo-Fr 06:00-10:00, 12:00-14:30, 17:00-23:30; Sa,Su 09:00-13:00, 17:00-01:00')).toEqual({
      en: 'Mon–Fri 06:00–10:00, 12:00–14:30, 17:00–23:30; Sat, Sun 09:00–13:00, 17:00–01:00',
      es: 'Lun–Vie 06:00–10:00, 12:00–14:30, 17:00–23:30; Sáb, Dom 09:00–13:00, 17:00–01:00',
      fr: 'Lun–Ven 06:00–10:00, 12:00–14:30, 17:00–23:30 ; Sam, Dim 09:00–13:00, 17:00–01:00',
    });
  });

  it('follow the style of time', () => {
    expect(told('Mo-Su 06:00-10:00, 17:00-23:30', 'clock_shows: 12-hour\n').en).toBe(
      'Mon–Sun 6:00 am–10:00 am, 5:00 pm–11:30 pm',
    );
  });

  it('end on their weekday where they last longer than a day', () => {
    expect(told('Mo-Th 07:00-22:00; Fr 07:00-24:00; Sa 00:00-24:00; Su 00:00-20:00').en).toBe(
      'Mon–Thu 07:00–22:00; Fri 07:00–Sun 20:00',
    );
  });

  it('have words of their own for a store that never closes', () => {
    expect(told('24/7', "quiet_window: '01:00-09:00'\n")).toEqual({
      en: 'day and night, all week',
      es: 'día y noche, toda la semana',
      fr: 'jour et nuit, toute la semaine',
    });
  });

  it('are those of the season', () => {
    expect(told('Mo-Su 07:00-22:00; Jul 01-Aug 31 Mo-Su 09:00-12:00, 17:00-23:00').es).toBe('Lun–Dom 07:00–22:00');
  });
});
