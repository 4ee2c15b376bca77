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
 * the one. Rejects `no-station`; `station-silent` where nothing proves that none runs.
 */
export async function findStation({ home, web, station }: WhichStation): Promise<string> {
  if (web !== undefined) return `http://127.0.0.1:${web}`;
  if (station !== undefined) return station;
  const folder = resolve(home);
  // A station is most of the program, and is loaded by those only who have to look for one.
  const { readStationAddress } = await import('../station/index.ts');
  const address = await readStationAddress(folder);
  if (address === null) throw noStation(folder);
  await assertOfHome(address, folder);
  return address;
}

/** The same, or null where none runs. */
export function findStationIfAny(which: WhichStation): Promise<string | null> {
  return findStation(which).catch((thrown: unknown) => {
    if (thrown instanceof SetsideError && thrown.code === 'no-station') return null;
    throw thrown;
  });
}

/** A station that was killed left its address, and another may have its port by now; one that runs may be kept from answering. */
async function assertOfHome(address: string, folder: string): Promise<void> {
  const { askHome } = await import('./ask-home.ts');
  const answer = await askHome(address, folder);
  if (answer.is === 'this') return;
  if (answer.is === 'other') throw noStation(folder, `at ${address} answers another: of ${answer.home}`);
  if (answer.is === 'gone') throw noStation(folder, `one that ran had ${address}; ${answer.why}`);
  throw new SetsideError(
    'station-silent',
    `the station of ${folder} gave no answer at ${address}, asked twice: ${answer.why}`,
    {
      cure: 'Try once more. Where it stays so, a firewall may shut ways within this computer, or the station is stuck: look at what it prints.',
    },
  );
}

function noStation(folder: string, why?: string): SetsideError {
  return new SetsideError(
    'no-station',
    `no station runs in ${folder}${why === undefined ? '' : ` (${why})`}`,
    {
      cure: 'Start it with setside station, or name another folder with --home or the port of its page with --web.',
    },
  );
}

function webPort(text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number(text) : 0;
  if (port > 0 && port <= 65_535) return port;
  throw new InvalidArgumentError(`expected a port from 1 to 65535, got "${text}"`);
}
