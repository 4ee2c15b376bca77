import { createServer, type IncomingMessage, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, test } from 'vitest';
import type { Destination } from '../contract/index.ts';
import { renameDestination } from './rename-destination.ts';

let server: Server | null = null;
afterEach(() => new Promise<void>((done) => (server === null ? done() : server.close(() => done()))));

const place = { kind: 'folder', path: '/media/CLIENT' } as const;
const disk: Destination = { name: 'disk', place, secret: null };
const book = {
  asked: [] as string[],
  async rename(name: string, to: string): Promise<Destination> {
    this.asked.push(`${name} ${to}`);
    return { ...disk, name: to };
  },
};

/** A station that answers every call so; what it was asked. */
async function stationThatSays(status: number, answer: object): Promise<{ url: string; asked: string[] }> {
  const asked: string[] = [];
  const bodyOf = async (request: IncomingMessage): Promise<string> =>
    Buffer.concat(await request.toArray()).toString();
  server = createServer((request, reply) => {
    void bodyOf(request).then((body) => {
      asked.push(`${request.method} ${request.url} ${body}`);
      reply.writeHead(status, { 'content-type': 'application/problem+json' }).end(JSON.stringify(answer));
    });
  });
  const listening = server;
  await new Promise<void>((done) => listening.listen(0, '127.0.0.1', done));
  // A server that listens on a port has such an address (Node.js documentation, server.address()).
  const { port } = listening.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}`, asked };
}

test('a station that runs renames, and says no while a delivery goes there: the book is left alone', async () => {
  const told = { type: 'about:blank', title: 'A delivery goes there', status: 409 };
  const busy = { ...told, detail: 'A delivery goes there.', code: 'destination-busy', cure: 'Wait for it.' };
  const { url, asked } = await stationThatSays(409, busy);
  await expect(renameDestination(url, book, disk, 'client')).rejects.toMatchObject({
    code: 'destination-busy',
  });
  expect(asked).toEqual([`PUT /api/v1/destinations/disk ${JSON.stringify({ place, name: 'client' })}`]);
  expect(book.asked).toEqual([]);
});

test('what the station renamed is given; without a station the book renames', async () => {
  const { url } = await stationThatSays(200, { ...disk, name: 'client' });
  expect((await renameDestination(url, book, disk, 'client')).name).toBe('client');
  expect(book.asked).toEqual([]);
  expect((await renameDestination(null, book, disk, 'client')).name).toBe('client');
  expect(book.asked).toEqual(['disk client']);
});
