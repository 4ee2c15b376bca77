import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { type Authority, openAuthority, type ServerNames } from '../authority/index.ts';
import { SetsideError } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Closers } from './closers.ts';
import { ownAddresses } from './own-addresses.ts';
import { describeTrouble, type StationLog } from './station-log.ts';

/** The station's certificates, or why it has none; without them the doors speak no TLS. */
export interface OwnCertificate {
  readonly authority: Authority | null;
  readonly troubles: readonly Finding[];
}

/** How soon a certificate follows a new address or nears its end: as soon as a person has typed the address. */
const refreshEveryMs = 10_000;

/**
 * Opens the authority of the home and keeps its server certificate right while the station runs. Where it may go
 * without, a root that cannot be read is told as a trouble; else it rejects `authority-unreadable`,
 * `authority-unwritable`.
 */
export async function openOwnCertificate(
  keysFolder: string,
  mayGoWithout: boolean,
  now: () => number,
  log: StationLog,
  closers: Closers,
): Promise<OwnCertificate> {
  try {
    const options = {
      folder: keysFolder,
      now,
      random: (count: number) => new Uint8Array(randomBytes(count)),
    };
    const authority = await openAuthority(options, ownNames());
    keepRight(authority, log, closers);
    return { authority, troubles: [] };
  } catch (thrown) {
    // Frames come in without TLS too: a key that cannot be read must not keep the whole station shut.
    if (!mayGoWithout || !(thrown instanceof SetsideError)) throw thrown;
    const place = String(thrown.details.file ?? keysFolder);
    return { authority: null, troubles: [{ code: 'station.no-certificate', args: { place } }] };
  }
}

function keepRight(authority: Authority, log: StationLog, closers: Closers): void {
  const refresh = (): void => {
    authority.refresh(ownNames()).then(
      (isNew) => {
        if (isNew) log('info', { code: 'station.certificate-renewed', args: {} });
      },
      (thrown) => log('error', describeTrouble(thrown)),
    );
  };
  const timer = setInterval(refresh, refreshEveryMs);
  closers.add(() => clearInterval(timer));
}

/** Every address, and the name by which multicast DNS (RFC 6762) finds this computer on its network. */
function ownNames(): ServerNames {
  const name = hostname();
  const first = name.split('.')[0] ?? name;
  return {
    addresses: ownAddresses().map(({ address }) => address),
    hosts: ['localhost', name, `${first}.local`],
  };
}
