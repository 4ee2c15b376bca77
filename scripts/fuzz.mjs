/**
 * `npm run fuzz -- --seconds 600 [--seed N] [session|sftp|formats|journal]`: throws bytes at what takes bytes from strangers
 * (test/fuzz). Without a target each gets its share of the time. What is found is saved to test/fuzz/corpus.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { checkNode, ensurePackages, root } from './ready.mjs';

const names = ['session', 'sftp', 'formats', 'journal'];
const { values, positionals } = parseArgs({
  options: { seconds: { type: 'string', default: '60' }, seed: { type: 'string' } },
  allowPositionals: true,
});
const [target] = positionals;
const seconds = Number(values.seconds);
if (positionals.length > 1 || (target !== undefined && !names.includes(target)) || !(seconds > 0)) {
  process.stderr.write(`Usage: npm run fuzz -- --seconds N [--seed N] [${names.join('|')}]\n`);
  process.exit(2);
}

checkNode();
ensurePackages();
const { status } = spawnSync(
  process.execPath,
  [join(root, 'node_modules/vitest/vitest.mjs'), 'run', 'test/fuzz', '--disable-console-intercept'],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      SETSIDE_FUZZ_SECONDS: String(target === undefined ? seconds / names.length : seconds),
      ...(target === undefined ? {} : { SETSIDE_FUZZ_TARGET: target }),
      ...(values.seed === undefined ? {} : { SETSIDE_FUZZ_SEED: values.seed }),
    },
  },
);
process.exit(status ?? 3);
