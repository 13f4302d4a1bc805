/**
 * Who sets a clock's time after a change of the clocks and after a power cut: the manager where its profile says that it is in reach, else a technician alone.
 * One truth over all papers of a unit, in each language; off and on are a technician's in both.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { walk } from '../../src/compose/block.js';
import { CHAIN, PAPERS, STORE, TABLE, tryChain } from '../support/chain.js';
import { cautionsOn, pagesOf, roughWidth, runsIn } from '../support/pages.js';

/** How a manager's hand is told, and a technician's alone. */
const SAID = {
  en: [/without a tool/, /a technician turns it forward|only a technician sets it|only a technician sees and sets the clock/i],
  es: [/sin herramienta/, /un técnico lo adelanta|solo un técnico lo ajusta|solo un técnico ve y ajusta el reloj/i],
  fr: [/sans outil/, /un technicien l’avance|seul un technicien la règle|seul un technicien voit et règle l’horloge/i],
} as const;
type Lang = keyof typeof SAID;

/** How somebody is sent to the clock itself: never where it is behind a panel. */
const SENT = {
  en: /whether the top.s clock|clock shows the right time|behind the right side panel/,
  es: /si el reloj de arriba|reloj de arriba marca/,
  fr: /si l’horloge du haut/,
} as const;

/** What is watched in its place after a power cut, where the clock went on. */
const WATCHED = {
  en: /Watch whether the top goes off and on at its times/,
  es: /si la parte de arriba se apaga y prende a sus horas/,
  fr: /si le haut s’arrête et démarre à ses heures/,
} as const;

/** Papers that tell of the clock's time; the week's is the one in which the clocks go forward (Chicago, 2027-03-14: 15 U.S.C. 260a). */
const TELL = ['week', 'trouble', 'handout'];

const papers = (clock: string) => {
  const tried = tryChain({
    'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, `papers: [${PAPERS.join(', ')}]`).replace('[en]', '[en, es, fr]'),
    'sites/street.yaml': STORE,
    'equipment/table.yaml': TABLE.replace('kind: daily-dial, polarity: out-is-on, reachable: false', clock),
  });
  if (!tried.workshop) throw new Error(tried.told.join('\n'));
  const made = pagesOf(tried.workshop, tried.stores, roughWidth, '2027-W10').map(({ paper, lang, page }) => ({
    id: paper.id,
    reader: paper.spec.reader,
    lang: lang as Lang,
    text: textOf(runsIn(page?.body ?? [])).replaceAll('\u00a0', ' '),
    cautions: cautionsOn(page?.body ?? []),
  }));
  return { told: tried.told, made };
};

describe('the time of a clock', () => {
  it.each(['kind: daily-dial, polarity: out-is-on', 'kind: controller'])('out of reach is a technician’s alone (%s)', (clock) => {
    for (const { id, lang, reader, text, cautions } of papers(`${clock}, reachable: false`).made) {
      const [manager, technician] = SAID[lang];
      expect(text, `${id} ${lang}`).not.toMatch(manager);
      if (TELL.includes(id)) expect(text, `${id} ${lang}`).toMatch(technician);
      if (reader === 'staff') expect(text, `${id} ${lang}`).not.toMatch(SENT[lang]);
      if (clock === 'kind: controller' && ['week', 'trouble'].includes(id)) expect(text, `${id} ${lang}`).toMatch(WATCHED[lang]);
      if (reader === 'staff') expect(cautions, `${id} ${lang}`).toContain('no-panels');
      expect(cautions).not.toContain('no-panels-clock-in-reach');
    }
  });

  it.each(['kind: daily-dial, polarity: out-is-on', 'kind: controller'])('in reach is the manager’s too (%s)', (clock) => {
    const { made, told } = papers(`${clock}, reachable: true`);
    for (const { id, lang, reader, text, cautions } of made) {
      const [manager, technician] = SAID[lang];
      expect(text, `${id} ${lang}`).not.toMatch(technician);
      if ([...TELL, 'handover'].includes(id)) expect(text, `${id} ${lang}`).toMatch(manager);
      if (reader === 'staff') expect(cautions, `${id} ${lang}`).toContain('no-panels-clock-in-reach');
      expect(cautions).not.toContain('no-panels');
    }
    // A dial's terminals are most often beside it: whoever wrote that it is in reach is asked.
    expect(told.some((t) => t.startsWith('dial-in-reach equipment/table.yaml'))).toBe(clock.includes('dial'));
  });
});

it('tells staff in the picture where a clock in reach is, and of another only that it is in a closed box', () => {
  for (const reachable of [true, false]) {
    const tried = tryChain({
      'nightrail.yaml': CHAIN.replace(/^papers: .*$/m, 'papers: [handout, kit-lesson]'),
      'equipment/table.yaml': TABLE.replace('reachable: false', `reachable: ${reachable}, where: behind the left door`),
    });
    if (!tried.workshop) throw new Error(tried.told.join('\n'));
    for (const { paper, page } of pagesOf(tried.workshop, tried.stores)) {
      const figure = [...walk(page?.body ?? [])].find((b) => b.block === 'figure' && b.drawing.name === 'elevation');
      const alt = figure?.block === 'figure' ? textOf(figure.drawing.alt) : '';
      expect(alt.includes('behind the left door'), `${paper.id} ${reachable}`).toBe(reachable);
      expect(alt.includes('in a closed box: only a technician'), `${paper.id} ${reachable}`).toBe(!reachable);
    }
  }
});
