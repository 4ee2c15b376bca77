import { Command, InvalidArgumentError, Option } from 'commander';
import {
  type CaptureFacts,
  type Finding,
  questions,
  type ShareBox,
  type TargetEdition,
  targetEditions,
  toleranceSets,
} from '../facts/index.ts';
import { circleOfConfusion, depthOfField } from '../judge/index.ts';
import { figurePhrase, judgementNames, questionNames, sentence } from '../words/index.ts';
import { type DevelopPool, startDevelopPool } from '../workers/index.ts';
import { bracketsAmong } from './brackets-among.ts';
import { exitCodes } from './exit-codes.ts';
import { heldAgainst, type JudgedRead, type Reference, readFile, readReference } from './judge-files.ts';
import { rowTimeUs } from './number-options.ts';
import { cureOf, failureText, printFileFailure, printJson, printLine } from './output.ts';

interface Flags {
  readonly reference?: string;
  readonly spot?: ShareBox;
  readonly whiteBackdrop: boolean;
  /** Microseconds. */
  readonly rowTime?: number;
  readonly targetEdition?: TargetEdition;
  readonly toleranceSet?: string;
  readonly json: boolean;
}

/** `setside judge FILE…`: is it sharp, exposed right, in place, true; without a station. */
export function judgeCommand(leave: (code: number) => void): Command {
  return new Command('judge')
    .description(
      'Says whether raw files and pictures are sharp, exposed right, in place and true, without a station.',
    )
    .argument('<file...>', 'files to judge; what each is, its content decides')
    .option(
      '--reference <file>',
      'a frame that is right: light, settings, sharpness, place and colour are held against it',
    )
    .option('--spot <x,y>', 'where it is to be sharp, in per cent of width and height', spot)
    .option('--white-backdrop', 'white at the border is wanted, and no lost light', false)
    .option(
      '--row-time <us>',
      'microseconds from one row of the sensor to the next: tells the lamps’ frequency',
      rowTimeUs,
    )
    .addOption(
      new Option(
        '--target-edition <edition>',
        'which 24-patch target it is; recognised where left out',
      ).choices(targetEditions),
    )
    .addOption(
      new Option('--tolerance-set <name>', 'a published set of limits for colour').choices(
        toleranceSets.map(({ name }) => name),
      ),
    )
    .option('--json', 'one JSON line for each file, with every reading', false)
    .addHelpText(
      'after',
      '\nThe exit code is 0 where no file is bad, 1 where one is, 2 and 3 where the command failed or a file, the reference among them, could not be read.',
    )
    .action(async (files: string[], flags: Flags) => leave(await judge(files, flags)));
}

async function judge(files: readonly string[], flags: Flags): Promise<number> {
  const pool = startDevelopPool();
  let [bad, failed] = [0, 0];
  try {
    const reference = flags.reference === undefined ? null : await referenceOf(flags.reference, pool, flags);
    // The files are judged without it; but what was asked for was not done.
    if (reference?.read === null) failed += 1;
    const brackets = reference === null ? new Set<string>() : await bracketsAmong(files);
    for (const file of files) {
      try {
        const judged = heldAgainst(await readFile(file, pool, flags, reference), reference, flags, brackets);
        if (Object.values(judged.verdicts).some(({ judgement }) => judgement === 'bad')) bad += 1;
        report(judged, flags.json);
      } catch (thrown) {
        failed += 1;
        printFileFailure(file, thrown, flags.json);
      }
    }
  } finally {
    await pool.close();
  }
  if (failed > 0) return exitCodes.failed;
  return bad > 0 ? exitCodes.no : exitCodes.done;
}

/** A reference that cannot be read is said, and the files are judged without it. */
async function referenceOf(path: string, pool: DevelopPool, flags: Flags): Promise<Reference> {
  try {
    return await readReference(path, pool, flags);
  } catch (thrown) {
    process.stderr.write(
      `${[`${path}:`, failureText(thrown, path), cureOf(thrown) ?? ''].join(' ').trimEnd()}\n`,
    );
    return { path, read: null };
  }
}

function report({ file, capture, verdicts, drift }: JudgedRead, json: boolean): void {
  const depth = depthOf(capture);
  if (json) {
    const { path, kind, widthPx, heightPx, readings, timings } = file;
    printJson({ path, kind, widthPx, heightPx, verdicts, readings, drift, depth, timings });
    return;
  }
  printLine(file.path, json);
  for (const question of questions) {
    if (question === 'arrived') continue;
    const { judgement, findings, figure } = verdicts[question];
    const said = figure === undefined ? '' : figurePhrase(figure.value, figure.unit);
    const words = [questionNames[question].padEnd(8), judgementNames[judgement].padEnd(8), said.padEnd(8)];
    printLine(
      `  ${words.join(' ')} ${findings.map((finding: Finding) => sentence(finding)).join(' ')}`,
      json,
    );
  }
}

/** Where the camera says enough of it: without the format (its 35 mm focal length) nobody knows the circle of confusion. */
function depthOf({ focalLengthMm, focalLength35Mm, fNumber, subjectDistanceM }: CaptureFacts) {
  if (focalLengthMm === undefined || focalLength35Mm === undefined) return null;
  if (fNumber === undefined || subjectDistanceM === undefined) return null;
  const distanceMm = subjectDistanceM * 1000;
  if (distanceMm <= focalLengthMm) return null;
  const circleMm = circleOfConfusion(focalLengthMm, focalLength35Mm);
  return depthOfField({ focalMm: focalLengthMm, fNumber, distanceMm, circleMm });
}

/** Half the edge of the box about a point, share of width and height. */
const reach = 0.06;

function spot(text: string): ShareBox {
  const [x = Number.NaN, y = Number.NaN, ...more] = text
    .split(',')
    .map((part) => (/^\d{1,3}(\.\d{1,3})?$/.test(part.trim()) ? Number(part) / 100 : Number.NaN));
  if (!(x >= 0 && x <= 1 && y >= 0 && y <= 1) || more.length > 0) {
    throw new InvalidArgumentError('expected two numbers from 0 to 100, such as 50,40');
  }
  return {
    left: Math.max(0, x - reach),
    top: Math.max(0, y - reach),
    right: Math.min(1, x + reach),
    bottom: Math.min(1, y + reach),
  };
}
