/** How many of something there are, in words of the terminal: `1 file`, `2 files`. */
export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`;
