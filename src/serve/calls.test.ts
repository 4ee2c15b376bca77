import { afterEach, beforeEach, expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import {
  brokenArrivalList,
  type FrameReadings,
  framePage,
  jobList,
  problem,
  station,
} from '../contract/index.ts';
import { bodyBytesMax } from './assembly.ts';
import { pageFramesMax } from './routes/frame-routes.ts';
import { sampleFrame } from './testing/sample-frame.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

const operator = { scope: 'operator', name: 'operator' };

/** Holds an answer against RFC 9457: media type, status repeated in the body, and our own stable members. */
function expectProblem(answer: InjectAnswer, status: number, code: string): void {
  expect(answer.headers['content-type']).toBe('application/problem+json');
  expect(problem.parse(answer.json())).toMatchObject({ type: 'about:blank', status, code });
  expect(answer.statusCode).toBe(status);
}

test('the station is told as the operator may see it', async () => {
  const answer = await bench.app.inject('/api/v1/station');
  expect(answer.statusCode).toBe(200);
  expect(answer.headers['content-type']).toBe('application/json; charset=utf-8');
  expect(station.parse(answer.json()).cameras[0]?.password).toBe('open-sesame');
  expect(bench.desk.asked).toEqual([['station', true]]);
});

test('the root certificate is given as PEM and as DER, to be saved under its own name', async () => {
  bench.desk.root = {
    name: 'Setside station 3f9a2c authority',
    pem: 'PEM\n',
    der: Uint8Array.of(0x30, 0x00),
  };
  const pem = await bench.app.inject('/api/v1/station/certificate.pem');
  expect([pem.statusCode, pem.body, pem.headers['content-type']]).toEqual([
    200,
    'PEM\n',
    'application/pem-certificate-chain',
  ]);
  expect(pem.headers['content-disposition']).toContain('filename="setside-station-3f9a2c-authority.pem"');
  const der = await bench.app.inject('/api/v1/station/certificate.crt');
  expect([der.statusCode, [...der.rawPayload], der.headers['content-type']]).toEqual([
    200,
    [0x30, 0x00],
    'application/pkix-cert',
  ]);
});

test('a station without TLS has no certificate to give', async () => {
  expectProblem(await bench.app.inject('/api/v1/station/certificate.pem'), 404, 'not-found');
});

test('health answers without asking the station', async () => {
  const answer = await bench.app.inject('/api/v1/health');
  expect(answer.json()).toEqual({ status: 'ok', version: '0.0.0-test' });
  expect(bench.desk.asked).toEqual([]);
});

test('jobs are listed, and one is found by its code', async () => {
  expect(jobList.parse((await bench.app.inject('/api/v1/jobs')).json()).jobs).toHaveLength(1);
  expect((await bench.app.inject('/api/v1/jobs/POTS')).json()).toMatchObject({ code: 'POTS' });
  expectProblem(await bench.app.inject('/api/v1/jobs/NONE'), 404, 'not-found');
});

test('frames are paged by cursor until there are no more', async () => {
  for (let n = 0; n < 5; n += 1) bench.desk.frameList.push(sampleFrame({ id: `f${n}` }));
  const seen: string[] = [];
  let after = '';
  for (;;) {
    const answer = await bench.app.inject(`/api/v1/frames?limit=2${after}`);
    const page = framePage.parse(answer.json());
    seen.push(...page.frames.map((each) => each.id));
    if (page.next === null) break;
    after = `&after=${encodeURIComponent(page.next)}`;
  }
  expect(seen).toEqual(['f0', 'f1', 'f2', 'f3', 'f4']);
});

test('every filter of frames reaches the desk, the limit as a number, 100 where it is left out', async () => {
  await bench.app.inject('/api/v1/frames?job=POTS&shot=s1&camera=A&mark=hero&limit=7');
  await bench.app.inject('/api/v1/frames');
  expect(bench.desk.asked).toEqual([
    ['frames', { job: 'POTS', shot: 's1', camera: 'A', mark: 'hero', limit: 7 }],
    ['frames', { limit: 100 }],
  ]);
});

test('a limit of 1 and of the most passes, one outside does not and is named', async () => {
  for (const limit of [1, pageFramesMax]) {
    expect((await bench.app.inject(`/api/v1/frames?limit=${limit}`)).statusCode).toBe(200);
  }
  for (const limit of ['0', String(pageFramesMax + 1), '-1', '1.5', 'x', '']) {
    const answer = await bench.app.inject(`/api/v1/frames?limit=${limit}`);
    expectProblem(answer, 400, 'bad-value');
    expect(answer.json().errors).toMatchObject([{ where: 'querystring/limit' }]);
  }
  expectProblem(await bench.app.inject('/api/v1/frames?limit=1&limit=2'), 400, 'bad-value');
  expectProblem(await bench.app.inject('/api/v1/frames?mark=best'), 400, 'bad-value');
});

test('names have up to 120 characters, cursors up to 256', async () => {
  const status = async (query: string): Promise<number> =>
    (await bench.app.inject(`/api/v1/frames?${query}`)).statusCode;
  for (const name of ['job', 'shot', 'camera']) {
    expect(await status(`${name}=${'x'.repeat(120)}`)).toBe(200);
    expect(await status(`${name}=${'x'.repeat(121)}`)).toBe(400);
    expect(await status(`${name}=`)).toBe(400);
  }
  expect(await status(`after=${'0'.repeat(256)}`)).toBe(200);
  expect(await status(`after=${'0'.repeat(257)}`)).toBe(400);
});

test('an id of 128 characters is looked up', async () => {
  await bench.app.inject(`/api/v1/frames/${'x'.repeat(128)}`);
  expect(bench.desk.asked).toEqual([['frame', 'x'.repeat(128)]]);
});

test('a cursor that the desk does not know is a bad request, with a cure', async () => {
  const answer = await bench.app.inject('/api/v1/frames?after=stale');
  expectProblem(answer, 400, 'bad-cursor');
  expect(answer.json().cure).toBe('Begin again without "after".');
});

test('one frame carries its version as its entity tag', async () => {
  bench.desk.frameList.push(sampleFrame({ version: 7 }));
  const answer = await bench.app.inject('/api/v1/frames/f1');
  expect(answer.json()).toMatchObject({ id: 'f1', version: 7 });
  expect(answer.headers.etag).toBe('"7"');
  expectProblem(await bench.app.inject('/api/v1/frames/f2'), 404, 'not-found');
});

test('an id that could not be one is not found, and never reaches the desk', async () => {
  for (const id of ['..', '..%2f..%2fetc%2fpasswd', 'a%00b', '%20', 'a b', 'x'.repeat(129)]) {
    expectProblem(await bench.app.inject(`/api/v1/frames/${id}/picture`), 404, 'not-found');
  }
  expect(bench.desk.asked).toEqual([]);
});

const patch = (payload: string, headers: Record<string, string> = {}): Promise<InjectAnswer> =>
  bench.app.inject({
    method: 'PATCH',
    url: '/api/v1/frames/f1',
    payload,
    headers: { 'content-type': 'application/json', ...headers },
  });

test('a mark is given to the desk with who chose it, and the changed frame comes back', async () => {
  bench.desk.frameList.push(sampleFrame());
  const answer = await patch('{"mark":"hero"}');
  expect(answer.json()).toMatchObject({ id: 'f1', mark: 'hero', version: 2 });
  expect(answer.headers.etag).toBe('"2"');
  expect(bench.desk.asked).toEqual([
    ['patchFrame', 'f1', { mark: 'hero' }, { who: operator, ifVersion: 'any' }],
  ]);
});

test('If-Match guards a change: the seen version passes, another is 412 and changes nothing (RFC 9110 13.1.1)', async () => {
  bench.desk.frameList.push(sampleFrame({ version: 3 }));
  expectProblem(await patch('{"mark":"hero"}', { 'if-match': '"2"' }), 412, 'version-changed');
  expectProblem(await patch('{"mark":"hero"}', { 'if-match': 'W/"3"' }), 412, 'version-changed');
  expect(bench.desk.frameList[0]?.mark).toBe('none');
  expect((await patch('{"mark":"hero"}', { 'if-match': '"2", "3"' })).statusCode).toBe(200);
  expect((await patch('{"mark":"out"}', { 'if-match': '*' })).statusCode).toBe(200);
});

test('a body that is not what may be changed is refused and named', async () => {
  bench.desk.frameList.push(sampleFrame());
  for (const body of [
    '{"mark":"best"}',
    '{"name":"x"}',
    '{"mark":"hero","version":1}',
    '[]',
    '"hero"',
    'null',
  ]) {
    expectProblem(await patch(body), 400, 'bad-value');
  }
  for (const body of ['', '{', '{"mark":"hero"', '{"__proto__":{"mark":"hero"}}']) {
    expectProblem(await patch(body), 400, 'bad-request');
  }
  expect(bench.desk.asked).toEqual([]);
});

test('a body of another type is 415, one over the limit is 413, one at the limit is read', async () => {
  bench.desk.frameList.push(sampleFrame());
  for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x']) {
    expectProblem(await patch('mark=hero', { 'content-type': type }), 415, 'not-json');
  }
  const body = (size: number): string => `{"mark":"hero"${' '.repeat(size - 15)}}`;
  expect((await patch(body(bodyBytesMax))).statusCode).toBe(200);
  expectProblem(await patch(body(bodyBytesMax + 1)), 413, 'too-large');
});

test('files that broke off are listed, and let go by the operator', async () => {
  bench.desk.broken.push({
    id: 'a1',
    camera: 'A',
    name: 'ABCD0013.DNG',
    frame: null,
    size: 100,
    expectedSize: 200,
    brokenOff: '2026-10-01T08:05:00.000Z',
  });
  const list = await bench.app.inject('/api/v1/arrivals');
  expect(brokenArrivalList.parse(list.json()).arrivals).toHaveLength(1);
  const gone = await bench.app.inject({ method: 'DELETE', url: '/api/v1/arrivals/a1' });
  expect(gone.statusCode).toBe(204);
  expect(gone.body).toBe('');
  expectProblem(await bench.app.inject({ method: 'DELETE', url: '/api/v1/arrivals/a1' }), 404, 'not-found');
});

test('an address that exists answers another method with 405 and what is possible (RFC 9110 15.5.6)', async () => {
  const cases: readonly [method: 'POST' | 'PUT' | 'DELETE' | 'OPTIONS', url: string, allow: string][] = [
    ['POST', '/api/v1/station', 'GET, HEAD'],
    ['PUT', '/api/v1/frames/f1', 'GET, HEAD, PATCH'],
    ['OPTIONS', '/api/v1/arrivals/a1', 'DELETE'],
    ['POST', '/api/v1/events', 'GET'],
    ['DELETE', '/', 'GET, HEAD'],
    ['POST', '/api/openapi.json', 'GET, HEAD'],
  ];
  for (const [method, url, allow] of cases) {
    const answer = await bench.app.inject({ method, url });
    expectProblem(answer, 405, 'method-not-allowed');
    expect(answer.headers.allow).toBe(allow);
    expect(answer.json()).toMatchObject({ detail: `${method} is not possible here. Possible: ${allow}.` });
  }
});

test('an address that nothing is at is 404, one that cannot be decoded is 400', async () => {
  for (const url of [
    '/api',
    '/api/v1',
    '/api/v2/station',
    '/api/v1/frames/f1/',
    '/nothing',
    '/api/v1/frames/a/b/c',
  ]) {
    expectProblem(await bench.app.inject(url), 404, 'not-found');
  }
  expectProblem(await bench.app.inject({ method: 'POST', url: '/nothing' }), 404, 'not-found');
  expectProblem(await bench.app.inject('/api/v1/frames/%zz'), 400, 'bad-request');
});

test('a failure in the station is a plain 500: the log gets everything, the caller no path, stack or message', async () => {
  const secret = '/home/somebody/setside/jobs';
  for (const failure of [
    new Error(`EIO: ${secret}`),
    new SetsideError('keep-broken', secret),
    'a string',
    null,
  ]) {
    bench.desk.failure = failure ?? Object.assign(new Error(secret), { statusCode: 'x' });
    const answer = await bench.app.inject('/api/v1/frames');
    expectProblem(answer, 500, 'internal');
    expect(answer.body).not.toContain('somebody');
    expect(answer.body).not.toMatch(/\bat .*:\d+:\d+/);
    expect(bench.log.at(-1)).toMatchObject({ level: 'error', event: 'request-failed' });
  }
});

test('a known code of another room gets its status, and its message stays here', async () => {
  bench.desk.failure = new SetsideError('disk-full', 'writing /home/somebody/x');
  const answer = await bench.app.inject('/api/v1/frames');
  expectProblem(answer, 507, 'disk-full');
  expect(answer.body).not.toContain('somebody');
});

test('an answer of the desk that breaks the contract is our failure, not the caller’s', async () => {
  bench.desk.frameList.push({ ...sampleFrame(), version: 1.5 });
  expectProblem(await bench.app.inject('/api/v1/frames/f1'), 500, 'internal');
});

test('what the contract does not name never leaves, even where the desk hands it over', async () => {
  bench.desk.frameList.push({ ...sampleFrame(), ...{ path: '/home/somebody' } });
  const answer = await bench.app.inject('/api/v1/frames/f1');
  expect(answer.statusCode).toBe(200);
  expect(answer.body).not.toContain('somebody');
});

test('a camera is changed by name, and one that is not there is 404', async () => {
  const { app, desk } = bench;
  const change = { method: 'PATCH', headers: { 'content-type': 'application/json' } } as const;
  const answer = await app.inject({ ...change, url: '/api/v1/cameras/A', payload: '{"expects":"both"}' });
  expect([answer.statusCode, answer.json().expects]).toEqual([200, 'both']);
  expect(desk.asked).toContainEqual(['patchCamera', 'A', { expects: 'both' }]);
  const stranger = await app.inject({ ...change, url: '/api/v1/cameras/B', payload: '{"quiet":true}' });
  expectProblem(stranger, 404, 'not-found');
  const wrong = await app.inject({ ...change, url: '/api/v1/cameras/A', payload: '{"quiet":false}' });
  expectProblem(wrong, 400, 'bad-value');
});

test('readings of a frame are told as they are, and a frame that is none is said to be none', async () => {
  const readings: FrameReadings = {
    frame: 'f1',
    version: 3,
    source: null,
    goodEdgePx: 2.8,
    badEdgePx: 4.5,
    sharp: null,
    exposed: null,
    light: null,
    depth: { missing: ['distance'], field: null },
    target: null,
  };
  bench.desk.readingsOf.set('f1', readings);
  expect((await bench.app.inject('/api/v1/frames/f1/readings')).json()).toEqual(readings);
  expectProblem(await bench.app.inject('/api/v1/frames/f2/readings'), 404, 'not-found');
});
