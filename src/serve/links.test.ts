import { afterEach, beforeEach, expect, test } from 'vitest';
import { link, madeLink, visitor } from '../contract/index.ts';
import { defaultWebLimits } from './core/limits.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

const token = 'a'.repeat(28);
let bench: WebBench;
let nowMs = 0;
beforeEach(async () => {
  nowMs = 1_000_000;
  bench = await openWebBench({ ownHosts: () => ['192.168.0.2'], now: () => nowMs });
  bench.desk.linkDesk.visitors.set(token, { scope: 'pocket', name: 'phone', link: 'l1' });
});
afterEach(() => bench.close());

function enter(tried: string, remoteAddress = '192.168.0.9', headers: object = {}): Promise<InjectAnswer> {
  return bench.app.inject({
    method: 'POST',
    url: '/api/v1/links/enter',
    remoteAddress,
    headers: { host: '192.168.0.2:8461', ...headers },
    payload: { token: tried },
  });
}

const me = (cookie: string): Promise<InjectAnswer> =>
  bench.app.inject({
    url: '/api/v1/links/me',
    remoteAddress: '192.168.0.9',
    headers: { host: '192.168.0.2:8461', cookie },
  });

test('a token is exchanged for a cookie that scripts cannot read and no other site sends (RFC 6265bis)', async () => {
  const answer = await enter(token);
  expect(visitor.parse(answer.json())).toMatchObject({ scope: 'pocket', name: 'phone', encrypted: false });
  const cookie = String(answer.headers['set-cookie']);
  expect(cookie.split('; ').slice(1).sort()).toEqual([
    'HttpOnly',
    'Max-Age=3600',
    'Path=/',
    'SameSite=Strict',
  ]);
  expect((await me(cookie.split(';')[0] ?? '')).json()).toMatchObject({ scope: 'pocket' });
});

test('a wrong token gets one answer whatever is wrong with it, and no cookie', async () => {
  for (const wrong of ['b'.repeat(28), 'x', 'a'.repeat(27), '../../etc/passwd']) {
    const answer = await enter(wrong);
    expect([answer.statusCode, answer.json().code]).toEqual([403, 'no-such-link']);
    expect(answer.headers['set-cookie']).toBeUndefined();
  }
});

test('guessing is bounded: after ten wrong tokens of a place none is looked at for a while, a right one neither', async () => {
  const { wrongTokensPerMinuteMax } = defaultWebLimits;
  for (let n = 0; n < wrongTokensPerMinuteMax; n += 1)
    expect((await enter(`wrong-${n}`)).statusCode).toBe(403);
  const refused = await enter(token);
  expect([refused.statusCode, refused.json().code, refused.headers['retry-after']]).toEqual([
    429,
    'too-many-tries',
    '60',
  ]);
  expect((await enter(token, '192.168.0.10')).statusCode).toBe(200);
  nowMs += 60_000;
  expect((await enter(token)).statusCode).toBe(200);
});

test('right tokens do not count against the place', async () => {
  for (let n = 0; n < 3 * defaultWebLimits.wrongTokensPerMinuteMax; n += 1) {
    nowMs += 300;
    expect((await enter(token)).statusCode).toBe(200);
  }
});

test('addresses of one IPv6 network are one place (RFC 6177)', async () => {
  for (let n = 0; n < defaultWebLimits.wrongTokensPerMinuteMax; n += 1)
    await enter('wrong', `fd00:1:2:3::${n + 1}`);
  expect((await enter(token, 'fd00:1:2:3:ffff::1')).statusCode).toBe(429);
  expect((await enter(token, 'fd00:1:2:4::1')).statusCode).toBe(200);
});

test('one link may call so often at once and no more, and other links are not kept waiting', async () => {
  bench.desk.linkDesk.visitors.set('b'.repeat(28), { scope: 'pocket', name: 'other', link: 'l2' });
  for (let n = 0; n < defaultWebLimits.callsAtOnceMax; n += 1) await me(`setside=${token}`);
  const refused = await me(`setside=${token}`);
  expect([refused.statusCode, refused.json().code, refused.headers['retry-after']]).toEqual([
    429,
    'too-many-calls',
    '1',
  ]);
  expect((await me(`setside=${'b'.repeat(28)}`)).statusCode).toBe(200);
  nowMs += 1000;
  expect((await me(`setside=${token}`)).statusCode).toBe(200);
});

test('an address without a link may call so often at once and no more; this computer is not counted', async () => {
  const status = async (remoteAddress: string): Promise<number> =>
    (await bench.app.inject({ url: '/api/v1/health', remoteAddress })).statusCode;
  for (let n = 0; n < defaultWebLimits.strangerCallsAtOnceMax; n += 1)
    expect(await status('192.168.0.9')).toBe(403);
  expect(await status('192.168.0.9')).toBe(429);
  expect(await status('192.168.0.10')).toBe(403);
  for (let n = 0; n < defaultWebLimits.strangerCallsAtOnceMax + 5; n += 1)
    expect(await status('127.0.0.1')).toBe(200);
});

test('an operator’s token is not taken in clear', async () => {
  bench.desk.linkDesk.visitors.set(token, { scope: 'operator', name: 'screen', link: 'l1' });
  const answer = await enter(token);
  expect([answer.statusCode, answer.json().code]).toEqual([403, 'ended-in-clear']);
  expect(answer.json().cure).toContain('new one');
  expect(answer.headers['set-cookie']).toBeUndefined();
});

test('a device that goes holds nothing any more', async () => {
  const answer = await bench.app.inject({
    method: 'DELETE',
    url: '/api/v1/links/me',
    remoteAddress: '192.168.0.9',
    headers: { host: '192.168.0.2:8461', cookie: `setside=${token}` },
  });
  expect(answer.statusCode).toBe(204);
  expect(answer.headers['set-cookie']).toContain('Max-Age=0');
  expect((await me(`setside=${token}`)).statusCode).toBe(403);
});

test('the operator makes links for a guest with what is shared, for others without, and ends them', async () => {
  const make = (payload: object): Promise<InjectAnswer> =>
    bench.app.inject({ method: 'POST', url: '/api/v1/links', payload });
  const made = madeLink.parse((await make({ scope: 'pocket', name: 'phone' })).json());
  expect(link.parse(made.link).scope).toBe('pocket');
  expect((await make({ scope: 'guest', name: 'client', share: { job: 'POTS', shots: [] } })).statusCode).toBe(
    201,
  );
  expect((await make({ scope: 'guest', name: 'client' })).statusCode).toBe(400);
  expect((await make({ scope: 'pocket', name: 'p', share: { job: 'POTS', shots: [] } })).statusCode).toBe(
    400,
  );
  for (const minutes of [0, 31 * 24 * 60 + 1]) {
    expect((await make({ scope: 'pocket', name: 'p', minutes })).statusCode).toBe(400);
  }
  expect((await make({ scope: 'pocket', name: 'p', minutes: 31 * 24 * 60 })).statusCode).toBe(201);
  expect((await bench.app.inject({ method: 'DELETE', url: '/api/v1/links/l1' })).statusCode).toBe(204);
  expect((await me(`setside=${token}`)).json().code).toBe('link-needed');
});

test('a page in clear cannot speak for one under TLS, nor a foreign one for either (CSRF)', async () => {
  const headers = { origin: 'https://192.168.0.2:8461' };
  expect((await enter(token, '192.168.0.9', headers)).json().code).toBe('foreign-page');
  expect((await enter(token, '192.168.0.9', { origin: 'http://evil.example' })).json().code).toBe(
    'foreign-page',
  );
  expect((await enter(token, '192.168.0.9', { origin: 'http://192.168.0.2:8461' })).statusCode).toBe(200);
});

test('another device may call this computer by its own names only (DNS rebinding)', async () => {
  expect((await enter(token, '192.168.0.9', { host: 'evil.example:8461' })).statusCode).toBe(421);
});
