// Takes the funding links out of package-lock.json, so that it holds names, versions and hashes and no address. Run it after `npm install`.
import { readFileSync, writeFileSync } from 'node:fs';

const lock = JSON.parse(readFileSync('package-lock.json', 'utf8'));
for (const entry of Object.values(lock.packages)) {
  delete entry.funding;
  delete entry.resolved;
}
writeFileSync('package-lock.json', `${JSON.stringify(lock, null, 2)}\n`);
