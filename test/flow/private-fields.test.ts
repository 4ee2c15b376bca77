import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { exiftool } from 'exiftool-vendored';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { delivery } from '../../src/contract/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/**
 * What tells a camera, its owner or a place, where writers put it: Exif 2.32 (CIPA DC-008) tables 4, 8 and 15, XMP `aux` and `exif`
 * (ISO 16684-2, Adobe XMP part 2), IIM 2:80 and 2:90. Each value holds `7Q`, or a place that stands nowhere else.
 */
const planted: Readonly<Record<string, string>> = {
  'ExifIFD:OwnerName': 'Owner-7Q',
  'ExifIFD:SerialNumber': 'Body-7Q',
  'ExifIFD:LensSerialNumber': 'Lens-7Q',
  'ExifIFD:ImageUniqueID': '7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q7Q',
  'ExifIFD:UserComment': 'Comment-7Q',
  'IFD0:Artist': 'Artist-7Q',
  'IFD0:Copyright': 'Copyright-7Q',
  'IFD0:ImageDescription': 'Description-7Q',
  'GPS:GPSLatitude': '41.8765',
  'GPS:GPSLatitudeRef': 'N',
  'GPS:GPSLongitude': '12.3456',
  'GPS:GPSLongitudeRef': 'E',
  'GPS:GPSAreaInformation': 'Area-7Q',
  'XMP-aux:OwnerName': 'XmpOwner-7Q',
  'XMP-aux:SerialNumber': 'XmpBody-7Q',
  'XMP-aux:LensSerialNumber': 'XmpLens-7Q',
  'XMP-exif:GPSLatitude': '41.8765',
  'XMP-exif:GPSLongitude': '12.3456',
  'XMP-dc:Creator': 'XmpCreator-7Q',
  'IPTC:By-line': 'Byline-7Q',
  'IPTC:City': 'City-7Q',
};
const told = /7Q|41\.87|12\.34|41 deg|12 deg/i;

const formats = {
  jpeg: { kind: 'jpeg', quality: 90, bytesMax: null, qualityMin: 50 },
  tiff: { kind: 'tiff', depth: 16, compression: 'none' },
  png: { kind: 'png', depth: 8 },
  webp: { kind: 'webp', quality: 90 },
  avif: { kind: 'avif', quality: 60 },
} as const;

/** The camera's own notes of its owner and of the place stay in the house, whatever a file is made as. */
describe.skipIf(!hasProgram('curl'))('what a delivered file says of the camera', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    const file = join(home, 'QMST0001.JPG');
    const background = { r: 110, g: 120, b: 60 };
    const picture = { width: 96, height: 64, channels: 3, background } as const;
    await writeFile(file, await sharp({ create: picture }).jpeg().toBuffer());
    await exiftool.write(file, planted, { writeArgs: ['-overwrite_original'] });
    expect((await curlUpload(station, file, '/QMST0001.JPG')).code).toBe(0);
    const frame = await eventually('the picture', async () =>
      (await station.frames()).find(({ picture }) => picture.state === 'rendered'),
    );
    expect((await send('PATCH', `/frames/${frame.id}`, { mark: 'hero' })).status).toBe(200);
  });

  afterAll(async () => {
    await station.stop();
    await exiftool.end();
    await removeHome(home);
  });

  function send(method: string, path: string, body: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  }

  /** The one file that a specification makes; with its manifests beside it. */
  async function made(
    specification: string | object,
  ): Promise<{ readonly path: string; readonly folder: string }> {
    const begun = await send('POST', '/deliveries', { job: 'QM-26', specification });
    expect(begun.status).toBe(201);
    const { id } = delivery.parse(await begun.json());
    const done = await eventually('the delivery', async () => {
      const told = delivery.parse(await (await fetch(`${station.ready.web}/api/v1/deliveries/${id}`)).json());
      return told.state === 'done' && told;
    });
    expect(done.filesMade).toBe(1);
    return { path: join(done.folder, done.files[0]?.file ?? 'none'), folder: done.folder };
  }

  const full = (more: object): object => ({
    version: 1,
    title: 'Private',
    marks: ['hero'],
    size: { kind: 'full' },
    ...more,
  });

  /** Everything ExifTool finds, unknown tags, doubles and what is embedded too. */
  const everyTag = async (path: string): Promise<string> =>
    JSON.stringify(await exiftool.readRaw(path, { readArgs: ['-G1', '-a', '-u', '-ee'] }), (key, value) =>
      /^(SourceFile|System:)/.test(key) ? undefined : value,
    );

  test('the file that the camera sent tells all of it', async () => {
    const tags = await everyTag(join(home, 'QMST0001.JPG'));
    for (const value of Object.values(planted).filter((each) => each.includes('7Q')))
      expect(tags).toContain(value);
    expect(tags).toContain('41 deg');
  });

  test.each(Object.keys(formats))('nothing of it is in a %s', async (kind) => {
    const format = formats[kind as keyof typeof formats];
    const { path } = await made(full({ format }));
    expect(await everyTag(path)).not.toMatch(told);
    expect((await readFile(path)).toString('latin1')).not.toContain('7Q');
  });

  test.each(['web-shop', 'print', 'social'])('nothing of it is in what %s makes', async (name) => {
    const { path, folder } = await made(name);
    expect(await everyTag(path)).not.toMatch(told);
    expect((await readFile(path)).toString('latin1')).not.toContain('7Q');
    const manifest = await readFile(join(folder, 'manifest.json'), 'utf8');
    expect(manifest).not.toMatch(told);
  });

  test('words that somebody wrote bring nothing of it along', async () => {
    const metadata = JSON.stringify({ version: 1, title: 'x', all: { caption: 'A mug', creators: ['Ada'] } });
    expect((await send('PATCH', '/jobs/QM-26', { metadata })).status).toBe(200);
    const { path } = await made(full({ format: formats.jpeg }));
    const tags = await everyTag(path);
    expect(tags).toContain('A mug');
    expect(tags).not.toMatch(told);
  });

  test('each is there once it is asked for, and nothing else', async () => {
    const asked = async (field: string): Promise<string> =>
      everyTag(
        (await made(full({ format: formats.jpeg, metadata: { fields: [], privateFields: [field] } }))).path,
      );
    const position = await asked('position');
    expect(position).toContain('41 deg');
    expect(position).not.toMatch(/(Owner|Body|Lens|Artist|Byline)-7Q/);
    const serials = await asked('serial-numbers');
    expect(serials).toMatch(/Body-7Q/);
    expect(serials).toMatch(/Owner-7Q/);
    expect(serials).not.toMatch(/41 deg|Area-7Q|Artist-7Q/);
  });
});
