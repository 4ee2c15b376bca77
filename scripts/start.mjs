/** `npm start`: installs what is missing, builds what is stale, runs `setside station` with the arguments given. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { checkNode, ensureBuilt, ensurePackages, root } from './ready.mjs';

checkNode();
ensurePackages();
ensureBuilt();

const station = spawn(
  process.execPath,
  [join(root, 'bin/setside.mjs'), 'station', ...process.argv.slice(2)],
  // npm goes to the program's own folder first; a folder that somebody names is meant from where they stand.
  { stdio: 'inherit', cwd: startedFrom() },
);
// The terminal sends Ctrl+C to both; a service manager signals only us.
for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP']) process.on(signal, () => station.kill(signal));
station.on('exit', (code, signal) => process.exit(signal === null ? (code ?? 3) : 3));

function startedFrom() {
  const { npm_lifecycle_event: script, INIT_CWD: folder } = process.env;
  return script === 'start' && folder ? folder : process.cwd();
}
