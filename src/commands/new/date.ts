/**
 * A date as people type it.
 */
import { dayWritten } from '../../model/hours/index.js';

const FIGURES = /^(\d{1,2})[/.](\d{1,2})[/.](\d{4})$/;

/**
 * @param today `2026-11-24`
 * @returns ISO 8601 of `today`, of such a date, or of `11/24/2026`; undefined for anything else, and for `11/12/2026`, which may be two dates
 */
export const dateOf = (wrote: string, today: string): string | undefined => {
  const text = wrote.trim();
  if (/^today$/i.test(text)) return today;
  if (dayWritten(text) !== undefined) return text;
  const [, first = '', second = '', year = ''] = FIGURES.exec(text) ?? [];
  const isoOf = (month: string, day: string): string => `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const dates = [...new Set([isoOf(first, second), isoOf(second, first)])].filter((iso) => dayWritten(iso) !== undefined);
  return dates.length === 1 ? dates[0] : undefined;
};
