import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { sampleStrike } from '../contract/testing/sample-strike.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeAll(async () => {
  bench = await openWebBench();
});
afterAll(() => bench.close());
beforeEach(() => {
  bench.desk.asked.length = 0;
  bench.desk.failure = undefined;
});

const state = 'a'.repeat(64);

function send(method: 'GET' | 'PUT' | 'POST' | 'DELETE', url: string, payload?: object, headers = {}) {
  return bench.app.inject({
    method,
    url: `/api/v1${url}`,
    headers,
    ...(payload === undefined ? {} : { payload }),
  });
}

test('the check of a job comes with the job’s version, of the open one where none is named', async () => {
  const answer = await send('GET', '/strike?job=POTS');
  expect(answer.json()).toEqual(sampleStrike({ job: 'POTS' }));
  expect(answer.headers.etag).toBe('"1"');
  await send('GET', '/strike');
  expect(bench.desk.asked).toEqual([
    ['strike', 'POTS'],
    ['strike', null],
  ]);
  expect((await send('GET', '/strike?job=NONE')).json()).toMatchObject({ status: 404, code: 'not-found' });
});

test('what people say reaches the desk with who says it and the version that was seen', async () => {
  const match = { 'if-match': '"3"' };
  const by = { who: expect.anything(), ifVersion: [3] };
  await send('PUT', '/jobs/POTS/strike/numbers/cam1', { counter: 412, prefix: 'ST' }, match);
  await send('DELETE', '/jobs/POTS/strike/numbers/cam1?prefix=ST', undefined, match);
  await send(
    'POST',
    '/jobs/POTS/strike/explained',
    { line: 'strike.gap', name: ' Ada ', reason: 'so' },
    match,
  );
  await send('DELETE', '/jobs/POTS/strike/explained?line=strike.gap', undefined, match);
  await send('PUT', '/jobs/POTS/strike/signature', { name: 'Ada', state }, match);
  await send('DELETE', '/jobs/POTS/strike/signature', undefined, match);
  expect(bench.desk.asked).toEqual([
    ['setLastNumber', 'POTS', 'cam1', { counter: 412, prefix: 'ST' }, by],
    ['lastNumberGone', 'POTS', 'cam1', 'ST', by],
    ['explainLine', 'POTS', { line: 'strike.gap', name: 'Ada', reason: 'so' }, by],
    ['lineUnexplained', 'POTS', 'strike.gap', by],
    ['sign', 'POTS', { name: 'Ada', state }, by],
    ['signatureGone', 'POTS', by],
  ]);
});

test.each([
  ['numbers/cam1', 'PUT', { counter: 0 }],
  ['numbers/cam1', 'PUT', { counter: 10_000 }],
  ['numbers/cam1', 'PUT', { counter: 1.5 }],
  ['explained', 'POST', { line: 'strike.gap', name: 'Ada', reason: '  ' }],
  ['explained', 'POST', { line: 'strike.gap', name: '', reason: 'so' }],
  ['signature', 'PUT', { name: 'Ada', state: 'seen' }],
  ['signature', 'PUT', { name: 'Ada' }],
] as const)('a value that is none is named: %s %s %o', async (path, method, payload) => {
  expect((await send(method, `/jobs/POTS/strike/${path}`, payload)).json()).toMatchObject({
    status: 400,
    code: 'bad-value',
  });
  expect(bench.desk.asked).toEqual([]);
});

test('a job that is not there is said to be none, whatever is said of it', async () => {
  expect((await send('PUT', '/jobs/NONE/strike/signature', { name: 'Ada', state })).statusCode).toBe(404);
  expect((await send('PUT', '/jobs/NONE/strike/numbers/cam1', { counter: 1 })).statusCode).toBe(404);
});
