import { afterEach, beforeEach, expect, test } from 'vitest';
import { framePage, type StationEvent } from '../contract/index.ts';
import { sampleJob } from '../contract/testing/sample-job.ts';
import { eventFor } from './core/event-for.ts';
import { mayCall, type Right, rights, rightTo } from './core/rights.ts';
import type { Scope } from './core/who.ts';
import { openApiPath } from './openapi.ts';
import { sampleFrame, sampleRemark } from './testing/sample-frame.ts';
import { type InjectAnswer, openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  // One call of each kind in one go is more than a stranger may make; that bound has its own tests.
  const limits = { strangerCallsAtOnceMax: 1000 };
  bench = await openWebBench({ ownHosts: () => ['192.168.0.2'], limits });
  everybodyComesIn();
});
afterEach(() => bench.close());

function everybodyComesIn(): void {
  const { visitors } = bench.desk.linkDesk;
  visitors.set('o'.repeat(28), { scope: 'operator', name: 'second screen', link: 'l-o' });
  visitors.set('p'.repeat(28), { scope: 'pocket', name: 'phone', link: 'l-p' });
  visitors.set('g'.repeat(28), {
    scope: 'guest',
    name: 'client',
    link: 'l-g',
    share: { job: 'POTS', shots: [] },
  });
}

const secrets: Readonly<Record<Scope, string>> = {
  operator: 'o'.repeat(28),
  pocket: 'p'.repeat(28),
  guest: 'g'.repeat(28),
};
const host = '192.168.0.2:8461';

/** A call from another device, in clear since nothing is under TLS without a socket. */
function call(scope: Scope | null, method: string, url: string, payload?: object): Promise<InjectAnswer> {
  return bench.app.inject({
    method: method as 'GET',
    url,
    remoteAddress: '192.168.0.9',
    headers: { host, ...(scope === null ? {} : { cookie: `setside=${secrets[scope]}` }) },
    ...(payload === undefined ? {} : { payload }),
  });
}

interface Route {
  readonly method: string;
  /** As OpenAPI writes it. */
  readonly path: string;
}

async function routes(): Promise<Route[]> {
  const { paths } = (await bench.app.inject(openApiPath)).json() as { paths: Record<string, object> };
  return Object.entries(paths).flatMap(([path, item]) =>
    Object.keys(item).map((method) => ({ method: method.toUpperCase(), path })),
  );
}

/** As the router writes it. */
const routePath = (path: string): string => path.replace(/\{(\w+)\}/g, ':$1');

function declared({ method, path }: Route): Right | undefined {
  return rights[`${method} ${routePath(path)}`];
}

/** An address of the route; what is not there is no matter, a refusal comes first. */
function addressOf({ path }: Route): string {
  return path.replace('{question}', 'sharp').replace(/\{(\w+)\}/g, 'x1');
}

const scopes: readonly Scope[] = ['guest', 'pocket', 'operator'];
const isShort = (right: Right, scope: Scope): boolean =>
  right !== 'anyone' &&
  scopes.indexOf(scope) <
    scopes.indexOf(typeof right !== 'string' ? 'pocket' : right === 'here' ? 'operator' : right);

test('every call says who may make it (a new one: decide in core/rights.ts)', async () => {
  const undecided = (await routes()).filter((route) => declared(route) === undefined);
  expect(undecided.map(({ method, path }) => `${method} ${path}`)).toEqual([]);
});

test('what is said of a call that is none any more is taken away', async () => {
  const gone = Object.keys(rights).filter((key) => {
    const [method = '', url = ''] = key.split(' ');
    return !bench.app.hasRoute({ method: method as 'GET', url });
  });
  expect(gone).toEqual([]);
});

test('a call that nobody decided about is the operator’s', () => {
  expect(rightTo('GET', '/api/v1/new')).toBe('operator');
  expect(rightTo('GET', undefined)).toBe('operator');
  expect(rightTo('HEAD', '/api/v1/station')).toBe('pocket');
});

test('every call refuses each scope that is too small, and whoever has no link, before anything is asked of the station', async () => {
  for (const route of await routes()) {
    const right = declared(route) ?? 'operator';
    if (right === 'anyone') continue;
    const name = `${route.method} ${route.path}`;
    const stranger = await call(null, route.method, addressOf(route));
    expect([stranger.statusCode, stranger.json().code], name).toEqual([403, 'link-needed']);
    for (const scope of scopes.filter((each) => each !== 'operator' && isShort(right, each))) {
      const answer = await call(scope, route.method, addressOf(route));
      expect([answer.statusCode, answer.json().code], `${scope}: ${name}`).toEqual([403, 'operator-only']);
    }
  }
  expect(bench.desk.asked).toEqual([]);
});

test('every call lets in the least scope that may make it', async () => {
  for (const route of await routes()) {
    const right = declared(route) ?? 'operator';
    if (['anyone', 'operator', 'here'].includes(String(right)) || route.path.endsWith('/events')) continue;
    // One of the calls is to go.
    everybodyComesIn();
    const answer = await call(
      typeof right === 'string' ? (right as Scope) : 'pocket',
      route.method,
      addressOf(route),
      {},
    );
    expect(answer.statusCode, `${route.method} ${route.path} ${answer.body}`).not.toBe(403);
  }
});

test('a guest may ask for this much, and a pocket for this much more', () => {
  const opento = (wanted: (right: Right) => boolean): string[] =>
    Object.entries(rights).flatMap(([key, right]) => (wanted(right) ? [key] : []));
  // Written by hand: whoever opens a call to them decides it here once more.
  expect(opento((right) => right === 'guest')).toEqual([
    'GET /',
    'GET /guest',
    'GET /api/v1/links/me',
    'DELETE /api/v1/links/me',
    'GET /api/v1/health',
    'GET /api/v1/events',
    'GET /api/v1/jobs/:job/agreements',
    'POST /api/v1/jobs/:job/shots/:shot/agreements',
    'DELETE /api/v1/jobs/:job/agreements/:agreement',
    'GET /api/v1/jobs/:job/contact-sheet.pdf',
    'GET /api/v1/frames',
    'GET /api/v1/frames/:id',
    'GET /api/v1/frames/:id/remarks',
    'POST /api/v1/frames/:id/remarks',
    'POST /api/v1/frames/:id/remarks/:remark/answers',
    'GET /api/v1/frames/:id/first-view',
    'GET /api/v1/frames/:id/picture',
  ]);
  expect(opento((right) => right === 'pocket' || typeof right !== 'string')).toEqual([
    'GET /pocket',
    'GET /clock',
    'GET /api/v1/station',
    'POST /api/v1/line/rehearsal',
    'GET /api/v1/jobs/:job',
    'PATCH /api/v1/jobs/:job',
    'GET /api/v1/jobs/:job/series',
    'GET /api/v1/jobs/:job/shots/:shot/layout',
    'GET /api/v1/client',
    'PUT /api/v1/client',
    'PATCH /api/v1/frames/:id',
    'PUT /api/v1/frames/:id/remarks/:remark/settled',
    'GET /api/v1/frames/:id/region',
  ]);
});

test('whoever has no link gets what is needed to come in by one, and nothing else', async () => {
  const open = Object.entries(rights).filter(([, right]) => right === 'anyone');
  expect(open.map(([key]) => key)).toEqual([
    'GET /in',
    'GET /assets/*',
    'GET /icon.svg',
    'POST /api/v1/links/enter',
    'GET /api/v1/station/certificate.pem',
    'GET /api/v1/station/certificate.crt',
  ]);
});

test('an operator’s link opens nothing in clear', async () => {
  for (const url of ['/', '/api/v1/station', '/api/v1/links/me']) {
    const answer = await call('operator', 'GET', url);
    expect([answer.statusCode, answer.json().code], url).toEqual([403, 'encrypted-only']);
  }
});

test('a pocket is told no password, no log-in, no folder of this computer and no address of a camera', async () => {
  bench.desk.frameList.push(
    sampleFrame({
      files: [
        {
          ...sampleFrame().files[0],
          places: [
            { folder: '/mnt/second', otherDevice: true, readBack: 'direct', at: '2026-10-01T08:04:09.020Z' },
          ],
        } as never,
      ],
    }),
  );
  const told = await Promise.all(
    ['/api/v1/station', '/api/v1/frames', '/api/v1/frames/f1', '/api/v1/jobs/POTS'].map((url) =>
      call('pocket', 'GET', url),
    ),
  );
  for (const answer of told) {
    expect(answer.statusCode).toBe(200);
    expect(answer.body).not.toMatch(/open-sesame|cam-a|\/mnt\/second|192\.0\.2\.1|"home":"home"/);
  }
  // The same asked by the operator holds them all: otherwise this test would prove nothing.
  const all = await Promise.all(['/api/v1/station', '/api/v1/frames'].map((url) => bench.app.inject(url)));
  expect(all.map(({ body }) => body).join()).toMatch(/open-sesame[\s\S]*\/mnt\/second/);
});

test('a pocket marks and moves frames and chooses the shot, and says no more than that', async () => {
  bench.desk.frameList.push(sampleFrame());
  expect((await call('pocket', 'PATCH', '/api/v1/frames/f1', { mark: 'hero' })).statusCode).toBe(200);
  expect((await call('pocket', 'PATCH', '/api/v1/frames/f1', { shot: 's2' })).statusCode).toBe(200);
  expect((await call('pocket', 'PATCH', '/api/v1/jobs/POTS', { currentShot: 's2' })).statusCode).toBe(200);
  bench.desk.asked.length = 0;
  for (const [url, body] of [
    ['/api/v1/frames/f1', { mark: 'hero', job: 'OTHER' }],
    ['/api/v1/jobs/POTS', { state: 'closed' }],
    ['/api/v1/jobs/POTS', { currentShot: 's2', title: 'Mine' }],
  ] as const) {
    const answer = await call('pocket', 'PATCH', url, body);
    expect([answer.statusCode, answer.json().code]).toEqual([403, 'operator-only']);
  }
  expect(bench.desk.asked).toEqual([]);
});

test('what a pocket chooses is noted under the name of its link', async () => {
  bench.desk.frameList.push(sampleFrame());
  await call('pocket', 'PATCH', '/api/v1/frames/f1', { mark: 'hero' });
  expect(bench.desk.asked.at(-1)).toMatchObject([
    'patchFrame',
    'f1',
    { mark: 'hero' },
    { who: { name: 'phone' } },
  ]);
});

test('a guest sees the pictures of the shared job that were chosen by mark or hand, without how they are judged', async () => {
  bench.desk.frameList.push(
    sampleFrame({ id: 'shared', job: 'POTS', mark: 'alternate' }),
    sampleFrame({ id: 'by-hand', job: 'POTS', share: 'shown' }),
    sampleFrame({ id: 'unmarked', job: 'POTS' }),
    sampleFrame({ id: 'kept-back', job: 'POTS', mark: 'hero', share: 'kept-back' }),
    sampleFrame({ id: 'out-shown', job: 'POTS', mark: 'out', share: 'shown' }),
    sampleFrame({ id: 'other', job: 'OTHER', mark: 'hero' }),
    sampleFrame({ id: 'aside', job: 'POTS', mark: 'out' }),
    sampleFrame({ id: 'target', job: 'POTS', mark: 'hero', purpose: 'target' }),
  );
  const page = (await call('guest', 'GET', '/api/v1/frames?job=OTHER')).json();
  expect(page.frames.map(({ id }: { id: string }) => id)).toEqual(['shared', 'by-hand']);
  expect(bench.desk.asked.at(-1)).toEqual(['frames', { job: 'POTS', limit: 100 }]);
  expect(page.frames[0]).toMatchObject({ readings: {}, verdicts: { arrived: { judgement: 'unknown' } } });
  for (const id of ['unmarked', 'kept-back', 'out-shown', 'other', 'aside', 'target', 'none']) {
    for (const part of ['', '/picture', '/first-view']) {
      expect((await call('guest', 'GET', `/api/v1/frames/${id}${part}`)).statusCode, id + part).toBe(404);
    }
  }
  expect((await call('guest', 'GET', '/api/v1/frames/shared')).statusCode).toBe(200);
});

test('a guest is not shown what is no picture, or not yet: a text, an empty file, one cut off', async () => {
  const reason = { code: 'x', args: {} };
  const size = { width: 3000, height: 2000, orientation: 1 };
  bench.desk.frameList.push(
    sampleFrame({ id: 'text', job: 'POTS', mark: 'hero', kind: 'text', picture: { state: 'none' } }),
    sampleFrame({
      id: 'cut',
      job: 'POTS',
      mark: 'hero',
      picture: { state: 'cannot', reason, preview: true, version: 1, ...size },
    }),
    sampleFrame({ id: 'shared', job: 'POTS', mark: 'hero' }),
  );
  const page = (await call('guest', 'GET', '/api/v1/frames')).json();
  expect(page.frames.map(({ id }: { id: string }) => id)).toEqual(['shared']);
  expect((await call('guest', 'GET', '/api/v1/frames/cut/first-view')).statusCode).toBe(404);
});

test('a guest is told of a frame what its page shows, and nothing else', async () => {
  bench.desk.frameList.push(
    sampleFrame({
      id: 'shared',
      job: 'POTS',
      slate: { code: 'x', args: {} },
      suggestedMark: 'out',
      mark: 'select',
      share: 'shown',
      remarks: [
        sampleRemark({ id: 'r1' }),
        sampleRemark({ id: 'r2', inside: true, text: 'to the assistant' }),
      ],
    }),
  );
  const told = framePage.parse((await call('guest', 'GET', '/api/v1/frames')).json()).frames[0];
  expect(told).toMatchObject({ slate: null, suggestedMark: null, share: null, camera: '', counter: null });
  expect(told?.remarks).toEqual([{ ...sampleRemark({ id: 'r1' }), by: { ...sampleRemark().by, link: '' } }]);
  expect(told?.capture).toMatchObject({ exposureTimeS: null, fNumber: null });
  expect(told?.times).toMatchObject({ shutter: '2026-10-01T08:04:05.120Z', kept: null });
  expect(told?.files).toMatchObject([{ size: 0, sha256: null }]);
});

test('a guest of two shots sees those shots only', async () => {
  bench.desk.linkDesk.visitors.set(secrets.guest, {
    scope: 'guest',
    name: 'client',
    link: 'l-g',
    share: { job: 'POTS', shots: ['mug'] },
  });
  for (const shot of ['mug', 'jug', null])
    bench.desk.frameList.push(sampleFrame({ id: `f-${shot}`, job: 'POTS', shot, mark: 'select' }));
  const { frames } = (await call('guest', 'GET', '/api/v1/frames')).json();
  expect(frames.map(({ id }: { id: string }) => id)).toEqual(['f-mug']);
});

test('a guest gets a contact sheet of what is shared, and others than the operator the client’s copy', async () => {
  for (const code of ['POTS', 'QM-26']) bench.desk.jobList.push(sampleJob({ code }));
  const sheet = (scope: Scope, query = '', job = 'POTS'): Promise<InjectAnswer> =>
    call(scope, 'GET', `/api/v1/jobs/${job}/contact-sheet.pdf${query}`);
  const share = { job: 'POTS', shots: ['mug'] };
  bench.desk.linkDesk.visitors.set(secrets.guest, { scope: 'guest', name: 'client', link: 'l-g', share });
  for (const query of ['', '?copy=own', '?shot=mug']) {
    expect((await sheet('guest', query)).statusCode).toBe(200);
    expect(bench.desk.asked.at(-1)).toMatchObject([
      'contactSheet',
      'POTS',
      { forClient: true, forGuest: { shots: ['mug'] } },
    ]);
  }
  const { length } = bench.desk.asked;
  expect((await sheet('guest', '?shot=jug')).json()).toMatchObject({ code: 'not-found' });
  expect((await sheet('guest', '', 'QM-26')).json()).toMatchObject({ code: 'not-found' });
  expect(JSON.stringify(bench.desk.asked.slice(length))).not.toContain('contactSheet');
  expect((await sheet('pocket', '?copy=own')).statusCode).toBe(200);
  expect(bench.desk.asked.at(-1)).toMatchObject([
    'contactSheet',
    'POTS',
    { forClient: true, forGuest: null },
  ]);
  for (const paper of ['papers', 'report.pdf', 'report'])
    expect((await call('guest', 'GET', `/api/v1/jobs/POTS/${paper}`)).statusCode).toBe(403);
});

test('each scope that opens the first page is led to its own', async () => {
  expect((await call('guest', 'GET', '/')).headers.location).toBe('/guest');
  expect((await call('pocket', 'GET', '/')).headers.location).toBe('/pocket');
});

test('what reads folders of the station’s computer is for who sits at it: no link opens it, an operator’s neither', () => {
  const link = { scope: 'operator', name: 'second screen', link: 'l-o' } as const;
  expect(rightTo('POST', '/api/v1/cards')).toBe('here');
  expect(mayCall('here', { scope: 'operator', name: 'operator' })).toBe(true);
  expect(mayCall('here', link)).toBe(false);
  expect(mayCall('operator', link)).toBe(true);
  // Nor is it told to one.
  const event = { type: 'card', check: {} } as StationEvent;
  expect(eventFor({ scope: 'operator', name: 'operator' }, event)).toBe(event);
  expect(eventFor(link, event)).toBeNull();
  const papers: StationEvent = { type: 'papers', job: 'QM-26', contactSheets: [] };
  for (const scope of ['pocket', 'guest'] as const) expect(eventFor({ ...link, scope }, papers)).toBeNull();
  expect(eventFor({ scope: 'operator', name: 'operator' }, papers)).toBe(papers);
  for (const method of ['GET', 'POST', 'DELETE']) expect(rightTo(method, '/api/v1/bags')).toBe('here');
  expect(rightTo('POST', '/api/v1/bags/check')).toBe('here');
  expect(eventFor(link, { type: 'bag', work: {} } as StationEvent)).toBeNull();
});
