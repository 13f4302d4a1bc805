/** The part of the `hyphen` package that print/hyphens uses. */
declare module 'hyphen/*' {
  const patterns: {
    readonly hyphenateSync: (text: string, options?: { readonly hyphenChar?: string; readonly minWordLength?: number }) => string;
  };
  export default patterns;
}
