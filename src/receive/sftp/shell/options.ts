import type { SharedBooks } from '../../core/shared-books.ts';
import { badOption } from '../../errors.ts';
import { defaultSftpLimits, type SftpLimits } from '../core/limits.ts';
import { algorithmsFor } from './algorithms.ts';

/** How the SFTP door is opened, as the caller writes it. */
export interface SftpDoorOptions {
  /** Address to listen on; `::` takes IPv4 too where the system is dual-stack. */
  readonly host: string;
  /** TCP port, 0 for any free one. */
  readonly port: number;
  /** Private host keys in OpenSSH's form, as `makeHostKey` makes them; of each kind the first is shown. */
  readonly hostKeys: readonly string[];
  /** Whether what only old cameras need is offered too: SHA-1, CBC, an RSA host key. Default: no. */
  readonly oldCameras?: boolean;
  /** Whether to serve clients who reached this address of the computer. Default: everybody. */
  readonly mayServe?: (localAddress: string) => boolean;
  /** What the doors of one station count together; left out, this door counts for itself. */
  readonly shared?: SharedBooks;
  /** What differs from {@link defaultSftpLimits}. */
  readonly limits?: Partial<SftpLimits>;
}

/** Options with nothing missing, frozen. */
export type ResolvedSftpDoorOptions = Readonly<
  Required<Omit<SftpDoorOptions, 'limits' | 'hostKeys' | 'shared'>>
> & {
  readonly limits: SftpLimits;
  readonly secrecy: ReturnType<typeof algorithmsFor>;
};

/** Checks and completes options once, at the edge. Throws `bad-option`. */
export function resolveSftpDoorOptions(options: SftpDoorOptions): ResolvedSftpDoorOptions {
  const { host, port, hostKeys, oldCameras = false, mayServe = () => true } = options;
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw badOption('port', 'a whole number from 0 to 65535', port);
  const secrecy = algorithmsFor(hostKeys, oldCameras);
  if (secrecy.hostKeys.length === 0)
    throw badOption('hostKeys', 'a private key of ed25519 or ECDSA', `${hostKeys.length} others`);
  return Object.freeze({ host, port, oldCameras, mayServe, secrecy, limits: resolveLimits(options) });
}

function resolveLimits({ limits = {} }: SftpDoorOptions): SftpLimits {
  const resolved = { ...defaultSftpLimits, ...limits };
  for (const [name, value] of Object.entries(resolved)) {
    const least = name === 'buffersPerUpload' ? 2 : name === 'connectionsReserved' ? 0 : 1;
    if (!Number.isSafeInteger(value) || value < least)
      throw badOption(name, `a whole number of at least ${least}`, value);
  }
  // A packet that comes while the last buffer fills must find its place there.
  if (resolved.packetBytesMax > resolved.bufferBytes)
    throw badOption('bufferBytes', 'at least one packet', resolved.bufferBytes);
  return Object.freeze(resolved);
}
