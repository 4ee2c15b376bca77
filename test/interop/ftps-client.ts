import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import type { Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ConnectionOptions, connect, type TLSSocket } from 'node:tls';
import { type Authority, openAuthority } from '../../src/authority/index.ts';
import { Wire } from './ftp-wire.ts';

export interface TestAuthority {
  readonly authority: Authority;
  /** The root as a file, for programs. */
  readonly rootFile: string;
  remove(): Promise<void>;
}

/** An authority of its own for this computer's loopback addresses. */
export async function testAuthority(): Promise<TestAuthority> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-ftps-'));
  const names = { addresses: ['127.0.0.1', '::1'], hosts: ['localhost'] };
  const authority = await openAuthority({ folder, now: Date.now, random: randomBytes }, names);
  const rootFile = join(folder, 'root.pem');
  await writeFile(rootFile, authority.root.pem);
  return { authority, rootFile, remove: () => rm(folder, { recursive: true, force: true }) };
}

/** The client's side of TLS over a connection that is there; the chain and the address are verified. */
export async function underTls(socket: Socket, options: ConnectionOptions): Promise<TLSSocket> {
  const tls = connect({ host: '127.0.0.1', ...options, socket });
  tls.on('error', () => {});
  await new Promise<void>((resolve, reject) => {
    tls.once('secureConnect', resolve).once('error', reject);
    tls.once('close', () => reject(new Error('the connection ended within the handshake')));
  });
  return tls;
}

/** A control connection under TLS, logged in, with protected data; the session of it can be resumed. */
export class SecureWire {
  readonly wire: Wire;
  readonly options: ConnectionOptions;
  readonly #session: Promise<Buffer>;

  private constructor(wire: Wire, tls: TLSSocket, options: ConnectionOptions) {
    this.wire = wire;
    this.options = options;
    this.#session = sessionOf(tls);
  }

  /** AUTH TLS, USER, PASS; PBSZ 0 and PROT P unless told otherwise. */
  static async open(
    port: number,
    options: ConnectionOptions,
    protection: 'P' | 'none' = 'P',
  ): Promise<SecureWire> {
    const wire = await Wire.open(port);
    await wire.reply();
    await wire.command('AUTH TLS');
    const secure = new SecureWire(wire, await wire.secure(options), options);
    await wire.codes('USER camera', 'PASS right');
    if (protection === 'P') await wire.codes('PBSZ 0', 'PROT P');
    return secure;
  }

  /** TLS first, then the greeting, then the log-in. */
  static async openImplicit(port: number, options: ConnectionOptions): Promise<SecureWire> {
    const wire = await Wire.open(port);
    const secure = new SecureWire(wire, await wire.secure(options), options);
    await wire.reply();
    await wire.codes('USER camera', 'PASS right');
    return secure;
  }

  /** The session of the control connection, for a data connection to resume. */
  session(): Promise<Buffer> {
    return this.#session;
  }

  /** Sends a file over a protected data connection: `[150, 226]` when all is well. */
  async store(line: string, bytes: Uint8Array, more: ConnectionOptions = {}): Promise<number[]> {
    const data = await this.wire.data();
    const first = await this.wire.command(line);
    if (first.code !== 150) return [first.code];
    const tls = await underTls(data, { ...this.options, ...more }).catch(() => null);
    tls?.end(bytes);
    const last = await this.wire.reply();
    tls?.destroy();
    return [first.code, last.code];
  }
}

/** In TLS 1.3 the session comes as a ticket behind the handshake. */
async function sessionOf(tls: TLSSocket): Promise<Buffer> {
  if (tls.getProtocol() === 'TLSv1.3') {
    const [session]: Buffer[] = await once(tls, 'session');
    if (session !== undefined) return session;
  }
  const session = tls.getSession();
  if (session === undefined) throw new Error('the connection has no session');
  return session;
}
