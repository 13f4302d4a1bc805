/**
 * One build at a time in a folder: whoever listens at the address that the folder's name gives has it. The kernel frees it however the process ends,
 * and whoever comes second can ask who is at it and how far.
 */
import { rmSync } from 'node:fs';
import { connect, createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { sha256 } from './out-folder.js';

export interface Lock {
  /** Told to whoever asks meanwhile. */
  readonly tell: (howFar: string) => void;
  readonly release: () => void;
}

export interface Held {
  /** What the other one says of itself; empty when it is too busy to answer. */
  readonly says: string;
}

const PATIENCE = 5000;

/** Linux has addresses that are no files, Windows has pipes; elsewhere it is a file among the temporary ones. */
export const addressOf = (folder: string, label: string, platform: NodeJS.Platform = process.platform): string => {
  const name = `nightrail-${sha256(`${resolve(folder)}#${label}`).slice(0, 32)}`;
  if (platform === 'linux') return `\0${name}`;
  return platform === 'win32' ? `\\\\.\\pipe\\${name}` : join(tmpdir(), `${name}.sock`);
};

/** @returns what the one who listens there says, or undefined when nobody does */
export const askLock = (address: string): Promise<Held | undefined> =>
  new Promise((answer) => {
    let says = '';
    const asking = connect(address);
    asking.setTimeout(PATIENCE, () => {
      asking.destroy();
      answer({ says });
    });
    asking.on('data', (data) => (says += data.toString()));
    asking.on('end', () => answer({ says }));
    asking.on('error', () => answer(undefined));
  });

const listen = (address: string, howFar: () => string): Promise<Server | undefined> =>
  new Promise((answer, refuse) => {
    const server = createServer((asking) => asking.on('error', () => undefined).end(`process ${process.pid}, ${howFar()}`));
    server.on('error', (fault: NodeJS.ErrnoException) => (fault.code === 'EADDRINUSE' ? answer(undefined) : refuse(fault)));
    server.listen(address, () => answer(server.unref()));
  });

export const takeLock = async (folder: string, label: string, address = addressOf(folder, label)): Promise<Lock | Held> => {
  let far = 'just begun';
  let server = await listen(address, () => far);
  if (!server) {
    const held = await askLock(address);
    if (held) return held;
    // A file of a process that is gone: nobody answers.
    if (!address.startsWith('\0')) rmSync(address, { force: true });
    server = await listen(address, () => far);
  }
  return server ? { tell: (howFar) => void (far = howFar), release: () => void server.close() } : { says: '' };
};
