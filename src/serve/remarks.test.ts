import { afterEach, beforeEach, expect, test } from 'vitest';
import { agreementList, remarkCharactersMax, remarkList } from '../contract/index.ts';
import { sampleAgreement } from '../contract/testing/sample-job.ts';
import { defaultWebLimits } from './core/limits.ts';
import { sampleFrame, sampleRemark } from './testing/sample-frame.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
let nowMs: number;
beforeEach(async () => {
  nowMs = 0;
  bench = await openWebBench({ ownHosts: () => ['192.168.0.2'], now: () => nowMs });
  const { visitors } = bench.desk.linkDesk;
  visitors.set('p'.repeat(28), { scope: 'pocket', name: 'phone', link: 'l-p' });
  const share = { job: 'POTS', shots: ['mug'] };
  visitors.set('g'.repeat(28), { scope: 'guest', name: 'client', link: 'l-g', share });
  bench.desk.frameList.push(
    sampleFrame({
      id: 'f1',
      job: 'POTS',
      shot: 'mug',
      mark: 'hero',
      remarks: [sampleRemark({ id: 'r1' }), sampleRemark({ id: 'r2', inside: true })],
    }),
    sampleFrame({ id: 'unmarked', job: 'POTS', shot: 'mug' }),
    sampleFrame({ id: 'jug', job: 'POTS', shot: 'jug', mark: 'hero' }),
  );
});
afterEach(() => bench.close());

type Caller = 'guest' | 'pocket';

function call(caller: Caller, method: string, url: string, payload?: object): Promise<InjectAnswer> {
  return bench.app.inject({
    method: method as 'GET',
    url: `/api/v1${url}`,
    remoteAddress: '192.168.0.9',
    headers: { host: '192.168.0.2:8461', cookie: `setside=${(caller === 'guest' ? 'g' : 'p').repeat(28)}` },
    ...(payload === undefined ? {} : { payload }),
  });
}

/** The calls of these names that the station was asked. */
function askedBy(...names: readonly string[]): unknown[] {
  return bench.desk.asked.filter((asked) => Array.isArray(asked) && names.includes(String(asked[0])));
}

const remark = { id: 'remark-0001', name: 'Ada', point: { x: 0.5, y: 0 }, text: 'brighter' };
const pictures = [{ frame: 'f1', look: '', profile: null }];
const word = { id: 'word-000001', name: 'Ada', pictures };

test('a guest says something of a picture that is shared, and hears what is for guests', async () => {
  const answer = await call('guest', 'POST', '/frames/f1/remarks', remark);
  expect(answer.statusCode).toBe(200);
  expect(remarkList.parse(answer.json()).remarks.map(({ id }) => id)).toEqual(['r1']);
  expect(bench.desk.asked).toContainEqual([
    'remark',
    'f1',
    remark,
    expect.objectContaining({ scope: 'guest', name: 'client' }),
  ]);
  const told = await call('guest', 'GET', '/frames/f1/remarks');
  expect(told.json().remarks).toMatchObject([{ id: 'r1', by: { name: 'Ada', link: '' } }]);
  const inside = await call('pocket', 'GET', '/frames/f1/remarks');
  expect(inside.json().remarks).toHaveLength(2);
});

test('of a frame that is not shared, or not any more, a guest hears and says nothing', async () => {
  for (const id of ['unmarked', 'jug', 'none']) {
    const said = await call('guest', 'POST', `/frames/${id}/remarks`, remark);
    expect([said.statusCode, said.json().code], id).toEqual([404, 'not-found']);
    expect((await call('guest', 'GET', `/frames/${id}/remarks`)).statusCode, id).toBe(404);
    const answer = { id: 'answer-0001', name: 'Ada', text: 'so' };
    expect((await call('guest', 'POST', `/frames/${id}/remarks/r1/answers`, answer)).statusCode).toBe(404);
  }
  expect(askedBy('remark', 'answerRemark')).toEqual([]);
});

test('markup and what a terminal would act on come through as text, or are taken out; line ends are LF', async () => {
  const text = '<img src=x onerror=alert(1)>\r\n\u001b[31mred\u0007';
  await call('guest', 'POST', '/frames/f1/remarks', { ...remark, text });
  expect(askedBy('remark')).toMatchObject([
    ['remark', 'f1', { text: '<img src=x onerror=alert(1)>\n[31mred' }, {}],
  ]);
});

test.each([
  ['the longest text', { text: 'x'.repeat(remarkCharactersMax) }, 200],
  ['a longer one', { text: 'x'.repeat(remarkCharactersMax + 1) }, 400],
  ['one of spaces', { text: '  \n ' }, 400],
  ['one of nothing but control characters', { text: '\u0007' }, 400],
  ['a point beyond the picture', { point: { x: 1.01, y: 0 } }, 400],
  ['the whole picture', { point: null }, 200],
  ['a short id', { id: 'r' }, 400],
  ['an id that is a path', { id: '../../../../etc' }, 400],
  ['a field that is none', { html: true }, 400],
  ['a name of 60 characters', { name: 'x'.repeat(60) }, 200],
  ['a longer name', { name: 'x'.repeat(61) }, 400],
])('%s', async (_what, parts, status) => {
  expect((await call('guest', 'POST', '/frames/f1/remarks', { ...remark, ...parts })).statusCode).toBe(
    status,
  );
});

test('a guest settles nothing; a pocket does', async () => {
  const settle = (caller: Caller): Promise<InjectAnswer> =>
    call(caller, 'PUT', '/frames/f1/remarks/r1/settled', { settled: true });
  expect((await settle('guest')).json().code).toBe('operator-only');
  expect((await settle('pocket')).statusCode).toBe(200);
});

test('one link says so much at once and then so much a second, remarks and agreements together', async () => {
  bench.desk.remarkDesk.given.set('POTS', []);
  const say = (index: number): Promise<InjectAnswer> =>
    index % 2 === 0
      ? call('guest', 'POST', '/frames/f1/remarks', remark)
      : call('guest', 'POST', '/jobs/POTS/shots/mug/agreements', word);
  for (let index = 0; index < defaultWebLimits.wordsAtOnceMax; index++) {
    expect((await say(index)).statusCode, String(index)).toBe(200);
  }
  const refused = await say(0);
  expect([refused.statusCode, refused.json().code, refused.headers['retry-after']]).toEqual([
    429,
    'too-many-calls',
    '2',
  ]);
  expect((await call('pocket', 'POST', '/frames/f1/remarks', remark)).statusCode).toBe(200);
  nowMs += 1000 / defaultWebLimits.wordsPerSecondMax;
  expect((await say(1)).statusCode).toBe(200);
  expect((await say(1)).statusCode).toBe(429);
});

test('a guest agrees to shared shots of the shared job, and hears of those only', async () => {
  bench.desk.remarkDesk.given.set('POTS', [sampleAgreement(), sampleAgreement({ id: 'a2', shot: 'jug' })]);
  bench.desk.remarkDesk.given.set('OTHER', []);
  const answer = await call('guest', 'POST', '/jobs/POTS/shots/mug/agreements', word);
  expect(answer.statusCode).toBe(200);
  expect(agreementList.parse(answer.json()).agreements.map(({ id }) => id)).toEqual(['a1']);
  bench.desk.asked.length = 0;
  for (const [method, url] of [
    ['POST', '/jobs/POTS/shots/jug/agreements'],
    ['POST', '/jobs/OTHER/shots/mug/agreements'],
    ['DELETE', '/jobs/OTHER/agreements/a1'],
    ['GET', '/jobs/OTHER/agreements'],
    ['GET', '/jobs/NONE/agreements'],
  ] as const) {
    const refused = await call('guest', method, url, method === 'POST' ? word : undefined);
    expect([refused.statusCode, refused.json().code], url).toEqual([404, 'not-found']);
  }
  expect(bench.desk.asked).toEqual([]);
  expect((await call('pocket', 'GET', '/jobs/POTS/agreements')).json().agreements).toHaveLength(2);
});
