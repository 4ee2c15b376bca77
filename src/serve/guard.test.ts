import { afterEach, beforeEach, expect, test } from 'vitest';
import { dataPolicy, pagePolicy } from './security-headers.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

test('whoever is not on this computer is refused everything, and told where links come from', async () => {
  for (const remoteAddress of ['192.168.0.7', '10.1.2.3', '::ffff:192.168.0.7', 'fe80::1']) {
    for (const url of [
      '/api/v1/station',
      '/api/v1/events',
      '/api/openapi.json',
      '/nothing',
      '/',
      '/pocket',
      '/index.html',
    ]) {
      const answer = await bench.app.inject({ url, remoteAddress });
      expect(answer.statusCode, url).toBe(403);
      expect(answer.json(), url).toMatchObject({ code: 'link-needed' });
      expect(answer.json().cure).toContain('link');
    }
  }
  expect(bench.desk.asked).toEqual([]);
});

test('a person who opens the page from elsewhere gets a page, not data', async () => {
  const headers = { accept: 'text/html,application/xhtml+xml,*/*;q=0.8' };
  const answer = await bench.app.inject({ url: '/', remoteAddress: '192.168.0.7', headers });
  expect(answer.statusCode).toBe(403);
  expect(answer.headers['content-type']).toBe('text/html; charset=utf-8');
  expect(answer.body).toContain('Ask the operator for a link');
});

test('no header can make somebody loopback', async () => {
  const headers = { 'x-forwarded-for': '127.0.0.1', forwarded: 'for=127.0.0.1', 'x-real-ip': '::1' };
  const answer = await bench.app.inject({ url: '/api/v1/station', remoteAddress: '192.168.0.7', headers });
  expect(answer.statusCode).toBe(403);
});

test('loopback by any of its addresses is the operator', async () => {
  for (const remoteAddress of ['127.0.0.1', '127.0.0.2', '::1', '::ffff:127.0.0.1']) {
    expect((await bench.app.inject({ url: '/api/v1/station', remoteAddress })).statusCode).toBe(200);
  }
});

test('a name that a foreign name server points here is refused (DNS rebinding), ours pass with any port', async () => {
  for (const host of ['localhost', 'localhost:8460', '127.0.0.1:1', '[::1]:8460']) {
    expect((await bench.app.inject({ url: '/api/v1/station', headers: { host } })).statusCode, host).toBe(
      200,
    );
  }
  for (const host of ['evil.example', 'evil.example:8460', 'localhost.evil.example', '192.168.0.7:8460']) {
    const answer = await bench.app.inject({ url: '/api/v1/station', headers: { host } });
    expect(answer.statusCode, host).toBe(421);
    expect(answer.json()).toMatchObject({ code: 'wrong-host' });
  }
});

test('a change sent by a foreign page is refused, and our own page’s is not', async () => {
  const send = (origin: string): Promise<InjectAnswer> =>
    bench.app.inject({
      method: 'PATCH',
      url: '/api/v1/frames/f1',
      payload: { mark: 'hero' },
      headers: { host: 'localhost:8460', origin },
    });
  for (const origin of ['http://evil.example', 'null', 'http://localhost:3000']) {
    const answer = await send(origin);
    expect(answer.statusCode, origin).toBe(403);
    expect(answer.json()).toMatchObject({ code: 'foreign-page' });
  }
  expect(bench.desk.asked).toEqual([]);
  expect((await send('http://localhost:8460')).statusCode).toBe(404);
  expect(bench.desk.asked).toHaveLength(1);
});

test('no answer ever lets another origin read it (no CORS)', async () => {
  const headers = { host: 'localhost:8460', origin: 'http://localhost:8460' };
  for (const method of ['GET', 'OPTIONS'] as const) {
    const answer = await bench.app.inject({ method, url: '/api/v1/station', headers });
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control-'))).toEqual([]);
  }
});

test('every answer carries the protecting headers, errors of every kind included', async () => {
  const urls = [
    '/api/v1/station',
    '/api/v1/frames/none',
    '/nothing',
    '/api/v1/frames/%zz',
    '/api/openapi.json',
    '/',
  ];
  for (const url of urls) {
    for (const remoteAddress of ['127.0.0.1', '192.168.0.7']) {
      const { headers } = await bench.app.inject({ url, remoteAddress });
      expect(headers, url).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-embedder-policy': 'require-corp',
        'cross-origin-resource-policy': 'same-origin',
        'cache-control': 'no-store',
      });
      const isPage = url === '/' && remoteAddress === '127.0.0.1';
      expect(headers['content-security-policy'], url).toBe(isPage ? pagePolicy : dataPolicy);
    }
  }
});

test('the policies forbid everything first, framing and foreign bases included (CSP Level 3)', () => {
  for (const policy of [pagePolicy, dataPolicy]) {
    const directives = policy.split('; ');
    expect(directives).toContain("default-src 'none'");
    expect(directives).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
  }
  expect(pagePolicy.split('; ')).toContain("base-uri 'none'");
});
