/** Exit codes: 0 fine, 1 findings of severity error, 2 wrong usage, 70 our own bug, 130 stopped with Ctrl-C. */
export const EXIT = { fine: 0, findings: 1, usage: 2, bug: 70, stopped: 130 } as const;
