import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';

export interface BuiltPage {
  readonly dir: string;
  remove(): Promise<void>;
}

/** The page as it is shipped, built from the sources at hand into a directory of its own. */
export async function buildPage(): Promise<BuiltPage> {
  const dir = await mkdtemp(join(tmpdir(), 'setside-page-'));
  await build({
    configFile: join(import.meta.dirname, '../../../vite.config.ts'),
    root: join(import.meta.dirname, '../../../src/page'),
    logLevel: 'error',
    build: { outDir: dir, emptyOutDir: true },
  });
  return { dir, remove: () => rm(dir, { recursive: true, force: true }) };
}
