import { once } from 'node:events';
import { get } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import { regionEdgeMax, regionEdgeMin, regionPlaceMax } from './routes/region-routes.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0xd9]);
const url = '/api/v1/frames/f1/region';
const place = 'left=512&top=0&width=512&height=256';

function giveRegion(): void {
  bench.desk.regions.set('f1', {
    kind: 'picture',
    content: { kind: 'bytes', bytes },
    contentType: 'image/jpeg',
    etag: 'abc-512-0-512-256-1-jpeg',
    source: 'preview',
  });
}

test('a region is sent with its tag and where its pixels come from', async () => {
  giveRegion();
  const answer = await bench.app.inject(`${url}?${place}`);
  expect(answer.statusCode).toBe(200);
  expect(new Uint8Array(answer.rawPayload)).toEqual(bytes);
  expect(answer.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'setside-source': 'preview',
    etag: '"abc-512-0-512-256-1-jpeg"',
    'cache-control': 'private, no-cache',
  });
  const headers = { 'if-none-match': String(answer.headers.etag) };
  expect((await bench.app.inject({ url: `${url}?${place}`, headers })).statusCode).toBe(304);
});

test('place, size, scale and format reach the desk; pixel for pixel as JPEG where they are left out', async () => {
  await bench.app.inject(`${url}?${place}`);
  await bench.app.inject(`${url}?${place}&scale=0.25&format=png`);
  const region = { leftPx: 512, topPx: 0, widthPx: 512, heightPx: 256 };
  expect(bench.desk.asked).toEqual([
    ['region', 'f1', { ...region, scale: 1, format: 'jpeg' }],
    ['region', 'f1', { ...region, scale: 0.25, format: 'png' }],
  ]);
});

test('places and sizes are bounded on both sides, scales are halvings', async () => {
  giveRegion();
  const status = async (query: string): Promise<number> =>
    (await bench.app.inject(`${url}?${query}`)).statusCode;
  const region = (left: number, width: number, more = ''): string =>
    `left=${left}&top=0&width=${width}&height=${width}${more}`;
  for (const query of [
    region(0, regionEdgeMin),
    region(0, regionEdgeMax),
    region(regionPlaceMax, 512),
    region(0, 512, '&scale=0.125'),
  ])
    expect(await status(query), query).toBe(200);
  for (const query of [
    region(0, regionEdgeMin - 1),
    region(0, regionEdgeMax + 1),
    region(-1, 512),
    region(regionPlaceMax + 1, 512),
    region(0.5, 512),
    region(0, 512, '&scale=0.3'),
    region(0, 512, '&scale=2'),
    region(0, 512, '&format=svg'),
    'left=0&top=0&width=512',
    '',
  ])
    expect(await status(query), query).toBe(400);
});

test('what the desk refuses comes as its own problem', async () => {
  const finding = { code: 'picture.not-yet', args: { name: 'X.DNG' } };
  bench.desk.regions.set('f1', { kind: 'none', finding });
  expect((await bench.app.inject(`${url}?${place}`)).json()).toMatchObject({
    status: 404,
    code: 'no-picture',
    finding,
  });
  expect((await bench.app.inject(`/api/v1/frames/f2/region?${place}`)).json()).toMatchObject({
    status: 404,
    code: 'not-found',
  });
  for (const [code, status] of [
    ['region-outside', 400],
    ['busy', 503],
  ] as const) {
    bench.desk.failure = new SetsideError(code, 'told nobody');
    const answer = await bench.app.inject(`${url}?${place}`);
    expect(answer.json()).toMatchObject({ status, code });
    expect(answer.headers['setside-source']).toBeUndefined();
  }
});

test('a caller that hangs up takes its wish back, and that is no failure', async () => {
  const hungUp = new Promise<void>((resolve) => {
    bench.desk.regionLeft = resolve;
  });
  bench.desk.regionGate = new Promise(() => undefined);
  await bench.app.listen({ host: '127.0.0.1', port: 0 });
  // A listening TCP server has an AddressInfo; the string form is for pipes.
  const { port } = bench.app.server.address() as AddressInfo;
  const request = get({ host: '127.0.0.1', port, path: `${url}?${place}` });
  request.on('error', () => undefined);
  const asked = bench.desk.nextAsked();
  await once(request, 'finish');
  await asked;
  request.destroy();
  await hungUp;
  // One more answer, so that the one before has been dealt with.
  expect((await bench.app.inject('/api/v1/health')).statusCode).toBe(200);
  expect(bench.log.filter(({ level }) => level === 'error')).toEqual([]);
});
