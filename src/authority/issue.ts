/** Issuing: RFC 5280 certificates by @peculiar/x509, which asks for the reflect polyfill to be there first. */
import 'reflect-metadata';
import { webcrypto } from 'node:crypto';
import * as x509 from '@peculiar/x509';
import type { Lifetime } from './core/lifetimes.ts';
import type { ServerNames } from './core/server-names.ts';
import { territoryExtension } from './core/territory.ts';

/**
 * RSA of 2048 bits with SHA-256, for root and server alike: the one kind of key that every TLS 1.2 stack verifies, the
 * old ones in cameras included; some of those know no elliptic-curve certificate, and some refuse longer keys. A
 * second, elliptic-curve certificate would spare the station half a millisecond a handshake and add a way to fail.
 */
const algorithm = {
  name: 'RSASSA-PKCS1-v1_5',
  hash: 'SHA-256',
  publicExponent: Uint8Array.of(1, 0, 1),
  modulusLength: 2048,
};
const nameConstraints = '2.5.29.30';

/** A certificate with its private key, both in PEM. */
export interface Issued {
  readonly certificate: string;
  readonly key: string;
}

export interface Naming {
  /** `Setside station 3f9a2c`: invented, nothing of a person or a place. */
  readonly organisation: string;
  /** 16 random bytes. */
  readonly serial: Uint8Array;
  readonly lifetime: Lifetime;
}

/** A root that signs itself and may sign servers only (path length 0), within its territory. */
export async function issueRoot({ organisation, serial, lifetime }: Naming): Promise<Issued> {
  const keys = await newKeys();
  const { keyCertSign, cRLSign } = x509.KeyUsageFlags;
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    name: [{ O: [organisation] }, { CN: [`${organisation} authority`] }],
    keys,
    signingAlgorithm: algorithm,
    serialNumber: serialText(serial),
    ...dates(lifetime),
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(keyCertSign | cRLSign, true),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      // Not critical, though RFC 5280 section 4.2.1.10 asks for it: a small stack that does not know the extension
      // would have to refuse the root, and those that know it obey it all the same.
      new x509.Extension(nameConstraints, false, territoryExtension()),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await privatePem(keys.privateKey) };
}

/** A server's certificate under a root, for these names (subjectAltName, RFC 9525). */
export async function issueServer(
  root: Issued,
  names: ServerNames,
  { organisation, serial, lifetime }: Naming,
): Promise<Issued> {
  const keys = await newKeys();
  const issuer = new x509.X509Certificate(root.certificate);
  const { digitalSignature, keyEncipherment } = x509.KeyUsageFlags;
  const certificate = await x509.X509CertificateGenerator.create({
    subject: [{ O: [organisation] }, { CN: [organisation] }],
    issuer: issuer.subjectName,
    publicKey: keys.publicKey,
    signingKey: await signingKey(root.key),
    signingAlgorithm: algorithm,
    serialNumber: serialText(serial),
    ...dates(lifetime),
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(digitalSignature | keyEncipherment, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...names.hosts.map((value) => ({ type: 'dns', value }) as const),
        ...names.addresses.map((value) => ({ type: 'ip', value }) as const),
      ]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(issuer.publicKey),
    ],
  });
  return { certificate: certificate.toString('pem'), key: await privatePem(keys.privateKey) };
}

async function newKeys(): Promise<webcrypto.CryptoKeyPair> {
  return webcrypto.subtle.generateKey(algorithm, true, ['sign', 'verify']);
}

async function signingKey(pem: string): Promise<webcrypto.CryptoKey> {
  const bytes = x509.PemConverter.decodeFirst(pem);
  return webcrypto.subtle.importKey('pkcs8', bytes, algorithm, false, ['sign']);
}

async function privatePem(key: webcrypto.CryptoKey): Promise<string> {
  const bytes = await webcrypto.subtle.exportKey('pkcs8', key);
  return `${x509.PemConverter.encode(bytes, x509.PemConverter.PrivateKeyTag)}\n`;
}

/** Positive and of full length whatever the random bytes are (RFC 5280 section 4.1.2.2). */
function serialText(serial: Uint8Array): string {
  const first = ((serial[0] ?? 0) & 0x3f) | 0x40;
  return Buffer.from([first, ...serial.subarray(1)]).toString('hex');
}

/** Certificates know whole seconds. */
function dates({ notBeforeMs, notAfterMs }: Lifetime): { notBefore: Date; notAfter: Date } {
  const whole = (ms: number): Date => new Date(Math.floor(ms / 1000) * 1000);
  return { notBefore: whole(notBeforeMs), notAfter: whole(notAfterMs) };
}
