import { execFile } from 'node:child_process';
import { isIPv4 } from 'node:net';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** Nobody waits longer than this for a log-in because of it. */
const lookupPatienceMs = 2000;

/**
 * Who is behind an address, by the system's own table of neighbours (RFC 826 and RFC 4861 fill it). Null where the
 * address is not a neighbour's, or the system has no such command.
 */
export async function hardwareOf(address: string): Promise<string | null> {
  const [command, args] = lookup(address);
  try {
    const { stdout } = await run(command, args, { timeout: lookupPatienceMs });
    return hardwareIn(stdout);
  } catch {
    return null;
  }
}

function lookup(address: string): [string, string[]] {
  if (process.platform === 'linux') return ['ip', ['neigh', 'show', 'to', address]];
  if (process.platform === 'win32') return ['arp', ['-a', address]];
  return isIPv4(address) ? ['arp', ['-n', address]] : ['ndp', ['-n', address]];
}

/** The first hardware address in what such a command prints, lower case with colons and two digits each. */
export function hardwareIn(text: string): string | null {
  const match = /(?<![\w:-])[0-9a-f]{1,2}([:-][0-9a-f]{1,2}){5}(?![\w:-])/i.exec(text);
  if (match === null) return null;
  return match[0]
    .toLowerCase()
    .split(/[:-]/)
    .map((part) => part.padStart(2, '0'))
    .join(':');
}
