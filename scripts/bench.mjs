/** `npm run bench [NAME…]`: builds, measures ours and the reference side by side, writes bench/results/. */
import { join } from 'node:path';
import { checkNode, ensureBuilt, ensurePackages, root, run, tool } from './ready.mjs';

checkNode();
ensurePackages();
ensureBuilt();
tool('typescript/bin/tsc', ['-b', 'tsconfig.bench.json']);
run(process.execPath, [join(root, '.cache/bench/main.js'), ...process.argv.slice(2)], { stdio: 'inherit' });
