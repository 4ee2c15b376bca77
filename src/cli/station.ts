import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { Command, InvalidArgumentError } from 'commander';
import { errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  parseBind,
  parsePort,
  parsePortRange,
  parseWatch,
  type RunningStation,
  readSettings,
  resolveOptions,
  type StationOptions,
  startStation,
} from '../station/index.ts';
import { sentence } from '../words/index.ts';
import { endThoughHeld } from './end-though-held.ts';
import { environmentWishes } from './environment.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson } from './output.ts';
import { showProgress } from './stand-in-progress.ts';
import { welcome } from './station-welcome.ts';

interface Flags {
  readonly home?: string;
  readonly web?: number;
  readonly links?: number;
  readonly ftp?: number;
  readonly ftps?: number;
  readonly encryptedOnly?: boolean;
  readonly sftp?: number;
  readonly sftpOldCameras?: boolean;
  readonly passive?: StationOptions['passive'];
  readonly bind?: string;
  readonly copy?: string[];
  readonly watch?: StationOptions['watches'];
  readonly card?: string[];
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
      wish(parsePort, '--web'),
    )
    .option(
      '--links <port>',
      'port for phones and other computers that have a link; open while there is one and five minutes longer (default: 8461)',
      wish(parsePort, '--links'),
    )
    .option(
      '--ftp <port>',
      'port for cameras (default: 21, or 2121 where the system keeps 21 for itself)',
      wish(parsePort, '--ftp'),
    )
    .option(
      '--ftps <port>',
      'port for cameras that speak FTPS, implicit (default: 990, or 2990 where the system keeps 990 for itself)',
      wish(parsePort, '--ftps'),
    )
    .option('--encrypted-only', 'cameras must log in and send encrypted: FTPS or SFTP, no plain FTP')
    .option('--sftp <port>', 'port for cameras that speak SFTP (default: 2222)', wish(parsePort, '--sftp'))
    .option('--sftp-old-cameras', 'also offer by SFTP what only old cameras need: SHA-1, CBC, RSA')
    .option(
      '--passive <from-to>',
      'ports for the data of uploads (default: 50000-50099)',
      wish(parsePortRange, '--passive'),
    )
    .option(
      '--bind <address>',
      'listen for cameras on this address only, also if it is public',
      wish(parseBind, '--bind'),
    )
    .option(
      '--copy <dir>',
      'second place: everything is copied there and read back; on another disk, or it does not count (repeatable)',
      (dir: string, dirs: string[] = []) => [...dirs, dir],
    )
    .option(
      '--watch <camera=dir>',
      'a card, a cable’s folder or another program’s output: its files are copied in as this camera’s (repeatable)',
      watchWish,
    )
    .option(
      '--card <dir>',
      'a folder that a memory card is shown under, to be checked from the page; removable disks are found without it (repeatable)',
      (dir: string, dirs: string[] = []) => [...dirs, dir],
    )
    .option(
      '--demo',
      'let the stand-in shoot an invented job, into a home of its own (Setside-demo; some half a gigabyte each time)',
      false,
    )
    .option('--json', 'first line on standard output: where everything is, as JSON', false)
    .action(async (flags: Flags) => {
      await run(flags);
      leave(exitCodes.done);
    });
}

async function run(flags: Flags): Promise<void> {
  const { demo, json, ...wishes } = flags;
  const environment = environmentWishes(process.env, demo);
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
  endThoughHeld((line) => process.stderr.write(line));
}

/** An option's own parser as commander wants it, which says the option's name and value itself. */
function wish<T>(parse: (text: string, option: string) => T, option: string): (text: string) => T {
  return (text) => {
    try {
      return parse(text, option);
    } catch (thrown) {
      throw new InvalidArgumentError(errorMessage(thrown));
    }
  };
}

function watchWish(text: string, others: StationOptions['watches'] = []): StationOptions['watches'] {
  return [...others, wish(parseWatch, '--watch')(text)];
}
