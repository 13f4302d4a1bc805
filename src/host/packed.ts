/**
 * Bytes kept small in memory for long: thousands of stores' records while the others are made.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';

/** @returns what gives the bytes back, anew each time that it is asked */
export const packed = (bytes: Uint8Array): (() => Uint8Array) => {
  // Copied: what zlib gives is a part of a block of 16 KB, which would stay with it.
  const small = new Uint8Array(deflateRawSync(bytes, { level: 1 }));
  return () => inflateRawSync(small);
};
