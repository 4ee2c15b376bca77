import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { readdir, symlink } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import {
  openSimulatedHome,
  originalsOn,
  home as simulatedHome,
} from '../../src/keep/testing/simulated-home.ts';
import { defaultFtpLimits } from '../../src/receive/index.ts';
import { portsOfOwn } from '../ports-of-own.ts';
import { awaitDial, closedPort } from './ftp-dial.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { inFrontOf, openHome } from './ftp-home.ts';
import { eventually, gone, openData, Wire } from './ftp-wire.ts';
import { testAuthority } from './ftps-client.ts';
import { tlsCases } from './ftps-conformance.ts';

/**
 * The rows of test/vectors/ftp-conformance.json, each with what is sent, what must come back and the clause of the
 * RFC that says so. Every row is checked here, or listed below with the reason why it is not.
 */
interface Row {
  readonly id: string;
  readonly area: string;
  readonly send: string;
  readonly expect: string;
  readonly source: string;
}

const rows: readonly Row[] = JSON.parse(
  readFileSync(new URL('../vectors/ftp-conformance.json', import.meta.url), 'utf8'),
);

const elsewhere: Readonly<Record<string, string>> = {};

const trusted = await testAuthority();
afterAll(() => trusted.remove());

type Check = (hall: Hall) => Promise<void>;
interface Case {
  readonly options?: Parameters<typeof openHall>[0];
  readonly check: Check;
}

const text = (value: string): Uint8Array => new TextEncoder().encode(value);
const everyByte = Uint8Array.from({ length: 1024 }, (_, index) => index % 256);
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Bytes of a file that no simple mistake (a swapped or repeated buffer) leaves unchanged. */
function pattern(length: number, seed = 1): Uint8Array {
  const bytes = new Uint8Array(length);
  let state = seed;
  for (let at = 0; at < length; at += 1) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    bytes[at] = state >>> 24;
  }
  return bytes;
}

function kept(hall: Hall, path: string): string {
  const bytes = hall.folder.read(path);
  return bytes === null ? 'nothing' : sha256(bytes);
}

const cases: Readonly<Record<string, Check | Case>> = {
  ...tlsCases(trusted),
  C001: async ({ door }) => {
    const wire = await Wire.open(door.port);
    expect((await wire.reply()).code).toBe(220);
  },
  C002: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const replies = [await wire.command('NOOP'), await wire.command('noop'), await wire.command('NoOp')];
    expect(new Set(replies.map(({ lines }) => lines.join()))).toEqual(new Set([replies[0].lines.join()]));
    expect(replies[0].code).toBe(200);
  },
  C003: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send('NO');
    await new Promise((resolve) => setTimeout(resolve, 200));
    wire.send('OP\r\n');
    expect((await wire.reply()).code).toBe(200);
    expect((await wire.command('PWD')).code).toBe(257);
  },
  C004: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send('NOOP\r\nNOOP\r\nPWD\r\n');
    const codes = [await wire.reply(), await wire.reply(), await wire.reply()].map(({ code }) => code);
    expect(codes).toEqual([200, 200, 257]);
  },
  C005: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('XYZZY', 'NOOP')).toEqual([500, 200]);
  },
  C006: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('TYPE Q')).code).toBe(501);
  },
  C007: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send(`STOR ${'x'.repeat(65_536)}\r\nNOOP\r\n`);
    expect([(await wire.reply()).code, (await wire.reply()).code]).toEqual([500, 200]);
  },
  C008: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send('x'.repeat(4 * 1024 * 1024));
    expect([(await wire.reply()).code, (await wire.reply()).code]).toEqual([500, 421]);
    await wire.ended();
  },
  C009: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send(Uint8Array.of(0xff, 0xfb, 0x01, ...text('NOOP\r\n')));
    expect((await wire.reply()).code).toBe(200);
    // RFC 854: WILL ECHO (FF FB 01) is refused with DONT ECHO (FF FE 01).
    expect(wire.telnet).toBe('\u00ff\u00fe\u0001');
  },
  C010: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.send(Uint8Array.of(0xff, 0xf4, 0xff, 0xf2, ...text('ABOR\r\n')));
    expect((await wire.reply()).code).toBe(226);
    // The DM sent as urgent data never reaches the stream on Linux.
    wire.send(Uint8Array.of(0xff, 0xf4, 0xff, ...text('ABOR\r\n')));
    expect((await wire.reply()).code).toBe(226);
    expect((await wire.command('NOOP')).code).toBe(200);
  },
  C011: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    for (const [command, code] of [
      ['FEAT', 211],
      ['STAT', 211],
      ['HELP', 214],
    ] as const) {
      const reply = await wire.command(command);
      expect(reply.code).toBe(code);
      expect(reply.lines[0].startsWith(`${code}-`)).toBe(true);
      expect(reply.lines.at(-1)?.startsWith(`${code} `)).toBe(true);
      for (const inner of reply.lines.slice(1, -1)) expect(inner.startsWith(' ')).toBe(true);
    }
  },
  C012: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    const known = await wire.command('USER camera');
    const unknown = await wire.command('USER nobody');
    expect([known.code, unknown.lines]).toEqual([331, known.lines]);
  },
  C013: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    expect(await wire.codes('USER camera', 'PASS right')).toEqual([331, 230]);
  },
  C014: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    expect(await wire.codes('PASS right')).toEqual([503]);
  },
  C015: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    const began = performance.now();
    await wire.command('USER camera');
    const wrongPassword = await wire.command('PASS wrong');
    expect(performance.now() - began).toBeGreaterThan(15);
    await wire.command('USER nobody');
    const unknownUser = await wire.command('PASS right');
    expect([wrongPassword.code, unknownUser.lines]).toEqual([530, wrongPassword.lines]);
  },
  C016: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    const codes: number[] = [];
    for (let attempt = 1; attempt <= 6 && !codes.includes(421); attempt += 1) {
      await wire.command('USER camera');
      codes.push((await wire.command(`PASS wrong${attempt}`)).code);
    }
    expect(codes).toEqual([530, 530, 530, 421]);
    await wire.ended();
  },
  C017: async ({ door, folder }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    expect(await wire.codes('STOR a', 'CWD /', 'LIST', 'PASV', 'EPSV', 'MKD b')).toEqual(
      Array.from({ length: 6 }, () => 530),
    );
    expect(await folder.list('/')).toEqual([]);
  },
  C018: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('QUIT')).code).toBe(221);
    await wire.ended();
  },
  C019: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    await wire.command('STOR a.dng');
    data.write('first half, ');
    wire.send('QUIT\r\n');
    await eventually(() => folder.arriving === 1, 'the upload runs');
    data.end('second half');
    expect([(await wire.reply()).code, (await wire.reply()).code]).toEqual([226, 221]);
    await wire.ended();
    expect(folder.read('/a.dng')).toEqual(text('first half, second half'));
  },
  C020: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('TYPE I')).toEqual([200]);
  },
  C021: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('TYPE L 8')).toEqual([200]);
  },
  C022: async (hall) => {
    const wire = await Wire.loggedIn(hall.door.port);
    await wire.command('TYPE I');
    expect(await wire.store('STOR bytes', everyByte)).toEqual([150, 226]);
    expect(kept(hall, '/bytes')).toBe(sha256(everyByte));
  },
  C023: async (hall) => {
    const wire = await Wire.loggedIn(hall.door.port);
    const lineEnds = Uint8Array.of(1, 0x0d, 0x0a, 2, 0x0a, 3, 0x0d, 4);
    expect(await wire.store('STOR ends', lineEnds)).toEqual([150, 226]);
    expect(hall.folder.read('/ends')).toEqual(lineEnds);
  },
  C024: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('ALLO 25000000', 'ALLO 25000000 R 512')).toEqual([200, 200]);
  },
  C025: {
    options: { passive: portsOfOwn(20) },
    check: async ({ door }) => {
      const wire = await Wire.loggedIn(door.port);
      const reply = await wire.command('PASV');
      expect(reply.lines[0]).toMatch(/^227 .*\(127,0,0,1,\d{1,3},\d{1,3}\)/);
      const ports = [await wire.passive('PASV'), await wire.passive('PASV'), await wire.passive('PASV')];
      for (const port of ports) {
        expect(port).toBeGreaterThanOrEqual(portsOfOwn(20).from);
        expect(port).toBeLessThanOrEqual(portsOfOwn(20).to);
      }
    },
  },
  C026: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const first = await wire.passive('PASV');
    const second = await wire.passive('PASV');
    await expect(openData(first)).rejects.toThrow('ECONNREFUSED');
    const data = await openData(second);
    expect((await wire.command('STOR a')).code).toBe(150);
    data.end('abc');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('abc'));
  },
  C027: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('EPSV')).lines[0]).toMatch(/^229 .*\(\|\|\|\d+\|\)/);
  },
  C028: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('EPSV 9')).lines[0]).toMatch(/^522 .*\(1(,2)?\)/);
  },
  C029: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const codes = await wire.codes(
      'EPSV ALL',
      'PORT 127,0,0,1,200,1',
      'PASV',
      'EPRT |1|127.0.0.1|50000|',
      'EPSV',
    );
    expect(codes.map((code) => Math.floor(code / 100))).toEqual([2, 5, 5, 5, 2]);
  },
  C030: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await using dialled = await awaitDial('127.0.0.1');
    expect((await wire.command(`PORT 127,0,0,1,${dialled.port >> 8},${dialled.port & 0xff}`)).code).toBe(200);
    expect((await wire.command('STOR a')).code).toBe(150);
    (await dialled.connection).end('active');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('active'));
  },
  C031: {
    options: { host: '::' },
    check: async ({ door, folder }) => {
      for (const [protocol, host] of [
        ['1', '127.0.0.1'],
        ['2', '::1'],
      ] as const) {
        const wire = await Wire.loggedIn(door.port, { host });
        await using dialled = await awaitDial(host);
        const written = host === '::1' ? '0:0:0:0:0:0:0:1' : host;
        expect((await wire.command(`EPRT |${protocol}|${written}|${dialled.port}|`)).code).toBe(200);
        expect((await wire.command(`STOR v${protocol}`)).code).toBe(150);
        (await dialled.connection).end(host);
        expect((await wire.reply()).code).toBe(226);
        expect(folder.read(`/v${protocol}`)).toEqual(text(host));
      }
    },
  },
  C032: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('EPRT |9|x|1|')).lines[0]).toMatch(/^522 .*\(1,2\)/);
  },
  C033: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    // A listener where the door would dial if it did: it must hear nothing.
    await using dialled = await awaitDial('127.0.0.2');
    const numbers = `127,0,0,2,${dialled.port >> 8},${dialled.port & 0xff}`;
    const codes = await wire.codes(
      `PORT ${numbers}`,
      `EPRT |1|127.0.0.2|${dialled.port}|`,
      'EPRT |2|::2|50000|',
      'STOR a',
    );
    expect(codes).toEqual([504, 504, 504, 425]);
    expect(dialled.count()).toBe(0);
  },
  C034: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const codes = await wire.codes(
      'PORT 127,0,0,1,3,255',
      'EPRT |1|127.0.0.1|1023|',
      'PORT 127,0,0,1,4,0',
      'STOR a',
    );
    expect(codes.slice(0, 3)).toEqual([504, 504, 200]);
  },
  C035: async ({ door, folder, codes }) => {
    const wire = await Wire.loggedIn(door.port);
    const port = await wire.passive();
    const stranger = await openData(port, '127.0.0.1', '127.0.0.2');
    await gone(stranger);
    const data = await openData(port);
    expect((await wire.command('STOR a')).code).toBe(150);
    data.end('mine');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('mine'));
    expect(codes()).toContain('line.foreign-data-connection');
  },
  C036: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('STOR a', 'NOOP')).toEqual([425, 200]);
  },
  C037: {
    options: { limits: { dataConnectMs: 60 } },
    check: async ({ door, codes, folder }) => {
      const wire = await Wire.loggedIn(door.port);
      await wire.passive();
      expect((await wire.command('STOR a')).code).toBe(150);
      expect((await wire.reply()).code).toBe(425);
      expect((await wire.command('NOOP')).code).toBe(200);
      expect(codes()).toContain('line.no-data-connection');
      expect(folder.ends).toEqual([]);
    },
  },
  C038: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const port = await wire.passive('PASV');
    expect((await wire.command('STOR a')).code).toBe(150);
    const data = await openData(port);
    data.end('late');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('late'));
  },
  C039: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data('PASV');
    data.end('12345');
    // Our side of the early connection is closed for good before STOR is said.
    await eventually(() => data.writableFinished, 'the FIN is sent');
    expect((await wire.command('STOR a')).code).toBe(150);
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('12345'));
  },
  C040: async ({ door, codes, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const port = await closedPort();
    expect((await wire.command(`EPRT |1|127.0.0.1|${port}|`)).code).toBe(200);
    expect((await wire.command('STOR a')).code).toBe(150);
    expect((await wire.reply()).code).toBe(425);
    expect((await wire.command('NOOP')).code).toBe(200);
    expect(codes()).toContain('line.cannot-dial');
    expect(folder.ends).toEqual([]);
  },
  C041: {
    options: { host: '::' },
    check: async (hall) => {
      const bytes = pattern(3_000_000);
      for (const host of ['127.0.0.1', '::1']) {
        const wire = await Wire.loggedIn(hall.door.port, { host });
        for (const way of host === '::1' ? (['EPSV'] as const) : (['EPSV', 'PASV'] as const)) {
          const name = `/${way}-${host.length}`;
          expect(await wire.store(`STOR ${name}`, bytes, way)).toEqual([150, 226]);
          expect(kept(hall, name)).toBe(sha256(bytes));
        }
        for (const line of host === '::1' ? (['EPRT'] as const) : (['EPRT', 'PORT'] as const)) {
          await using dialled = await awaitDial(host);
          const { port } = dialled;
          const eprt = `EPRT |${host === '::1' ? 2 : 1}|${host}|${port}|`;
          expect(
            (await wire.command(line === 'EPRT' ? eprt : `PORT 127,0,0,1,${port >> 8},${port & 0xff}`)).code,
          ).toBe(200);
          const name = `/${line}-${host.length}`;
          expect((await wire.command(`STOR ${name}`)).code).toBe(150);
          (await dialled.connection).end(bytes);
          expect((await wire.reply()).code).toBe(226);
          expect(kept(hall, name)).toBe(sha256(bytes));
        }
      }
    },
  },
  C042: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.store('STOR empty', new Uint8Array(0))).toEqual([150, 226]);
    expect(folder.read('/empty')).toEqual(new Uint8Array(0));
  },
  C043: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('one'));
    expect(await wire.store('STOR a', text('two'))).toEqual([150, 226]);
    expect(folder.originals.map(({ bytes }) => bytes)).toEqual([text('one'), text('two')]);
  },
  C044: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.store('APPE a', text('one'))).toEqual([150, 226]);
    expect(await wire.store('APPE a', text('two'))).toEqual([150, 226]);
    expect(folder.read('/a')).toEqual(text('onetwo'));
  },
  C045: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('first'));
    expect((await wire.command('SIZE a')).lines[0]).toBe('213 5');
    const data = await wire.data();
    expect(await wire.codes('REST 5', 'STOR a')).toEqual([350, 150]);
    data.end(' rest');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.read('/a')).toEqual(text('first rest'));
  },
  C046: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('five!'));
    await wire.data();
    expect(await wire.codes('REST 6', 'STOR a')).toEqual([350, 554]);
    expect(folder.read('/a')).toEqual(text('five!'));
  },
  C047: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('0123456789'));
    const data = await wire.data();
    expect(await wire.codes('REST 4', 'NOOP', 'STOR a')).toEqual([350, 200, 150]);
    data.end('anew');
    expect((await wire.reply()).code).toBe(226);
    expect(folder.originals.map(({ bytes }) => bytes)).toEqual([text('0123456789'), text('anew')]);
  },
  C048: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('REST abc', 'REST -1')).toEqual([501, 501]);
  },
  C049: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    expect((await wire.command('STOR nowhere/a')).code).toBe(550);
    await gone(data);
    expect((await wire.command('NOOP')).code).toBe(200);
  },
  C050: {
    options: { folder: { capacityBytes: 1_000_000 } },
    check: async ({ door, folder, codes }) => {
      const wire = await Wire.loggedIn(door.port);
      expect(await wire.store('STOR fits', pattern(600_000))).toEqual([150, 226]);
      const data = await wire.data();
      expect((await wire.command('STOR too-much')).code).toBe(150);
      data.write(pattern(900_000));
      expect((await wire.reply()).code).toBe(452);
      await gone(data);
      expect(await wire.store('STOR fills', pattern(400_000))).toEqual([150, 226]);
      expect(await wire.store('STOR full', text('x'))).toEqual([452]);
      expect((await wire.command('NOOP')).code).toBe(200);
      expect(folder.originals.map(({ name }) => name)).toEqual(['fits', 'fills']);
      expect(codes()).toContain('line.disk-full');
    },
  },
  C051: async () => {
    // The disk forgets every write and every name that nobody synced; test/flow has the kill -9 of a real process.
    const { keep, disk } = await openSimulatedHome();
    await using hall = await inFrontOf(keep, simulatedHome);
    const wire = await Wire.loggedIn(hall.door.port);
    const bytes = pattern(300_000);
    expect(await wire.store('STOR a.dng', bytes)).toEqual([150, 226]);
    const after = await openSimulatedHome(disk.afterPowerLoss());
    expect([...originalsOn(after.disk)].map(([name, held]) => [name, sha256(held)])).toEqual([
      ['a.dng', sha256(bytes)],
    ]);
    expect(await after.keep.folderOf('cam1').stat('/a.dng')).toMatchObject({ sizeBytes: bytes.length });
  },
  C052: async ({ door, folder, codes }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    await wire.command('STOR a');
    data.write(pattern(100_000));
    await eventually(() => data.writableLength === 0, 'the first part is sent');
    data.resetAndDestroy();
    expect((await wire.reply()).code).toBe(426);

    // A reset behind bytes that nobody has read yet looks like an end to libuv.
    const early = await wire.data();
    early.write(pattern(100_000));
    await eventually(() => early.writableLength === 0, 'the first part is sent');
    early.resetAndDestroy();
    await eventually(() => early.closed, 'the reset is sent');
    expect(await wire.codes('STOR a')).toEqual([150]);
    expect((await wire.reply()).code).toBe(426);

    expect(folder.ends).toEqual(['reset', 'reset']);
    expect(folder.originals).toEqual([]);
    expect(codes()).toContain('line.upload-broken-off');
  },
  C053: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.store('STOR unproved', text('half'))).toEqual([150, 226]);
    await wire.command('ALLO 10');
    expect(await wire.store('STOR announced', text('half'))).toEqual([150, 451]);
    expect(folder.originals.map(({ name }) => name)).toEqual(['unproved']);
  },
  C054: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    await wire.command('STOR a');
    data.write(pattern(100_000));
    await eventually(() => folder.arriving === 1, 'the upload runs');
    wire.socket.resetAndDestroy();
    await eventually(() => folder.ends.length === 1, 'the arrival is finished');
    expect(folder.ends).toEqual(['control-lost']);
    expect(folder.originals).toEqual([]);
    await gone(data);
  },
  C055: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    await wire.command('STOR a');
    data.write(pattern(100_000));
    await eventually(() => folder.arriving === 1, 'the upload runs');
    expect((await wire.command('ABOR')).code).toBe(426);
    expect((await wire.reply()).code).toBe(226);
    await gone(data);
    expect(folder.ends).toEqual(['aborted']);
    expect(await wire.store('STOR a', text('again'))).toEqual([150, 226]);
  },
  C056: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const data = await wire.data();
    await wire.command('STOR a');
    data.write('part');
    expect((await wire.command('STAT')).code).toBe(211);
    wire.send('NOOP\r\n');
    data.end(' and rest');
    expect([(await wire.reply()).code, (await wire.reply()).code]).toEqual([226, 200]);
    expect(folder.read('/a')).toEqual(text('part and rest'));
  },
  C057: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.codes('MKD a"b', 'CWD a"b');
    expect((await wire.command('PWD')).lines[0]).toMatch(/^257 "\/a""b"( |$)/);
    expect((await wire.command('XPWD')).lines[0]).toMatch(/^257 "\/a""b"( |$)/);
  },
  C058: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const made = await wire.command('MKD new');
    expect(made.code).toBe(257);
    const path = /"((?:[^"]|"")*)"/.exec(made.lines[0])?.[1] ?? '';
    expect(await wire.codes(`CWD ${path}`)).toEqual([250]);
    expect(made.lines[0]).not.toContain('/home/');
  },
  C059: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('MKD a', 'MKD a', 'CWD a')).toEqual([257, 550, 250]);
  },
  C060: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('MKD a', 'CWD a', 'CWD missing')).toEqual([257, 250, 550]);
    expect((await wire.command('PWD')).lines[0]).toMatch(/^257 "\/a"/);
  },
  C061: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    for (const line of ['CDUP', 'XCUP', 'CWD ..']) {
      expect((await wire.command(line)).code).toBe(250);
      expect((await wire.command('PWD')).lines[0]).toMatch(/^257 "\/"/);
    }
  },
  C062: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('kept all the same'));
    expect(await wire.codes('DELE a', 'SIZE a', 'DELE a')).toEqual([250, 550, 550]);
    expect(folder.originals).toHaveLength(1);
  },
  C063: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a.tmp', text('frame'));
    expect(await wire.codes('RNFR a.tmp', 'RNTO a.dng')).toEqual([350, 250]);
    expect([folder.read('/a.tmp'), folder.read('/a.dng')]).toEqual([null, text('frame')]);
  },
  C064: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect(await wire.codes('RNTO b', 'RNFR missing')).toEqual([503, 550]);
  },
  C065: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('a'));
    expect(await wire.codes('RNFR a', 'NOOP', 'RNTO b')).toEqual([350, 200, 503]);
  },
  C066: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('a'));
    await wire.store('STOR b', text('b'));
    expect(await wire.codes('RNFR a', 'RNTO b')).toEqual([350, 553]);
    expect([folder.read('/a'), folder.read('/b')]).toEqual([text('a'), text('b')]);
  },
  C067: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.codes('MKD empty', 'MKD full');
    await wire.store('STOR full/a', text('a'));
    await wire.store('STOR full/b', text('b'));
    expect(await wire.listing('NLST full')).toEqual({ codes: [150, 226], text: 'a\r\nb\r\n' });
    expect(await wire.listing('NLST')).toEqual({ codes: [150, 226], text: 'empty\r\nfull\r\n' });
    expect(await wire.listing('NLST empty')).toEqual({ codes: [150, 226], text: '' });
    expect(await wire.listing('LIST empty')).toEqual({ codes: [150, 226], text: '' });
    expect((await wire.listing('LIST -la full')).text.split('\r\n')).toHaveLength(3);
    expect((await wire.listing('LIST')).text).toMatch(/^drwx.* empty\r\ndrwx.* full\r\n$/);
  },
  C068: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('SYST')).lines[0]).toBe('215 UNIX Type: L8');
  },
  C069: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    const { code, lines } = await wire.command('FEAT');
    expect(code).toBe(211);
    for (const line of lines.slice(1, -1)) expect(line).toMatch(/^ [\x21-\x7e]+( [\x20-\x7e]+)?$/);
  },
  C070: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('a'));
    const uses: Readonly<Record<string, readonly string[]>> = {
      EPRT: ['EPRT |1|127.0.0.1|50000|'],
      EPSV: ['EPSV'],
      PASV: ['PASV'],
      MDTM: ['MDTM a'],
      MFMT: ['MFMT 20261001080405 a'],
      MLST: ['MLST a', 'OPTS MLST type;size;'],
      REST: ['REST 1'],
      SIZE: ['SIZE a'],
      UTF8: ['OPTS UTF8 ON'],
    };
    const { lines } = await wire.command('FEAT');
    const features = lines.slice(1, -1).map((line) => line.trim().split(' ')[0]);
    expect(features.length).toBeGreaterThan(5);
    for (const feature of features) {
      expect(uses, `how to use ${feature}`).toHaveProperty(feature);
      for (const line of uses[feature]) expect((await wire.command(line)).code, line).toBeLessThan(400);
    }
  },
  C071: async ({ door }) => {
    const wire = await Wire.open(door.port);
    await wire.reply();
    expect(await wire.codes('OPTS UTF8 ON', 'USER camera', 'PASS right', 'OPTS UTF8 ON')).toEqual([
      200, 331, 230, 200,
    ]);
  },
  C072: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const name = 'Prüfung 撮影 — é.dng';
    expect(await wire.store(`STOR ${name}`, text('x'))).toEqual([150, 226]);
    const onTheWire = Buffer.from(name, 'utf8').toString('latin1');
    expect((await wire.listing('NLST')).text).toBe(`${onTheWire}\r\n`);
    expect((await wire.listing('MLSD')).text.endsWith(`; ${onTheWire}\r\n`)).toBe(true);
  },
  C073: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    // "é" as ISO 8859-1 has it, as UTF-8 has it, and what a client may make of a lost byte: three names.
    const names = [Uint8Array.of(0xe9), text('é'), Uint8Array.of(0xef, 0xbf, 0xbd)];
    for (const name of names) {
      const data = await wire.data();
      wire.send(Uint8Array.of(...text('STOR '), ...name, ...text('.jpg\r\n')));
      expect((await wire.reply()).code).toBe(150);
      data.end(name);
      expect((await wire.reply()).code).toBe(226);
    }
    const listed = (await wire.listing('NLST')).text.split('\r\n').filter((line) => line !== '');
    const sent = names.map((name) => `${Buffer.from(name).toString('latin1')}.jpg`);
    expect(listed.sort()).toEqual(sent.sort());
  },
  C074: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('12345'));
    await wire.codes('TYPE I', 'MKD folder');
    expect((await wire.command('SIZE a')).lines[0]).toBe('213 5');
    expect(await wire.codes('SIZE folder', 'SIZE missing')).toEqual([550, 550]);
  },
  C075: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a', text('a'));
    expect((await wire.command('MDTM a')).lines[0]).toMatch(/^213 \d{14}(\.\d{1,3})?$/);
    expect(await wire.codes('MDTM missing')).toEqual([550]);
  },
  C076: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a b', text('a'));
    expect((await wire.command('MFMT 20020717210715 a b')).lines[0]).toMatch(
      /^213 Modify=20020717210715; \/?a b$/,
    );
    expect((await wire.command('MDTM a b')).lines[0]).toBe('213 20020717210715');
  },
  C077: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.store('STOR a b', text('12345'));
    const { code, lines } = await wire.command('MLST a b');
    expect([code, lines.length]).toEqual([250, 3]);
    expect(lines[1]).toMatch(/^ ([a-z.]+=[^;]*;)+ \/a b$/);
    expect(lines[1]).toContain('type=file;size=5;');
  },
  C078: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    await wire.codes('MKD d', 'MKD d/sub');
    await wire.store('STOR d/ a b', text('12345'));
    const { codes, text: listed } = await wire.listing('MLSD d');
    expect(codes).toEqual([150, 226]);
    const lines = listed.split('\r\n');
    expect(lines).toHaveLength(3);
    expect(lines[0]).toMatch(/^type=file;size=5;modify=\d{14}(\.\d{3})?; {2}a b$/);
    expect(lines[1]).toMatch(/^type=dir;modify=\d{14}(\.\d{3})?; sub$/);
  },
  C079: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    expect((await wire.command('FEAT')).lines).toContain(' REST STREAM');
  },
  C095: async ({ door, folder }) => {
    const wire = await Wire.loggedIn(door.port);
    const outside = '../../x';
    expect(await wire.store(`STOR ${outside}`, text('x'))).toEqual([150, 226]);
    expect(await wire.codes('CWD ../../..', 'MKD ..\\..\\y', 'MKD /etc/z')).toEqual([250, 257, 550]);
    expect((await folder.list('/')).map(({ name }) => name)).toEqual(['x', 'y']);
  },
  C096: async () => {
    await using hall = await openHome();
    const wire = await Wire.loggedIn(hall.door.port);
    expect(await wire.store('STOR first', text('makes the folder of the originals'))).toEqual([150, 226]);
    const originals = join(hall.home, 'jobs/QM-26/originals/cam1');
    await symlink(hall.home, join(originals, 'link'));
    expect(await wire.store('STOR link/x', text('x'))).toEqual([550]);
    expect(await wire.codes('CWD link', 'MKD link/y', 'RNFR link', 'DELE link')).toEqual([
      550, 550, 550, 550,
    ]);
    expect((await wire.listing('NLST')).text).toBe('first\r\n');
    expect(await readdir(hall.home)).not.toContain('x');
  },
  C097: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const controls = ['a\rb', 'a\nb', 'a\u0000b', 'a\u001bb', 'a\u007fb', `${'n'.repeat(256)}`];
    for (const name of controls) {
      await wire.passive();
      expect((await wire.command(`STOR ${name}`)).code, JSON.stringify(name)).toBe(553);
      expect((await wire.command(`MKD ${name}`)).code, JSON.stringify(name)).toBe(553);
    }
    await wire.passive();
    for (const name of ['.', '..']) {
      await wire.passive();
      expect((await wire.command(`STOR ${name}`)).code).toBe(550);
    }
    await wire.passive();
    expect((await wire.command('STOR ')).code).toBe(501);
    expect((await wire.command('NOOP')).code).toBe(200);
  },
  C098: async ({ door, codes }) => {
    const wires = await Promise.all(Array.from({ length: 500 }, () => Wire.open(door.port)));
    const greetings = await Promise.all(wires.map(async (wire) => (await wire.reply()).code));
    expect(greetings.filter((code) => code === 220)).toHaveLength(defaultFtpLimits.connectionsPerAddressMax);
    expect(greetings.filter((code) => code === 421)).toHaveLength(
      500 - defaultFtpLimits.connectionsPerAddressMax,
    );
    const other = await Wire.loggedIn(door.port, { from: '127.0.0.2' });
    expect(await other.codes('NOOP')).toEqual([200]);
    expect(codes()).toContain('line.too-many-connections');
    for (const wire of wires) wire.close();
    await eventually(
      () => codes().filter((code) => code === 'line.disconnected').length === 40,
      'all have left',
    );
    expect(await (await Wire.loggedIn(door.port)).codes('NOOP')).toEqual([200]);
  },
  C099: {
    options: { limits: { loginMs: 150 } },
    check: async ({ door }) => {
      const wire = await Wire.open(door.port);
      await wire.reply();
      const drip = setInterval(() => wire.send('N'), 20);
      expect((await wire.reply()).code).toBe(421);
      clearInterval(drip);
      await wire.ended();
    },
  },
  C100: {
    options: { limits: { idleMs: 120 } },
    check: async ({ door, codes }) => {
      expect(defaultFtpLimits.idleMs).toBeGreaterThanOrEqual(5 * 60_000);
      const wire = await Wire.loggedIn(door.port);
      const data = await wire.data();
      await wire.command('STOR a');
      data.write('slow');
      // Longer than the idle time: a running transfer is not idle.
      await new Promise((resolve) => setTimeout(resolve, 300));
      data.end();
      expect((await wire.reply()).code).toBe(226);
      expect((await wire.reply()).code).toBe(421);
      await wire.ended();
      expect(codes()).toContain('line.idle');
    },
  },
  C101: {
    options: { limits: { stallMs: 80 } },
    check: async ({ door, folder }) => {
      const wire = await Wire.loggedIn(door.port);
      const data = await wire.data();
      expect((await wire.command('STOR a')).code).toBe(150);
      expect((await wire.reply()).code).toBe(426);
      expect(folder.ends).toEqual(['stalled']);
      await gone(data);
      expect((await wire.command('NOOP')).code).toBe(200);
    },
  },
  C102: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    wire.socket.pause();
    const commands = Buffer.from('NOOP\r\n'.repeat(2000));
    // 24 MB, more than both systems' socket buffers can hold: what cannot be sent proves that reading stopped.
    for (let sent = 0; sent < 2000; sent += 1) wire.socket.write(commands);
    let before = -1;
    for (let still = 0; still < 20; still = wire.socket.writableLength === before ? still + 1 : 0) {
      before = wire.socket.writableLength;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    expect(before).toBeGreaterThan(0);
  },
  C103: async (hall) => {
    const uploads = Array.from({ length: 30 }, async (_, number) => {
      const wire = await Wire.loggedIn(hall.door.port);
      const bytes = pattern(200_000, number + 1);
      const codes = await wire.store(`STOR f${number}`, bytes, 'PASV');
      return { codes, same: kept(hall, `/f${number}`) === sha256(bytes) };
    });
    for (const { codes, same } of await Promise.all(uploads)) {
      expect([codes, same]).toEqual([[150, 226], true]);
    }
  },
  C104: async ({ door }) => {
    const wire = await Wire.loggedIn(door.port);
    const lines = ['SIZE x', 'MDTM x', 'CWD x', 'DELE x', 'RMD x', 'RNFR x', 'MLST x', 'STAT x', 'RMD /'];
    for (const line of lines) {
      const reply = await wire.command(line);
      expect(reply.code, line).toBe(550);
      expect(reply.lines.join('\n')).not.toMatch(/\/home|secret|Error|\bat /);
    }
    const listed = await wire.listing('LIST x');
    expect(listed.codes).toEqual([550]);
  },
};

test('every row of the conformance table is checked here or listed with a reason', () => {
  const covered = [...Object.keys(cases), ...Object.keys(elsewhere)].sort();
  expect(covered).toEqual(rows.map(({ id }) => id).sort());
});

for (const { id, send, expect: wanted, source } of rows) {
  const entry = cases[id];
  if (entry === undefined) continue;
  test(`${id} (${source}): ${send} gives ${wanted}`, async () => {
    const { check, options }: Case = typeof entry === 'function' ? { check: entry } : entry;
    const hall = await openHall(options);
    try {
      await check(hall);
    } finally {
      await hall.door.close();
    }
  });
}
