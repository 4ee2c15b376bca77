import { isIP } from 'node:net';
import { errorCode, SetsideError } from '../base/index.ts';
import { badOption } from './core/options.ts';
import { ownAddresses } from './own-addresses.ts';

/**
 * An address to listen on for cameras. A name is refused: what it leads to is the affair of some other computer, and may
 * change. `where` is where it was written. Throws `bad-option`.
 */
export function parseBind(text: string, where: string): string {
  if (isIP(text) !== 0) return text;
  throw badOption(where, `an address of this computer such as ${example()}`, text);
}

/** What the system says of an address that is none of this computer's, in words. */
export function bindError(thrown: unknown, bind: string): unknown {
  if (errorCode(thrown) !== 'EADDRNOTAVAIL') return thrown;
  return new SetsideError('bad-option', `${bind} is no address of this computer now`, {
    cause: thrown,
    details: { option: 'bind' },
    cure: `It has ${ownAddresses()
      .map(({ address }) => address)
      .join(', ')}. Without --bind, all its private addresses are served.`,
  });
}

function example(): string {
  const four = ownAddresses().filter(({ family }) => family === 'IPv4');
  return (four.find(({ address }) => !address.startsWith('127.')) ?? four[0])?.address ?? '192.168.7.2';
}
