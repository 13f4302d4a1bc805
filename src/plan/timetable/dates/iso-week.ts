/**
 * Weeks: an ISO 8601 week is named by its Thursday; a chain whose week begins on another day gets the seven days that hold that Thursday.
 */
import { civil, dayNumber, isWrittenYear, weekdayOf, type DayNumber } from '../../../model/hours/index.js';

export interface IsoWeek {
  readonly year: number;
  /** 1 to 53. */
  readonly week: number;
}

const THURSDAY = 3;

/** The week that a day belongs to by ISO 8601: Monday to Sunday. */
export const isoWeekOf = (day: DayNumber): IsoWeek => {
  const thursday = day - weekdayOf(day) + THURSDAY;
  const { year } = civil(thursday);
  return { year, week: Math.floor((thursday - dayNumber(year, 1, 1)) / 7) + 1 };
};

/** @returns the Thursday of `2027-W10`; undefined where the year has no such week */
const thursdayOf = ({ year, week }: IsoWeek): DayNumber | undefined => {
  const fourth = dayNumber(year, 1, 4);
  const thursday = fourth - weekdayOf(fourth) + THURSDAY + (week - 1) * 7;
  return week >= 1 && civil(thursday).year === year ? thursday : undefined;
};

/** Reads `2027-W10`. */
export const parseIsoWeek = (text: string): IsoWeek | undefined => {
  const found = /^(\d{4})-W(\d{2})$/.exec(text.trim());
  const week = found ? { year: Number(found[1]), week: Number(found[2]) } : undefined;
  return week && isWrittenYear(week.year) && thursdayOf(week) !== undefined ? week : undefined;
};

/**
 * The seven days of a week, from the chain's first day on, that hold the week's Thursday.
 * @param firstDay 0 Monday to 6 Sunday
 * @throws when the year has no such week
 */
export const daysOfWeek = (week: IsoWeek, firstDay: number): readonly DayNumber[] => {
  const thursday = thursdayOf(week);
  if (thursday === undefined) throw new Error(`no week ${week.week} in ${week.year}`);
  const first = thursday - ((THURSDAY - firstDay + 7) % 7);
  return Array.from({ length: 7 }, (_, i) => first + i);
};
