import { homedir } from 'node:os';
import { join } from 'node:path';
import { Command, InvalidArgumentError } from 'commander';
import { errorMessage } from '../base/index.ts';
import {
  defaultPaceBytesPerSecond,
  defaultSizeMegapixels,
  type FaultOrder,
  parseFaultOrder,
  runStandIn,
  shotNames,
} from '../stand-in/index.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';
import { showProgress } from './stand-in-progress.ts';

interface Flags {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly frames: number;
  readonly interval: number;
  readonly pace: number;
  readonly size: number;
  readonly seed: number;
  readonly cache: string;
  readonly fault: readonly FaultOrder[];
  readonly json: boolean;
}

/** `setside stand-in`: the pretend camera against any address. */
export function standInCommand(leave: (code: number) => void): Command {
  return new Command('stand-in')
    .description('A pretend camera: photographs an invented pottery and uploads real raw files over FTP.')
    .requiredOption('--port <port>', 'FTP port of the station', wholeNumber(1, 65_535))
    .requiredOption('--user <name>', 'user, as on the camera sheet')
    .requiredOption(
      '--password <word>',
      'password, as on the camera sheet (or SETSIDE_STAND_IN_PASSWORD)',
      process.env.SETSIDE_STAND_IN_PASSWORD,
    )
    .option('--host <address>', 'address of the station', '127.0.0.1')
    .option('--frames <n>', 'how many frames to shoot', wholeNumber(1, 100_000), shotNames.length * 2)
    .option('--interval <seconds>', 'from one shutter to the next, at least', number(0, 86_400), 8)
    .option(
      '--pace <mb>',
      'megabytes per second on the line; 0 for as fast as it goes',
      number(0, 10_000),
      defaultPaceBytesPerSecond / 1e6,
    )
    .option('--size <mp>', 'size of the sensor in megapixels', number(0.05, 24), defaultSizeMegapixels)
    .option('--seed <n>', 'the same seed shoots the same frames', wholeNumber(0, 0xffff_ffff), 1)
    .option(
      '--cache <dir>',
      'where renderings of the set and the counter are kept',
      join(homedir(), '.cache', 'setside-stand-in'),
    )
    .option(
      '--fault <name[=value][@frame,…]>',
      'let something go wrong; may be given again',
      collectFault,
      [],
    )
    .option('--json', 'JSON lines on standard output, one for each step', false)
    .action(async (flags: Flags) => leave(await shoot(flags)));
}

async function shoot(flags: Flags): Promise<number> {
  const interrupted = new AbortController();
  process.once('SIGINT', () => interrupted.abort(new Error('stopped')));
  const summary = await runStandIn({
    host: flags.host,
    port: flags.port,
    user: flags.user,
    password: flags.password,
    paceBytesPerSecond: flags.pace === 0 ? Number.POSITIVE_INFINITY : flags.pace * 1e6,
    frames: flags.frames,
    intervalMs: flags.interval * 1000,
    cacheDir: flags.cache,
    seed: flags.seed,
    sizeMegapixels: flags.size,
    faults: flags.fault,
    now: Date.now,
    signal: interrupted.signal,
    onProgress: flags.json ? printJson : showProgress(process.stderr),
  });
  const sent = summary.frames.filter((frame) => frame.sent).length;
  printLine(`${sent} of ${summary.frames.length} frames sent and acknowledged.`, flags.json);
  return sent === summary.frames.length ? exitCodes.done : exitCodes.no;
}

function collectFault(text: string, earlier: readonly FaultOrder[]): FaultOrder[] {
  try {
    return [...earlier, parseFaultOrder(text)];
  } catch (thrown) {
    throw new InvalidArgumentError(errorMessage(thrown));
  }
}

function wholeNumber(from: number, to: number): (text: string) => number {
  return (text) => {
    if (/^\d{1,10}$/.test(text) && Number(text) >= from && Number(text) <= to) return Number(text);
    throw new InvalidArgumentError(`expected a whole number from ${from} to ${to}`);
  };
}

function number(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = /^\d{1,9}(\.\d{1,6})?$/.test(text) ? Number(text) : Number.NaN;
    if (value >= from && value <= to) return value;
    throw new InvalidArgumentError(`expected a number from ${from} to ${to}`);
  };
}
