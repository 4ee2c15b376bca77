/**
 * Joins what the `setside` command loads into few files, `dist/run`: a start reads some forty files in place of two thousand,
 * which is half of what it costs. The modules in `dist/` stay: tests load those.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join, relative, sep } from 'node:path';
import { build } from 'vite';
import { root } from './ready.mjs';

const dist = join(root, 'dist');

/** How our modules name a thread or a child process that they start. */
const started = /new URL\('(\.\/[\w-]+\.js)', import\.meta\.url\)/g;

const entries = [join(dist, 'cli/main.js'), ...startedByOurs()];
if (new Set(entries.map((path) => basename(path))).size < entries.length) {
  throw new Error(`two of these have one name: ${entries.join(', ')}`);
}

/** Packages that look for files of their own, or that few commands need: loaded from where they are installed. */
const outside = new Set([
  '@aws-sdk/client-s3',
  'better-sqlite3',
  'exiftool-vendored',
  'libraw-wasm',
  'pdfkit',
  'pino',
  'sharp',
  'ssh2',
  'zxing-wasm',
]);

async function bundle() {
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    plugins: [leaveOutside(), keepAddresses()],
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: join(dist, 'run'),
      emptyOutDir: true,
      target: 'node20',
      // Readable, since people read stack traces; `NODE_OPTIONS=--enable-source-maps` names the sources themselves.
      minify: false,
      sourcemap: true,
      rolldownOptions: {
        input: Object.fromEntries(entries.map((path) => [basename(path, '.js'), path])),
        output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
      },
    },
  });
}

/** A package that stays outside must be the same one for whoever asks: from `dist/run` it is found at the top only. */
function leaveOutside() {
  const top = createRequire(join(root, 'package.json'));
  return {
    name: 'leave-outside',
    enforce: 'pre',
    resolveId(id, importer) {
      const name = /^(@[^/]+\/)?[^./][^/]*/.exec(id)?.[0];
      if (name === undefined || !outside.has(name)) return null;
      if (importer?.includes(`${sep}node_modules${sep}`)) {
        const found = createRequire(importer).resolve(id);
        if (found !== top.resolve(id)) throw new Error(`${importer} wants a ${name} of its own: ${found}`);
      }
      return { id, external: true };
    },
  };
}

/** Threads and child processes, each an entry of its own. */
function startedByOurs() {
  const found = new Set();
  for (const entry of readdirSync(dist, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    if (!path.endsWith('.js') || /^(page|run)\b/.test(relative(dist, path))) continue;
    for (const [, name] of readFileSync(path, 'utf8').matchAll(started)) found.add(join(dirname(path), name));
  }
  return [...found].sort();
}

/**
 * Our modules find what lies beside them by their own address: it stays what it is in `dist/`, but for threads and child
 * processes, which lie beside their starters here too. Reads the map of each module, so that traces lead to the sources.
 */
function keepAddresses() {
  return {
    name: 'keep-addresses',
    enforce: 'pre',
    load(id) {
      if (!id.startsWith(dist + sep)) return null;
      const code = readFileSync(id, 'utf8');
      if (/import\.meta\.(?!url\b)/.test(code)) throw new Error(`${id}: of import.meta only the url is kept`);
      const address = `new URL('../${relative(dist, id).split(sep).join('/')}', import.meta.url).href`;
      // On one line each, so that the lines of the map stay true.
      return {
        code: code
          .replaceAll(started, "new URL('$1', import.meta.address)")
          .replaceAll('import.meta.url', address)
          .replaceAll('import.meta.address', 'import.meta.url'),
        map: JSON.parse(readFileSync(`${id}.map`, 'utf8')),
      };
    },
  };
}

await bundle();
