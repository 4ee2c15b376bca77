import { Command, InvalidArgumentError } from 'commander';
import { type CaptureFacts, type Finding, questions, type ShareBox, type Verdict } from '../facts/index.ts';
import {
  againstReference,
  depthOfField,
  judgeExposed,
  judgeSharp,
  noWishes,
  partReadings,
  type ReferenceReadings,
  uprightBox,
} from '../judge/index.ts';
import { captureFactsOf } from '../metadata/index.ts';
import { figurePhrase, judgementNames, questionNames, sentence } from '../words/index.ts';
import { type DevelopPool, type JudgedFile, judgeFile, startDevelopPool } from '../workers/index.ts';
import { exitCodes } from './exit-codes.ts';
import { printFileFailure, printJson, printLine } from './output.ts';

interface Flags {
  readonly reference?: string;
  readonly spot?: ShareBox;
  readonly whiteBackdrop: boolean;
  /** Microseconds. */
  readonly rowTime?: number;
  readonly json: boolean;
}

/** `setside judge FILE…`: is it sharp, is it exposed right; without a station. */
export function judgeCommand(leave: (code: number) => void): Command {
  return new Command('judge')
    .description('Says whether raw files and pictures are sharp and exposed right, without a station.')
    .argument('<file...>', 'files to judge; what each is, its content decides')
    .option('--reference <file>', 'a frame that is right: light and sharpness are held against it')
    .option('--spot <x,y>', 'where it is to be sharp, in per cent of width and height', spot)
    .option('--white-backdrop', 'white at the border is wanted, and no lost light', false)
    .option(
      '--row-time <us>',
      'microseconds from one row of the sensor to the next: tells the lamps’ frequency',
      rowTime,
    )
    .option('--json', 'one JSON line for each file, with every reading', false)
    .addHelpText(
      'after',
      '\nThe exit code is 0 where no file is bad, 1 where one is, 2 and 3 where the command failed.',
    )
    .action(async (files: string[], flags: Flags) => leave(await judge(files, flags)));
}

async function judge(files: readonly string[], flags: Flags): Promise<number> {
  const pool = startDevelopPool();
  let [bad, failed] = [0, 0];
  try {
    const reference = flags.reference === undefined ? null : await referenceOf(flags.reference, pool, flags);
    for (const file of files) {
      try {
        const judged = held(await read(file, pool, flags), reference, flags);
        if (judged.sharp.judgement === 'bad' || judged.exposed.judgement === 'bad') bad += 1;
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

interface Read {
  readonly file: JudgedFile;
  readonly capture: CaptureFacts;
}

async function read(path: string, pool: DevelopPool, flags: Flags): Promise<Read> {
  const file = await judgeFile(path, pool, (inspection) => {
    const { focusArea, orientation = 1 } = captureFactsOf(inspection, { zoneOffsetMinutes: 0 });
    const wishes = { ...noWishes, rowTimeS: flags.rowTime === undefined ? null : flags.rowTime / 1e6 };
    if (flags.spot !== undefined) return { ...wishes, spot: { ...flags.spot, teller: 'given' } };
    if (focusArea === undefined) return wishes;
    return { ...wishes, spot: { ...uprightBox(focusArea, orientation), teller: 'camera' } };
  });
  return { file, capture: captureFactsOf(file.inspection, { zoneOffsetMinutes: 0 }) };
}

async function referenceOf(path: string, pool: DevelopPool, flags: Flags): Promise<ReferenceReadings> {
  const { file, capture } = await read(path, pool, flags);
  const { kept, detail } = partReadings(file.readings, null, null);
  return { frame: path, readings: kept, light: detail.light, settings: capture };
}

interface Judged extends Read {
  readonly sharp: Verdict;
  readonly exposed: Verdict;
}

function held({ file, capture }: Read, reference: ReferenceReadings | null, flags: Flags): Judged {
  const { kept, detail } = partReadings(file.readings, null, null);
  const against = reference === null ? null : againstReference(kept, detail.light, capture, reference);
  return {
    file,
    capture,
    sharp: judgeSharp({
      reading: kept.sharp,
      tolerances: {},
      reference: against?.sharp ?? null,
      previous: null,
    }),
    exposed: judgeExposed({
      reading: kept.exposed,
      tolerances: {},
      fromReference: against?.light ?? null,
      trend: null,
      whiteBackdrop: flags.whiteBackdrop,
      previous: null,
    }),
  };
}

function report({ file, capture, sharp, exposed }: Judged, json: boolean): void {
  const depth = depthOf(capture);
  if (json) {
    const { path, kind, widthPx, heightPx, readings, timings } = file;
    printJson({ path, kind, widthPx, heightPx, verdicts: { sharp, exposed }, readings, depth, timings });
    return;
  }
  printLine(file.path, json);
  for (const question of questions) {
    const verdict = question === 'sharp' ? sharp : question === 'exposed' ? exposed : null;
    if (verdict === null) continue;
    const { judgement, findings, figure } = verdict;
    const said = figure === undefined ? '' : figurePhrase(figure.value, figure.unit);
    const words = [questionNames[question].padEnd(8), judgementNames[judgement].padEnd(8), said.padEnd(8)];
    printLine(
      `  ${words.join(' ')} ${findings.map((finding: Finding) => sentence(finding)).join(' ')}`,
      json,
    );
  }
}

/** Where the camera says enough of it. The circle of confusion is 0.03 mm on 24 x 36 mm (common practice, no source). */
function depthOf({ focalLengthMm, focalLength35Mm, fNumber, subjectDistanceM }: CaptureFacts) {
  if (focalLengthMm === undefined || fNumber === undefined || subjectDistanceM === undefined) return null;
  const distanceMm = subjectDistanceM * 1000;
  if (distanceMm <= focalLengthMm) return null;
  const crop = (focalLength35Mm ?? focalLengthMm) / focalLengthMm;
  return depthOfField({ focalMm: focalLengthMm, fNumber, distanceMm, circleMm: 0.03 / crop });
}

/** Half the edge of the box about a point, share of width and height. */
const reach = 0.06;

/** A sensor is read in some milliseconds to a quarter of a second. */
function rowTime(text: string): number {
  const us = Number(text);
  if (!(us > 0 && us <= 1000)) throw new InvalidArgumentError('expected microseconds, up to 1000');
  return us;
}

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
