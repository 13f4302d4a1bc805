/**
 * What was taken over from a similar unit and nobody has checked on this one: marked on the service card wherever it stands, told by `check`, and
 * named in the foot of every other page of the unit. What was checked is never marked.
 */
import { describe, expect, it } from 'vitest';
import { textOf } from '../../src/base/run.js';
import { CHAIN, STORE, TABLE, tryChain } from '../support/chain.js';
import { pagesOf, roughWidth, runsIn } from '../support/pages.js';

const ORIGINS = `origins:
  - { facts: [nameplate, zones.rail.rest.pull_down, zones.rail.pans.count, zones.rail.pans.depth], who: A. Person, when: 2026-11-20, how: Read }
  - { facts: [control, zones, nameplate.circuits.refrigerant], who: other, when: 2026-11-20, how: Taken over, confirmed: false }
`;

const pages = (origins: string) => {
  const tried = tryChain({
    'nightrail.yaml': CHAIN.replace('[en]', '[en, es, fr]'),
    'sites/street.yaml': STORE,
    'equipment/table.yaml': TABLE.replace('pull_down: 60 min', 'pull_down: 62 min') + origins,
  });
  if (!tried.workshop) throw new Error(tried.told.join('\n'));
  const made = pagesOf(tried.workshop, tried.stores, roughWidth, '2026-W49').map(({ paper, lang, page }) => ({
    id: paper.id,
    lang,
    text: textOf(runsIn(page?.body ?? [])).replaceAll('\u00a0', ' '),
    foot: (page?.foot ?? []).map(textOf).join('\n'),
  }));
  return { findings: tried.findings, made, plan: tried.stores.get('street')?.plan };
};

describe('what nobody confirmed', () => {
  const { findings, made, plan } = pages(ORIGINS);
  const card = made.filter(({ id }) => id === 'card');

  it('is marked on the card in every language, and says there what the mark means', () => {
    expect(card).toHaveLength(3);
    for (const { text } of card) {
      expect(text).toMatch(/46 psig\*/);
      expect(text).toMatch(/R-404A\*/);
      expect(text).toMatch(/(cut-in and cut-out|arranque y corte|enclenchement et coupure)\*/);
      expect(text).toMatch(/16.{1,4}20 °F\*/);
      expect(text).toMatch(/\* (marks|marca|marque)/);
    }
  });

  it('is marked too in what is worked out from it: the coil that the dial means, the head pressure over the split that was read', () => {
    const dial = plan?.units['line-1']?.pressure.dial;
    const said = ((dial?.cut_in.coil?.mean.value.si ?? NaN) * 1.8 - 459.67).toFixed(1).replace('.0', '').replace('-', '\u2212');
    expect(card[0]?.text).toContain(`${said} °F*`);
    // The condenser's split is nobody's taken over; its refrigerant is.
    expect(card[0]?.text).toMatch(/psig\*/);
  });

  it('leaves what somebody read without a mark: by the key that covers it most closely', () => {
    for (const { text } of card) {
      expect(text).toMatch(/28 oz(?!\*)/);
      expect(text).not.toMatch(/28 oz\*|115 V\*|T-1\*/);
    }
    const basis = plan?.units['line-1']?.needs?.pull_down.basis;
    expect(basis).not.toMatchObject({ confirmed: false });
  });

  it('names each origin’s facts once, and marks none by the name of its zone', () => {
    const read = plan?.units['line-1']?.origins[0]?.facts ?? [];
    // The pans' count and depth are told apart: somebody may have told of one alone.
    expect(read).toHaveLength(4);
    for (const { says } of read) expect(JSON.stringify(says)).not.toContain('"confirmed":false');
  });

  it('is named in the foot of the papers of its unit, and of no other', () => {
    for (const { id, foot } of made)
      expect(/not .* checked|no todo .* comprobó|pas été vérifié/i.test(foot), id).toBe(id !== 'week');
    for (const { id, text } of made) if (id !== 'card') expect(text, id).not.toMatch(/°F\*|oz\*/);
  });

  it('is a warning of check that names each fact', () => {
    expect(findings.filter((f) => f.code === 'fact-not-confirmed')).toMatchObject([
      { severity: 'warning', data: { facts: ['control', 'zones', 'nameplate.circuits.refrigerant'] } },
    ]);
  });

  it('is nothing any more once an origin of one’s own names the same facts', () => {
    const own = '  - { facts: [control, zones, nameplate.circuits.refrigerant], who: A. P., when: 2026-11-21, how: Gauges }\n';
    const after = pages(ORIGINS + own);
    expect(after.findings.map((f) => f.code)).not.toContain('fact-not-confirmed');
    for (const { text, foot } of after.made) expect(text + foot).not.toMatch(/psig\*|\* marks|checked on this unit/);
  });
});
