import type { SharedBooks } from '../../core/shared-books.ts';
import { badOption } from '../../errors.ts';
import { defaultFtpLimits, type FtpLimits } from '../core/limits.ts';
import { type ResolvedTlsOptions, resolveTlsOptions, type TlsOptions } from './tls/options.ts';

/** How the FTP door is opened, as the caller writes it. */
export interface FtpDoorOptions {
  /** Address to listen on; `::` takes IPv4 too where the system is dual-stack. */
  readonly host: string;
  /** TCP port of the control connection, 0 for any free one. */
  readonly port: number;
  /** Ports for passive data connections, both ends included; 0 to 0 lets the system choose. */
  readonly passive: PortRange;
  /**
   * Whether to serve clients who reached this address of the computer. The door listens on every address, so that it
   * follows the network when that changes; who comes in by a wrong one is shut out without a word. Default: everybody.
   */
  readonly mayServe?: (localAddress: string) => boolean;
  /** How the door speaks TLS; left out, it does not. */
  readonly tls?: TlsOptions;
  /** What the doors of one station count together; left out, this door counts for itself. */
  readonly shared?: SharedBooks;
  /** What differs from {@link defaultFtpLimits}. */
  readonly limits?: Partial<FtpLimits>;
}

export interface PortRange {
  readonly from: number;
  readonly to: number;
}

/** Options with nothing missing, frozen. */
export interface ResolvedFtpDoorOptions {
  readonly host: string;
  readonly port: number;
  readonly passive: PortRange;
  readonly mayServe: (localAddress: string) => boolean;
  readonly tls: ResolvedTlsOptions | null;
  readonly limits: FtpLimits;
}

/** Checks and completes options once, at the edge. Throws `bad-option`. */
export function resolveFtpDoorOptions(options: FtpDoorOptions): ResolvedFtpDoorOptions {
  const { host, port, passive, mayServe = () => true } = options;
  if (!isPort(port)) throw badOption('port', 'a whole number from 0 to 65535', port);
  if (!isRange(passive))
    throw badOption('passive', 'two ports in rising order', `${passive.from}-${passive.to}`);
  return Object.freeze({
    host,
    port,
    passive: Object.freeze({ ...passive }),
    mayServe,
    tls: options.tls === undefined ? null : resolveTlsOptions(options.tls),
    limits: resolveLimits(options),
  });
}

function resolveLimits({ limits = {} }: FtpDoorOptions): FtpLimits {
  const resolved = { ...defaultFtpLimits, ...limits };
  for (const [name, value] of Object.entries(resolved)) {
    const least = leastOf[name] ?? 1;
    if (!Number.isSafeInteger(value) || value < least) {
      throw badOption(name, `a whole number of at least ${least}`, value);
    }
  }
  if (resolved.connectionsReserved >= resolved.connectionsMax) {
    throw badOption(
      'connectionsReserved',
      `less than connectionsMax (${resolved.connectionsMax})`,
      resolved.connectionsReserved,
    );
  }
  return Object.freeze(resolved);
}

/** Limits that may not be one, or may be none. */
const leastOf: Readonly<Record<string, number>> = { buffersPerUpload: 2, connectionsReserved: 0 };

function isPort(port: number): boolean {
  return Number.isInteger(port) && port >= 0 && port <= 65_535;
}

function isRange({ from, to }: PortRange): boolean {
  return isPort(from) && isPort(to) && from <= to && (from > 0 || to === 0);
}
