/**
 * The changes of the clocks in dated nights.
 */
import { DAY } from '../base/moment.js';
import type { DayNumber } from '../model/hours/index.js';
import type { DatedNight } from './timetable/dates/index.js';

/** The changes of the clocks that fall in a night. */
export const changesIn = ({ rails }: DatedNight) =>
  rails[0]?.notes.flatMap((note) => (note.code === 'clocks-change' ? [note] : [])) ?? [];

/** The evening before the clocks change in a night, which is a later one than the night's own where the store is closed for days. */
export const eveOfChange = (night: DatedNight): DayNumber =>
  night.date + Math.max(0, ...changesIn(night).map(({ at }) => Math.floor(at / DAY) - 1));
