import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Frame, type SeriesEntry, seriesList } from '../../src/contract/index.ts';
import { type Mark, markToXmpRating } from '../../src/facts/index.ts';
import type { SentFrame } from '../../src/stand-in/index.ts';
import { ExifToolReader } from '../../src/workers/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

/**
 * Raw, JPEG and sidecar of each press, two bursts of three, a file sent twice, and a slate in the fourth frame: what comes
 * out of the station is held against what the stand-in knows it sent.
 */
describe('a day of the stand-in through the whole station', () => {
  let home: string;
  let station: RunningStation;
  let sent: readonly SentFrame[];
  let frames: readonly Frame[];

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await post('POST', '/jobs', { code: 'QM-26', open: true });
    for (const name of ['Mug', 'Jug']) await post('POST', '/jobs/QM-26/shots', { name });
    const { stdout } = await run(
      process.execPath,
      [
        ...[binary, 'stand-in', '--port', String(station.ready.ftp), '--user', station.user],
        ...['--password', station.password, '--cache', join(home, 'stand-in'), '--json', '--pace', '0'],
        ...['--files', 'raw,jpeg,xmp', '--burst', '3', '--frames', '6', '--interval', '3', '--size', '0.7'],
        ...['--fault', 'duplicate@2', '--slate', 'QM-26:jug@4'],
      ],
      { maxBuffer: 16 * 1024 * 1024 },
    );
    sent = stdout
      .split('\n')
      .filter((line) => line.includes('"stand-in.frame"'))
      .map((line) => JSON.parse(line) as SentFrame);
    frames = await eventually(
      'all are rendered and looked at',
      async () => {
        const now = await station.frames();
        const done = now.filter(({ picture }) => picture.state === 'rendered').length;
        return done === 6 && now.some(({ slate }) => slate !== null) ? now : null;
      },
      60_000,
    );
  }, 240_000);

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  async function post(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
  }

  test('each press is one frame with its three files, byte for byte, the one sent twice too', () => {
    expect(sent).toHaveLength(6);
    const told = frames.map(({ files }) => files.map(({ name, sha256 }) => ({ name, sha256 })));
    expect(told).toEqual(sent.map(({ files }) => files.map(({ name, sha256 }) => ({ name, sha256 }))));
  });

  test('the two bursts are two series, in the order of the shutter', async () => {
    const { series } = seriesList.parse(await (await post('GET', '/jobs/QM-26/series')).json());
    const bursts = [frames.slice(0, 3), frames.slice(3)].map((burst) => burst.map(({ id }) => id));
    expect(series).toEqual(
      bursts.map((ids): SeriesEntry => ({ kind: 'burst', camera: 'cam1', frames: ids, stepEv: null })),
    );
  });

  test('the slate that is held into the fourth frame is read out of its raw, and the shot follows', () => {
    expect(sent.map(({ truth }) => truth.held?.kind ?? null)).toEqual([
      null,
      null,
      null,
      'slate',
      null,
      null,
    ]);
    expect(frames.map(({ shot, purpose, slate }) => ({ shot, purpose, slate: slate?.code ?? null }))).toEqual(
      [
        // The first shot of an open job is current before anybody says so.
        ...Array.from({ length: 3 }, () => ({ shot: 'mug', purpose: 'picture', slate: null })),
        { shot: 'jug', purpose: 'test', slate: 'slate.slate-now' },
        ...Array.from({ length: 2 }, () => ({ shot: 'jug', purpose: 'picture', slate: null })),
      ],
    );
  });

  test('a sidecar that says "unrated" suggests nothing', () => {
    expect(frames.map(({ mark, suggestedMark }) => [mark, suggestedMark])).toEqual(
      frames.map(() => ['none', null]),
    );
  });

  test.each<[Mark]>([['hero'], ['select'], ['alternate'], ['out'], ['none']])(
    'the mark %s goes out as XMP, and ExifTool reads its rating and nothing else',
    async (mark) => {
      const [frame] = frames;
      await post('PATCH', `/frames/${frame?.id}`, { mark });
      const answer = await post('GET', `/frames/${frame?.id}/xmp`);
      expect(answer.headers.get('content-disposition')).toContain(
        `${frame?.name.replace(/\.[^.]*$/, '')}.xmp`,
      );
      const file = join(home, `${mark}.xmp`);
      await writeFile(file, await answer.text());
      const reader = new ExifToolReader();
      try {
        expect(await reader.readRating(file)).toBe(markToXmpRating[mark]);
      } finally {
        await reader.close();
      }
      expect((await (await post('GET', `/frames/${frame?.id}/xmp`)).text()).match(/xmp:\w+=/g)).toEqual([
        'xmp:Rating=',
      ]);
    },
  );

  test.skipIf(!hasProgram('curl'))(
    'a rating the camera wrote is a suggestion, of the sidecar before the file, until somebody marks',
    async () => {
      const xmp = (rating: number): string =>
        `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:Rating="${rating}"/></rdf:RDF></x:xmpmeta>`;
      const jpeg = await sharp({ create: { width: 90, height: 60, channels: 3, background: '#456' } })
        .jpeg()
        .withXmp(xmp(4))
        .toBuffer();
      await writeFile(join(home, 'RATE0001.JPG'), jpeg);
      await curlUpload(station, join(home, 'RATE0001.JPG'), '/RATE0001.JPG');
      const rated = await eventually('the rating is read', async () =>
        (await station.frames()).find(
          ({ name, suggestedMark }) => name === 'RATE0001.JPG' && suggestedMark !== null,
        ),
      );
      expect(rated).toMatchObject({ mark: 'none', suggestedMark: 'select' });
      await writeFile(join(home, 'RATE0001.XMP'), xmp(5));
      await curlUpload(station, join(home, 'RATE0001.XMP'), '/RATE0001.XMP');
      await eventually(
        'the sidecar is read',
        async () => (await station.frame(rated.id)).suggestedMark === 'hero',
      );
      await post('PATCH', `/frames/${rated.id}`, { mark: 'none' });
      expect(await station.frame(rated.id)).toMatchObject({ mark: 'none', suggestedMark: null });
      const kept = await post('GET', `/frames/${rated.id}/files/RATE0001.JPG`);
      const hash = createHash('sha256').update(new Uint8Array(await kept.arrayBuffer()));
      expect(hash.digest('hex')).toBe(createHash('sha256').update(jpeg).digest('hex'));
    },
  );
});
