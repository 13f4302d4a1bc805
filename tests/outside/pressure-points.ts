/** What dials and head gauges mean by CoolProp 8.0.0 and the US Standard Atmosphere 1976: reference/pressure-control.csv, read. */
import { readFileSync } from 'node:fs';

const rows = readFileSync('tests/outside/reference/pressure-control.csv', 'utf8')
  .split('\n')
  .map((line) => line.split(','));

const of = (kind: string) =>
  rows
    .filter(([first]) => first === kind)
    .map(([, name = '', ...figures]) => ({ name, figures: figures.map(Number) as [number, number, number, number, number] }));

/** psig on the dial and ft of altitude, with °F of the mean coil and of dew. */
export const coils = of('coil').map(({ name, figures: [dial, altitude, mean, dew] }) => ({ name, dial, altitude, mean, dew }));

/** °F of the air entering and of the split, with psig at sea level of the mean, of dew and of bubble. */
export const heads = of('head').map(({ name, figures: [air, split, mean, dew, bubble] }) => ({
  name,
  air,
  split,
  mean,
  dew,
  bubble,
}));
