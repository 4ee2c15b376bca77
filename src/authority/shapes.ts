import type { EpochMs } from '../base/index.ts';

/** The certificate a camera imports once, and how a person recognises it. Holds no secret. */
export interface RootCertificate {
  /** Its common name: `Setside station 3f9a2c authority`. */
  readonly name: string;
  readonly pem: string;
  /** The same as DER (X.690), which many cameras want as a `.crt` file. */
  readonly der: Uint8Array;
  /** SHA-256 of the DER, as tools print it: 32 pairs of capital hexadecimal digits with colons between. */
  readonly fingerprint: string;
  readonly notAfterMs: EpochMs;
}

/** What a TLS server needs. A new object each time the certificate is renewed, the same one until then. */
export interface ServerCredentials {
  /** PKCS #8 in PEM. */
  readonly key: string;
  /** The server's certificate, then the root, in PEM: a client that shows the chain can show what to import. */
  readonly chain: string;
  readonly notAfterMs: EpochMs;
}
