import { mkdir } from 'node:fs/promises';
import { Command, InvalidArgumentError, Option } from 'commander';
import type { Finding } from '../facts/index.ts';
import {
  type AnyDocument,
  compileLook,
  convertDocument,
  type DocumentForm,
  documentForms,
  exportLook,
  isWithinGoal,
  lookHash,
  lookOfDocument,
  type TableError,
  tableFindings,
  tableHash,
} from '../look/index.ts';
import { plainText } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { homeAbove } from './home-above.ts';
import { pathInForm, readDocumentFile, sentences, stem, writeText } from './look-files.ts';
import { printFileFailure, printJson, printLine } from './output.ts';

interface Flags {
  readonly json: boolean;
}

interface WriteFlags extends Flags {
  readonly out?: string;
  readonly replace: boolean;
  readonly id?: string;
}

/** `setside look`: looks as files. What a file is, its content decides. */
export function lookCommand(leave: (code: number) => void): Command {
  const command = new Command('look').description(
    'Checks, compiles and converts looks, CLF documents and ASC CDL corrections.',
  );
  command
    .command('check')
    .description('Says what each file is and whether it can be used; the exit code is 1 where one cannot.')
    .argument('<file...>', 'looks (JSON), CLF documents, ASC CDL (.cc, .ccc, .cdl)')
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: Flags) => leave(await check(files, flags)));
  command
    .command('compile')
    .description('Makes the table of looks and says how far it is from their formula.')
    .argument('<file...>', 'looks, or ASC CDL with one correction')
    .addOption(new Option('--nodes <number>', 'along one edge of the table').argParser(nodes).default(65))
    .option('--id <id>', 'which of several corrections')
    .option('--out <dir>', 'write each as NAME.clf there; without it nothing is written')
    .option('--replace', 'replace what lies under the name of a result', false)
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: WriteFlags & { nodes: 33 | 65 | 129 }) =>
      leave(await compile(files, flags)),
    );
  command
    .command('convert')
    .description('Writes looks, CLF documents and ASC CDL corrections in another form.')
    .argument('<file...>', 'what each is, its content decides')
    .addOption(new Option('--to <form>', 'the form').choices(documentForms).makeOptionMandatory())
    .option('--id <id>', 'which of several corrections')
    .option('--out <dir>', 'folder for the results', '.')
    .option('--replace', 'replace what lies under the name of a result', false)
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: WriteFlags & { to: DocumentForm }) =>
      leave(await convert(files, flags)),
    );
  return command;
}

function nodes(text: string): 33 | 65 | 129 {
  const found = ([33, 65, 129] as const).find((count) => String(count) === text);
  if (found === undefined) throw new InvalidArgumentError('expected 33, 65 or 129');
  return found;
}

/** What one file comes to; `line` is for a person, the rest for a program. */
interface Outcome {
  readonly ok: boolean;
  readonly line: string;
  readonly findings: readonly Finding[];
  readonly facts: Readonly<Record<string, unknown>>;
}

async function check(files: readonly string[], { json }: Flags): Promise<number> {
  const outcomes = await each(files, json, async (document) => checked(document));
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
      return {
        ok: true,
        line: `look "${look.title}", ${hashPhrase(lookHash(look))}${compiled.table === null ? ', tone only' : `, ${compiled.table.size} nodes`}${errorPhrase(error)}`,
        findings: [...findings, ...tableFindings(error)],
        facts: {
          title: look.title,
          version: versionRead,
          hash: lookHash(look),
          table: tableHash(compiled),
          nodes: compiled.table?.size ?? null,
          error,
          withinGoal: error === null || isWithinGoal(error),
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

async function compile(
  files: readonly string[],
  flags: WriteFlags & { nodes: 33 | 65 | 129 },
): Promise<number> {
  const wrong = await wrongPlaces(files, 'clf', flags);
  if (wrong !== null) return wrongUse(wrong);
  const outcomes = await each(files, flags.json, async (document, path) => {
    const found = lookOfDocument(document, { id: flags.id ?? null, title: stem(path) });
    if (found.look === null) return { ok: false, line: '', findings: found.findings, facts: {} };
    const { text, findings, error } = exportLook(found.look, flags.nodes);
    const outPath = flags.out === undefined ? null : pathInForm(path, 'clf', flags.out);
    if (outPath !== null) await writeText(outPath, text, flags.replace);
    const hash = lookHash(found.look);
    return {
      ok: true,
      line: `${hashPhrase(hash)}, ${flags.nodes} nodes${errorPhrase(error)}${outPath === null ? '' : ` -> ${outPath}`}`,
      findings: [...found.findings, ...findings],
      facts: { hash, nodes: flags.nodes, error, ...(outPath === null ? {} : { outPath }) },
    };
  });
  return outcomes.failed + outcomes.refused > 0 ? exitCodes.failed : exitCodes.done;
}

async function convert(files: readonly string[], flags: WriteFlags & { to: DocumentForm }): Promise<number> {
  const { to, out = '.', replace, id = null } = flags;
  const wrong = await wrongPlaces(files, to, { ...flags, out });
  if (wrong !== null) return wrongUse(wrong);
  const outcomes = await each(files, flags.json, async (document, path) => {
    const converted = convertDocument(document, to, { id, title: stem(path) });
    if (converted.text === null) return { ok: false, line: '', findings: converted.findings, facts: {} };
    const outPath = pathInForm(path, to, out);
    await writeText(outPath, converted.text, replace);
    const { findings, error } = converted;
    return { ok: true, line: `-> ${outPath}${errorPhrase(error)}`, findings, facts: { to, outPath, error } };
  });
  return outcomes.failed + outcomes.refused > 0 ? exitCodes.failed : exitCodes.done;
}

/** Why nothing can be written where it was asked for, or null. Makes the folder. */
async function wrongPlaces(
  files: readonly string[],
  form: DocumentForm,
  { out }: Pick<WriteFlags, 'out'>,
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

/** Takes the files one by one: what is refused or fails is said, and the others go on. */
async function each(
  files: readonly string[],
  json: boolean,
  run: (document: AnyDocument, path: string) => Promise<Outcome>,
): Promise<{ readonly refused: number; readonly failed: number }> {
  let [refused, failed] = [0, 0];
  for (const path of files) {
    try {
      const read = await readDocumentFile(path);
      const outcome =
        read.document === null
          ? { ok: false, line: '', findings: read.findings, facts: {} }
          : await run(read.document, path);
      if (!outcome.ok) refused += 1;
      report(path, read.document?.kind ?? null, outcome, json);
    } catch (thrown) {
      failed += 1;
      printFileFailure(path, thrown, json);
    }
  }
  return { refused, failed };
}

function report(path: string, kind: AnyDocument['kind'] | null, outcome: Outcome, json: boolean): void {
  const { ok, line, findings, facts } = outcome;
  if (json) {
    printJson({ path, kind, ok, ...facts, findings });
    return;
  }
  const said = sentences(findings);
  if (ok) printLine([`${path}:`, plainText(line), said].join(' ').trimEnd(), json);
  else process.stderr.write(`${path}: ${said}\n`);
}

function hashPhrase(hash: string): string {
  return hash.slice(0, 16);
}

function errorPhrase(error: TableError | null): string {
  if (error === null) return '';
  return `, CIEDE2000 mean ${error.mean.toFixed(3)}, 99.9 % under ${error.p999.toFixed(3)}`;
}
