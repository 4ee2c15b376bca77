/**
 * Makes a checkout ready to run: packages installed as the lock file says, sources built as they stand.
 * Plain Node and nothing else, since it runs before anything is installed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hashOf, sourcesOf, stampOf } from './outgrown.mjs';

export const root = join(import.meta.dirname, '..');
const stampDir = join(root, '.cache');

/** Oldest Node that works: `import.meta.dirname` and the packages' own demands. */
export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  fail(
    `Setside needs Node.js 20.19 or newer; this is ${process.versions.node}. Install it from your system or from the Node.js project.`,
  );
}

/** Runs `npm ci` when node_modules does not match the lock file. */
export function ensurePackages() {
  const wanted = hashOf([join(root, 'package.json'), join(root, 'package-lock.json')], root);
  const stamp = join(root, 'node_modules', '.setside-lock');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Installing packages (once; some minutes where the database has to be compiled) …');
  npm(['ci', '--no-audit', '--no-fund']);
  writeFileSync(stamp, wanted);
}

/** Builds what the sources have outgrown: the station by tsc, joined into few files, and the page by Vite. */
export function ensureBuilt() {
  const wanted = hashOf(sourcesOf(root), root);
  const stamp = stampOf(root);
  const built = existsSync(join(root, 'dist/run/main.js')) && existsSync(join(root, 'dist/page/index.html'));
  if (built && existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  say('Building …');
  // A removed source must not live on in dist.
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  for (const name of ['kernels', 'pure', 'node', 'page', 'test']) {
    rmSync(join(stampDir, `${name}.tsbuildinfo`), { force: true });
  }
  tool('typescript/bin/tsc', ['-b', 'tsconfig.node.json']);
  tool('vite/bin/vite.js', ['build', '--logLevel', 'warn']);
  // A process of its own: what it imports may not be installed when this file is read.
  run(process.execPath, [join(root, 'scripts/bundle.mjs')]);
  mkdirSync(stampDir, { recursive: true });
  writeFileSync(stamp, wanted);
}

/** Runs a package's own script with this Node; ends the process when it fails. */
export function tool(script, args) {
  run(process.execPath, [join(root, 'node_modules', script), ...args]);
}

export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: root, stdio: ['ignore', 2, 2], ...options });
  if (result.error) fail(`${command} could not be started: ${result.error.message}`);
  if (result.status !== 0) process.exit(result.status ?? 3);
}

export function say(line) {
  process.stderr.write(`${line}\n`);
}

export function fail(line) {
  say(line);
  process.exit(3);
}

function npm(args) {
  const script = process.env.npm_execpath;
  if (script?.endsWith('.js')) run(process.execPath, [script, ...args]);
  else run('npm', args, { shell: process.platform === 'win32' });
}
