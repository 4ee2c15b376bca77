import { afterEach, beforeEach, expect, test } from 'vitest';
import { eventFor } from './core/event-for.ts';
import { lookBytesMax } from './core/look-in-body.ts';
import { sampleFrame } from './testing/sample-frame.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench({ ownHosts: () => ['192.168.0.2'] });
  bench.desk.linkDesk.visitors.set('p'.repeat(28), { scope: 'pocket', name: 'phone', link: 'l-p' });
});
afterEach(() => bench.close());

const post = (url: string, payload: object | string, type = 'application/json') =>
  bench.app.inject({ method: 'POST', url: `/api/v1${url}`, payload, headers: { 'content-type': type } });

/** ASC CDL, release 1.2. */
const correction = (attributes: string) =>
  `<ColorCorrection ${attributes}><SatNode><Saturation>0.5</Saturation></SatNode></ColorCorrection>`;

test('a look is saved once: 201 with the version, then 200 with the one that is there', async () => {
  const first = await post('/looks', { version: 2, title: 'Evening', exposureEv: 1 });
  const again = await post('/looks', { version: 2, title: 'Evening', exposureEv: 1 });
  expect([first.statusCode, again.statusCode]).toEqual([201, 200]);
  expect(again.json()).toEqual(first.json());
  // What was left out is there, neutral.
  expect(first.json().document).toMatchObject({ exposureEv: 1, flare: 0, cdl: { slope: [1, 1, 1] } });
});

test('a look of an older version is read, and a name stands in place of a title', async () => {
  const old = { version: 1, title: 'Old', description: '', exposureEv: 0.5, curve: null };
  expect((await post('/looks', old)).json().document).toMatchObject({ version: 2, exposureEv: 0.5 });
  const named = await post('/looks?name=%20Dusk%20', { version: 2, title: 'x', exposureEv: 2 });
  expect(named.json()).toMatchObject({ name: 'Dusk', document: { title: 'Dusk' } });
});

test('a correction as XML becomes a look of its id; what is none is said to be none', async () => {
  const read = await post('/looks', correction('id="Muted"'), 'application/xml');
  expect(read.json()).toMatchObject({ name: 'Muted', document: { cdl: { saturation: 0.5 } } });
  const doctype = `<!DOCTYPE x [<!ENTITY a "b">]>${correction('id="M"')}`;
  const refused = await post('/looks', doctype, 'application/xml');
  expect(refused.json()).toMatchObject({
    status: 422,
    code: 'bad-look',
    finding: { code: 'look.xml-doctype' },
  });
  const broken = await post('/looks', '<ColorCorrection', 'text/xml');
  expect(broken.json()).toMatchObject({ status: 422, code: 'bad-look' });
});

test('a body up to the bound is read, one beyond is not', async () => {
  const padded = (bytes: number) => {
    const text = JSON.stringify({ version: 2, title: 'T' });
    return text.padEnd(bytes, ' ');
  };
  expect((await post('/looks', padded(lookBytesMax))).statusCode).toBe(201);
  expect((await post('/looks', padded(lookBytesMax + 1))).json()).toMatchObject({ code: 'too-large' });
  expect((await post('/looks', 'x', 'text/plain')).json()).toMatchObject({ code: 'not-json' });
});

test('using a look names a job, or frames; shots belong to a job', async () => {
  await post('/looks', { version: 2, title: 'Evening' });
  expect((await post('/looks/look1/use', { job: 'POTS', shots: ['mug'] })).json()).toEqual({ changed: 1 });
  expect((await post('/looks/look1/use', { shots: ['mug'] })).json()).toMatchObject({ code: 'bad-value' });
  expect((await post('/looks/look1/use', {})).json()).toMatchObject({ code: 'bad-value' });
  expect((await post('/looks/look2/use', { job: 'POTS' })).statusCode).toBe(404);
  expect(bench.desk.lookDesk.used.map(({ use }) => use)).toEqual([
    { job: 'POTS', shots: ['mug'] },
    { job: 'POTS' },
  ]);
});

test('a try is sent as it is, under the name of its look, and kept by nobody', async () => {
  const jpeg = Uint8Array.from([0xff, 0xd8, 0xff, 0xd9]);
  bench.desk.lookDesk.answer = { kind: 'picture', jpeg, hash: 'c'.repeat(64) };
  const answer = await post('/frames/f1/try?width=640&page=tab-1', { version: 2, title: 'T' });
  expect(new Uint8Array(answer.rawPayload)).toEqual(jpeg);
  expect(answer.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'cache-control': 'no-store',
    'setside-look': 'c'.repeat(64),
  });
  await post('/frames/f1/try', { version: 2, title: 'T' });
  const pages = bench.desk.lookDesk.tried.map(({ wish }) => wish.page);
  expect(new Set(pages).size).toBe(2);
  expect(bench.desk.lookDesk.tried[0]?.wish.width).toBe(640);
  for (const bad of ['width=15', 'width=4097', 'page=a%20b', 'look=x'])
    expect((await post(`/frames/f1/try?${bad}`, {})).json(), bad).toMatchObject({ code: 'bad-value' });
});

test('which look a frame is shown with, an operator alone may choose', async () => {
  const hash = 'd'.repeat(64);
  const jpeg = { kind: 'bytes', bytes: Uint8Array.from([0xff]) } as const;
  bench.desk.pictures.set('f1', { kind: 'picture', content: jpeg, contentType: 'image/jpeg', etag: 'e' });
  bench.desk.frameList.push(sampleFrame({ id: 'f1' }));
  const url = `/api/v1/frames/f1/picture?look=${hash}`;
  const fromAPhone = {
    remoteAddress: '192.168.0.9',
    headers: { host: '192.168.0.2:8461', cookie: `setside=${'p'.repeat(28)}` },
  };
  expect((await bench.app.inject({ url })).statusCode).toBe(200);
  expect((await bench.app.inject({ url, ...fromAPhone })).statusCode).toBe(200);
  const asked = bench.desk.asked.filter((each) => Array.isArray(each) && each[0] === 'picture');
  expect(asked).toEqual([
    ['picture', 'f1', { format: 'jpeg', look: hash }],
    ['picture', 'f1', { format: 'jpeg', look: undefined }],
  ]);
});

test('what happens to looks the operator hears alone', async () => {
  await post('/looks', { version: 2, title: 'Evening' });
  const [look] = bench.desk.lookDesk.list;
  if (look === undefined) throw new Error('one was saved');
  const event = { type: 'look', change: 'saved', look } as const;
  expect(eventFor({ scope: 'operator', name: 'o' }, event)).toEqual(event);
  expect(eventFor({ scope: 'pocket', name: 'p' }, event)).toBeNull();
  expect(eventFor({ scope: 'guest', name: 'g', share: { job: 'POTS', shots: [] } }, event)).toBeNull();
});
