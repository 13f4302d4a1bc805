/**
 * What was made of a text is kept for the next page that has it.
 */

/** The table is emptied when it has grown to `most`; forgetting changes speed only. */
export const remembering = <T>(most: number): ((text: string, make: () => T) => T) => {
  const known = new Map<string, T>();
  return (text, make) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    if (known.size >= most) known.clear();
    const made = make();
    known.set(text, made);
    return made;
  };
};
