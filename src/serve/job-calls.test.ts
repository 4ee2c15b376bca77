import { afterEach, beforeEach, expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import { jobLimits } from '../job/index.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;

beforeEach(async () => {
  bench = await openWebBench();
});

afterEach(() => bench.close());

const lists = '/api/v1/jobs/POTS/shots/import';

function send(
  method: 'POST' | 'PATCH' | 'PUT' | 'DELETE',
  url: string,
  payload?: string | object | Buffer,
  headers: Readonly<Record<string, string>> = {},
): Promise<InjectAnswer> {
  return bench.app.inject({ method, url, headers, ...(payload === undefined ? {} : { payload }) });
}

function takeIn(body: Buffer, type = 'text/csv'): Promise<InjectAnswer> {
  return send('POST', lists, body, { 'content-type': type });
}

test('a list of the most bytes there may be is taken and one of a byte more is not', async () => {
  expect((await takeIn(Buffer.alloc(jobLimits.shotListBytesMax, ' '))).statusCode).toBe(200);
  expect((await takeIn(Buffer.alloc(jobLimits.shotListBytesMax + 1, ' '))).json()).toMatchObject({
    status: 413,
    code: 'too-large',
  });
});

test('a list is CSV or JSON by its media type, and of any other it is none', async () => {
  await takeIn(Buffer.from('name\nMug\n'), 'text/csv; charset=windows-1252');
  await takeIn(Buffer.from('{"shots":[{"name":" Mug ","description":"a\\r\\nb"}]}'), 'application/json');
  expect(bench.desk.asked.map((call) => (Array.isArray(call) ? call[2] : null))).toMatchObject([
    { kind: 'csv' },
    { kind: 'json', list: { shots: [{ line: 1, shot: { name: 'Mug', description: 'a\nb' } }] } },
  ]);
  expect((await takeIn(Buffer.from('name\nMug\n'), 'text/plain')).statusCode).toBe(415);
  // One that is wrong is named in the report, as a line of a table is.
  await takeIn(Buffer.from('{"shots":[{"names":"Mug"}]}'), 'application/json');
  expect(bench.desk.asked.at(-1)).toMatchObject({ 2: { list: { shots: [], bad: [{ line: 1 }] } } });
});

test('a change names the version that was seen, and the answer the one it made', async () => {
  const answer = await send('PATCH', '/api/v1/jobs/POTS', { title: 'x' }, { 'if-match': '"7", "8"' });
  expect(answer.headers.etag).toBe('"1"');
  expect(bench.desk.asked).toMatchObject([['patchJob', 'POTS', { title: 'x' }, { ifVersion: [7, 8] }]]);
});

test('a job or a shot that is not there is 404 at each of its addresses', async () => {
  const plain = { title: 'x' };
  for (const answer of [
    await send('PATCH', '/api/v1/jobs/NONE', plain),
    await send('POST', '/api/v1/jobs/NONE/shots', { name: 'Mug' }),
    await send('PATCH', '/api/v1/jobs/NONE/shots/a', { name: 'Mug' }),
    await send('DELETE', '/api/v1/jobs/NONE/shots/a'),
    await send('PUT', '/api/v1/jobs/NONE/order', { shots: [] }),
    await send('POST', '/api/v1/jobs/NONE/shots/a/baseline', { frame: 'f1' }),
    await send('POST', '/api/v1/jobs/NONE/targets', { frame: 'f1' }),
    await send('DELETE', '/api/v1/jobs/NONE/targets/f1'),
    await bench.app.inject('/api/v1/jobs/NONE/series'),
    await bench.app.inject('/api/v1/jobs/NONE/shots/export'),
  ]) {
    expect(answer.json()).toMatchObject({ status: 404, code: 'not-found' });
  }
});

test.each([
  ['no-shot', 400],
  ['bad-job-code', 400],
  ['bad-words', 400],
  ['bad-tolerance', 400],
  ['bad-order', 400],
  ['bad-text', 400],
  ['job-exists', 409],
  ['job-finished', 409],
  ['too-many-shots', 409],
  ['too-many-baselines', 409],
  ['too-many-targets', 409],
  ['target-not-read', 409],
  ['bad-scale', 400],
  ['no-such-tolerance-set', 400],
  ['no-such-numbers', 400],
  ['no-such-line', 409],
  ['strike-not-ready', 409],
  ['strike-changed', 409],
  ['verdict-is-good', 409],
  ['undo-overtaken', 409],
  ['act-taken-back', 409],
  ['has-frames', 409],
  ['version-changed', 412],
] as const)('what the rules refuse as %s leaves as %d', async (code, status) => {
  bench.desk.failure = new SetsideError(code, 'a message for the log, with /home/somebody in it');
  const answer = await send('PATCH', '/api/v1/jobs/POTS', { title: 'x' });
  expect(answer.json()).toMatchObject({ status, code });
  expect(answer.body).not.toContain('somebody');
});

test('nothing is taken back where there is nothing, and a word too many is a mistake', async () => {
  expect((await send('POST', '/api/v1/undo', {})).json()).toMatchObject({
    status: 409,
    code: 'nothing-to-undo',
  });
  expect((await send('POST', '/api/v1/undo', { all: true })).statusCode).toBe(400);
});
