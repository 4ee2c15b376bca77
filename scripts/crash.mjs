/** `npm run test:crash -- --rounds N [--seed S]`: kills a station again and again while cameras upload. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { checkNode, ensureBuilt, ensurePackages, root } from './ready.mjs';

const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '1000' }, seed: { type: 'string', default: '1' } },
});
checkNode();
ensurePackages();
ensureBuilt();
const run = spawnSync(
  process.execPath,
  [join(root, 'node_modules/vitest/vitest.mjs'), 'run', 'test/crash', '--disable-console-intercept'],
  {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, SETSIDE_CRASH_ROUNDS: values.rounds, SETSIDE_CRASH_SEED: values.seed },
  },
);
process.exit(run.status ?? 3);
