import { createHash } from 'node:crypto';
import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { dataPolicy } from './security-headers.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

const alphabet = 'abcdefghijklmnopqrstuvwxyz';
/** SHA-256 of the alphabet: NESSIE test vectors, SHA-256, set 1, message "abcdefghijklmnopqrstuvwxyz" (from memory). */
const alphabetSha256 = '71c480df93d6ae2f1efad1447c66c9525e316218cf51fc8d9ed832f2daf18b73';
const url = '/api/v1/frames/f1/files/ABCD0012.DNG';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
  await give('ABCD0012.DNG', alphabet);
});
afterEach(() => bench.close());

async function give(name: string, text: string, parts: { sizeBytes?: number } = {}): Promise<void> {
  const path = join(bench.dir, 'original');
  await writeFile(path, text);
  bench.desk.originals.set(`f1/${name}`, {
    path,
    sizeBytes: parts.sizeBytes ?? text.length,
    sha256: createHash('sha256').update(text).digest('hex'),
  });
}

const get = (headers: Record<string, string> = {}, method: 'GET' | 'HEAD' = 'GET') =>
  bench.app.inject({ method, url, headers });

test('an original is sent byte for byte, to be saved and never run', async () => {
  const answer = await get();
  expect(answer.statusCode).toBe(200);
  expect(answer.body).toBe(alphabet);
  expect(answer.headers).toMatchObject({
    'content-type': 'application/octet-stream',
    'content-length': '26',
    'accept-ranges': 'bytes',
    'content-disposition': `attachment; filename="ABCD0012.DNG"; filename*=UTF-8''ABCD0012.DNG`,
    'x-content-type-options': 'nosniff',
    'content-security-policy': dataPolicy,
    'cache-control': 'private, no-cache',
    etag: `"${alphabetSha256}"`,
  });
});

test('its digest proves the bytes (RFC 9530 section 3: base64 of SHA-256 between colons)', async () => {
  const answer = await get();
  const digest = createHash('sha256').update(answer.rawPayload).digest('base64');
  expect(answer.headers['repr-digest']).toBe(`sha-256=:${digest}:`);
});

test('one range gives that part, both ends included (RFC 9110 section 14.2)', async () => {
  const cases: readonly [range: string, body: string, contentRange: string][] = [
    ['bytes=0-2', 'abc', 'bytes 0-2/26'],
    ['bytes=25-', 'z', 'bytes 25-25/26'],
    ['bytes=-3', 'xyz', 'bytes 23-25/26'],
    ['bytes=20-999', 'uvwxyz', 'bytes 20-25/26'],
    ['bytes=0-25', alphabet, 'bytes 0-25/26'],
  ];
  for (const [range, body, contentRange] of cases) {
    const answer = await get({ range });
    expect(answer.statusCode, range).toBe(206);
    expect(answer.body, range).toBe(body);
    expect(answer.headers['content-range']).toBe(contentRange);
    expect(answer.headers['content-length']).toBe(String(body.length));
  }
});

test('a range past the end is 416 and says how long the file is (RFC 9110 section 15.5.17)', async () => {
  for (const range of ['bytes=26-', 'bytes=-0', 'bytes=30-40']) {
    const answer = await get({ range });
    expect(answer.statusCode, range).toBe(416);
    expect(answer.headers['content-range']).toBe('bytes */26');
    expect(answer.headers['content-type']).toBe('application/problem+json');
    expect(answer.json()).toMatchObject({ status: 416, code: 'bad-range' });
    expect(answer.headers).not.toHaveProperty('content-disposition');
    expect(answer.headers['cache-control']).toBe('no-store');
  }
});

test('several ranges, another unit and nonsense get the whole file (RFC 9110 section 14.2)', async () => {
  const many = `bytes=${'0-0,'.repeat(2000)}1-1`;
  for (const range of ['bytes=0-1,3-4', 'lines=0-1', 'bytes=5-2', 'nonsense', many]) {
    const answer = await get({ range });
    expect(answer.statusCode, range).toBe(200);
    expect(answer.body, range).toBe(alphabet);
  }
});

test('If-Range gives the part of these very bytes, else the whole (RFC 9110 section 13.1.5)', async () => {
  const range = 'bytes=0-2';
  expect((await get({ range, 'if-range': `"${alphabetSha256}"` })).statusCode).toBe(206);
  for (const other of ['"other"', `W/"${alphabetSha256}"`, 'Sat, 29 Oct 1994 19:43:31 GMT']) {
    expect((await get({ range, 'if-range': other })).statusCode, other).toBe(200);
  }
});

test('HEAD tells the whole length whatever range is asked for, and opens no file (RFC 9110 sections 9.3.2, 14.2)', async () => {
  bench.desk.originals.set('f1/ABCD0012.DNG', {
    path: join(bench.dir, 'not-there'),
    sizeBytes: 26,
    sha256: alphabetSha256,
  });
  const answer = await get({ range: 'bytes=0-2' }, 'HEAD');
  expect(answer.statusCode).toBe(200);
  expect(answer.headers['content-length']).toBe('26');
  expect(answer.rawPayload).toHaveLength(0);
});

test('a caller that has it is told so in 304', async () => {
  const answer = await get({ 'if-none-match': `"${alphabetSha256}"`, range: 'bytes=0-2' });
  expect(answer.statusCode).toBe(304);
  expect(answer.body).toBe('');
});

test('an empty original is an empty answer', async () => {
  await give('ABCD0012.DNG', '');
  const answer = await get();
  expect(answer.statusCode).toBe(200);
  expect(answer.headers['content-length']).toBe('0');
  expect((await get({ range: 'bytes=0-' })).statusCode).toBe(416);
});

test('a file whose size on disk is not what the station recorded is not sent at all', async () => {
  for (const sizeBytes of [25, 27]) {
    await give('ABCD0012.DNG', alphabet, { sizeBytes });
    const answer = await get();
    expect(answer.statusCode).toBe(500);
    expect(answer.body).not.toContain(bench.dir);
    expect(bench.log.at(-1)).toMatchObject({
      event: 'request-failed',
      details: { code: 'original-changed' },
    });
  }
});

test('a name that climbs, holds a separator, a control character or too many bytes is not found and never looked up', async () => {
  const names = [
    '..%2f..%2fetc%2fpasswd',
    '..%5c..%5cx',
    '%2e%2e',
    '%2e%2e%2fx',
    '%252e%252e%252fx',
    'a%2fb',
    'a%5cb',
    'a%00.DNG',
    'a%0d%0ab',
    '%7f',
    'x'.repeat(256),
    encodeURIComponent('€'.repeat(86)),
  ];
  for (const name of names) {
    const answer = await bench.app.inject(`/api/v1/frames/f1/files/${name}`);
    expect(answer.statusCode, name).toBe(404);
    expect(answer.headers['content-type'], name).toBe('application/problem+json');
  }
  // Decoded once only: %252e is the text "%2e", a harmless name that no frame has.
  expect(bench.desk.asked).toEqual([['original', 'f1', '%2e%2e%2fx']]);
  await bench.app.inject('/api/v1/frames/f1/files/../../../../../../etc/passwd');
  expect(bench.desk.asked).toHaveLength(1);
});

test('a name of 255 bytes, of any script, is looked up as it is', async () => {
  for (const name of ['x'.repeat(255), '€'.repeat(85), 'Schloß Übersee.DNG', 'a%b.DNG', '…']) {
    await give(name, alphabet);
    const answer = await bench.app.inject(`/api/v1/frames/f1/files/${encodeURIComponent(name)}`);
    expect(answer.statusCode, name).toBe(200);
    expect(answer.body).toBe(alphabet);
  }
});

test('an original that is gone from the disk is answered 404 with what to do, and is no failure in the log', async () => {
  await rm(join(bench.dir, 'original'));
  const answer = await get();
  expect(answer.statusCode).toBe(404);
  expect(answer.json()).toMatchObject({ code: 'not-found', finding: { code: 'picture.original-gone' } });
  expect(answer.json().detail).toMatch(/not on the disk any more\. Keep the card/);
  expect(answer.headers['repr-digest']).toBeUndefined();
});
