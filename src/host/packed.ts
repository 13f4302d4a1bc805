/**
 * Bytes kept small in memory for long: thousands of stores' records while the others are made.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';

/** @returns what gives the bytes back, anew each time that it is asked */
export const packed = (bytes: Uint8Array): (() => Uint8Array) => {
  const small = deflateRawSync(bytes, { level: 1 });
  return () => inflateRawSync(small);
};
