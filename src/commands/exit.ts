/** Exit codes: 0 fine, 1 findings of severity error, 2 wrong usage, 70 our own bug. */
export const EXIT = { fine: 0, findings: 1, usage: 2, bug: 70 } as const;
