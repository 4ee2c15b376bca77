#!/usr/bin/env node
/** The `setside` command. In a checkout that is not built yet, or was built of older sources, it says so. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isOutgrown } from '../scripts/outgrown.mjs';

const root = join(import.meta.dirname, '..');
const main = join(root, 'dist/run/main.js');
if (existsSync(main)) {
  // Said, not mended: building anew would take the files away under a station that runs.
  if (isOutgrown(root)) {
    process.stderr.write(
      'The sources have changed since Setside was built, and this is the older build. `npm start` builds it anew.\n',
    );
  }
  await import(pathToFileURL(main).href);
} else {
  process.stderr.write(
    'Setside is not built yet. Run `npm start` once: it installs, builds and starts the station.\n',
  );
  process.exitCode = 3;
}
