/** The clock on the machine: today, for a build that is not told which week. */
export const today = (timezone?: string): string =>
  new Intl.DateTimeFormat('en-CA', {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    ...(timezone ? { timeZone: timezone } : {}),
  }).format(new Date());

/** Milliseconds on a clock that only goes forward. */
export const now = (): number => performance.now();
