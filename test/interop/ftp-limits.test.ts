import { EventEmitter } from 'node:events';
import { connect, type Socket } from 'node:net';
import { PassThrough } from 'node:stream';
import type { TLSSocket } from 'node:tls';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { AddressBook } from '../../src/receive/core/address-book.ts';
import { ChangeBudget } from '../../src/receive/core/change-budget.ts';
import { LineReader } from '../../src/receive/ftp/core/line-reader.ts';
import { sayGoodbye } from '../../src/receive/ftp/shell/goodbye.ts';
import { Reception } from '../../src/receive/ftp/shell/reception.ts';
import { handshake } from '../../src/receive/ftp/shell/tls/handshake.ts';
import { HandshakeBook } from '../../src/receive/ftp/shell/tls/handshake-book.ts';
import { defaultFtpLimits, type FtpLimits } from '../../src/receive/index.ts';
import { BufferPool } from '../../src/receive/shell/buffer-pool.ts';
import { Intake } from '../../src/receive/shell/intake.ts';
import { Uploads } from '../../src/receive/shell/uploads.ts';
import { easyScript, Talk } from '../../src/receive/testing/talk.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { Wire } from './ftp-wire.ts';

/**
 * Every limit of the FTP door from both sides: what still passes at it, and what does not one step further. The table
 * has a row for each option of {@link FtpLimits}; the compiler sees to that.
 */
interface Sides {
  /** At the limit, or just below where reaching it is what ends something. */
  readonly within: unknown;
  readonly beyond: unknown;
}
type Case = readonly [within: unknown, beyond: unknown, look: () => Sides | Promise<Sides>];

const halls: Hall[] = [];
const open = async (limits: Partial<FtpLimits>): Promise<Hall> => {
  const hall = await openHall({ limits });
  halls.push(hall);
  return hall;
};

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] });
});
afterEach(async () => {
  vi.useRealTimers();
  await Promise.all(halls.splice(0).map(({ door }) => door.close()));
});

const withLimits = (limits: Partial<FtpLimits>): FtpLimits => ({ ...defaultFtpLimits, ...limits });
const kinds = (bytes: Uint8Array, limits: Partial<FtpLimits>): string[] => {
  const reader = new LineReader(withLimits(limits));
  reader.push(bytes);
  const found: string[] = [];
  for (let input = reader.next(); input !== null; input = reader.next()) found.push(input.kind);
  return found;
};
const line = (length: number): Uint8Array => new TextEncoder().encode(`${'x'.repeat(length)}\r\n`);
const code = (talk: Talk, ...lines: readonly string[]): number | undefined => {
  talk.say(...lines);
  return talk.codes.at(-1);
};
const storing = (talk: Talk): Talk => {
  talk.say('PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say('STOR x');
  return talk;
};

/** What connections from these addresses of this computer are greeted with, one after the other. */
async function greetings(limits: Partial<FtpLimits>, ...from: readonly string[]): Promise<number[]> {
  const { door } = await open(limits);
  const codes: number[] = [];
  for (const address of from)
    codes.push((await (await Wire.open(door.port, { from: address })).reply()).code);
  return codes;
}

/** How an upload of one byte each `everyMs` ends: `stopping` where it still ran after `forMs`. */
async function afterDrip(everyMs: number, forMs: number): Promise<string> {
  const line = new PassThrough();
  const arrival = {
    id: 'a',
    offsetBytes: 0,
    write: async () => {},
    sync: async () => {},
    finish: () => Promise.reject(),
  };
  const pool = new BufferPool(defaultFtpLimits.bufferBytes, 0);
  // A stream with nothing of the system behind it is read by its events alone, as a socket without a handle is.
  const reception = new Reception(line as unknown as Socket, arrival, defaultFtpLimits, pool);
  for (let passedMs = 0; passedMs < forMs; passedMs += everyMs) {
    line.write('x');
    await vi.advanceTimersByTimeAsync(Math.min(everyMs, forMs - passedMs));
  }
  await new Promise((resolve) => setImmediate(resolve));
  reception.interrupt('stopping');
  return (await reception.ended).end;
}

/** The size of a first buffer, and whether reading may go on once `filled` of them are full and none is written. */
function intakeWith(limits: Partial<FtpLimits>, filled: number): boolean {
  const resolved = withLimits({ bufferBytes: 1024, ...limits });
  const never = { write: () => new Promise<void>(() => {}) };
  const events = { room: () => {}, failed: () => {} };
  const intake = new Intake(never, resolved, new BufferPool(resolved.bufferBytes, 0), events);
  let goesOn = true;
  for (let buffer = 0; buffer < filled; buffer += 1) goesOn = intake.received(intake.room().length);
  return goesOn;
}

const quiet = { lingerMs: 600_000 };
const one = '127.0.0.1';
const other = '127.0.0.2';

const cases: Readonly<Record<keyof FtpLimits, Case>> = {
  lineBytesMax: [
    ['line'],
    ['too-long'],
    () => ({ within: kinds(line(4096), {}), beyond: kinds(line(4097), {}) }),
  ],
  lineSkipBytesMax: [
    [['too-long'], ['line']],
    [['too-long', 'endless'], ['endless']],
    () => {
      const limits = { lineBytesMax: 10, lineSkipBytesMax: 100 };
      const telnet = (bytes: number) => Uint8Array.of(...Array<number>(bytes).fill(0xff), 65, 13, 10);
      // IAC IAC is a character of the line; IAC NOP is not.
      const nops = (bytes: number) =>
        telnet(bytes).map((byte, at) => (at % 2 === 1 && byte === 0xff ? 241 : byte));
      return {
        within: [kinds(line(110), limits), kinds(nops(100), limits)],
        beyond: [kinds(line(111), limits), kinds(nops(102), limits)],
      };
    },
  ],
  waitingLinesMax: [
    true,
    false,
    () => {
      const talk = storing(Talk.loggedIn());
      for (let said = 1; said < 32; said += 1) talk.say('NOOP');
      const within = talk.session.wantsInput;
      talk.say('NOOP');
      return { within, beyond: talk.session.wantsInput };
    },
  ],
  nameBytesMax: [
    257,
    553,
    () => ({
      within: code(Talk.loggedIn(), `MKD ${'n'.repeat(255)}`),
      beyond: code(Talk.loggedIn(), `MKD ${'n'.repeat(256)}`),
    }),
  ],
  pathDepthMax: [
    257,
    553,
    () => ({
      within: code(Talk.loggedIn(), `MKD ${'/d'.repeat(16)}`),
      beyond: code(Talk.loggedIn(), `MKD ${'/d'.repeat(17)}`),
    }),
  ],
  connectionsMax: [
    [220, 220],
    [220, 220, 421],
    async () => {
      const limits = { connectionsMax: 2, connectionsReserved: 0, ...quiet };
      return {
        within: await greetings(limits, one, other),
        beyond: await greetings(limits, one, other, one),
      };
    },
  ],
  connectionsPerAddressMax: [
    [220, 220, 220],
    [220, 220, 421],
    async () => {
      const limits = { connectionsPerAddressMax: 2, ...quiet };
      return {
        within: await greetings(limits, one, one, other),
        beyond: await greetings(limits, one, one, one),
      };
    },
  ],
  connectionsReserved: [
    [220, 220],
    421,
    async () => {
      const { door } = await open({ connectionsMax: 4, connectionsReserved: 2, ...quiet });
      // The camera has been here, and is away while strangers take every place they can.
      const camera = await Wire.loggedIn(door.port, { from: other });
      await camera.command('QUIT');
      await camera.ended();
      const strangers = [await Wire.open(door.port), await Wire.open(door.port), await Wire.open(door.port)];
      const codes: number[] = [];
      for (const wire of strangers) codes.push((await wire.reply()).code);
      const back = [await Wire.open(door.port, { from: other }), await Wire.open(door.port, { from: other })];
      const within: number[] = [];
      for (const wire of back) within.push((await wire.reply()).code);
      return { within, beyond: codes.at(-1) };
    },
  ],
  knownAddressesMax: [
    true,
    false,
    () => {
      const gets = (logIns: number): boolean => {
        const limits = { connectionsMax: 2, connectionsReserved: 1, knownAddressesMax: 3 };
        const book = new AddressBook(withLimits(limits));
        for (let number = 0; number < logIns; number += 1) book.welcome(`camera ${number}`);
        book.enter('stranger');
        return book.enter('camera 0');
      };
      return { within: gets(3), beyond: gets(4) };
    },
  ],
  farewellsMax: [
    ['421', '421'],
    '',
    async () => {
      const { door } = await open({ connectionsPerAddressMax: 1, farewellsMax: 2, ...quiet });
      await (await Wire.open(door.port)).reply();
      // They never close their side: clients that are waited for.
      const sockets = Array.from({ length: 3 }, () =>
        connect({ port: door.port, host: one, allowHalfOpen: true }),
      );
      const heard: string[] = [];
      for (const socket of sockets) heard.push(await firstBytes(socket));
      for (const socket of sockets) socket.destroy();
      return { within: heard.slice(0, 2), beyond: heard[2] };
    },
  ],
  refusalReportMs: [
    1,
    2,
    async () => {
      const told = async (refusalReportMs: number): Promise<number> => {
        const hall = await open({ connectionsPerAddressMax: 1, refusalReportMs, ...quiet });
        const wires = [await Wire.open(hall.door.port)];
        for (let number = 0; number < 2; number += 1) {
          wires.push(await Wire.open(hall.door.port));
          await wires.at(-1)?.reply();
          const before = performance.now();
          while (performance.now() - before < 3);
        }
        return hall.codes().filter((found) => found === 'line.too-many-connections').length;
      };
      return { within: await told(60_000), beyond: await told(1) };
    },
  ],
  handshakeMs: [
    'waits',
    'slow',
    async () => {
      const waiting = handshake(new EventEmitter() as unknown as TLSSocket, 20_000);
      vi.advanceTimersByTime(19_999);
      const within = await Promise.race([waiting, Promise.resolve('waits')]);
      vi.advanceTimersByTime(1);
      return { within, beyond: await waiting };
    },
  ],
  handshakesMax: [
    true,
    false,
    () => {
      const book = new HandshakeBook(withLimits({ handshakesMax: 3 }));
      const begun = ['a', 'b', 'c', 'd'].map((address) => book.begin(address) !== null);
      return { within: begun[2], beyond: begun[3] };
    },
  ],
  handshakesPerAddressMax: [
    [true, true],
    false,
    () => {
      const book = new HandshakeBook(withLimits({ handshakesPerAddressMax: 2 }));
      const begun = ['a', 'a', 'b', 'a'].map((address) => book.begin(address) !== null);
      return { within: [begun[1], begun[2]], beyond: begun[3] };
    },
  ],
  loginMs: [
    false,
    true,
    () => {
      const talk = new Talk();
      talk.later(60_000 - 1);
      const within = talk.session.isOver;
      talk.later(1);
      return { within, beyond: talk.session.isOver };
    },
  ],
  loginFailuresMax: [
    530,
    421,
    () => {
      const talk = new Talk({ ...easyScript, 'log-in': () => ({ camera: null, failures: 1 }) });
      for (let wrong = 1; wrong < 3; wrong += 1) talk.say('USER a', 'PASS b');
      return { within: code(talk, 'USER a', 'PASS b'), beyond: code(talk, 'USER a', 'PASS b') };
    },
  ],
  loginFailuresPerMinuteMax: [
    true,
    false,
    () => {
      const book = new AddressBook(defaultFtpLimits);
      for (let wrong = 1; wrong < 20; wrong += 1) book.attempt('a', 0);
      return { within: book.attempt('a', 0).isHeard, beyond: book.attempt('a', 0).isHeard };
    },
  ],
  failingAddressesMax: [
    false,
    true,
    () => {
      const heardAgain = (addresses: number): boolean => {
        const book = new AddressBook(withLimits({ failingAddressesMax: 3, loginFailuresPerMinuteMax: 1 }));
        for (let number = 0; number < addresses; number += 1) book.attempt(`address ${number}`, 0);
        return book.attempt('address 0', 0).isHeard;
      };
      return { within: heardAgain(3), beyond: heardAgain(4) };
    },
  ],
  loginDelayMs: [500, 1000, () => ({ within: delayAfter(1), beyond: delayAfter(2) })],
  loginDelayMaxMs: [
    [4000, 8000],
    8000,
    () => ({ within: [delayAfter(4), delayAfter(5)], beyond: delayAfter(6) }),
  ],
  idleMs: [
    false,
    true,
    () => {
      const talk = Talk.loggedIn();
      talk.later(15 * 60_000 - 1);
      const within = talk.session.isOver;
      talk.later(1);
      return { within, beyond: talk.session.isOver };
    },
  ],
  dataConnectMs: [
    0,
    1,
    () => {
      const talk = Talk.loggedIn({ ...easyScript, 'await-data': undefined });
      talk.say('PASV', 'STOR x');
      talk.later(30_000 - 1);
      const within = talk.count('interrupt');
      talk.later(1);
      return { within, beyond: talk.count('interrupt') };
    },
  ],
  stallMs: [
    'stopping',
    'stalled',
    async () => ({ within: await afterDrip(59_999, 120_000), beyond: await afterDrip(60_000, 60_000) }),
  ],
  crawlMs: [
    'stopping',
    'stalled',
    async () => ({ within: await afterDrip(10_000, 299_999), beyond: await afterDrip(10_000, 300_000) }),
  ],
  crawlBytesMin: [
    'stopping',
    'stalled',
    // A byte each 4 ms is 75,000 in five minutes, one each 5 ms is 60,000; the limit is 65,536.
    async () => ({ within: await afterDrip(4, 300_000), beyond: await afterDrip(5, 300_000) }),
  ],
  giveWayMs: [
    false,
    true,
    async () => {
      vi.useRealTimers();
      return { within: await makesWay(0), beyond: await makesWay(20) };
    },
  ],
  changesPerSecondMax: [
    0,
    50,
    () => {
      const waits = (afterMs: number): number => {
        const budget = new ChangeBudget(defaultFtpLimits);
        for (let change = 0; change < 2000; change += 1) budget.spend('a', 0);
        return budget.spend('a', afterMs);
      };
      return { within: waits(50), beyond: waits(0) };
    },
  ],
  changesAtOnceMax: [
    0,
    50,
    () => {
      const budget = new ChangeBudget(defaultFtpLimits);
      for (let change = 1; change < 2000; change += 1) budget.spend('a', 0);
      return { within: budget.spend('a', 0), beyond: budget.spend('a', 0) };
    },
  ],
  statEntriesMax: [213, 450, () => ({ within: statOf(1000), beyond: statOf(1001) })],
  bufferBytes: [
    [1, 1024],
    1024,
    () => {
      const limits = withLimits({ bufferBytes: 1024 });
      const never = { write: () => new Promise<void>(() => {}) };
      const intake = new Intake(never, limits, new BufferPool(1024, 0), { room: () => {}, failed: () => {} });
      const first = intake.room().length;
      intake.received(1023);
      const left = intake.room().length;
      intake.received(1);
      return { within: [left, first], beyond: intake.room().length };
    },
  ],
  buffersPerUpload: [
    true,
    false,
    () => ({
      within: intakeWith({ buffersPerUpload: 4 }, 2),
      beyond: intakeWith({ buffersPerUpload: 4 }, 3),
    }),
  ],
  flushAfterMs: [
    0,
    1,
    async () => {
      let writes = 0;
      const arrival = {
        write: async () => {
          writes += 1;
        },
      };
      const pool = new BufferPool(defaultFtpLimits.bufferBytes, 0);
      const intake = new Intake(arrival, defaultFtpLimits, pool, { room: () => {}, failed: () => {} });
      intake.received(10);
      await vi.advanceTimersByTimeAsync(49);
      const within = writes;
      await vi.advanceTimersByTimeAsync(1);
      return { within, beyond: writes };
    },
  ],
  lingerMs: [
    false,
    true,
    async () => {
      let cut = false;
      const client = Object.assign(new EventEmitter(), {
        resume: () => {},
        end: () => {},
        destroy: () => {
          cut = true;
        },
      });
      // Of a socket only these are used to say goodbye.
      sayGoodbye(client as unknown as Socket, defaultFtpLimits.lingerMs);
      await vi.advanceTimersByTimeAsync(1_999);
      const within = cut;
      await vi.advanceTimersByTimeAsync(1);
      return { within, beyond: cut };
    },
  ],
};

for (const [name, [within, beyond, look]] of Object.entries(cases)) {
  test(`${name}: what is within it passes, what is one step beyond does not`, async () => {
    expect(await look()).toEqual({ within, beyond });
  });
}

/** The first three bytes that a client hears; nothing where it is cut off. */
function firstBytes(socket: Socket): Promise<string> {
  return new Promise((resolve) => {
    socket.on('error', () => resolve(''));
    socket.once('data', (chunk) => resolve(chunk.toString('latin1', 0, 3)));
    socket.once('end', () => resolve(''));
  });
}

function delayAfter(failures: number): unknown {
  let delayMs: unknown = null;
  const talk = new Talk({
    'log-in': () => ({ camera: null, failures }),
    pause: ({ request }) => {
      delayMs = 'ms' in request ? request.ms : null;
      return null;
    },
  });
  talk.say('USER a', 'PASS b');
  return delayMs;
}

async function makesWay(silentMs: number): Promise<boolean> {
  const uploads = new Uploads();
  let over = (): void => {};
  const upload = { silentMs, interrupt: () => over() };
  // Of a reception only its silence and its end are asked for.
  over = uploads.begin('a', '/x', upload as unknown as Reception);
  return uploads.makeWay('a', '/x', 20);
}

function statOf(entries: number): number | undefined {
  const value = Array.from({ length: entries }, (_, number) => ({
    name: `f${number}`,
    kind: 'file' as const,
    sizeBytes: 1,
    modifiedMs: 0,
  }));
  return code(Talk.loggedIn({ ...easyScript, list: () => ({ ok: true, value }) }), 'STAT /d');
}
