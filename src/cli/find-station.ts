import { realpath } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { SetsideError } from '../base/index.ts';

/** How a person says which station is meant. */
export interface WhichStation {
  readonly home: string;
  readonly web?: number;
  readonly station?: string;
}

/** `--home`, as every command beside a station has it. */
export function withHome(command: Command): Command {
  return command.option(
    '--home <dir>',
    'folder of the station',
    process.env.SETSIDE_HOME ?? join(homedir(), 'Setside'),
  );
}

/** The options that {@link findStation} reads. */
export function withStation(command: Command): Command {
  return withHome(command)
    .option('--web <port>', 'port of its page, instead of looking into its folder', webPort)
    .option(
      '--station <url>',
      'its whole address, where a port does not say it',
      process.env.SETSIDE_STATION,
    );
}

/**
 * The address of a running station: as it was given, or as the station of that home says, which is asked whether it is
 * the one. Rejects `no-station`.
 */
export async function findStation({ home, web, station }: WhichStation): Promise<string> {
  if (web !== undefined) return `http://127.0.0.1:${web}`;
  if (station !== undefined) return station;
  const folder = resolve(home);
  // A station is most of the program, and is loaded by those only who have to look for one.
  const { readStationAddress } = await import('../station/index.ts');
  const address = await readStationAddress(folder);
  if (address === null || !(await isOfHome(address, folder))) throw noStation(folder);
  return address;
}

/** The same, or null where none runs. */
export function findStationIfAny(which: WhichStation): Promise<string | null> {
  return findStation(which).catch((thrown: unknown) => {
    if (thrown instanceof SetsideError && thrown.code === 'no-station') return null;
    throw thrown;
  });
}

/** A station that was killed left its address, and another may have its port by now. */
async function isOfHome(address: string, folder: string): Promise<boolean> {
  try {
    const { station: stationShape } = await import('../contract/index.ts');
    const { callStation } = await import('./station-calls.ts');
    const told = stationShape.safeParse(await (await callStation(address, '/api/v1/station')).json());
    return told.success && (await realpath(told.data.home)) === (await realpath(folder));
  } catch {
    // Whatever answers there, or does not, is not this home's station.
    return false;
  }
}

function noStation(folder: string): SetsideError {
  return new SetsideError('no-station', `no station runs in ${folder}`, {
    cure: 'Start it with setside station, or name another folder with --home or the port of its page with --web.',
  });
}

function webPort(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port > 0 && port <= 65_535) return port;
  throw new InvalidArgumentError(`expected a port from 1 to 65535, got "${text}"`);
}
