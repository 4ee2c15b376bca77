#!/usr/bin/env node
/** The `setside` command. In a checkout that is not built yet it says how to build it. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const main = join(import.meta.dirname, '../dist/cli/main.js');
if (existsSync(main)) {
  await import(pathToFileURL(main).href);
} else {
  process.stderr.write(
    'Setside is not built yet. Run `npm start` once: it installs, builds and starts the station.\n',
  );
  process.exitCode = 3;
}
