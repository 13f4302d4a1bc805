/** A real Chromium without a network of its own, for tests that use a page as people do. */
import { execFileSync } from 'node:child_process';
import { chromium, type Browser } from 'playwright-core';

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: execFileSync('sh', ['-c', 'command -v chromium || command -v chromium-browser || command -v google-chrome'], {
      encoding: 'utf8',
    }).trim(),
    args: [
      '--no-sandbox',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--disable-quic',
      '--no-first-run',
    ],
  });
