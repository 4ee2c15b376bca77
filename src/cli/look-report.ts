import type { Finding } from '../facts/index.ts';
import type { AnyDocument, TableError } from '../look/index.ts';
import { plainText, sentence } from '../words/index.ts';
import { readDocumentFile, sentences } from './look-files.ts';
import { printFileFailure, printJson, printLine } from './output.ts';

/** What one file comes to; `line` is for a person, the rest for a program. */
export interface Outcome {
  readonly ok: boolean;
  readonly line: string;
  readonly findings: readonly Finding[];
  readonly facts: Readonly<Record<string, unknown>>;
}

/** Takes the files one by one: what is refused or fails is said, and the others go on. `unnamed` counts among `refused`. */
export async function eachDocument(
  files: readonly string[],
  json: boolean,
  run: (document: AnyDocument, path: string) => Promise<Outcome>,
): Promise<{ readonly refused: number; readonly unnamed: number; readonly failed: number }> {
  let [refused, unnamed, failed] = [0, 0, 0];
  for (const path of files) {
    try {
      const read = await readDocumentFile(path);
      const outcome =
        read.document === null
          ? { ok: false, line: '', findings: read.findings, facts: {} }
          : await run(read.document, path);
      if (!outcome.ok) refused += 1;
      if (!outcome.ok && outcome.findings.some(({ code }) => unnamedCodes.has(code))) unnamed += 1;
      report(path, read.document?.kind ?? null, outcome, json);
    } catch (thrown) {
      failed += 1;
      printFileFailure(path, thrown, json);
    }
  }
  return { refused, unnamed, failed };
}

/** One of several corrections was to be named by an option, and was not. */
const unnamedCodes: ReadonlySet<string> = new Set(['look.several-corrections', 'look.several-numbered']);

function report(path: string, kind: AnyDocument['kind'] | null, outcome: Outcome, json: boolean): void {
  const { ok, line, findings, facts } = outcome;
  if (json) {
    printJson({ path, kind, ok, ...facts, findings });
    return;
  }
  if (!ok) {
    process.stderr.write(`${path}: ${sentences(findings)}\n`);
    return;
  }
  printLine(`${path}: ${plainText(line)}`, json);
  // Each on its own line: a path or a figure before it takes no full stop.
  for (const finding of findings) printLine(`  ${sentence(finding)}`, json);
}

export function hashPhrase(hash: string): string {
  return hash.slice(0, 16);
}

/** "65 nodes", or what there is where no table is needed. */
export function nodesPhrase(nodes: number | null): string {
  return nodes === null ? 'no table needed' : `${nodes} nodes`;
}

export function errorPhrase(error: TableError | null): string {
  if (error === null) return '';
  return `, CIEDE2000 mean ${error.mean.toFixed(3)}, 99.9 % under ${error.p999.toFixed(3)}`;
}
