import { readFile } from 'node:fs/promises';
import { connect } from 'node:net';
import {
  type LineSystem,
  type NeighbourFacts,
  neighboursOfArp,
  neighboursOfIp,
  neighboursOfProc,
  unansweredOfProc,
  type WayFacts,
  wayOfIp,
} from '../../line/index.ts';
import { outputOf } from './run-program.ts';

/** Who was heard in the networks of this computer. */
export async function lookNeighbours(system: LineSystem): Promise<readonly NeighbourFacts[]> {
  if (system === 'linux') return neighboursOfIp((await outputOf('ip', ['-j', 'neigh'])) ?? '');
  if (system === 'other') return [];
  return neighboursOfArp((await outputOf('arp', ['-a'])) ?? '');
}

/** The same without starting a program, for looking again and again; empty where the system has no such file. */
export async function heardLately(): Promise<readonly NeighbourFacts[]> {
  return neighboursOfProc(await arpFile());
}

const arpFile = (): Promise<string> => readFile('/proc/net/arp', 'utf8').catch(() => '');

/** How this computer sends to an address; null where it says so in no form that is read here. */
export async function lookWay(system: LineSystem, address: string): Promise<WayFacts | null> {
  if (system !== 'linux') return null;
  return wayOfIp((await outputOf('ip', ['-j', 'route', 'get', address])) ?? '');
}

/** A device that sleeps wakes up within this, or is not reckoned with. */
const patienceMs = 1500;

/**
 * Whether a camera is where it was: it is asked for a connection, which it need not take. A device that is there
 * refuses at once; where nobody is, the system finds nobody to hand the packet to.
 */
export async function reachOf(address: string): Promise<'answers' | 'silent' | 'no-host'> {
  const said = await knockAt(address);
  // The system asks for the address longer than we wait; that nobody has answered so far is enough.
  return said === 'silent' && unansweredOfProc(await arpFile()).includes(address) ? 'no-host' : said;
}

function knockAt(address: string): ReturnType<typeof reachOf> {
  return new Promise((resolve) => {
    const socket = connect({ host: address, port: 9 });
    const end = (said: 'answers' | 'silent' | 'no-host'): void => {
      socket.destroy();
      resolve(said);
    };
    socket.setTimeout(patienceMs, () => end('silent'));
    socket.on('connect', () => end('answers'));
    socket.on('error', (failed: NodeJS.ErrnoException) => {
      end(failed.code === 'ECONNREFUSED' || failed.code === 'ECONNRESET' ? 'answers' : 'no-host');
    });
  });
}
