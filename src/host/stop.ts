/** Ctrl-C: the first asks to stop when what is under way is done, the second stops at once. */
export interface Stop {
  readonly asked: () => boolean;
  readonly off: () => void;
}

/** Exit code of a program that was interrupted. */
const INTERRUPTED = 130;

export const listenForStop = (say: () => void): Stop => {
  let asked = false;
  const heard = (): void => {
    if (asked) process.exit(INTERRUPTED);
    asked = true;
    say();
  };
  process.on('SIGINT', heard);
  process.on('SIGTERM', heard);
  return { asked: () => asked, off: () => (process.off('SIGINT', heard), void process.off('SIGTERM', heard)) };
};
