/**
 * Clock times and temperatures as people type them, told from other figures. The ways of writing are common practice, no source.
 */
import { expect, it } from 'vitest';
import { typedIn } from '../../src/base/typed.js';

const told = (text: string): readonly string[] => typedIn(text).map(({ kind, figure }) => `${kind} ${figure}`);

it.each([
  ['Antes de las 11:30 pm y a 45 °F o menos.', ['time 11:30 pm', 'temperature 45 °F']],
  ['By 11 pm.', ['time 11 pm']],
  ['A las 9 p. m. o a las 23.30', ['time 9 p. m.', 'time 23.30']],
  ['Avant 9h30 ou 23 h 05', ['time 9h30', 'time 23 h 05']],
  ['10:00-23:30', ['time 10:00', 'time 23:30']],
  ['At 9 o’clock', ['time 9 o’clock']],
  [
    '45F, 7 °C, -18ºC, 45f, 5°',
    ['temperature 45F', 'temperature 7 °C', 'temperature -18ºC', 'temperature 45f', 'temperature 5°'],
  ],
  ['45 grados, 45 degrees, 7,5 degrés', ['temperature 45 grados', 'temperature 45 degrees', 'temperature 7,5 degrés']],
  ['**45** °F, 11\\:30, 45℉, _7_ ℃', ['temperature 45 °F', 'time 11:30', 'temperature 45°F', 'temperature 7 °C']],
  [
    '60 ˚F, 60˚, 60 oF, 60 Fahrenheit',
    ['temperature 60 °F', 'temperature 60°', 'temperature 60 oF', 'temperature 60 Fahrenheit'],
  ],
  ['23 : 45, 11 p m, 11 O’CLOCK, 6 oclock', ['time 23 : 45', 'time 11 p m', 'time 11 O’CLOCK', 'time 6 oclock']],
  ['At 2345 hrs or 0600h', ['time 2345 hrs', 'time 0600h']],
])('reads %s', (text, figures) => {
  expect(told(text)).toEqual(figures);
});

it.each([
  'Call 911 or 555-0142.',
  'From 2026-11-24 or 24.12.2026 on, 2 people.',
  'Wait 5 h 30 min, 20 seconds, 3 amps.',
  'El 1º de mayo, piso 3, once y media.',
  '$12.50 for 11 amígdalas, model 2 Clara',
  'Table 3: 12 pans.',
  'Within 120 hours, table 10: 45 covers, line 1 : 30 pans. For 12 hours, 5 h, 3 a machine, 20 of them.',
])('reads none in %s', (text) => {
  expect(told(text)).toEqual([]);
});
