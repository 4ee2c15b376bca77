import { constants } from 'node:crypto';
import { once } from 'node:events';
import { connect as connectTcp, type Socket } from 'node:net';
import type { ConnectionOptions } from 'node:tls';
import { expect } from 'vitest';
import type { FtpDoorOptions, TlsOptions } from '../../src/receive/index.ts';
import { awaitDial } from './ftp-dial.ts';
import type { Hall } from './ftp-hall.ts';
import { gone, Wire } from './ftp-wire.ts';
import { SecureWire, type TestAuthority, underTls } from './ftps-client.ts';

/** The TLS rows of the conformance table. `trust` verifies the station's chain. */
export interface TlsCase {
  readonly options: Partial<FtpDoorOptions>;
  readonly check: (hall: Hall) => Promise<void>;
}

const bytes = Uint8Array.from({ length: 300_000 }, (_, index) => (index * 7 + (index >> 9)) & 0xff);

/** Ways to keep a session, RFC 5077 (ticket), RFC 5246 section 7.4.1.2 (by its number), RFC 8446 section 2.2 (PSK). */
const sessionKinds: readonly (readonly [name: string, options: ConnectionOptions])[] = [
  ['TLS 1.2, ticket', { maxVersion: 'TLSv1.2' }],
  ['TLS 1.2, number', { maxVersion: 'TLSv1.2', secureOptions: constants.SSL_OP_NO_TICKET }],
  ['TLS 1.3, PSK', { minVersion: 'TLSv1.3' }],
];

export function tlsCases({ authority }: TestAuthority): Readonly<Record<string, TlsCase>> {
  const trust: ConnectionOptions = { ca: authority.root.pem };
  const explicit = (more: Partial<TlsOptions> = {}): Partial<FtpDoorOptions> => ({
    tls: { identity: authority, start: 'explicit', ...more },
  });

  return {
    C080: {
      options: explicit(),
      check: async ({ door }) => {
        const wire = await Wire.open(door.port);
        await wire.reply();
        const features = (await wire.command('FEAT')).lines.map((line) => line.trim());
        expect(features).toEqual(expect.arrayContaining(['AUTH TLS', 'PBSZ', 'PROT']));
        expect((await wire.command('AUTH TLS')).code).toBe(234);
        const tls = await wire.secure(trust);
        expect(tls.authorized).toBe(true);
        expect((await wire.command('NOOP')).code).toBe(200);
      },
    },
    C081: {
      options: explicit(),
      check: async ({ door }) => {
        const wire = await Wire.open(door.port);
        await wire.reply();
        wire.send('AUTH TLS\r\nUSER injected\r\nNOOP\r\nSY');
        expect((await wire.reply()).code).toBe(234);
        await wire.secure(trust);
        // Had NOOP been heard, its 200 would come first; had SY stayed, the verb would not be known.
        expect(await wire.codes('ST', 'SYST', 'PASS right')).toEqual([500, 215, 503]);
      },
    },
    C082: {
      options: { ...explicit(), limits: { connectionsPerAddressMax: 200 } },
      check: async ({ door }) => {
        for (let round = 0; round < 200; round += 1) {
          const wire = await Wire.open(door.port);
          await wire.reply();
          expect((await wire.command('AUTH TLS')).code).toBe(234);
          await wire.secure(trust);
          wire.close();
        }
      },
    },
    C083: {
      options: explicit(),
      check: async ({ door }) => {
        const wire = await Wire.open(door.port);
        await wire.reply();
        expect(await wire.codes('PBSZ 0', 'PROT P', 'AUTH TLS')).toEqual([503, 503, 234]);
        await wire.secure(trust);
        expect(await wire.codes('PROT P', 'PBSZ 0', 'PROT P')).toEqual([503, 200, 200]);
      },
    },
    C084: {
      options: explicit(),
      check: async ({ door }) => {
        const { wire } = await SecureWire.open(door.port, trust, 'none');
        const size = await wire.command('PBSZ 16384');
        // RFC 4217 section 8: whatever the client wishes, the answer is zero.
        expect([size.code, size.lines[0]]).toEqual([200, '200 PBSZ=0']);
        expect(await wire.codes('PBSZ 0', 'PROT P')).toEqual([200, 200]);
      },
    },
    C085: {
      options: explicit(),
      check: async ({ door }) => {
        const { wire } = await SecureWire.open(door.port, trust);
        expect(await wire.codes('PROT C', 'PROT S', 'PROT E', 'PROT X')).toEqual([200, 536, 536, 504]);
      },
    },
    C086: {
      options: explicit(),
      check: async (hall) => {
        const { wire } = await SecureWire.open(hall.door.port, trust, 'none');
        expect(await wire.store('STOR clear', bytes)).toEqual([150, 226]);
        expect(isWhole(hall, '/clear')).toBe(true);
      },
    },
    C087: {
      options: explicit(),
      check: async (hall) => {
        const secure = await SecureWire.open(hall.door.port, trust);
        const data = await secure.wire.data('PASV');
        expect((await secure.wire.command('STOR after')).code).toBe(150);
        await sendUnderTls(data, trust);
        expect((await secure.wire.reply()).code).toBe(226);
        expect(isWhole(hall, '/after')).toBe(true);
      },
    },
    C088: {
      options: explicit(),
      check: async (hall) => {
        const secure = await SecureWire.open(hall.door.port, trust);
        const data = await secure.wire.data('PASV');
        const tls = await underTls(data, trust);
        tls.write(bytes);
        expect((await secure.wire.command('STOR before')).code).toBe(150);
        tls.end();
        expect((await secure.wire.reply()).code).toBe(226);
        expect(isWhole(hall, '/before')).toBe(true);
      },
    },
    C089: {
      options: explicit(),
      check: async (hall) => {
        const { wire } = await SecureWire.open(hall.door.port, trust);
        await using dial = await awaitDial('127.0.0.1');
        await wire.command(`EPRT |1|127.0.0.1|${dial.port}|`);
        expect((await wire.command('STOR active')).code).toBe(150);
        await sendUnderTls(await dial.connection, trust);
        expect((await wire.reply()).code).toBe(226);
        expect(isWhole(hall, '/active')).toBe(true);
      },
    },
    C090: {
      options: explicit({ resumption: 'required' }),
      check: async (hall) => {
        for (const [kind, more] of sessionKinds) {
          const options = { ...trust, ...more };
          const secure = await SecureWire.open(hall.door.port, options);
          const other = await SecureWire.open(hall.door.port, options);
          const name = kind.replaceAll(' ', '-');
          const session = await secure.session();
          expect(await secure.store(`STOR ${name}`, bytes, { session }), kind).toEqual([150, 226]);
          // The first data connection did not use the session up.
          expect(await secure.store(`STOR ${name}-2`, bytes, { session }), kind).toEqual([150, 226]);
          expect(await secure.store(`STOR ${name}-3`, bytes), kind).toEqual([150, 522]);
          // A session of another client, from the same address, proves nothing.
          const foreign = { session: await other.session() };
          expect(await secure.store(`STOR ${name}-4`, bytes, foreign), kind).toEqual([150, 522]);
          expect([isWhole(hall, `/${name}-2`), hall.folder.read(`/${name}-3`)]).toEqual([true, null]);
        }
      },
    },
    C091: {
      options: { tls: { identity: authority, start: 'implicit' } },
      check: async ({ door, codes }) => {
        // RFC 8446 section 6: alert (21), two bytes of version, length 2, fatal (2), the description: protocol_version
        // (70); SSL 3.0 has no such alert, its clients are told handshake_failure (40, RFC 6101 section 5.4.2).
        for (const [version, description] of [
          [0x0302, 70],
          [0x0301, 70],
          [0x0300, 40],
        ] as const) {
          const answer = await answerToHello(door.port, version);
          expect([answer[0], ...answer.subarray(3)], version.toString(16)).toEqual([
            21,
            0,
            2,
            2,
            description,
          ]);
        }
        expect(codes()).toEqual(['line.tls-failed', 'line.tls-failed', 'line.tls-failed']);
      },
    },
    C092: {
      options: explicit(),
      check: async (hall) => {
        const secure = await SecureWire.open(hall.door.port, trust);
        const data = await secure.wire.data();
        expect((await secure.wire.command('STOR cut')).code).toBe(150);
        const tls = await underTls(data, trust);
        await new Promise((resolve) => tls.write(bytes, resolve));
        // TCP ends in order below TLS, as whoever sits on the line can make it.
        data.end();
        expect((await secure.wire.reply()).code).toBe(426);
        expect(hall.folder.ends).toEqual(['unclosed']);
        tls.destroy();
      },
    },
    C093: {
      options: explicit({ clearText: 'refused' }),
      check: async ({ door, folder }) => {
        const wire = await Wire.open(door.port);
        await wire.reply();
        expect(await wire.codes('USER camera', 'USER nobody', 'PASS right')).toEqual([530, 530, 503]);
        const { wire: secure } = await SecureWire.open(door.port, trust, 'none');
        expect(await secure.codes('EPSV', 'STOR clear', 'LIST')).toEqual([229, 521, 521]);
        expect(await secure.codes('PBSZ 0', 'PROT C', 'PROT P')).toEqual([200, 534, 200]);
        expect(folder.ends).toEqual([]);
      },
    },
    C094: {
      options: { tls: { identity: authority, start: 'implicit' } },
      check: async (hall) => {
        const wire = await Wire.open(hall.door.port);
        // A greeting in clear would be no TLS record, and the handshake would fail.
        await wire.secure(trust);
        expect((await wire.reply()).code).toBe(220);
        const secure = await SecureWire.openImplicit(hall.door.port, trust);
        expect(await secure.store('STOR implied', bytes)).toEqual([150, 226]);
        expect(isWhole(hall, '/implied')).toBe(true);
      },
    },
  };
}

function isWhole({ folder }: Hall, path: string): boolean {
  return Buffer.compare(folder.read(path) ?? new Uint8Array(0), bytes) === 0;
}

async function sendUnderTls(data: Socket, options: ConnectionOptions): Promise<void> {
  const tls = await underTls(data, options);
  tls.end(bytes);
}

/** What comes back to a ClientHello of this version, until the server closes. */
async function answerToHello(port: number, version: number): Promise<Buffer> {
  const socket = connectTcp(port, '127.0.0.1');
  await once(socket, 'connect');
  const parts: Buffer[] = [];
  socket.on('data', (part: Buffer) => parts.push(part));
  socket.write(clientHello(version));
  await gone(socket);
  return Buffer.concat(parts);
}

/** RFC 5246 section 7.4.1.2, without extensions: three suites that every version has. */
function clientHello(version: number): Buffer {
  const versionBytes = [version >> 8, version & 0xff];
  const random = Array.from({ length: 32 }, (_, index) => index);
  const suites = [0x00, 0x2f, 0x00, 0x35, 0xc0, 0x13];
  const body = [...versionBytes, ...random, 0, 0, suites.length, ...suites, 1, 0];
  const message = [1, 0, 0, body.length, ...body];
  return Buffer.from([22, ...versionBytes, 0, message.length, ...message]);
}
