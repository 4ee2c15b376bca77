import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';

export interface BuiltPage {
  readonly dir: string;
}

const root = join(import.meta.dirname, '../../..');
const shelf = join(root, '.cache/page-for-tests');

/**
 * The page as it is shipped, built from the sources at hand. Test files that need the same one share it: whoever comes
 * first builds it, in a folder of its own that then takes its name; the sources' hash is the name, so that nobody meets
 * an older one.
 */
export async function buildPage(): Promise<BuiltPage> {
  const dir = join(shelf, hashOfSources());
  if (!existsSync(dir)) await buildInto(dir);
  return { dir };
}

async function buildInto(dir: string): Promise<void> {
  await mkdir(shelf, { recursive: true });
  await clearOut();
  const own = join(shelf, `building-${randomUUID()}`);
  await build({
    configFile: join(root, 'vite.config.ts'),
    root: join(root, 'src/page'),
    logLevel: 'error',
    build: { outDir: own, emptyOutDir: true },
  });
  try {
    await rename(own, dir);
  } catch (thrown) {
    // Another worker was quicker with the same page.
    await rm(own, { recursive: true, force: true });
    if (!existsSync(dir)) throw thrown;
  }
}

/** Pages of other sources, a day after they were built. */
async function clearOut(): Promise<void> {
  const yesterdayMs = Date.now() - 86_400_000;
  const old = readdirSync(shelf)
    .map((name) => join(shelf, name))
    .filter((path) => statSync(path).mtimeMs < yesterdayMs);
  for (const path of old) await rm(path, { recursive: true, force: true });
}

/** Everything the page may be made of: it imports pure rooms, which are not told apart here. */
function hashOfSources(): string {
  const hash = createHash('sha256');
  const sources = readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
  for (const path of [join(root, 'vite.config.ts'), join(root, 'package-lock.json'), ...sources.sort()])
    hash.update(path).update('\0').update(readFileSync(path)).update('\0');
  return hash.digest('hex').slice(0, 16);
}
