import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';

export interface Import {
  /** Path of the importing file below src/, with forward slashes. */
  readonly file: string;
  /** As written: `../base/index.ts`, `zod`, `node:fs`. */
  readonly specifier: string;
  /** Path of the imported file below src/, or null for a package. */
  readonly target: string | null;
}

const importPattern =
  /(?:^|\n)\s*(?:import|export)\s(?:[^'";]*?\sfrom\s)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g;

/** Every import of every source file under `src`, tests left out. */
export function readImports(src: string): Import[] {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter(
    (name) => /\.(ts|tsx)$/.test(name) && !/\.(test|d)\.tsx?$/.test(name),
  );
  return files.flatMap((name) => importsOf(src, name));
}

function importsOf(src: string, name: string): Import[] {
  const text = readFileSync(join(src, name), 'utf8');
  const file = name.split(sep).join('/');
  return [...text.matchAll(importPattern)].map((match) => {
    const specifier = match[1] ?? match[2] ?? '';
    const target = specifier.startsWith('.')
      ? relative(src, resolve(src, dirname(name), specifier))
          .split(sep)
          .join('/')
      : null;
    return { file, specifier, target };
  });
}

/** The room a path below src/ lies in, or null for a file at the top. */
export function roomOf(path: string): string | null {
  const slash = path.indexOf('/');
  return slash < 0 ? null : path.slice(0, slash);
}
