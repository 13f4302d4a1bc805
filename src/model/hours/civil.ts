/**
 * Calendar dates as whole numbers: days since 1970-01-01 in the proleptic Gregorian calendar. No clock, no zone, no library.
 * Algorithm: the era arithmetic of Neri and Schneider / Hinnant (400 years are 146,097 days).
 */

/** Days since 1970-01-01; 0 is a Thursday. */
export type DayNumber = number;

export interface Civil {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

/** @param month 1 to 12; @param day may run over the month's end and is carried. */
export const dayNumber = (year: number, month: number, day: number): DayNumber => {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
};

export const civil = (n: DayNumber): Civil => {
  const shifted = n + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1,
  };
};

export const daysInMonth = (year: number, month: number): number =>
  dayNumber(month === 12 ? year + 1 : year, month === 12 ? 1 : month + 1, 1) - dayNumber(year, month, 1);

/** 0 is Monday, 6 Sunday, as in base/moment. */
export const weekdayOf = (n: DayNumber): number => (((n + 3) % 7) + 7) % 7;

const two = (n: number): string => String(n).padStart(2, '0');

/** `2027-03-14`. */
export const isoOf = (n: DayNumber): string => {
  const { year, month, day } = civil(n);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
};

/** Of a year that calendars and their libraries reach. */
const isKnownYear = (year: number): boolean => year >= 1800 && year < 2200;

/** Of a year that people write a date of: from there, what is reckoned around a date stays in known years. */
export const isWrittenYear = (year: number): boolean => year >= 1900 && year < 2100;

/** @returns the day of `2027-03-14`, or undefined where there is no such day. */
export const dayOfIso = (iso: string): DayNumber | undefined => {
  const found = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (!found) return undefined;
  const [year, month, day] = [Number(found[1]), Number(found[2]), Number(found[3])];
  if (!isKnownYear(year)) return undefined;
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month) ? dayNumber(year, month, day) : undefined;
};

/** The day of a date that a person wrote; undefined for what is none, or lies too far off. */
export const dayWritten = (iso: string): DayNumber | undefined => {
  const day = dayOfIso(iso);
  return day !== undefined && isWrittenYear(civil(day).year) ? day : undefined;
};
