import { badOption } from '../../../errors.ts';
import type { TlsPolicy } from '../../core/tls-policy.ts';

/** The certificate a TLS door shows: declared here, provided by `station`. */
export interface TlsIdentity {
  /**
   * What to show now, in PEM: the key, and the certificate with those above it. Asked anew for each client, so that a
   * renewed certificate needs no restart.
   */
  readonly credentials: { readonly key: string; readonly chain: string };
}

/** How a door speaks TLS, as the caller writes it. */
export interface TlsOptions {
  readonly identity: TlsIdentity;
  /** `explicit`: plain FTP with AUTH TLS (RFC 4217). `implicit`: TLS from the first byte. */
  readonly start: TlsPolicy['start'];
  /** What may cross in clear; default `allowed`, since many cameras know plain FTP only. */
  readonly clearText?: TlsPolicy['clearText'];
  /** The oldest version that is spoken; default TLSv1.2. Older ones are forbidden (RFC 8996). */
  readonly minVersion?: 'TLSv1.2' | 'TLSv1.3';
  /**
   * Whether a data connection must resume the session of its control connection, which proves that both are the same
   * client's; without it only the address says so. Default `accepted`: common libraries cannot resume (Python's ftplib),
   * and so, it is to be feared, cannot some cameras.
   */
  readonly resumption?: 'accepted' | 'required';
}

export type ResolvedTlsOptions = Required<TlsOptions>;

/** Completes the options once, at the edge. Throws `bad-option`. */
export function resolveTlsOptions(options: TlsOptions): ResolvedTlsOptions {
  const { clearText = 'allowed', minVersion = 'TLSv1.2', resumption = 'accepted' } = options;
  if (minVersion !== 'TLSv1.2' && minVersion !== 'TLSv1.3') {
    throw badOption('minVersion', 'TLSv1.2 or TLSv1.3', minVersion);
  }
  return Object.freeze({ ...options, clearText, minVersion, resumption });
}
