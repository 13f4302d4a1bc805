/** Runs a command in this process, its output caught; JSON is read. */
import { vi } from 'vitest';

export interface Told {
  readonly code: number;
  readonly written?: string;
  readonly findings: readonly {
    code: string;
    severity: string;
    file: string;
    line: number;
    column: number;
    data: Record<string, unknown>;
  }[];
  readonly differences?: readonly unknown[];
  readonly out: string;
}

/** Runs a command with its output caught; JSON is read. */
export const told = async (run: () => Promise<number>): Promise<Told> => {
  const lines: string[] = [];
  const out = vi.spyOn(process.stdout, 'write').mockImplementation((text) => (lines.push(String(text)), true));
  const problem = vi.spyOn(process.stderr, 'write').mockImplementation((text) => (lines.push(String(text)), true));
  // The terminal ends the program when its reader goes; here that would be the test's own worker.
  const on = vi.spyOn(process.stdout, 'on').mockReturnThis();
  try {
    const code = await run();
    const text = lines.join('');
    return { ...(text.startsWith('{') ? (JSON.parse(text) as object) : {}), code, out: text } as Told;
  } finally {
    on.mockRestore();
    out.mockRestore();
    problem.mockRestore();
  }
};
