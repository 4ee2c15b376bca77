/**
 * `npm test`: installs what is missing (the protocol clients and the browser too, where the system's package manager
 * can), checks types and style, and runs every test. `npm test -- src/formats` runs some.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { checkNode, ensureBuilt, ensurePackages, root, say, tool } from './ready.mjs';
import { reportSkips } from './skips.mjs';
import { ensureSystemTools } from './system-tools.mjs';

checkNode();
ensureSystemTools();
ensurePackages();
ensureBuilt();

const chosen = process.argv.slice(2);
if (chosen.length === 0) {
  say('Types …');
  tool('typescript/bin/tsc', ['-b', 'tsconfig.json']);
  say('Style …');
  tool('@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.']);
}
say('Tests …');
const results = join(root, '.cache/test-results.json');
mkdirSync(join(root, '.cache'), { recursive: true });
const vitest = spawnSync(
  process.execPath,
  [
    join(root, 'node_modules/vitest/vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${results}`,
    ...chosen,
  ],
  { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] },
);
const fine = reportSkips(results, { enforce: process.env.CI === 'true' });
process.exit(vitest.status === 0 ? (fine ? 0 : 1) : (vitest.status ?? 3));
