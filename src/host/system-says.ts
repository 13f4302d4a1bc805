/**
 * What the system says of a file or folder that it cannot read or write, and what to do.
 */
const ADVICE: Readonly<Record<string, string>> = {
  ENOTDIR: 'a file stands where a folder is needed: take it away, or name another folder',
  EEXIST: 'a file or a broken link stands where a folder is needed: take it away, or name another folder',
  EISDIR: 'a folder stands where a file is to be written: take it away',
  EACCES: 'your user may not read or write there: change its rights, or name another folder',
  EPERM: 'your user may not read or write there: change its rights, or name another folder',
  EROFS: 'that disk cannot be written: name another folder',
  ENOSPC: 'that disk is full: make room, then run it again',
  ENAMETOOLONG: 'that name is too long for this disk: shorten it',
};

export const systemSays = (fault: unknown): string => {
  if (!(fault instanceof Error)) return String(fault);
  const advice = ADVICE[(fault as NodeJS.ErrnoException).code ?? ''];
  return advice === undefined ? fault.message : `${advice} (${fault.message})`;
};
