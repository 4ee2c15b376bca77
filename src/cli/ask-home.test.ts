import { once } from 'node:events';
import { mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { sampleStation } from '../page/testing/sample-frame.ts';
import { askHome } from './ask-home.ts';
import { findStation, findStationIfAny } from './find-station.ts';

let folder: string;
let server: Server | null = null;
beforeEach(async () => {
  folder = await realpath(await mkdtemp(join(tmpdir(), 'ask-home-')));
});
afterEach(async () => {
  server?.closeAllConnections();
  await new Promise((done) => (server === null ? done(null) : server.close(done)));
  server = null;
  await rm(folder, { recursive: true, force: true });
});

/** What answers instead of a station, one answer for each call; null: never. */
async function answering(...answers: readonly ({ status: number; body: unknown } | null)[]): Promise<string> {
  let call = 0;
  server = createServer((_request, response) => {
    const answer = answers[Math.min(call, answers.length - 1)];
    call += 1;
    if (answer === null || answer === undefined) return;
    response.writeHead(answer.status, { 'content-type': 'application/json' });
    response.end(JSON.stringify(answer.body));
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  await writeFile(join(folder, 'station.address'), `${address}\n`);
  return address;
}

const stationOf = (home: string) => ({ status: 200, body: { ...sampleStation(), home } });
const failure = {
  status: 503,
  body: {
    type: 'about:blank',
    status: 503,
    code: 'busy',
    title: 'It is busy',
    detail: 'It is busy.',
    cure: null,
  },
};

test('a station that gives no answer the first time is asked once more', async () => {
  const address = await answering(failure, stationOf(folder));
  expect(await askHome(address, folder)).toEqual({ is: 'this' });
});

test('one that never answers is silent, and not gone: why is told', async () => {
  const address = await answering(null);
  expect(await askHome(address, folder, [100, 200])).toEqual({
    is: 'silent',
    why: 'no answer within 0.2 seconds',
  });
});

test('one that has trouble of its own is there: the command says so and does not tell to start it', async () => {
  await answering(failure);
  const asked = findStation({ home: folder });
  await expect(asked).rejects.toMatchObject({
    code: 'station-silent',
    message: expect.stringMatching(/gave no answer.*It is busy/),
    cure: expect.not.stringMatching(/Start it/),
  });
  await expect(findStationIfAny({ home: folder })).rejects.toMatchObject({ code: 'station-silent' });
});

test('another home’s station, another program and nobody at all are no station of this one, each told as what it is', async () => {
  const address = await answering(stationOf('/somewhere/else'));
  await expect(findStation({ home: folder })).rejects.toMatchObject({
    code: 'no-station',
    message: expect.stringContaining('another: of /somewhere/else'),
  });
  expect(await findStationIfAny({ home: folder })).toBeNull();
  await new Promise((done) => server?.close(done));
  // Twice, since a connection that was kept open breaks off first.
  expect(await askHome(address, folder)).toEqual({ is: 'gone', why: 'nobody listens there' });
  await expect(findStation({ home: folder })).rejects.toMatchObject({ code: 'no-station' });
  expect(await askHome(await answering({ status: 404, body: 'no' }), folder)).toMatchObject({
    is: 'gone',
  });
});

test('an address that nothing can be asked at is no station’s', async () => {
  expect(await askHome('http://127.0.0.1:9', folder)).toMatchObject({ is: 'gone' });
});
