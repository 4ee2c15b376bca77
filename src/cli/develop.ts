import { availableParallelism } from 'node:os';
import { Command, Option } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import { rgbSpaceNames } from '../colour/index.ts';
import { type Finding, type TargetEdition, targetEditions } from '../facts/index.ts';
import { defaultLook, type Look, neutralLook } from '../look/index.ts';
import { sentence } from '../words/index.ts';
import {
  type DevelopedFile,
  type DevelopFileOptions,
  developFile,
  newJobBoard,
  outputFormats,
  resultName,
  startDevelopPool,
} from '../workers/index.ts';
import { depth, profileVersion, resultSize } from './develop-options.ts';
import { type OutputFlags, outputChoice } from './develop-output.ts';
import { type FileTarget, targetOfFile } from './develop-target.ts';
import { exitCodes } from './exit-codes.ts';
import { filesProgress } from './files-progress.ts';
import { findStationIfAny, type WhichStation, withStation } from './find-station.ts';
import { homeAbove } from './home-above.ts';
import { howFar } from './how-far.ts';
import { inLanes } from './in-lanes.ts';
import { keptLooks, lookNamed } from './kept-look-calls.ts';
import { lensOf } from './lens-file.ts';
import { isThere, readLookFile } from './look-files.ts';
import { printFileFailure, printJson, printLine } from './output.ts';
import { sizeFindings } from './result-size.ts';

interface Flags extends OutputFlags, WhichStation {
  readonly out: string;
  readonly size: DevelopFileOptions['size'];
  readonly look: string;
  readonly lens: string;
  readonly target?: string;
  readonly targetEdition?: TargetEdition;
  readonly replace: boolean;
  readonly json: boolean;
}

/** `setside develop FILE…`: raw to picture, without a station. */
export function developCommand(leave: (code: number) => void): Command {
  return withStation(
    new Command('develop')
      .description('Renders raw files (and scales pictures) without a station.')
      .argument('<file...>', 'files to render; what each is, its content decides')
      .option('--out <dir>', 'folder for the results', '.')
      .option('--size <size>', '"half", "full", or the long edge in pixels', resultSize, 'half' as const)
      .addOption(
        new Option('--format <name>', 'what to write')
          .choices([...outputFormats, 'tiff-linear'])
          .default('jpeg'),
      )
      .addOption(
        new Option('--space <name>', 'colour space of the results (sRGB where left out)').choices(
          rgbSpaceNames,
        ),
      )
      .option('--profile <file>', 'an ICC profile to write the results in, in place of --space')
      .addOption(new Option('--depth <bits>', 'bits of a channel: 8, or 16 as TIFF or PNG').argParser(depth))
      .addOption(
        new Option(
          '--profile-version <number>',
          'of the ICC profile put into results: 4, or 2 for old readers',
        ).argParser(profileVersion),
      )
      .option(
        '--look <look>',
        'for raw files: "default", "neutral", a file with a look or an ASC CDL, or the name of a look that a running station keeps, such as "Evening" or "Evening 2"',
        'default',
      )
      .option(
        '--lens <lens>',
        'for raw files: "file" for what the raw states, "none", or a file that describes one',
        'file',
      )
      .option(
        '--target <file>',
        'raw with a 24-patch target under the same light: raws are balanced on it and rendered by its matrix',
      )
      .addOption(
        new Option(
          '--target-edition <edition>',
          'which 24-patch target it is; recognised where left out',
        ).choices(targetEditions),
      )
      .option('--replace', 'replace what lies under the name of a result', false)
      .option('--json', 'one JSON line for each file', false),
  )
    .addHelpText(
      'after',
      '\nThe exit code is 0 where every file was rendered, 1 where the station keeps no such look or no target was read, 2 for options that do not go together and files of looks, profiles and lenses that cannot be used, 3 where a file failed or the work was broken off. A result lies there whole or not at all, and nothing is enlarged.',
    )
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
  const choice = await outputChoice(flags);
  const look = await lookOf(flags);
  const lens = await lensOf(flags.lens);
  // All cores: nothing is received here that would want one kept free, and the main thread only waits.
  const pool = startDevelopPool({ size: availableParallelism() });
  const stop = new AbortController();
  const onStop = (): void => {
    progress.close();
    stop.abort();
  };
  process.once('SIGINT', onStop).once('SIGTERM', onStop);
  const { signal } = stop;
  const progress = filesProgress(files.length);
  let failures = 0;
  let target: FileTarget | null = null;
  const isCropped = look.geometry.crop !== null;
  const one = async (file: string): Promise<void> => {
    if (signal.aborted) return;
    const board = newJobBoard();
    const ended = progress.begin('rendering', file, () => howFar(board));
    try {
      const { out: outDir, size: wanted, replace } = flags;
      const { format, output, space } = choice;
      const chosen = { ...(output === null ? {} : { output }), ...(space === null ? {} : { space }) };
      const balance = target?.balance ?? null;
      const options = {
        pool,
        outDir,
        size: wanted,
        format,
        look,
        lens,
        balance,
        replace,
        signal,
        board,
        ...chosen,
      };
      const done = await developFile(file, options);
      const unused = isLookAsked ? unusedLook(done, format) : [];
      const isBalanced = target !== null && done.kind === 'raw' && format !== 'tiff-linear';
      const without = target === null || isBalanced ? [] : [{ code: 'develop.target-not-applied', args: {} }];
      const isBent = flags.lens === 'file' || (done.kind === 'raw' && format !== 'tiff-linear');
      const bare = isBent ? [] : [{ code: 'develop.lens-not-applied', args: {} }];
      const issues = [
        ...done.issues,
        ...unused,
        ...without,
        ...bare,
        ...sizeFindings(done, wanted, isCropped),
      ];
      progress.clear();
      report({ ...done, issues }, isBalanced ? target : null, flags.json);
    } catch (thrown) {
      if (signal.aborted) return;
      failures += 1;
      progress.clear();
      printFileFailure(file, thrown, flags.json);
    } finally {
      ended();
    }
    progress.oneMore();
  };
  try {
    if (flags.target !== undefined) {
      const ended = progress.begin('reading the target in', flags.target);
      target = await targetOfFile(flags.target, flags.targetEdition ?? null, pool, signal).finally(ended);
      progress.clear();
      if (!flags.json) printLine(target.line, false);
    }
    await inLanes(files, lanes, one);
  } catch (thrown) {
    // The target was still being read.
    if (!signal.aborted) throw thrown;
  } finally {
    progress.close();
    await pool.close();
    process.off('SIGINT', onStop).off('SIGTERM', onStop);
  }
  if (signal.aborted) {
    process.stderr.write(`Broken off: ${progress.done()} of ${files.length} files were done.\n`);
    return exitCodes.failed;
  }
  return failures === 0 ? exitCodes.done : exitCodes.failed;
}

/** Files that are looked into at one time; how many are rendered at once, the pool decides. */
const lanes = 8;

/**
 * The two names that are always there go before files of that name, and files before the looks of a station. Errors:
 * `bad-look`, `no-such-look`, and those of the file system.
 */
async function lookOf(flags: Flags): Promise<Look> {
  const { look: wish } = flags;
  if (wish === 'default') return defaultLook;
  if (wish === 'neutral') return neutralLook;
  const station = (await isThere(wish)) ? null : await findStationIfAny(flags);
  if (station === null) return readLookFile(wish);
  try {
    return lookNamed(await keptLooks(station), wish).document;
  } catch (cause) {
    throw errorCode(cause) === 'no-such-look' ? noSuchFile(wish, cause) : cause;
  }
}

function noSuchFile(wish: string, cause: unknown): SetsideError {
  const cure = cause instanceof SetsideError ? cause.cure : undefined;
  const message = `There is no file ${wish}, and the station keeps no look of this name`;
  return new SetsideError('no-such-look', message, { cause, ...(cure === undefined ? {} : { cure }) });
}

/** Said where a look that was asked for has no part in the result; the one that is there by itself is not spoken of. */
function unusedLook({ kind, issues }: DevelopedFile, format: Flags['format']): readonly Finding[] {
  if (format === 'tiff-linear') return [{ code: 'develop.linear-without-look', args: {} }];
  // What was made of it is said already where some of it was.
  const isSaid = issues.some(({ code }) => code === 'develop.only-geometry');
  return kind === 'raw' || isSaid ? [] : [{ code: 'develop.look-not-applied', args: {} }];
}

/** The name that two results would have, or null. */
function sharedResult(files: readonly string[], format: Flags['format']): string | null {
  const names = files.map((file) => resultName(file, format));
  return names.find((name, at) => names.indexOf(name) !== at) ?? null;
}

function report(done: DevelopedFile, target: FileTarget | null, json: boolean): void {
  if (json) {
    printJson(target === null ? done : { ...done, balancedOn: target.worth });
    return;
  }
  const { path, outPath, renderedWidthPx, renderedHeightPx, timings } = done;
  const seconds = (timings.decodeMs + timings.developMs + timings.encodeMs) / 1000;
  printLine(`${path} -> ${outPath}  ${renderedWidthPx} x ${renderedHeightPx}, ${seconds.toFixed(2)} s`, json);
  for (const issue of done.issues) printLine(`  ${sentence(issue)}`, json);
}
