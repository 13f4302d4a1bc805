/**
 * The table of docs/model.md: the physics against outside figures and the trade's rules of thumb. Run from the project's folder:
 *   npx tsc -p . --noEmit false --outDir out/js; node out/js/scripts/model-table.js
 */
import { cells, HEAD } from './model-row.js';
import { MODEL_ROWS } from './model-rows.js';

for (const row of [HEAD, HEAD.map(() => '---'), ...MODEL_ROWS.map(cells)]) console.log(`| ${row.join(' | ')} |`);
