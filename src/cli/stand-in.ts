import { readFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { epochMsToRfc3339, errorMessage, SetsideError } from '../base/index.ts';
import {
  type Account,
  type AfterBreak,
  bodiesMax,
  burstMax,
  defaultPaceBytesPerSecond,
  defaultSizeMegapixels,
  type FaultOrder,
  type FileKind,
  type HoldOrder,
  parseFaultOrder,
  parseGreyCardOrder,
  parseSlateOrder,
  runStandIn,
  type Secure,
  type SentFrame,
  shotNames,
  standInErrorCodes,
} from '../stand-in/index.ts';
import { exitCodes } from './exit-codes.ts';
import { number, wholeNumber } from './number-options.ts';
import { printJson, printLine } from './output.ts';
import { standInHelp } from './stand-in-help.ts';
import { showProgress } from './stand-in-progress.ts';
import { collect, collectBy, hostKeyIn, readKinds } from './stand-in-readers.ts';
import { rehearsal } from './stand-in-rehearsal.ts';

interface Flags {
  readonly host: string;
  readonly port: number;
  readonly sftp: boolean;
  readonly user: readonly string[];
  readonly password: readonly string[];
  readonly secure?: 'explicit' | 'implicit';
  readonly ca?: string;
  readonly hostKey: readonly string[];
  readonly frames: number;
  readonly interval: number;
  readonly burst: number;
  readonly cameras: number;
  readonly files: readonly FileKind[];
  readonly uncompressed?: true;
  readonly pace: number;
  readonly size: number;
  readonly seed: number;
  readonly cache: string;
  readonly afterBreak: AfterBreak;
  readonly fault: readonly FaultOrder[];
  readonly slate: readonly HoldOrder[];
  readonly greyCard: readonly HoldOrder[];
  readonly rehearse?: true;
  readonly json?: true;
}

/** `setside stand-in`: the pretend camera against any address. */
export function standInCommand(leave: (code: number) => void): Command {
  const command = new Command('stand-in').description(
    'A pretend camera: it photographs an invented pottery on a virtual set and uploads real raw files over FTP, ' +
      'so that a station can be seen, tried and rehearsed without a camera.',
  );
  addStationOptions(command);
  addShootingOptions(command);
  return command.addHelpText('after', standInHelp).action(async (flags: Flags) => leave(await shoot(flags)));
}

function addStationOptions(command: Command): void {
  const environmentPassword = process.env.SETSIDE_STAND_IN_PASSWORD;
  command
    .optionsGroup('The station:')
    .requiredOption('--port <port>', 'FTP port of the station, or its SFTP port', wholeNumber(1, 65_535))
    .requiredOption(
      '--user <name>',
      'user, as on the camera sheet; again for a second camera, and so on',
      collect,
    )
    .requiredOption(
      '--password <word>',
      'password of that user (or SETSIDE_STAND_IN_PASSWORD); again for each user',
      collect,
      environmentPassword === undefined ? undefined : [environmentPassword],
    )
    .addOption(
      new Option(
        '--secure <how>',
        'send by FTPS: explicit at the port for FTP, or implicit at its own',
      ).choices(['explicit', 'implicit']),
    )
    .option('--ca <file>', 'root certificate of the camera sheet (PEM), by which the station is known')
    .addOption(new Option('--sftp', 'send by SFTP instead of FTP').default(false).conflicts('secure'))
    .addOption(
      new Option(
        '--host-key <fingerprint>',
        'with --rehearse by SFTP: a host key of the camera sheet, SHA256:…; again for each of them',
      )
        .argParser(collectBy(hostKeyIn))
        .default([], 'any'),
    )
    .option('--host <address>', 'address of the station', '127.0.0.1')
    .option(
      '--pace <mb>',
      'megabytes per second of each camera, as Wi-Fi would have; 0 for as fast as it goes',
      number(0, 10_000),
      defaultPaceBytesPerSecond / 1e6,
    )
    .addOption(
      new Option('--after-break <how>', 'an upload that broke off goes on where it ended, or starts again')
        .choices(['resume', 'again'])
        .default('resume'),
    );
}

function addShootingOptions(command: Command): void {
  command
    .option(
      '--frames <n>',
      'how many frames each camera shoots',
      wholeNumber(1, 100_000),
      shotNames.length * 2,
    )
    .option('--interval <seconds>', 'from one shutter, or burst, to the next, at least', number(0, 86_400), 8)
    .option('--burst <n>', 'frames that follow each other within one second', wholeNumber(1, burstMax), 1)
    .option('--cameras <n>', 'cameras that shoot at the same time', wholeNumber(1, bodiesMax), 1)
    .optionsGroup('The files:')
    .addOption(
      new Option('--files <kinds>', 'files of each frame, in the order they are sent: raw, jpeg, xmp')
        .argParser(readKinds)
        .default(['raw'], 'raw'),
    )
    .option('--size <mp>', 'size of the sensor in megapixels', number(0.05, 24), defaultSizeMegapixels)
    .option('--uncompressed', 'raw data as it is, in twice the bytes')
    .optionsGroup('And:')
    .option(
      '--rehearse',
      'shoot nothing: try the way step by step, and say where it ends and what is different',
    )
    .addOption(
      new Option('--fault <fault>', 'let something go wrong, see below; again for more')
        .argParser(collectBy(parseFaultOrder))
        .default([], 'none'),
    )
    .addOption(
      new Option(
        '--slate <slate>',
        'hold the slate of a shot into frames: JOB:SHOT@FRAME,FRAME; again for more',
      )
        .argParser(collectBy(parseSlateOrder))
        .default([], 'none'),
    )
    .addOption(
      new Option('--grey-card <frames>', 'fill frames with a grey card: FRAME,FRAME')
        .argParser(collectBy(parseGreyCardOrder))
        .default([], 'none'),
    )
    .option('--seed <n>', 'the same seed shoots the same frames', wholeNumber(0, 0xffff_ffff), 1)
    .option(
      '--cache <dir>',
      'where renderings of the set and the counters are kept',
      join(homedir(), '.cache', 'setside-stand-in'),
    )
    .option('--json', 'JSON lines on standard output: each step, and each frame with its truth');
}

async function shoot(flags: Flags): Promise<number> {
  const interrupted = new AbortController();
  process.once('SIGINT', () => interrupted.abort(new Error('stopped')));
  if (flags.rehearse === true) return rehearsed(flags, interrupted.signal);
  if (flags.hostKey.length > 0) {
    throw new SetsideError(standInErrorCodes.wrongOption, 'expected --rehearse with --host-key');
  }
  const { json = false, pace, host, port, frames, burst, cameras, files, seed, afterBreak } = flags;
  const summary = await runStandIn({
    ...{ host, port, frames, burst, cameras, files, seed, afterBreak },
    accounts: accounts(flags),
    secure: await secureOf(flags),
    protocol: flags.sftp ? 'sftp' : 'ftp',
    paceBytesPerSecond: pace === 0 ? Number.POSITIVE_INFINITY : pace * 1e6,
    intervalMs: flags.interval * 1000,
    cacheDir: flags.cache,
    sizeMegapixels: flags.size,
    compression: flags.uncompressed === true ? 'none' : 'lossless-jpeg',
    faults: flags.fault,
    hold: [...flags.slate, ...flags.greyCard],
    now: Date.now,
    signal: interrupted.signal,
    onProgress: json ? printJson : showProgress(process.stderr),
    onFrame: (frame) => {
      if (json) printJson(frameLine(frame));
    },
  });
  const sent = summary.frames.filter((frame) => frame.sent).length;
  printLine(`${sent} of ${summary.frames.length} frames sent and acknowledged.`, json);
  return sent === summary.frames.length ? exitCodes.done : exitCodes.no;
}

async function rehearsed(flags: Flags, signal: AbortSignal): Promise<number> {
  const { host, port, sftp, json = false } = flags;
  const [account, ...others] = accounts(flags);
  if (account === undefined || others.length > 0) {
    throw new SetsideError(standInErrorCodes.wrongOption, 'expected one user with --rehearse');
  }
  if (flags.hostKey.length > 0 && !sftp) {
    throw new SetsideError(standInErrorCodes.wrongOption, 'expected --sftp with --host-key');
  }
  return rehearsal({
    host,
    port,
    sftp,
    ...account,
    secure: await secureOf(flags),
    hostKeys: flags.hostKey,
    json,
    signal,
  });
}

/** One frame as a JSON line: the moment as all times outside are written, RFC 3339. */
function frameLine({ shutterMs, ...frame }: SentFrame): unknown {
  return { code: 'stand-in.frame', shutter: epochMsToRfc3339(shutterMs), ...frame };
}

async function secureOf({ secure, ca }: Flags): Promise<Secure> {
  const how = secure ?? 'no';
  if (ca === undefined) return { how, ca: null };
  try {
    return { how, ca: await readFile(ca, 'utf8') };
  } catch (cause) {
    const message = `expected a certificate in ${ca}, got: ${errorMessage(cause)}`;
    throw new SetsideError(standInErrorCodes.wrongOption, message, { cause });
  }
}

/** Users and passwords in the order they were given. */
function accounts({ user, password }: Flags): Account[] {
  if (user.length !== password.length) {
    throw new SetsideError(
      standInErrorCodes.wrongOption,
      `expected a --password for each --user, got ${user.length} and ${password.length}`,
    );
  }
  return user.map((name, index) => ({ user: name, password: password[index] ?? '' }));
}
