/**
 * The units in which handbooks and people print, and a value that a test knows is there.
 */

/** K from °F and back. */
export const fahrenheit = (f: number): number => (f + 459.67) / 1.8;
export const inFahrenheit = (k: number | undefined): number => (k ?? NaN) * 1.8 - 459.67;

/** Pa from psi and back; psig by a sea-level gauge, whose zero the check tables print as 14.696 psia. */
export const PSI = 6894.757293168361;
export const psig = (p: number): number => (p + 14.696) * PSI;
export const inPsig = (pa: number | undefined): number => (pa ?? NaN) / PSI - 14.696;
export const feet = (f: number): number => f * 0.3048;

/** The value, which the test knows is there. */
export const the = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error('not there');
  return value;
};
