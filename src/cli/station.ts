import { homedir } from 'node:os';
import { delimiter, join, resolve } from 'node:path';
import { Command, InvalidArgumentError } from 'commander';
import { errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  parsePort,
  type RunningStation,
  readSettings,
  resolveOptions,
  type StationWishes,
  startStation,
} from '../station/index.ts';
import { sentence } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson } from './output.ts';
import { showProgress } from './stand-in-progress.ts';
import { welcome } from './station-welcome.ts';

interface Flags {
  readonly home?: string;
  readonly web?: number;
  readonly ftp?: number;
  readonly ftps?: number;
  readonly encryptedOnly?: boolean;
  readonly sftp?: number;
  readonly sftpOldCameras?: boolean;
  readonly passive?: string;
  readonly bind?: string;
  readonly copy?: string[];
  readonly watch?: string[];
  readonly demo: boolean;
  readonly json: boolean;
}

/** `setside station`: runs until it is told to stop (Ctrl+C, SIGTERM). */
export function stationCommand(leave: (code: number) => void): Command {
  return new Command('station')
    .description(
      'Runs the station. Each option can also stand in the environment (SETSIDE_HOME …) or in setside.json of the home.',
    )
    .option('--home <dir>', 'folder of everything the station keeps (default: Setside in your home folder)')
    .option(
      '--web <port>',
      'port of the page on this computer (default: 8460; 0 for any free one)',
      port('web'),
    )
    .option(
      '--ftp <port>',
      'port for cameras (default: 21, or 2121 where the system keeps 21 for itself)',
      port('ftp'),
    )
    .option(
      '--ftps <port>',
      'port for cameras that speak FTPS, implicit (default: 990, or 2990 where the system keeps 990 for itself)',
      port('ftps'),
    )
    .option('--encrypted-only', 'cameras must log in and send encrypted: FTPS or SFTP, no plain FTP')
    .option('--sftp <port>', 'port for cameras that speak SFTP (default: 2222)', port('sftp'))
    .option('--sftp-old-cameras', 'also offer by SFTP what only old cameras need: SHA-1, CBC, RSA')
    .option('--passive <from-to>', 'ports for the data of uploads (default: 50000-50099)')
    .option('--bind <address>', 'listen for cameras on this address only, also if it is public')
    .option(
      '--copy <dir>',
      'second place: everything is copied there and read back; on another disk, or it does not count (repeatable)',
      (dir: string, dirs: string[] = []) => [...dirs, dir],
    )
    .option(
      '--watch <camera=dir>',
      'a card, a cable’s folder or another program’s output: its files are copied in as this camera’s (repeatable)',
      (watch: string, watches: string[] = []) => [...watches, watch],
    )
    .option('--demo', 'let the stand-in shoot an invented job into a home of its own', false)
    .option('--json', 'first line on standard output: where everything is, as JSON', false)
    .action(async (flags: Flags) => {
      await run(flags);
      leave(exitCodes.done);
    });
}

async function run(flags: Flags): Promise<void> {
  const { demo, json, ...wishes } = flags;
  const environment = environmentWishes(process.env);
  const home = resolve(wishes.home ?? environment.home ?? join(homedir(), demo ? 'Setside-demo' : 'Setside'));
  const options = resolveOptions([{ ...wishes, home }, environment, await readSettings(home)], home);
  const log = (level: string, finding: Finding): void => {
    process.stderr.write(
      `${new Date().toISOString()} ${level === 'info' ? '' : `${level}: `}${sentence(finding)}\n`,
    );
  };
  const station = await startStation({ ...options, demo, log, onStandIn: showProgress(process.stderr) });
  if (json) printJson(station.ready);
  else process.stdout.write(welcome(station, options.passive));
  await untilToldToStop(station);
}

/** A second signal ends at once: somebody is in a hurry, and what was acknowledged is safe either way. */
async function untilToldToStop(station: RunningStation): Promise<void> {
  await new Promise<void>((stop) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => stop());
  });
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, () => process.exit(exitCodes.failed));
  await station.close();
}

/** `SETSIDE_HOME`, `SETSIDE_WEB`, `SETSIDE_FTP`, `SETSIDE_FTPS`, `SETSIDE_SFTP`, `SETSIDE_PASSIVE`, `SETSIDE_BIND`;
 * `SETSIDE_COPY` and `SETSIDE_WATCH` as a PATH is written. */
function environmentWishes(environment: NodeJS.ProcessEnv): StationWishes {
  const {
    SETSIDE_HOME: home,
    SETSIDE_WEB: web,
    SETSIDE_FTP: ftp,
    SETSIDE_FTPS: ftps,
    SETSIDE_ENCRYPTED_ONLY: encryptedOnly,
    SETSIDE_SFTP: sftp,
    SETSIDE_SFTP_OLD_CAMERAS: oldCameras,
    SETSIDE_PASSIVE: passive,
    SETSIDE_BIND: bind,
    SETSIDE_COPY: copy,
    SETSIDE_WATCH: watch,
  } = environment;
  return {
    ...(home ? { home } : {}),
    ...(web ? { web: parsePort(web, 'web') } : {}),
    ...(ftp ? { ftp: parsePort(ftp, 'ftp') } : {}),
    ...(ftps ? { ftps: parsePort(ftps, 'ftps') } : {}),
    ...(encryptedOnly ? { encryptedOnly: isYes(encryptedOnly) } : {}),
    ...(sftp ? { sftp: parsePort(sftp, 'sftp') } : {}),
    ...(oldCameras ? { sftpOldCameras: isYes(oldCameras) } : {}),
    ...(passive ? { passive } : {}),
    ...(bind ? { bind } : {}),
    ...(copy ? { copy: copy.split(delimiter) } : {}),
    ...(watch ? { watch: watch.split(delimiter) } : {}),
  };
}

function isYes(text: string): boolean {
  return text === 'true' || text === '1';
}

function port(option: string): (text: string) => number {
  return (text) => {
    try {
      return parsePort(text, option);
    } catch (thrown) {
      throw new InvalidArgumentError(errorMessage(thrown));
    }
  };
}
