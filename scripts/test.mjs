/**
 * `npm test`: installs what is missing (the protocol clients and the browser too, where the system's package manager
 * can), checks types and style, and runs every test. A few files that fail
 * are run once more alone. `npm test -- src/formats` runs some.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { passesAlone } from './once-more.mjs';
import { checkNode, ensureBuilt, ensurePackages, root, say, tool } from './ready.mjs';
import { reportSkips } from './skips.mjs';
import { ensureSshServer, ensureSystemTools } from './system-tools.mjs';

checkNode();
ensureSystemTools();
ensureSshServer();
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
mkdirSync(join(root, '.cache'), { recursive: true });
const results = join(root, '.cache/test-results.json');
const again = join(root, '.cache/test-results-again.json');
const status = vitest(chosen, results);
const fine = reportSkips(results, { enforce: process.env.CI === 'true' });
const passed =
  status === 0 || passesAlone(results, (files) => vitest([...files, '--no-file-parallelism'], again));
process.exit(passed ? (fine ? 0 : 1) : (status ?? 3));

/** Runs Vitest, its results written as JSON too; its exit code, null where it was killed. */
function vitest(options, outputFile) {
  const { status } = spawnSync(
    process.execPath,
    [
      join(root, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${outputFile}`,
      ...options,
    ],
    { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] },
  );
  return status;
}
