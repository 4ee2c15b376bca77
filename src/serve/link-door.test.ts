import { get, type IncomingMessage, request } from 'node:http';
import { connect, type Socket } from 'node:net';
import { json } from 'node:stream/consumers';
import { afterEach, expect, test, vi } from 'vitest';
import { defaultWebLimits, type WebLimits } from './core/limits.ts';
import { type LinkDoor, type LinkDoorOptions, openLinkDoor } from './link-door.ts';
import { EventSourceReader } from './testing/event-source.ts';
import { sampleFrame } from './testing/sample-frame.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

const token = 'a'.repeat(28);
const open: { bench?: WebBench; door?: LinkDoor; answers: IncomingMessage[]; sockets: Socket[] } = {
  answers: [],
  sockets: [],
};
afterEach(async () => {
  for (const answer of open.answers.splice(0)) answer.destroy();
  for (const socket of open.sockets.splice(0)) socket.destroy();
  await open.door?.close();
  await open.bench?.close();
});

/** The door in clear; what TLS adds is tried with curl and OpenSSL in `test/flow`. */
async function openDoor(
  limits: Partial<WebLimits> = {},
  options: Partial<LinkDoorOptions> = {},
  bench: Parameters<typeof openWebBench>[0] = {},
): Promise<{ bench: WebBench; port: number }> {
  open.bench = await openWebBench({ limits, ...bench });
  open.bench.desk.linkDesk.visitors.set(token, { scope: 'pocket', name: 'phone', link: 'l1' });
  const place = { host: '127.0.0.1', port: 0, identity: null, ...options };
  open.door = await openLinkDoor(open.bench.app, place, { ...defaultWebLimits, ...limits });
  return { bench: open.bench, port: open.door.port };
}

function ask(port: number, path: string, secret = token): Promise<IncomingMessage> {
  return new Promise((resolve, reject) => {
    get({ host: '127.0.0.1', port, path, headers: { cookie: `setside=${secret}` } }, (answer) => {
      open.answers.push(answer);
      answer.on('error', () => {});
      resolve(answer);
    }).on('error', reject);
  });
}

function knock(port: number): Promise<{ socket: Socket; over: Promise<void> }> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    open.sockets.push(socket);
    const over = new Promise<void>((end) => socket.once('close', () => end()));
    socket.on('error', () => {});
    socket.once('connect', () => resolve({ socket, over }));
    socket.resume();
  });
}

test('at this door nobody is the operator for coming from this computer: a tunnel hands strangers on so', async () => {
  const { port } = await openDoor();
  expect((await ask(port, '/api/v1/station', 'nobody')).statusCode).toBe(403);
  expect((await ask(port, '/api/v1/station')).statusCode).toBe(200);
  expect((await ask(port, '/api/v1/links')).statusCode).toBe(403);
});

test('an operator’s token that a browser on this computer sends in clear is refused, and the link goes on', async () => {
  const { bench, port } = await openDoor({}, {}, { ownHosts: () => ['192.168.0.2'] });
  bench.desk.linkDesk.visitors.set(token, { scope: 'operator', name: 'screen', link: 'l1' });
  const enter = (host: string): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const headers = { host, 'content-type': 'application/json' };
      const place = { host: '127.0.0.1', port, path: '/api/v1/links/enter', method: 'POST', headers };
      request(place, (answer) => resolve(json(answer)))
        .on('error', reject)
        .end(JSON.stringify({ token }));
    });
  expect(await enter(`localhost:${port}`)).toMatchObject({ code: 'encrypted-only' });
  // What a tunnel that ends on this computer hands on: the browser is elsewhere.
  expect(await enter(`192.168.0.2:${port}`)).toMatchObject({ code: 'ended-in-clear' });
});

test('a link that ends is told to its streams, which end at once; those of others go on', async () => {
  const { bench, port } = await openDoor();
  bench.desk.linkDesk.visitors.set('b'.repeat(28), { scope: 'pocket', name: 'other', link: 'l2' });
  const readers = [token, 'b'.repeat(28)].map(async (secret) => {
    const answer = await ask(port, '/api/v1/events', secret);
    const reader = new EventSourceReader();
    answer.setEncoding('utf8').on('data', (text: string) => reader.feed(text));
    return { answer, reader };
  });
  const [phone, other] = await Promise.all(readers);
  await bench.desk.linkDesk.endLink('l1');
  await vi.waitFor(() => expect(phone?.answer.complete).toBe(true), 30_000);
  expect(phone?.reader.events.map(({ type }) => type)).toEqual(['shut-out']);
  bench.desk.events.publish({ type: 'frame', change: 'kept', frame: sampleFrame() });
  await vi.waitFor(() => expect(other?.reader.events.map(({ type }) => type)).toEqual(['frame']), 30_000);
  expect((await ask(port, '/api/v1/events')).statusCode).toBe(403);
});

test('a device that is out though its link goes on hears nothing more; the others of the link do', async () => {
  const { bench, port } = await openDoor();
  bench.desk.linkDesk.visitors.set('b'.repeat(28), { scope: 'pocket', name: 'phone', link: 'l1' });
  const readers = [token, 'b'.repeat(28)].map(async (secret) => {
    const answer = await ask(port, '/api/v1/events', secret);
    const reader = new EventSourceReader();
    answer.setEncoding('utf8').on('data', (text: string) => reader.feed(text));
    return { answer, reader };
  });
  const [gone, other] = await Promise.all(readers);
  await bench.desk.linkDesk.leaveLink(token);
  bench.desk.events.publish({ type: 'frame', change: 'kept', frame: sampleFrame() });
  await vi.waitFor(() => expect(other?.reader.events.map(({ type }) => type)).toEqual(['frame']), 30_000);
  await vi.waitFor(() => expect(gone?.answer.complete).toBe(true), 3_000);
  expect(gone?.reader.events.map(({ type }) => type)).toEqual(['shut-out']);
});

test('one link has so many streams and no more, and all links leave some to the station’s own screens', async () => {
  const { bench, port } = await openDoor({ streamsPerLinkMax: 2, streamsReserved: 1 }, {}, { streamsMax: 4 });
  bench.desk.linkDesk.visitors.set('b'.repeat(28), { scope: 'pocket', name: 'other', link: 'l2' });
  expect((await ask(port, '/api/v1/events')).statusCode).toBe(200);
  expect((await ask(port, '/api/v1/events')).statusCode).toBe(200);
  expect((await ask(port, '/api/v1/events')).statusCode).toBe(503);
  expect((await ask(port, '/api/v1/events', 'b'.repeat(28))).statusCode).toBe(200);
  expect((await ask(port, '/api/v1/events', 'b'.repeat(28))).statusCode).toBe(503);
  const own = Number(new URL(await bench.app.listen({ port: 0, host: '127.0.0.1' })).port);
  expect((await ask(own, '/api/v1/events')).statusCode).toBe(200);
  expect((await ask(own, '/api/v1/events')).statusCode).toBe(503);
});

test('one address has so many connections and no more', async () => {
  const { port } = await openDoor({ connectionsPerAddressMax: 2 });
  const [one] = [await knock(port), await knock(port)];
  const third = await knock(port);
  await third.over;
  one.socket.destroy();
  await one.over;
  await vi.waitFor(async () => expect((await ask(port, '/in')).statusCode).toBe(503), 30_000);
});

test('who says nothing is sent off', async () => {
  const { port } = await openDoor({ handshakeMs: 50 });
  await (await knock(port)).over;
});

test('a connection to an address that is not served gets no answer', async () => {
  const { port } = await openDoor({}, { mayServe: () => false });
  await (await knock(port)).over;
  await expect(ask(port, '/in')).rejects.toThrow();
});

test('TLS where the station speaks none is cut off, and bytes that are no HTTP get a problem', async () => {
  const { port } = await openDoor();
  const tls = await knock(port);
  tls.socket.write(Buffer.from([0x16, 0x03, 0x01, 0x00, 0x05, 1, 0, 0, 1, 0]));
  await tls.over;
  const rude = await knock(port);
  let text = '';
  rude.socket.on('data', (part: Buffer) => {
    text += part.toString('latin1');
  });
  rude.socket.write('EHLO setside\r\n\r\n');
  await rude.over;
  expect(text).toMatch(/^HTTP\/1\.1 400 /);
});

test('a request whose first bytes come one by one is answered like any other', async () => {
  const { port } = await openDoor();
  const { socket, over } = await knock(port);
  let text = '';
  socket.on('data', (part: Buffer) => {
    text += part.toString('latin1');
  });
  for (const byte of 'GET /api/v1/health HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n') {
    socket.write(byte);
    await new Promise((resolve) => setImmediate(resolve));
  }
  await over;
  expect(text).toMatch(/^HTTP\/1\.1 403 /);
  expect(text).toContain('link-needed');
});

test('closing ends every connection, and a second close is no matter', async () => {
  const { port } = await openDoor();
  const waiting = await knock(port);
  await ask(port, '/api/v1/events');
  await open.door?.close();
  await open.door?.close();
  await waiting.over;
  await expect(ask(port, '/in')).rejects.toThrow();
});
