import { execFile } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ActEntry, Frame, Job, Look, LookWithVersions } from '../../src/contract/index.ts';
import { defaultLook, lookHash, lookSchema } from '../../src/look/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { madeRaw } from './made-raw.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

/** Looks that nobody mistakes for one another: brighter by stops. */
const bright = (exposureEv: number, title = 'Bright') => ({
  ...{ version: 2, title, exposureEv, curve: defaultLook.curve },
});
/** The name of a document, worked out here and not by the station. */
const hashOf = (document: unknown): string => lookHash(lookSchema.parse(document));

/** ASC CDL, release 1.2: a ColorCorrection that doubles and takes all colour away. */
const correction = `<?xml version="1.0" encoding="UTF-8"?>
<ColorCorrection id="Grey doubled" xmlns="urn:ASC:CDL:v1.2">
  <SOPNode><Slope>2 2 2</Slope><Offset>0 0 0</Offset><Power>1 1 1</Power></SOPNode>
  <SatNode><Saturation>0</Saturation></SatNode>
</ColorCorrection>`;

describe.skipIf(!hasProgram('curl'))('looks that are kept', () => {
  let home: string;
  let station: RunningStation;
  let frame: Frame;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await call('POST', '/jobs', { code: 'QM-26', open: true, title: 'Autumn' });
    for (const [name, look] of [
      ['Mug', 'bright'],
      ['Jug', undefined],
      ['Bowl', undefined],
    ] as const)
      await call('POST', '/jobs/QM-26/shots', { name, ...(look === undefined ? {} : { look }) });
    const file = join(home, 'QMST0001.DNG');
    await writeFile(file, madeRaw({ sigmaPx: 1, ev: -2 }));
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0001.DNG')).code).toBe(0);
    frame = await eventually('it is rendered', async () =>
      (await station.frames()).find(({ picture }) => picture.state === 'rendered'),
    );
  }, 120_000);

  afterAll(async () => {
    await station?.stop();
    await removeHome(home);
  });

  test('a look of which none is kept is a wish: it is told, and the plain look is shown', async () => {
    expect(frame.look).toEqual({
      ...{ own: null, id: null, name: 'Plain', version: null, from: 'shot', wish: 'bright' },
      hash: lookHash(defaultLook),
    });
    expect(lookIn(frame)).toBe(lookHash(defaultLook));
    expect((await shotOf('mug')).lookId).toBeNull();
  });

  let first: Look;
  test('saved, it is version 1 of its name, and whatever waited for it has it, pictures too', async () => {
    const before = await meanOf(frame);
    const answer = await send('POST', '/looks', bright(1));
    expect(answer.status).toBe(201);
    first = (await answer.json()) as Look;
    expect(first).toMatchObject({ name: 'Bright', version: 1, hash: hashOf(bright(1)), laidAside: false });
    expect(first.document).toEqual(lookSchema.parse(bright(1)));
    expect(await shotOf('mug')).toMatchObject({ look: 'bright', lookId: first.id });
    frame = await renderedWith(first.hash);
    expect(frame.look).toMatchObject({ id: first.id, name: 'Bright', version: 1, from: 'shot', wish: null });
    // A stop more of light on a picture well below white: by far more than a coding changes.
    expect(await meanOf(frame)).toBeGreaterThan(before + 10);
  });

  let second: Look;
  test('the same document again is the version that is there; another is the next one, and moves nobody', async () => {
    const again = await send('POST', '/looks', bright(1));
    expect([again.status, ((await again.json()) as Look).id]).toEqual([200, first.id]);
    const other = await send('POST', '/looks', bright(2, 'bright'));
    second = (await other.json()) as Look;
    expect([other.status, second.version]).toEqual([201, 2]);
    expect((await shotOf('mug')).lookId).toBe(first.id);
    const { versions } = await call<LookWithVersions>('GET', `/looks/${first.id}`);
    expect(versions.map(({ id }) => id)).toEqual([second.id, first.id]);
    expect((await call<{ looks: Look[] }>('GET', '/looks')).looks.map(({ id }) => id)).toEqual([second.id]);
  });

  test('a frame is shown under any version by its hash, each with a tag of its own; another hash is refused', async () => {
    const of = (look: string) => send('GET', `/frames/${frame.id}/picture?width=320&look=${look}`);
    const [a, b, own] = [await of(first.hash), await of(second.hash), await send('GET', pictureOf(frame))];
    expect(a.headers.get('etag')).toBe(own.headers.get('etag'));
    expect(b.headers.get('etag')).not.toBe(a.headers.get('etag'));
    expect(await mean(b)).toBeGreaterThan((await mean(a)) + 10);
    expect(await (await of('0'.repeat(64))).json()).toMatchObject({ status: 400, code: 'no-look' });
    const part = 'left=0&top=0&width=200&height=200';
    const region = (look: string) => send('GET', `/frames/${frame.id}/region?${part}&look=${look}`);
    expect(await mean(await region(second.hash))).toBeGreaterThan(
      (await mean(await region(first.hash))) + 10,
    );
    // What is kept of the frame is as it was.
    expect(lookIn(await station.frame(frame.id))).toBe(first.hash);
  });

  test('given to several shots it is one act, and one undo takes it back from all', async () => {
    const used = { job: 'QM-26', shots: ['mug', 'jug', 'bowl'] };
    expect(await call('POST', `/looks/${second.id}/use`, used)).toEqual({ changed: 3 });
    expect((await jobNow()).shots.map(({ lookId }) => lookId)).toEqual([second.id, second.id, second.id]);
    await renderedWith(second.hash);
    const undone = await call<ActEntry>('POST', '/undo');
    expect(undone.what).toEqual({
      code: 'job.look-used',
      args: { look: 'bright 2', job: '', shots: 3, frames: 0 },
    });
    expect((await jobNow()).shots.map(({ look, lookId }) => [look, lookId])).toEqual([
      ['bright', first.id],
      [null, null],
      [null, null],
    ]);
    await renderedWith(first.hash);
  });

  test('given to shots and to the whole job it is one act as well, told in one sentence', async () => {
    const looks = async () => {
      const { lookId: own, shots } = await jobNow();
      return [own, ...shots.map(({ lookId }) => lookId)];
    };
    const before = await looks();
    const used = { job: 'QM-26', whole: true, shots: ['mug', 'jug'] };
    expect(await call('POST', `/looks/${second.id}/use`, used)).toEqual({ changed: 3 });
    expect((await looks()).slice(0, 3)).toEqual([second.id, second.id, second.id]);
    const undone = await call<ActEntry>('POST', '/undo');
    expect(undone.what).toEqual({
      code: 'job.look-used',
      args: { look: 'bright 2', job: 'QM-26', shots: 2, frames: 0 },
    });
    expect(await looks()).toEqual(before);
    await renderedWith(first.hash);
    const alone = await send('POST', `/looks/${second.id}/use`, { whole: true, frames: [frame.id] });
    expect(alone.status).toBe(400);
  });

  test('a frame’s own stands before its shot’s, and is taken back', async () => {
    const etag = `"${(await station.frame(frame.id)).version}"`;
    const own = await send('PATCH', `/frames/${frame.id}`, { look: second.id }, { 'if-match': etag });
    expect(((await own.json()) as Frame).look).toMatchObject({ own: second.id, version: 2, from: 'frame' });
    await renderedWith(second.hash);
    await call('PATCH', `/frames/${frame.id}`, { look: null });
    expect((await renderedWith(first.hash)).look).toMatchObject({ own: null, from: 'shot' });
    await call('POST', '/undo');
    expect((await renderedWith(second.hash)).look.own).toBe(second.id);
    await call('POST', '/undo');
    expect((await renderedWith(first.hash)).look.own).toBeNull();
    const refused = await send('PATCH', `/frames/${frame.id}`, { look: 'nothing' });
    expect(await refused.json()).toMatchObject({ status: 400, code: 'no-such-look' });
  });

  test('the job’s look is for shots without one, by name or by version', async () => {
    const job = await call<Job>('PATCH', '/jobs/QM-26', { look: 'BRIGHT' });
    expect([job.look, job.lookId]).toEqual(['BRIGHT', second.id]);
    const exact = await call<Job>('PATCH', '/jobs/QM-26', { lookId: first.id });
    expect([exact.look, exact.lookId]).toEqual(['Bright', first.id]);
    // Said again by its name, a version that was chosen stays.
    expect((await call<Job>('PATCH', '/jobs/QM-26', { look: 'bright' })).lookId).toBe(first.id);
    const none = await call<Job>('PATCH', '/jobs/QM-26', { look: null });
    expect([none.look, none.lookId]).toEqual([null, null]);
  });

  test('a list that names a look brings its newest version, and one that comes back the same changes nothing', async () => {
    const csv = 'id,name,look\r\njug,Jug,Bright\r\nbowl,Bowl,Silver\r\n';
    await takeIn(csv);
    expect((await jobNow()).shots.map(({ look, lookId }) => [look, lookId])).toEqual([
      ['Bright', second.id],
      ['Silver', null],
      ['bright', first.id],
    ]);
    const out = await (await send('GET', '/jobs/QM-26/shots/export')).text();
    expect(await takeIn(out)).toMatchObject({
      lines: [{ what: 'same' }, { what: 'same' }, { what: 'same' }],
    });
    expect((await shotOf('mug')).lookId).toBe(first.id);
    const json = await (await send('GET', '/jobs/QM-26/shots/export?format=json')).text();
    expect(json).not.toContain('lookId');
  });

  test('laid aside, a version is not offered, and keeps its place where it was chosen; put back it is there again', async () => {
    await call('POST', `/looks/${second.id}/aside`);
    const listed = (await call<{ looks: Look[] }>('GET', '/looks')).looks;
    expect(listed.map(({ id, laidAside }) => [id, laidAside])).toEqual([[first.id, false]]);
    expect((await shotOf('jug')).lookId).toBe(second.id);
    await call('POST', '/undo');
    expect((await call<Look>('GET', `/looks/${second.id}`)).laidAside).toBe(false);
    await call('POST', `/looks/${second.id}/aside`);
    // Saved once more just as it is, it is the same version, offered again.
    const again = await send('POST', '/looks', bright(2, 'bright'));
    expect([again.status, await again.json()]).toMatchObject([200, { id: second.id, laidAside: false }]);
    expect((await send('POST', '/looks/nothing/aside')).status).toBe(404);
  });

  test('a correction of the ASC CDL is taken in as a look under a name', async () => {
    const answer = await fetch(`${station.ready.web}/api/v1/looks?name=Silver`, {
      method: 'POST',
      headers: { 'content-type': 'application/xml' },
      body: correction,
    });
    expect(answer.status).toBe(201);
    const silver = (await answer.json()) as Look;
    expect(silver.document.cdl).toMatchObject({ slope: [2, 2, 2], saturation: 0 });
    expect(await shotOf('bowl')).toMatchObject({ look: 'Silver', lookId: silver.id });
    const grey = await send('GET', `/frames/${frame.id}/picture?width=320&look=${silver.hash}`);
    const { channels } = await sharp(Buffer.from(await grey.arrayBuffer())).stats();
    const [r, g, b] = channels.map((channel) => channel.mean);
    // A JPEG rounds colour differences of nothing to within a code.
    expect(Math.max(Math.abs((r ?? 0) - (g ?? 9)), Math.abs((b ?? 0) - (g ?? 9)))).toBeLessThan(1);
  });

  test.each([
    ['a number out of its range', { ...bright(1), exposureEv: 9 }, 'exposureEv is 9: it goes from -5 to 5.'],
    ['a member that looks do not have', { ...bright(1), glow: 1 }, 'A look has no glow.'],
    ['nothing of the kind', [1, 2], 'This is not a look: a look is a JSON object with a version.'],
  ])('%s is refused with a sentence, saved and tried', async (_what, body, detail) => {
    for (const path of ['/looks', `/frames/${frame.id}/try`]) {
      const answer = await send('POST', path, body);
      expect(await answer.json()).toMatchObject({ status: 422, code: 'bad-look', detail });
    }
  });

  test('a try shows a frame under a look that is not saved, and leaves nothing behind', async () => {
    const tried = await send('POST', `/frames/${frame.id}/try?width=320`, bright(3, 'Tried'));
    expect([tried.status, tried.headers.get('content-type')]).toEqual([200, 'image/jpeg']);
    expect(tried.headers.get('setside-look')).toBe(hashOf(bright(3)));
    const picture = await sharp(Buffer.from(await tried.clone().arrayBuffer())).metadata();
    expect(picture.width).toBe(320);
    const under2 = await send('GET', `/frames/${frame.id}/picture?width=320&look=${second.hash}`);
    expect(await mean(tried)).toBeGreaterThan((await mean(under2)) + 5);
    expect(await readdir(join(home, 'renderings', 'tries'))).toEqual([]);
    expect((await call<{ looks: Look[] }>('GET', '/looks')).looks.map(({ name }) => name)).not.toContain(
      'Tried',
    );
    // The same look saved gives the same picture.
    const saved = await send('POST', `/frames/${frame.id}/try?width=320`, second.document);
    expect(
      Math.abs(
        (await mean(saved)) -
          (await mean(await send('GET', under2.url.slice(under2.url.indexOf('/frames'))))),
      ),
    ).toBeLessThan(1);
  });

  test('a look that cuts the picture makes it smaller, and taken back it is whole again', async () => {
    const { picture: whole } = await station.frame(frame.id);
    if (whole.state !== 'rendered') throw new Error('expected it rendered');
    const square = { ...bright(1, 'bright'), geometry: { crop: { across: 1, down: 1, size: 1 } } };
    const { id, hash } = await call<Look>('POST', '/looks', square);
    await call('POST', `/looks/${id}/use`, { frames: [frame.id] });
    const { picture: cut } = await renderedWith(hash);
    // The largest square of a picture that lies: as high as it was.
    const original = { width: whole.width, height: whole.height };
    expect(cut).toMatchObject({ width: whole.height, height: whole.height, original });
    const edge = whole.height - 100;
    const corner = await send(
      'GET',
      `/frames/${frame.id}/region?left=${edge}&top=${edge}&width=200&height=200`,
    );
    const { width, height } = await sharp(Buffer.from(await corner.arrayBuffer())).metadata();
    expect([width, height]).toEqual([100, 100]);
    await call('POST', '/undo');
    expect((await renderedWith(first.hash)).picture).toMatchObject({
      ...original,
      original: null,
    });
    await call('POST', `/looks/${id}/aside`);
  });

  test('the commands list, save, use and render with looks of the running station', async () => {
    const file = join(home, 'dusk.look.json');
    await writeFile(file, JSON.stringify(bright(-1, 'Dusk')));
    const setside = (...words: string[]) =>
      runProgram(process.execPath, [binary, ...words, '--station', station.ready.web]);
    expect((await setside('look', 'save', file)).stdout).toBe('Saved as Dusk 1.\n');
    expect((await setside('look', 'save', file)).stdout).toBe('It is there already, as Dusk 1.\n');
    const listed = await setside('look', 'list');
    expect(listed.stdout).toMatch(/^bright 2 {2}[0-9a-f]{16} {2}saved .* by \S+\nDusk 1 .*\nSilver 1 .*\n$/);
    expect(JSON.parse((await setside('look', 'show', 'dusk')).stdout)).toEqual(
      lookSchema.parse(bright(-1, 'Dusk')),
    );
    const used = await setside('look', 'use', 'Dusk', '--job', 'QM-26', '--shot', 'Bowl', '--shot', 'jug');
    expect([used.code, used.stdout]).toEqual([0, 'Dusk 1: 2 changed.\n']);
    expect([(await shotOf('bowl')).look, (await shotOf('jug')).look]).toEqual(['Dusk', 'Dusk']);
    await call('POST', '/undo');
    const none = await setside('look', 'use', 'Noon', '--job', 'QM-26');
    expect([none.code, none.stderr]).toEqual([
      1,
      expect.stringContaining('Those that are kept: bright, Dusk, Silver.'),
    ]);
    const raw = join(home, 'QMST0001.DNG');
    const out = await mkdtemp(join(tmpdir(), 'setside-looks-'));
    const rendered = async (look: string): Promise<number> => {
      const ran = await setside('develop', raw, '--look', look, '--out', out, '--replace');
      expect(ran.code, ran.stderr).toBe(0);
      const { channels } = await sharp(await readFile(join(out, 'QMST0001.jpg'))).stats();
      return channels.reduce((sum, channel) => sum + channel.mean, 0) / channels.length;
    };
    expect(await rendered('Bright 1')).toBeGreaterThan((await rendered('Dusk')) + 10);
    expect((await setside('look', 'lay-aside', 'Dusk')).stdout).toContain('laid aside');
    expect((await setside('look', 'list')).stdout).not.toContain('Dusk');
    await rm(out, { recursive: true, force: true });
  });

  test('kill -9 right after a choice: the next start has all of it, and renders what it had not', async () => {
    await call('POST', `/looks/${second.id}/use`, { frames: [frame.id] });
    await station.kill();
    station = await startStation(home);
    expect((await call<{ looks: Look[] }>('GET', '/looks')).looks.map(({ name }) => name)).toEqual([
      'bright',
      'Dusk',
      'Silver',
    ]);
    expect((await renderedWith(second.hash)).look).toMatchObject({ own: second.id, version: 2 });
    expect((await shotOf('mug')).lookId).toBe(first.id);
  });

  test('a register made anew from the journal has the same looks and choices', async () => {
    const before = [await call('GET', '/looks'), await call('GET', `/looks/${first.id}`), await jobNow()];
    await station.stop();
    const { stdout } = await run(process.execPath, [binary, 'verify', '--home', home, '--rebuild', '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ same: true, unread: [] });
    station = await startStation(home);
    const after = [await call('GET', '/looks'), await call('GET', `/looks/${first.id}`), await jobNow()];
    expect(after).toEqual(before);
    expect((await station.frame(frame.id)).look.own).toBe(second.id);
  });

  test('a region under another look is a part of the picture as that look cuts it, not as the one in force does', async () => {
    // The register was made anew, and the frame's own look is the second.
    const { picture } = await renderedWith(second.hash);
    if (picture.state !== 'rendered') throw new Error('it is rendered');
    const half = (edgePx: number): number => Math.round(edgePx / 2);
    const crop = { across: 1, down: 1, size: 0.5, centreX: 0.5, centreY: 0.5 };
    const cut = await call<Look>('POST', '/looks', { ...defaultLook, title: 'Square', geometry: { crop } });
    await call('POST', `/looks/${cut.id}/use`, { frames: [frame.id] });
    await renderedWith(cut.hash);
    const sizeOf = async (look: string) => {
      const part = `left=0&top=0&width=4096&height=4096&scale=0.5&look=${look}`;
      const answer = await send('GET', `/frames/${frame.id}/region?${part}`);
      const { width, height } = await sharp(Buffer.from(await answer.arrayBuffer())).metadata();
      return [width, height];
    };
    expect(await sizeOf(first.hash)).toEqual([half(picture.width), half(picture.height)]);
    const edge = half(Math.floor(picture.height / 2));
    expect(await sizeOf(cut.hash)).toEqual([edge, edge]);
  });

  async function send(
    method: string,
    path: string,
    body?: unknown,
    headers: Readonly<Record<string, string>> = {},
  ): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(method === 'GET'
        ? {}
        : { headers: { 'content-type': 'application/json', ...headers }, body: JSON.stringify(body ?? {}) }),
    });
  }

  async function call<Answer = unknown>(method: string, path: string, body?: unknown): Promise<Answer> {
    const answer = await send(method, path, body);
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as Answer;
  }

  async function takeIn(csv: string): Promise<unknown> {
    const answer = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/import`, {
      method: 'POST',
      headers: { 'content-type': 'text/csv' },
      body: csv,
    });
    return answer.json();
  }

  const jobNow = (): Promise<Job> => call<Job>('GET', '/jobs/QM-26');

  async function shotOf(id: string): Promise<Job['shots'][number]> {
    const shot = (await jobNow()).shots.find((each) => each.id === id);
    if (shot === undefined) throw new Error(`there is a shot ${id}`);
    return shot;
  }

  function renderedWith(hash: string): Promise<Frame> {
    return eventually('it is rendered with the look', async () => {
      const now = await station.frame(frame.id);
      return lookIn(now) === hash && now;
    });
  }

  const pictureOf = ({ id }: Frame): string => `/frames/${id}/picture?width=320`;
  const meanOf = async (of: Frame): Promise<number> => mean(await send('GET', pictureOf(of)));
});

function lookIn({ picture }: Frame): string | null {
  return picture.state === 'rendered' ? picture.look : null;
}

/** Mean code of a picture, 0 … 255, as another library decodes it. */
async function mean(answer: Response): Promise<number> {
  if (!answer.ok) throw new Error(`no picture: ${answer.status} ${await answer.text()}`);
  const { channels } = await sharp(Buffer.from(await answer.arrayBuffer())).stats();
  return channels.reduce((sum, channel) => sum + channel.mean, 0) / channels.length;
}
