import { Command, InvalidArgumentError, Option } from 'commander';
import type { Finding } from '../facts/index.ts';
import { defaultLook, type Look, neutralLook } from '../look/index.ts';
import { sentence } from '../words/index.ts';
import {
  type DevelopedFile,
  type DevelopFileOptions,
  developFile,
  resultName,
  startDevelopPool,
} from '../workers/index.ts';
import { exitCodes } from './exit-codes.ts';
import { homeAbove } from './home-above.ts';
import { readLookFile } from './look-files.ts';
import { printFileFailure, printJson, printLine } from './output.ts';

interface Flags {
  readonly out: string;
  readonly size: DevelopFileOptions['size'];
  readonly format: DevelopFileOptions['format'];
  readonly look: string;
  readonly replace: boolean;
  readonly json: boolean;
}

/** `setside develop FILE…`: raw to picture, without a station. */
export function developCommand(leave: (code: number) => void): Command {
  return new Command('develop')
    .description('Renders raw files (and scales pictures) without a station.')
    .argument('<file...>', 'files to render; what each is, its content decides')
    .option('--out <dir>', 'folder for the results', '.')
    .option('--size <size>', '"half", "full", or the long edge in pixels', size, 'half' as const)
    .addOption(
      new Option('--format <name>', 'what to write')
        .choices(['jpeg', 'webp', 'png', 'tiff-linear'])
        .default('jpeg'),
    )
    .option(
      '--look <look>',
      'for raw files: "default", "neutral", or a file with a look or an ASC CDL',
      'default',
    )
    .option('--replace', 'replace what lies under the name of a result', false)
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: Flags, command: Command) =>
      leave(await develop(files, flags, command.getOptionValueSource('look') === 'cli')),
    );
}

async function develop(files: readonly string[], flags: Flags, isLookAsked: boolean): Promise<number> {
  const shared = sharedResult(files, flags.format);
  if (shared !== null) {
    process.stderr.write(
      `Two of the files would both be written as ${shared}: render them into different folders.\n`,
    );
    return exitCodes.wrongUse;
  }
  const home = await homeAbove(flags.out);
  if (home !== null) {
    process.stderr.write(
      `${flags.out} lies in ${home}, where a station keeps its originals: give a folder outside it with --out.\n`,
    );
    return exitCodes.wrongUse;
  }
  const look = await lookOf(flags.look);
  const pool = startDevelopPool();
  let failures = 0;
  const one = async (file: string): Promise<void> => {
    try {
      const { out: outDir, size: wanted, format, replace } = flags;
      const done = await developFile(file, { pool, outDir, size: wanted, format, look, replace });
      const unused = isLookAsked ? unusedLook(done, format) : [];
      report({ ...done, issues: [...done.issues, ...unused] }, flags.json);
    } catch (thrown) {
      failures += 1;
      printFileFailure(file, thrown, flags.json);
    }
  };
  try {
    await Promise.all(files.map(one));
  } finally {
    await pool.close();
  }
  return failures === 0 ? exitCodes.done : exitCodes.failed;
}

/** Names of looks go before files of that name. Errors: `bad-look`, and those of the file system. */
async function lookOf(wish: string): Promise<Look> {
  if (wish === 'default') return defaultLook;
  return wish === 'neutral' ? neutralLook : readLookFile(wish);
}

/** Said where a look that was asked for has no part in the result; the one that is there by itself is not spoken of. */
function unusedLook({ kind }: DevelopedFile, format: Flags['format']): readonly Finding[] {
  if (format === 'tiff-linear') return [{ code: 'develop.linear-without-look', args: {} }];
  return kind === 'raw' ? [] : [{ code: 'develop.look-not-applied', args: {} }];
}

/** The name that two results would have, or null. */
function sharedResult(files: readonly string[], format: Flags['format']): string | null {
  const names = files.map((file) => resultName(file, format));
  return names.find((name, at) => names.indexOf(name) !== at) ?? null;
}

function report(done: DevelopedFile, json: boolean): void {
  if (json) {
    printJson(done);
    return;
  }
  const { path, outPath, renderedWidthPx, renderedHeightPx, timings } = done;
  const seconds = (timings.decodeMs + timings.developMs + timings.encodeMs) / 1000;
  printLine(`${path} -> ${outPath}  ${renderedWidthPx} x ${renderedHeightPx}, ${seconds.toFixed(2)} s`, json);
  for (const issue of done.issues) printLine(`  ${sentence(issue)}`, json);
}

function size(text: string): DevelopFileOptions['size'] {
  if (text === 'half' || text === 'full') return text;
  const longEdgePx = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (longEdgePx >= 16 && longEdgePx <= 30_000) return { longEdgePx };
  throw new InvalidArgumentError('expected "half", "full" or 16 to 30000');
}
