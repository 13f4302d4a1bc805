#!/usr/bin/env node
// npx links to this file in a fresh clone, before anything is compiled: then it says what comes first.
import { existsSync } from 'node:fs';

const program = new URL('../dist/cli.js', import.meta.url);
if (existsSync(program)) await import(program.href);
else {
  console.error('nightrail is not compiled yet. First: npm run demo (or npm ci && npm run compile).');
  process.exitCode = 2;
}
