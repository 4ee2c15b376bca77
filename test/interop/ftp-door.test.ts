import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import { type DataReader, readData } from '../../src/receive/ftp/shell/data-reader.ts';
import { startFtpDoor } from '../../src/receive/index.ts';
import { portsOfOwn } from '../ports-of-own.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { eventually, gone, openData, Wire } from './ftp-wire.ts';

/** What only shows over real sockets, beyond the conformance table. Numbers are rules of src/receive/SPEC.md. */
const halls: Hall[] = [];
const open = async (options: Parameters<typeof openHall>[0] = {}): Promise<Hall> => {
  const hall = await openHall(options);
  halls.push(hall);
  return hall;
};
afterEach(async () => {
  await Promise.all(halls.splice(0).map(({ door }) => door.close()));
});

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const nobody = { admit: async () => null };

test('a port in use is said so by its code', async () => {
  const { door } = await open();
  const options = { host: '127.0.0.1', port: door.port, passive: { from: 0, to: 0 } };
  await expect(startFtpDoor(options, nobody, () => {})).rejects.toMatchObject({
    code: 'port-in-use',
    details: { port: door.port },
  });
});

test('5.1 where every port of the range is taken PASV is 425, and works again when one is free', async () => {
  const { door } = await open({ passive: portsOfOwn(2) });
  const wires = [
    await Wire.loggedIn(door.port),
    await Wire.loggedIn(door.port),
    await Wire.loggedIn(door.port),
  ];
  expect((await wires[0].command('EPSV')).code).toBe(229);
  expect((await wires[1].command('EPSV')).code).toBe(229);
  expect((await wires[2].command('EPSV')).code).toBe(425);
  await wires[0].command('QUIT');
  await wires[0].ended();
  expect((await wires[2].command('EPSV')).code).toBe(229);
});

test('5.4 a second connection to a data port finds it shut', async () => {
  const { door } = await open();
  const wire = await Wire.loggedIn(door.port);
  const port = await wire.passive();
  await openData(port);
  expect((await wire.command('NOOP')).code).toBe(200);
  await expect(openData(port)).rejects.toThrow('ECONNREFUSED');
});

test('6.6 a slow folder slows the client down and loses nothing', async () => {
  let slow = true;
  const hall = await open({
    folder: { beforeWrite: () => new Promise((resolve) => setTimeout(resolve, slow ? 60 : 0)) },
  });
  const wire = await Wire.loggedIn(hall.door.port);
  const bytes = new Uint8Array(24_000_000).map((_, index) => (index >> 7) ^ index);
  const data = await wire.data();
  await wire.command('STOR slow.dng');
  data.end(bytes);
  await eventually(() => hall.folder.arriving === 1, 'the upload runs');
  expect((await wire.command('STAT')).code).toBe(211);
  expect(data.writableLength).toBeGreaterThan(0);
  slow = false;
  expect((await wire.reply()).code).toBe(226);
  expect(sha256(hall.folder.read('/slow.dng') ?? new Uint8Array(0))).toBe(sha256(bytes));
});

test('6.6 a folder slower than the stall time is not the client’s silence', async () => {
  const hall = await open({
    limits: { stallMs: 40, bufferBytes: 65_536, buffersPerUpload: 2 },
    folder: { beforeWrite: () => new Promise((resolve) => setTimeout(resolve, 150)) },
  });
  const wire = await Wire.loggedIn(hall.door.port);
  expect(await wire.store('STOR slow.dng', new Uint8Array(300_000))).toEqual([150, 226]);
});

test('2.2 while one connection waits for its file to be durable it is told so, and others list, make and upload', async () => {
  let letFinish = (): void => {};
  const durable = new Promise<void>((resolve) => {
    letFinish = resolve;
  });
  let isSlow = true;
  const hall = await open({ folder: { beforeFinish: async () => (isSlow ? durable : undefined) } });
  try {
    const waiting = await Wire.loggedIn(hall.door.port);
    const data = await waiting.data();
    await waiting.command('STOR a.dng');
    data.end(new Uint8Array(100_000));
    await eventually(() => data.closed, 'the door has closed its side');
    waiting.send('NOOP\r\n');
    const status = await waiting.command('STAT');
    expect(status.lines).toContain(' 100000 bytes received, now being made durable');

    const other = await Wire.loggedIn(hall.door.port);
    expect(await other.codes('MKD day', 'NOOP')).toEqual([257, 200]);
    expect((await other.listing('NLST')).codes).toEqual([150, 226]);
    isSlow = false;
    const third = await Wire.loggedIn(hall.door.port);
    expect(await third.store('STOR day/b.dng', new Uint8Array(5))).toEqual([150, 226]);

    letFinish();
    expect([(await waiting.reply()).code, (await waiting.reply()).code]).toEqual([226, 200]);
  } finally {
    letFinish();
  }
});

test('6.7 a client that says QUIT and closes at once keeps its upload', async () => {
  const hall = await open();
  const wire = await Wire.loggedIn(hall.door.port);
  const data = await wire.data();
  await wire.command('STOR a.dng');
  data.write('half ');
  await eventually(() => hall.folder.arriving === 1, 'the upload runs');
  wire.send('QUIT\r\n');
  wire.socket.end();
  data.end('whole');
  expect((await wire.reply()).code).toBe(226);
  expect((await wire.reply()).code).toBe(221);
  expect(hall.folder.ends).toEqual(['closed']);
});

test('6.9 the same file from the same camera takes over from a silent upload', async () => {
  const hall = await open({ limits: { giveWayMs: 60 } });
  const lost = await Wire.loggedIn(hall.door.port);
  const data = await lost.data();
  await lost.command('STOR a.dng');
  data.write('what came before the link was lost');
  await eventually(() => hall.folder.arriving === 1, 'the upload runs');

  const again = await Wire.loggedIn(hall.door.port);
  expect(await again.store('STOR a.dng', new TextEncoder().encode('whole'))).toEqual([150, 226]);
  expect((await lost.reply()).code).toBe(426);
  expect(hall.folder.ends).toEqual(['stalled', 'closed']);
});

test('6.9 an upload that is alive keeps its place, and the newcomer is told 450', async () => {
  const hall = await open({ limits: { giveWayMs: 400 } });
  const first = await Wire.loggedIn(hall.door.port);
  const data = await first.data();
  await first.command('STOR a.dng');
  const drip = setInterval(() => data.write('x'), 10);
  await eventually(() => hall.folder.arriving === 1, 'the upload runs');
  const second = await Wire.loggedIn(hall.door.port);
  expect(await second.store('STOR a.dng', new Uint8Array(5))).toEqual([450]);
  clearInterval(drip);
  data.end();
  expect((await first.reply()).code).toBe(226);
});

test('7.1 closing the door ends uploads as stopping, tells everybody, and refuses newcomers', async () => {
  const hall = await openHall();
  const idle = await Wire.loggedIn(hall.door.port);
  const busy = await Wire.loggedIn(hall.door.port);
  const data = await busy.data();
  await busy.command('STOR a.dng');
  data.write('half');
  await eventually(() => hall.folder.arriving === 1, 'the upload runs');
  const closing = hall.door.close();
  expect((await idle.reply()).code).toBe(421);
  expect([(await busy.reply()).code, (await busy.reply()).code]).toEqual([426, 421]);
  await closing;
  expect(hall.folder.ends).toEqual(['stopping']);
  await gone(data);
  await expect(Wire.open(hall.door.port)).rejects.toThrow('ECONNREFUSED');
});

test('a keeper that fails costs the client its connection and nobody else anything', async () => {
  const door = await startFtpDoor(
    { host: '127.0.0.1', port: 0, passive: { from: 0, to: 0 } },
    { admit: () => Promise.reject(new Error('a fault of ours')) },
    () => {},
  );
  const wire = await Wire.open(door.port);
  await wire.reply();
  await wire.command('USER a');
  wire.send('PASS b\r\n');
  await wire.ended();
  expect((await (await Wire.open(door.port)).reply()).code).toBe(220);
  await door.close();
});

/** Both ways of reading a data connection: Node's own socket with its handle, and one whose handle cannot be had. */
for (const way of ['handle', 'events'] as const) {
  test(`6.3 reading by ${way} gives every byte and tells an end from a reset, also behind unread bytes`, async () => {
    for (const end of ['closed', 'reset'] as const) {
      const { accepted, client, server } = await pair();
      client.write(new Uint8Array(50_000).fill(7));
      await eventually(() => client.writableLength === 0, 'all is sent');
      if (end === 'closed') client.end();
      else client.resetAndDestroy();
      await eventually(() => client.writableFinished || client.closed, 'the end is sent');
      const memory = new Uint8Array(65_536);
      let bytes = 0;
      let reader: DataReader | null = null;
      const how = await new Promise((resolve) => {
        reader = readData(way === 'handle' ? accepted : withoutHandle(accepted), {
          room: () => memory,
          received: (count) => {
            bytes += count;
            return true;
          },
          ended: resolve,
        });
      });
      expect([how, bytes]).toEqual([end, 50_000]);
      (reader as DataReader | null)?.destroy();
      client.destroy();
      server.close();
    }
  });
}

async function pair(): Promise<{ accepted: Socket; client: Socket; server: Server }> {
  const server = createServer({ pauseOnConnect: true, allowHalfOpen: true });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const client = connect(port, '127.0.0.1');
  client.on('error', () => {});
  const [accepted]: Socket[] = await once(server, 'connection');
  return { accepted, client, server };
}

/** The same socket behind a face that hides where Node keeps the handle. */
function withoutHandle(socket: Socket): Socket {
  return new Proxy(socket, {
    get: (target, name) => {
      if (name === '_handle') return null;
      const value: unknown = Reflect.get(target, name, target);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}

test('4.6 who comes in by an address that may not be served hears nothing, and the log says so', async () => {
  const reports: string[] = [];
  const options = { host: '127.0.0.1', port: 0, passive: { from: 0, to: 0 } };
  const asked: string[] = [];
  const mayServe = (local: string): boolean => {
    asked.push(local);
    return false;
  };
  const door = await startFtpDoor({ ...options, mayServe }, nobody, ({ finding }) =>
    reports.push(finding.code),
  );
  const socket = connect(door.port, '127.0.0.1');
  let heard = '';
  socket.on('data', (chunk) => {
    heard += chunk.toString();
  });
  socket.on('error', () => {});
  await once(socket, 'close');
  expect([heard, asked, reports]).toEqual(['', ['127.0.0.1'], ['line.public-address']]);
  await door.close();
});
