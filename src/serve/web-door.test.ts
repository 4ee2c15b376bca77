import { createServer, type Server } from 'node:http';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterEach, expect, test, vi } from 'vitest';
import { DeskFake } from './testing/desk-fake.ts';
import { openDeafClient, openEventClient } from './testing/event-client.ts';
import { startWebDoor, type WebDoor } from './web-door.ts';

const options = {
  host: '127.0.0.1',
  port: 0,
  pageDir: join(tmpdir(), 'setside-no-page'),
  version: '0.0.0-test',
};
const open: { doors: WebDoor[]; servers: Server[] } = { doors: [], servers: [] };

afterEach(async () => {
  for (const door of open.doors.splice(0)) await door.close();
  for (const server of open.servers.splice(0)) server.close();
});

async function start(parts: Partial<typeof options> = {}, desk = new DeskFake()): Promise<WebDoor> {
  const door = await startWebDoor({ ...options, ...parts }, desk);
  open.doors.push(door);
  return door;
}

/** Everything that comes back for these bytes until the line is closed. */
function exchange(port: number, bytes: string): Promise<string> {
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(bytes));
    socket.setEncoding('latin1');
    socket.on('data', (part: string) => {
      text += part;
    });
    socket.on('close', () => resolve(text));
    socket.on('error', reject);
  });
}

test('the door says where it is, and the operator gets in there', async () => {
  const door = await start();
  expect(door.url).toBe(`http://127.0.0.1:${door.port}`);
  const answer = await fetch(`${door.url}/api/v1/health`);
  expect(await answer.json()).toEqual({ status: 'ok', version: '0.0.0-test' });
});

test('bound to every address, the operator still comes by loopback', async () => {
  const door = await start({ host: '0.0.0.0' });
  expect(door.url).toBe(`http://127.0.0.1:${door.port}`);
  expect((await fetch(`${door.url}/api/v1/health`)).status).toBe(200);
});

test('a port in use is told by code, with the port and a cure', async () => {
  const other = createServer().listen(0, '127.0.0.1');
  open.servers.push(other);
  await new Promise((resolve) => other.once('listening', resolve));
  const address = other.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  await expect(start({ port })).rejects.toMatchObject({
    name: 'SetsideError',
    code: 'port-in-use',
    details: { host: '127.0.0.1', port },
    cure: expect.stringContaining('--web'),
  });
});

test('an address of another computer is told by code (192.0.2.0/24 is nobody’s, RFC 5737)', async () => {
  await expect(start({ host: '192.0.2.1' })).rejects.toMatchObject({ code: 'address-unknown' });
});

test('closing ends streams that are read and streams that are not, and frees the port; a second close is no matter', async () => {
  const door = await start();
  const client = await openEventClient(door.port);
  const deaf = await openDeafClient(door.port);
  await door.close();
  await door.close();
  client.leave();
  deaf.destroy();
  await expect(fetch(`${door.url}/api/v1/health`)).rejects.toThrow();
  await start({ port: door.port });
});

test('closing does not wait for ever for an answer that never comes', async () => {
  const desk = new DeskFake();
  let asked = false;
  desk.jobs = () => {
    asked = true;
    return new Promise(() => {});
  };
  const door = await start({}, desk);
  const answer = fetch(`${door.url}/api/v1/jobs`).then(
    () => 'answered',
    () => 'cut off',
  );
  await vi.waitFor(() => expect(asked).toBe(true), 30_000);
  const closed = door.close().then(() => 'closed');
  expect(await Promise.race([closed, delay(20_000, 'still open', { ref: false })])).toBe('closed');
  expect(await answer).toBe('cut off');
});

test('an answer under way when the door closes still arrives', async () => {
  const desk = new DeskFake();
  let finish = (): void => {};
  let asked = false;
  desk.jobs = async () => {
    asked = true;
    await new Promise<void>((resolve) => {
      finish = resolve;
    });
    return desk.jobList;
  };
  const door = await start({}, desk);
  const answer = fetch(`${door.url}/api/v1/jobs`);
  await vi.waitFor(() => expect(asked).toBe(true), 30_000);
  const closed = door.close();
  // The door is shut to new callers before the old one gets its answer.
  await vi.waitFor(() => expect(exchange(door.port, '')).rejects.toThrow('ECONNREFUSED'), 30_000);
  finish();
  expect((await answer).status).toBe(200);
  await closed;
});

test('paths sent as they are, with dots and encodings no client would leave in, lead nowhere', async () => {
  const desk = new DeskFake();
  const door = await start({}, desk);
  const files = '/api/v1/frames/f1/files';
  const paths = [
    `${files}/..`,
    `${files}/.`,
    `${files}/%2e%2e`,
    `${files}/%2e`,
    `${files}/../../../../../../etc/passwd`,
    `${files}/..%2f..%2f..%2fetc%2fpasswd`,
    `${files}//etc/passwd`,
    '/../../../../etc/passwd',
    '/assets/../../../../etc/passwd',
    '/assets/%2e%2e/%2e%2e/%2e%2e/etc/passwd',
    '//etc/passwd',
    '/%2fetc%2fpasswd',
    '/assets/%2fetc%2fpasswd',
  ];
  for (const path of paths) {
    const answer = await exchange(
      door.port,
      `GET ${path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`,
    );
    expect(answer, path).toMatch(/^HTTP\/1\.1 40[04] /);
    expect(answer, path).not.toContain('root:');
  }
  expect(desk.asked).toEqual([]);
});

test('bytes that are no HTTP request get a problem with the protecting headers, and the line is closed', async () => {
  const door = await start();
  const answer = await exchange(door.port, 'EHLO setside\r\n\r\n');
  const [head = '', body = ''] = answer.split('\r\n\r\n');
  expect(head).toMatch(/^HTTP\/1\.1 400 Bad Request\r\n/);
  expect(head).toContain('content-type: application/problem+json');
  expect(head).toContain('x-content-type-options: nosniff');
  expect(JSON.parse(body)).toMatchObject({ status: 400, code: 'bad-request' });
});

test('headers over the limit are 431, and a request without Host is no request (RFC 9112 section 3.2)', async () => {
  const door = await start();
  const long = `GET / HTTP/1.1\r\nHost: localhost\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`;
  expect(await exchange(door.port, long)).toMatch(/^HTTP\/1\.1 431 /);
  expect(await exchange(door.port, 'GET / HTTP/1.1\r\n\r\n')).toMatch(/^HTTP\/1\.1 400 /);
  expect(await exchange(door.port, 'GET / HTTP/1.0\r\n\r\n')).toMatch(/^HTTP\/1\.1 421 /);
});
