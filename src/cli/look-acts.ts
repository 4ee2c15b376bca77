import { mkdir } from 'node:fs/promises';
import {
  type AnyDocument,
  compileLook,
  convertDocument,
  curveFindings,
  type DocumentForm,
  exportedTable,
  exportLook,
  isNothingForATable,
  isWithinGoal,
  lookHash,
  lookOfDocument,
  type TableNodes,
  tableFindings,
  tableHash,
} from '../look/index.ts';
import { exitCodes } from './exit-codes.ts';
import { homeAbove } from './home-above.ts';
import { pathInForm, stem, writeText } from './look-files.ts';
import { eachDocument, errorPhrase, hashPhrase, nodesPhrase, type Outcome } from './look-report.ts';

export interface LookFlags {
  readonly json: boolean;
}

export interface LookWriteFlags extends LookFlags {
  readonly out?: string;
  readonly replace: boolean;
  readonly id?: string;
  readonly number?: number;
}

export async function checkFiles(files: readonly string[], { json }: LookFlags): Promise<number> {
  const outcomes = await eachDocument(files, json, async (document) => checked(document));
  if (outcomes.failed > 0) return exitCodes.failed;
  return outcomes.refused > 0 ? exitCodes.no : exitCodes.done;
}

function checked(document: AnyDocument): Outcome {
  switch (document.kind) {
    case 'look': {
      const { look, versionRead } = document;
      const { findings } = lookOfDocument(document, { id: null, title: '' });
      const compiled = compileLook(look, undefined, 'as-needed');
      const error = compiled.table?.error ?? null;
      const clf = exportedTable(look);
      return {
        ok: true,
        line: `look "${look.title}", ${hashPhrase(lookHash(look))}; ${isNothingForATable(clf.findings) ? 'rendered by what looks beyond the point alone' : `rendered ${compiled.table === null ? 'as tone only' : `by ${compiled.table.size} nodes`}${errorPhrase(error)}; as CLF ${clf.nodes === null ? 'without a table' : `with ${clf.nodes} nodes`}${errorPhrase(clf.error)}`}`,
        findings: [
          ...findings,
          ...(look.curve === null ? [] : curveFindings(look.curve)),
          ...tableFindings(error, null),
          ...clf.findings,
        ],
        facts: {
          title: look.title,
          version: versionRead,
          hash: lookHash(look),
          table: tableHash(compiled),
          nodes: compiled.table?.size ?? null,
          error,
          withinGoal: error === null || isWithinGoal(error),
          clf: { nodes: clf.nodes, error: clf.error },
        },
      };
    }
    case 'clf': {
      const { id, name, nodes: steps } = document.clf;
      const kinds = steps.map(({ kind }) => kind);
      return {
        ok: true,
        line: `CLF "${name || id}", ${kinds.join(', ')}`,
        findings: [],
        facts: { id, name, steps: kinds },
      };
    }
    case 'cdl': {
      const ids = document.corrections.map(({ id }) => id);
      const named = ids.slice(0, 8).map((id) => id || '(no id)');
      return {
        ok: true,
        line: `ASC CDL, ${ids.length === 1 ? 'one correction' : `${ids.length} corrections`}: ${named.join(', ')}`,
        findings: [],
        facts: { ids },
      };
    }
  }
}

export async function compileFiles(
  files: readonly string[],
  flags: LookWriteFlags & { nodes: TableNodes },
): Promise<number> {
  const wrong = await wrongPlaces(files, 'clf', flags);
  if (wrong !== null) return wrongUse(wrong);
  const outcomes = await eachDocument(files, flags.json, async (document, path) => {
    const found = lookOfDocument(document, {
      id: flags.id ?? null,
      number: flags.number ?? null,
      title: stem(path),
    });
    if (found.look === null) return { ok: false, line: '', findings: found.findings, facts: {} };
    const { text, findings, error, nodes } = exportLook(found.look, flags.nodes);
    if (isNothingForATable(findings)) return { ok: false, line: '', findings, facts: {} };
    const outPath = flags.out === undefined ? null : pathInForm(path, 'clf', flags.out);
    if (outPath !== null) await writeText(outPath, text, flags.replace);
    const hash = lookHash(found.look);
    return {
      ok: true,
      line: `${hashPhrase(hash)}, ${nodesPhrase(nodes)}${errorPhrase(error)}${outPath === null ? '' : ` -> ${outPath}`}`,
      findings: [...found.findings, ...findings],
      facts: { hash, nodes, error, ...(outPath === null ? {} : { outPath }) },
    };
  });
  return writtenCode(outcomes);
}

export async function convertFiles(
  files: readonly string[],
  flags: LookWriteFlags & { to: DocumentForm },
): Promise<number> {
  const { to, out = '.', replace, id = null, number = null } = flags;
  const wrong = await wrongPlaces(files, to, { ...flags, out });
  if (wrong !== null) return wrongUse(wrong);
  const outcomes = await eachDocument(files, flags.json, async (document, path) => {
    const converted = convertDocument(document, to, { id, number, title: stem(path) });
    if (converted.text === null) return { ok: false, line: '', findings: converted.findings, facts: {} };
    const outPath = pathInForm(path, to, out);
    await writeText(outPath, converted.text, replace);
    const { findings, error } = converted;
    return { ok: true, line: `-> ${outPath}${errorPhrase(error)}`, findings, facts: { to, outPath, error } };
  });
  return writtenCode(outcomes);
}

/** A correction that was not named is wrong use, as an option left out is; where a file failed beside it, that is said. */
function writtenCode({ refused, unnamed, failed }: Awaited<ReturnType<typeof eachDocument>>): number {
  if (refused + failed === 0) return exitCodes.done;
  return unnamed === refused && failed === 0 ? exitCodes.wrongUse : exitCodes.failed;
}

/** Why nothing can be written where it was asked for, or null. Makes the folder. */
async function wrongPlaces(
  files: readonly string[],
  form: DocumentForm,
  { out }: Pick<LookWriteFlags, 'out'>,
): Promise<string | null> {
  if (out === undefined) return null;
  const names = files.map((file) => pathInForm(file, form, out));
  const shared = names.find((name, at) => names.indexOf(name) !== at);
  if (shared !== undefined)
    return `Two of the files would both be written as ${shared}: use different folders.`;
  const home = await homeAbove(out);
  if (home !== null) {
    return `${out} lies in ${home}, where a station keeps its originals: give a folder outside it with --out.`;
  }
  await mkdir(out, { recursive: true });
  return null;
}

function wrongUse(text: string): number {
  process.stderr.write(`${text}\n`);
  return exitCodes.wrongUse;
}
