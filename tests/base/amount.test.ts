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

  // Read as 5.1 ft, a bellows' set would be wrong by 2.5 psi at 5100 ft (ISA: 12.18 psia). What is proposed is read, and as what it says.
  it.each([
    // Nobody writes a height to a thousandth.
    ['altitude', '5,100 ft', '5100 ft', undefined],
    ['altitude', '1,600m', '1600m', undefined],
    ['altitude', '1.625 m', '1625 m', undefined],
    ['altitude', '5 100 ft', '5100 ft', undefined],
    ['altitude', '5,100.5 ft', '5100.5 ft', undefined],
    ['altitude', '1.234,5 m', '1234.5 m', undefined],
    ['cooling', '12,500 BTU/h', '12500 BTU/h', undefined],
    ['cooling', '12.500 Btu/h', '12500 Btu/h', undefined],
    ['resistance', '32,650 ohm', '32650 ohm', '32.65 ohm'],
    ['resistance', '1,234,567 ohm', '1234567 ohm', undefined],
    ['gauge', '-1,250 psig', '-1250 psig', '-1.25 psig'],
    ['duration', '1 h 1,200 s', '1 h 1200 s', '1 h 1.2 s'],
  ] as const)('%s "%s" may be %s or %s, so neither is taken', (q, text, whole, decimal) => {
    const parsed = parseAmount(q, text);
    expect(parsed).toMatchObject({ ok: false, fault: 'thousands', whole });
    if (parsed.ok || parsed.fault !== 'thousands') return;
    expect(parsed.decimal).toBe(decimal);
    expect(parseAmount(q, whole).ok).toBe(true);
    if (decimal !== undefined) expect(parseAmount(q, decimal).ok).toBe(true);
  });

  it.each([
    ['mass', '5,3 oz', 'oz', 5.3],
    ['temperature', '2,5 °C', '°C', 2.5],
    ['length', '0,125 in', 'in', 0.125],
    ['gauge', '0,970 bar(g)', 'bar(g)', 0.97],
    ['resistance', '5100,500 ohm', 'ohm', 5100.5],
    ['resistance', '100.390 ohm', 'ohm', 100.39],
    ['cooling', '3.517 kW', 'ΔkW', 3.517],
    ['resistance', '9,7895 kohm', 'kohm', 9.7895],
    ['length', '10 100/200 in', 'in', 10.5],
  ] as const)('%s "%s" can be one thing only', (q, text, unit, expected) => {
    expect(read(q, text, unit)).toBeCloseTo(expected, 6);
  });

  it('tells groups of both ends of a span at once', () => {
    expect(parseSpan('resistance', '1,200 to 1,400 ohm')).toEqual({
      ok: false,
      fault: 'thousands',
      whole: '1200 to 1400 ohm',
      decimal: '1.2 to 1.4 ohm',
    });
  });

  it.each(['18 to 22 °F', '18 °F to 22 °F', '18–22 °F'])('a span: %s', (text) => {
    const parsed = parseSpan('temperature', text);
    expect(parsed.ok && [fromSI('°F', parsed.value.low.si), fromSI('°F', parsed.value.high.si)].map(Math.round)).toEqual([
      18, 22,
    ]);
  });

  it.each([
    ['temperature', '22 to 18 °F', '18 to 22 °F'],
    ['temperature', '34 to 30 F', '30 to 34 °F'],
    ['temperature', '34-30', '30 to 34 °F'],
    ['temperature', '-5 °C - -18 °C', '-18 to -5 °C'],
    ['difference', '6-10 °C', '6 to 10 °C'],
  ] as const)('%s "%s" is no span, and is written %s', (q, text, instead) => {
    expect(parseSpan(q, text)).toMatchObject({ ok: false, fault: 'span', instead });
    expect(parseSpan(q, instead).ok).toBe(true);
  });

  it('a span of two units, or with one that is none, is told as before', () => {
    expect(parseSpan('temperature', '40 °F to 2 °C')).toMatchObject({ fault: 'out-of-range' });
    expect(parseSpan('temperature', '34-30 in')).toMatchObject({ fault: 'unknown-unit' });
  });
});
