/**
 * Exact transient conduction in a plane wall of half-thickness L with both faces convecting, as a series; and in a brick, as a product.
 * Source: Incropera and DeWitt, 6th ed., eq. 5.39 and section 5.8 (Carslaw and Jaeger for the series).
 */

/** Roots of z tan z = Bi, by bisection in each of the first branches. */
export const roots = (bi: number, count: number): number[] =>
  Array.from({ length: count }, (_, n) => {
    let [low, high] = [n * Math.PI, n * Math.PI + Math.PI / 2];
    for (let i = 0; i < 80; i += 1) {
      const z = (low + high) / 2;
      if (z * Math.tan(z) < bi) low = z;
      else high = z;
    }
    return (low + high) / 2;
  });

export const coefficient = (z: number): number => (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z));

/** (T - Tinf) / (Ti - Tinf) at x/L from the middle. */
export const theta = (bi: number, fo: number, x: number): number =>
  roots(bi, 60).reduce((sum, z) => sum + coefficient(z) * Math.exp(-z * z * fo) * Math.cos(z * x), 0);

/** The same, mean over the wall. */
export const thetaMean = (bi: number, fo: number): number =>
  roots(bi, 60).reduce((sum, z) => sum + (coefficient(z) * Math.exp(-z * z * fo) * Math.sin(z)) / z, 0);

/** Error function, Abramowitz and Stegun 7.1.26 (1.5e-7). */
export const erf = (x: number): number => {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const tail = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp(-x * x);
  return Math.sign(x) * (1 - tail);
};
