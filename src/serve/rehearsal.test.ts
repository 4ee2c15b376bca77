import { afterEach, beforeEach, expect, test } from 'vitest';
import { rehearsalBytesMax } from './routes/rehearsal-routes.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench({ ownHosts: () => ['192.168.0.2'] });
  const { visitors } = bench.desk.linkDesk;
  visitors.set('p'.repeat(28), { scope: 'pocket', name: 'phone', link: 'l-p' });
  visitors.set('g'.repeat(28), {
    scope: 'guest',
    name: 'client',
    link: 'l-g',
    share: { job: 'POTS', shots: [] },
  });
});
afterEach(() => bench.close());

const send = (letter: 'p' | 'g', bytes: number): Promise<InjectAnswer> =>
  bench.app.inject({
    method: 'POST',
    url: '/api/v1/line/rehearsal',
    remoteAddress: '192.168.0.9',
    headers: {
      host: '192.168.0.2:8461',
      cookie: `setside=${letter.repeat(28)}`,
      'content-type': 'application/octet-stream',
    },
    payload: Buffer.alloc(bytes, 7),
  });

test('a pocket’s bytes are counted, and one test after another is taken', async () => {
  for (const bytes of [2_000_000, rehearsalBytesMax]) {
    const answer = await send('p', bytes);
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({ bytes });
  }
});

test('a guest may not, more than the bound is refused, and so is nothing', async () => {
  expect((await send('g', 10)).statusCode).toBe(403);
  expect((await send('p', rehearsalBytesMax + 1)).statusCode).toBe(413);
  expect((await send('p', 0)).statusCode).toBe(400);
  // What was refused leaves no test under way.
  expect((await send('p', 10)).statusCode).toBe(200);
});

test('while one device tries the way another is told to wait', async () => {
  const answers = await Promise.all([send('p', 2_000_000), send('p', 2_000_000)]);
  expect(answers.map(({ statusCode }) => statusCode).sort()).toEqual([200, 503]);
  expect((await send('p', 10)).statusCode).toBe(200);
});
