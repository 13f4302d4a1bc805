/**
 * Amounts as people write them, and why a text is none.
 */
import { describe, expect, it } from 'vitest';
import { fromSI, parseAmount, parseSpan, type Quantity, type UnitName } from '../../src/base/amount.js';

const read = (q: Quantity, text: string, unit: UnitName): number | string => {
  const parsed = parseAmount(q, text);
  return parsed.ok ? Math.round(fromSI(unit, parsed.value.si) * 1e6) / 1e6 : parsed.fault;
};

describe('amounts', () => {
  // Definitions: NIST SP 811 (2008), appendix B: inch, foot, pound and ounce are exact; psi 6894.757 Pa; inHg (0 °C) 3386.389 Pa.
  it.each([
    ['temperature', '41 °F', '°C', 5],
    ['temperature', '-40F', '°C', -40],
    ['temperature', '5 °C', '°F', 41],
    ['difference', '27 °F', 'Δ°C', 15],
    ['gauge', '0.97 bar(g)', 'kPa(g)', 97],
    ['gauge', '4 inHg', 'kPa(g)', -13.545556],
    ['pressure', '14.696 psia', 'kPa(a)', 101.325353],
    ['duration', '1 h 30 min', 'min', 90],
    ['duration', '45s', 'min', 0.75],
    ['length', '4 in', 'mm', 101.6],
    ['length', '5280 ft', 'm', 1609.344],
    ['mass', '28 oz', 'g', 793.786647],
    ['power', '1/2 hp', 'W', 372.849936],
    ['length', '1 1/2 in', 'mm', 38.1],
    ['resistance', '32.65 kohm', 'ohm', 32650],
    ['temperature', '4,5 °C', '°C', 4.5],
  ] as const)('%s %s', (q, text, unit, expected) => {
    expect(read(q, text, unit)).toBeCloseTo(expected, 4);
  });

  it.each([
    ['gauge', '46 psi', 'no-zero'],
    ['pressure', '3 bar', 'no-zero'],
    ['temperature', '41', 'no-unit'],
    ['temperature', 'cold', 'no-number'],
    ['temperature', '41 in', 'wrong-quantity'],
    ['temperature', '41 °Q', 'unknown-unit'],
    ['temperature', '-500 °F', 'out-of-range'],
    ['length', '-4 in', 'out-of-range'],
    ['duration', '', 'no-number'],
  ] as const)('%s "%s" is none: %s', (q, text, fault) => {
    expect(read(q, text, 's')).toBe(fault);
  });

  it.each(['18 to 22 °F', '18 °F to 22 °F', '18–22 °F'])('a span: %s', (text) => {
    const parsed = parseSpan('temperature', text);
    expect(parsed.ok && [fromSI('°F', parsed.value.low.si), fromSI('°F', parsed.value.high.si)].map(Math.round)).toEqual([
      18, 22,
    ]);
  });

  it('a span upside down is none', () => {
    expect(parseSpan('temperature', '22 to 18 °F').ok).toBe(false);
  });
});
