/** Whether a checkout's sources have outgrown what is built of them. Plain Node: it runs before anything is installed. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';

/** Holds the hash of the sources that were built. */
export function stampOf(root) {
  return join(root, '.cache', 'built');
}

/**
 * Whether the sources differ from those that were built; false where nothing tells, as in an installed package. Cheap: times
 * first, some milliseconds, and content only where a file is newer than the build.
 */
export function isOutgrown(root) {
  const stamp = stampOf(root);
  if (!existsSync(stamp) || !existsSync(join(root, 'src'))) return false;
  const sources = sourcesOf(root);
  const builtMs = statSync(stamp).mtimeMs;
  if (!sources.some((file) => statSync(file).mtimeMs > builtMs)) return false;
  if (readFileSync(stamp, 'utf8') !== hashOf(sources, root)) return true;
  // Newer and yet the same, as after a change of branch and back: not to be read again each time.
  try {
    utimesSync(stamp, new Date(), new Date());
  } catch {
    // Somebody else's checkout: then they are read again.
  }
  return false;
}

/** Everything that station and page are built of. */
export function sourcesOf(root) {
  const sources = readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  const configs = readdirSync(root)
    .filter((name) => /^tsconfig.*\.json$/.test(name))
    .map((name) => join(root, name));
  // The lock file, since packages are joined into the build.
  const others = ['vite.config.ts', 'scripts/bundle.mjs', 'package-lock.json'].map((name) =>
    join(root, name),
  );
  return [...sources, ...others, ...configs].filter((file) => existsSync(file));
}

export function hashOf(files, root) {
  const hash = createHash('sha256');
  for (const file of files.filter((name) => existsSync(name))) {
    hash.update(file.slice(root.length)).update('\0').update(readFileSync(file)).update('\0');
  }
  return hash.digest('hex');
}
