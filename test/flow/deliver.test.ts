import { createHash } from 'node:crypto';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { exiftool } from 'exiftool-vendored';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Delivery, delivery, deliveryList } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { madeRaw } from './made-raw.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const sha256 = async (path: string): Promise<string> =>
  createHash('sha256')
    .update(await readFile(path))
    .digest('hex');

/** Frames of the real station to files; ExifTool and libvips read them as somebody else's program would. */
describe.skipIf(!hasProgram('curl'))('deliveries of the real station', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    await send('PATCH', '/jobs/QM-26', { naming: '{job}_{counter}' });
    for (const counter of [1, 2, 3]) await upload(`QMST000${counter}.JPG`, await jpeg(counter));
    await upload('QMST0004.DNG', madeRaw({ sigmaPx: 1, ev: 0 }));
    await eventually('four pictures', async () => {
      const frames = await station.frames();
      return frames.length === 4 && frames.every(({ picture }) => picture.state === 'rendered');
    });
    await mark('hero', 1, 2);
    await mark('select', 4);
    await mark('alternate', 3);
  });

  afterAll(async () => {
    await station.stop();
    await exiftool.end();
    await removeHome(home);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  /** With a serial number and a place in it, which nobody asked to have handed over. */
  async function jpeg(counter: number): Promise<Uint8Array> {
    const background = { r: 90 + counter * 20, g: 120, b: 60 };
    return sharp({ create: { width: 96, height: 64, channels: 3, background } })
      .withExif({
        IFD2: { BodySerialNumber: 'S-1' },
        IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '1/1 2/1 3/1' },
      })
      .jpeg()
      .toBuffer();
  }

  async function upload(name: string, bytes: Uint8Array): Promise<void> {
    const file = join(home, name);
    await writeFile(file, bytes);
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  async function mark(wanted: string, ...counters: number[]): Promise<void> {
    for (const { id, counter } of await station.frames()) {
      if (counter !== null && counters.includes(counter))
        await send('PATCH', `/frames/${id}`, { mark: wanted });
    }
  }

  const setside = (...args: string[]): Promise<Ran> =>
    runProgram(process.execPath, [binary, 'deliver', ...args, '--station', station.ready.web]);
  async function delivered(spec: string, code = 0): Promise<Delivery> {
    const ran = await setside('QM-26', '--spec', spec, '--json');
    expect(ran.code, ran.stderr).toBe(code);
    return delivery.parse(JSON.parse(ran.stdout));
  }
  async function specFile(name: string, document: unknown): Promise<string> {
    const path = join(home, `${name}.json`);
    await writeFile(path, JSON.stringify(document));
    return path;
  }
  const now = async (id: string): Promise<Delivery> =>
    delivery.parse(await (await send('GET', `/deliveries/${id}`)).json());
  const when = (id: string, isSo: (told: Delivery) => boolean): Promise<Delivery> =>
    eventually(
      'the delivery',
      async () => {
        const told = await now(id);
        return isSo(told) && told;
        // Four pictures of nine megapixels on a busy machine.
      },
      120_000,
    );
  const ended = (id: string): Promise<Delivery> => when(id, ({ state }) => state === 'done');

  test('a square on white: names of the job, exact size, profile inside, nothing private, said what is smaller', async () => {
    const done = await delivered('web-shop');
    expect(done).toMatchObject({ state: 'done', frames: 2, filesMade: 2, filesMissing: 0 });
    expect(done.files.map(({ file }) => file)).toEqual(['QM-26_0001.jpg', 'QM-26_0002.jpg']);
    for (const { file, findings, ...line } of done.files) {
      const path = join(done.folder, file);
      expect(line).toMatchObject({
        widthPx: 2000,
        heightPx: 2000,
        sha256: await sha256(path),
        bytes: (await stat(path)).size,
      });
      expect(findings.map(({ code }) => code)).toEqual([
        'deliver.no-subject',
        'deliver.stands-small',
        'deliver.background-not-white',
      ]);
      const tags = await exiftool.readRaw(path, ['-G1', '-a', '-j']);
      expect(tags).toMatchObject({ 'File:ImageWidth': 2000, 'ICC-header:ProfileVersion': '2.4.0' });
      expect(Object.keys(tags).filter((tag) => /^(ExifIFD|IFD0|GPS|XMP|IPTC)/.test(tag))).toEqual([]);
      const { data } = await sharp(path).raw().toBuffer({ resolveWithObject: true });
      // One tone from edge to edge: it goes on around the picture, and it is not white.
      const middle = data.subarray((1000 * 2000 + 1000) * 3, (1000 * 2000 + 1000) * 3 + 3);
      for (const [channel, code] of middle.entries())
        expect(Math.abs(code - (data[channel] ?? 0))).toBeLessThanOrEqual(2);
    }
  });

  test('the manifest names original, look and file by their hashes, as JSON and as CSV', async () => {
    const done = await delivered('social');
    const manifest: unknown = JSON.parse(await readFile(join(done.folder, 'manifest.json'), 'utf8'));
    const raw = (await station.frames()).find(({ counter }) => counter === 4);
    const [file] = raw?.files ?? [];
    expect(manifest).toMatchObject({
      job: 'QM-26',
      specificationSha256: done.specificationSha256,
      files: [
        { lookSha256: '' },
        { lookSha256: '' },
        { original: 'QMST0004.DNG', originalSha256: file?.sha256 },
      ],
    });
    expect(JSON.stringify(manifest)).toMatch(/"lookSha256":"[0-9a-f]{64}"/);
    const csv = await readFile(join(done.folder, 'manifest.csv'), 'utf8');
    expect(csv.split('\r\n')).toHaveLength(5);
    expect((await readdir(done.folder)).sort()).toEqual([
      'QM-26_0001.jpg',
      'QM-26_0002.jpg',
      'QM-26_0004.jpg',
      'manifest.csv',
      'manifest.json',
    ]);
  });

  test('the same again gives the same bytes in a folder of its own', async () => {
    const [once, again] = [await delivered('social'), await delivered('social')];
    expect(again.folder).not.toBe(once.folder);
    expect(again.files.map(({ sha256: hash }) => hash)).toEqual(once.files.map(({ sha256: hash }) => hash));
  });

  test.each([
    [{ kind: 'tiff', depth: 16, compression: 'none' }, 'adobe-rgb', 'tif', 'TIFF', '16 16 16'],
    [{ kind: 'tiff', depth: 16, compression: 'deflate' }, 'rec2020', 'tif', 'TIFF', '16 16 16'],
    [{ kind: 'tiff', depth: 8, compression: 'lzw' }, 'srgb', 'tif', 'TIFF', '8 8 8'],
    [{ kind: 'png', depth: 16 }, 'display-p3', 'png', 'PNG', 16],
    [{ kind: 'webp', quality: 80 }, 'srgb', 'webp', 'Extended WEBP', undefined],
    [{ kind: 'avif', quality: 60 }, 'srgb', 'avif', 'AVIF', undefined],
  ])('a raw as %o in %s is that to ExifTool, with its profile', async (format, space, ending, type, bits) => {
    const size = { kind: 'long-edge', px: 200 };
    const spec = await specFile('own', { version: 1, title: 'Own', marks: ['select'], size, format, space });
    const { files, folder } = await delivered(spec);
    expect(files.map(({ file }) => file)).toEqual([`QM-26_0004.${ending}`]);
    const tags = await exiftool.readRaw(join(folder, `QM-26_0004.${ending}`), ['-n', '-j']);
    expect(tags).toMatchObject({ FileType: type, ImageWidth: 200, ImageHeight: 150, ColorSpaceData: 'RGB ' });
    if (bits !== undefined) expect(tags.BitsPerSample ?? tags.BitDepth).toBe(bits);
  });

  test('a bound on bytes is kept to, and where it cannot be the file is named and not there', async () => {
    const of = (bytesMax: number, qualityMin: number): unknown => ({
      version: 1,
      title: 'Light',
      marks: ['select'],
      size: { kind: 'full' },
      format: { kind: 'jpeg', quality: 100, bytesMax, qualityMin },
    });
    const fits = await delivered(await specFile('fits', of(30_000, 1)));
    expect(fits.files[0]?.bytes).toBeLessThanOrEqual(30_000);
    const not = await delivered(await specFile('not', of(4096, 99)), 1);
    expect(not.missing.map(({ finding }) => finding.code)).toEqual(['deliver.too-many-bytes']);
    expect(await readdir(not.folder)).not.toContain('QM-26_0004.jpg');
  });

  test('an original with other bytes than were kept is named and not delivered; one that is gone too', async () => {
    const originals = join(home, 'jobs/QM-26/originals');
    const named = (await readdir(originals, { recursive: true })).find((name) =>
      name.endsWith('QMST0003.JPG'),
    );
    const path = join(originals, named ?? 'none');
    const spec = await specFile('alternates', {
      version: 1,
      title: 'Alternates',
      marks: ['alternate'],
      size: { kind: 'full' },
      format: { kind: 'png', depth: 8 },
    });
    const bytes = await readFile(path);
    const other = Buffer.from(bytes);
    other[other.length - 10] = (other[other.length - 10] ?? 0) ^ 1;
    await writeFile(path, other);
    expect((await delivered(spec, 1)).missing.map(({ finding }) => finding.code)).toEqual([
      'deliver.damaged-original',
    ]);
    await writeFile(path, bytes);
    expect((await delivered(spec)).missing).toEqual([]);
  });

  /** A dark thing off the middle before a backdrop of one tone; `table` below it. */
  async function still(name: string, table: boolean): Promise<void> {
    const [width, height] = [600, 400];
    const data = Buffer.alloc(width * height * 3, 253);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const isThing = x >= 60 && x < 240 && y >= 80 && y < 240;
        const isTable = table && y >= 300;
        const code = isThing ? 40 : isTable ? 90 + 60 * ((x >> 3) % 2) : 253;
        data.fill(code, (y * width + x) * 3, (y * width + x) * 3 + 3);
      }
    }
    await upload(
      name,
      await sharp(data, { raw: { width, height, channels: 3 } })
        .jpeg({ quality: 95 })
        .toBuffer(),
    );
  }

  test('the subject fills its share of a square before its own backdrop; over a table nothing is made up', async () => {
    await send('POST', '/jobs', { code: 'STILL', open: true });
    await still('STIL0001.JPG', false);
    await still('STIL0002.JPG', true);
    const frames = await eventually('two stills', async () => {
      const found = (await station.frames()).filter(({ name }) => name.startsWith('STIL'));
      return found.length === 2 && found.every(({ picture }) => picture.state === 'rendered') && found;
    });
    const specification = {
      version: 1,
      title: 'Square',
      size: { kind: 'exact', widthPx: 160, heightPx: 160, fillPercent: 80 },
      format: { kind: 'png', depth: 8 },
      background: { kind: 'white', leastCode: 250, extend: true },
    };
    const body = { job: 'STILL', specification, frames: frames.map(({ id }) => id) };
    const begun = delivery.parse(await (await send('POST', '/deliveries', body)).json());
    const { files, folder } = await ended(begun.id);
    const byName = new Map(files.map((file) => [file.original, file]));
    const plain = byName.get('STIL0001.JPG');
    expect(plain?.findings).toEqual([]);
    const { data, info } = await sharp(join(folder, plain?.file ?? 'none'))
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([160, 160]);
    const dark = [...data.keys()].filter((at) => at % 3 === 0 && (data[at] ?? 255) < 128).map((at) => at / 3);
    const columns = dark.map((at) => at % 160);
    const rows = dark.map((at) => Math.floor(at / 160));
    const [left, right] = [Math.min(...columns), Math.max(...columns)];
    const [top, bottom] = [Math.min(...rows), Math.max(...rows)];
    // 80 % of 160 px is 128; the box is told within a quarter of a per cent of the picture, 1.5 px at either end.
    expect(Math.abs(right - left + 1 - 128)).toBeLessThanOrEqual(3);
    expect(Math.abs(left + right - 159)).toBeLessThanOrEqual(3);
    expect(Math.abs(top + bottom - 159)).toBeLessThanOrEqual(3);
    // Its left edge stands 60 of 600 px into the frame: words above it are free, words beside it are not.
    for (const [side, codes] of [
      ['left', ['deliver.subject-in-words-room']],
      ['right', []],
    ] as const) {
      const free = { ...specification, size: { kind: 'full' }, copySpace: { side, sharePercent: 20 } };
      const other = await send('POST', '/deliveries', {
        job: 'STILL',
        specification: { ...free, background: { kind: 'as-photographed' } },
        frames: [plain?.frame],
      });
      const said = await ended(delivery.parse(await other.json()).id);
      expect(said.files.map(({ findings }) => findings.map(({ code }) => code))).toEqual([codes]);
    }
    const onTable = byName.get('STIL0002.JPG')?.findings.map(({ code }) => code);
    expect(onTable).toContain('deliver.not-extended');
    expect(onTable).toContain('deliver.background-not-white');
    await send('PATCH', '/jobs/QM-26', { state: 'open' });
  });

  const sheet = {
    version: 1,
    title: 'Quillmere',
    all: {
      creators: ['Ada Ö'],
      copyright: '© {year} {client}',
      caption: '{shot} of {job}',
      title: 'T'.repeat(80),
      digitalSourceType: 'digitalCapture',
    },
  };

  test('words of the job lie in its files as XMP, IIM and Exif, the picture is the same, the same again gives the same bytes', async () => {
    const plain = await delivered('social');
    const said = await send('PATCH', '/jobs/QM-26', {
      client: 'Quillmere Ceramics',
      metadata: JSON.stringify(sheet),
    });
    expect(said.status).toBe(200);
    const [once, again] = [await delivered('social'), await delivered('social')];
    expect(again.files.map(({ sha256: hash }) => hash)).toEqual(once.files.map(({ sha256: hash }) => hash));
    for (const [index, { file, findings, ...line }] of once.files.entries()) {
      const path = join(once.folder, file);
      expect(line).toMatchObject({ sha256: await sha256(path), bytes: (await stat(path)).size });
      const tags: Record<string, unknown> = await exiftool.readRaw(path, { readArgs: ['-G1', '-a', '-n'] });
      // Nobody named a shot, and no frame of these but the raw one tells when it was taken.
      expect(tags['XMP-dc:Description']).toBe('of QM-26');
      expect(tags['IPTC:Caption-Abstract']).toBe('of QM-26');
      expect(tags['IFD0:ImageDescription']).toBe('of QM-26');
      expect(tags['IPTC:By-line']).toBe('Ada Ö');
      expect(tags['XMP-dc:Title']).toBe('T'.repeat(80));
      expect(tags['IPTC:ObjectName']).toBe('T'.repeat(64));
      expect(tags['ICC-header:ProfileVersion']).toBeDefined();
      expect(JSON.stringify(tags)).not.toMatch(/GPSLat|SerialNumber|S-1/);
      expect(findings.map(({ code }) => code)).toEqual(
        expect.arrayContaining(['deliver.iim-cut', 'deliver.words-unknown']),
      );
      const before = join(plain.folder, plain.files[index]?.file ?? 'none');
      expect(await sharp(path).raw().toBuffer()).toEqual(await sharp(before).raw().toBuffer());
    }
    expect((await readdir(dirname(once.folder))).filter((name) => name.startsWith('.'))).toEqual([]);
    await send('PATCH', '/jobs/QM-26', { metadata: '' });
  });

  test('words given with a delivery go before the job’s, and a bound on bytes holds with them', async () => {
    const words = await specFile('words', { version: 1, title: 'x', all: { caption: 'c'.repeat(400) } });
    const of = (bytesMax: number | null): unknown => ({
      version: 1,
      title: 'Bound',
      marks: ['select'],
      size: { kind: 'full' },
      format: { kind: 'jpeg', quality: 100, bytesMax, qualityMin: 1 },
    });
    // The picture alone has exactly so many, so that the words have to be made room for.
    const most = (await delivered(await specFile('free', of(null)))).files[0]?.bytes ?? 0;
    const spec = await specFile('bound', of(most));
    const ran = await setside('QM-26', '--spec', spec, '--metadata', words, '--json');
    expect(ran.code, ran.stderr).toBe(0);
    const done = delivery.parse(JSON.parse(ran.stdout));
    expect(done.files[0]?.bytes).toBeLessThanOrEqual(most);
    const path = join(done.folder, done.files[0]?.file ?? 'none');
    expect((await exiftool.read(path)).Description).toHaveLength(400);
    const bad = await specFile('bad-words', { version: 1, title: 'x', all: { caption: '{colour}' } });
    const refused = await setside('QM-26', '--spec', spec, '--metadata', bad);
    expect(refused.stderr).toContain('all.caption');
    expect((await send('PATCH', '/jobs/QM-26', { metadata: await readFile(bad, 'utf8') })).status).toBe(422);
  });

  test('without a specification those are made that the job names; one that there is not is said', async () => {
    expect((await setside('QM-26')).stderr).toContain('--spec');
    await send('PATCH', '/jobs/QM-26', { deliveries: ['social', 'Web shop, square'] });
    const ran = await setside('QM-26', '--json');
    expect(ran.code, ran.stderr).toBe(0);
    const { deliveries } = JSON.parse(ran.stdout);
    expect(deliveries.map(({ title }: Delivery) => title)).toEqual(['Social pages', 'Web shop, square']);
    await send('PATCH', '/jobs/QM-26', { deliveries: ['poster'] });
    expect((await setside('QM-26')).stderr).toContain('names poster');
  });

  test('wrong wishes say what to do', async () => {
    expect((await setside('QM-26', '--spec', 'poster')).code).toBe(1);
    expect((await setside('NONE', '--spec', 'print')).stderr).toContain('There is no job NONE');
    const bad = await setside('QM-26', '--spec', await specFile('bad', { version: 1, title: 'x' }));
    expect(bad.code).toBe(2);
    expect(bad.stderr).toContain('size');
    expect((await setside()).code).toBe(2);
    const elsewhere = await specFile('elsewhere', {
      version: 1,
      title: 'x',
      size: { kind: 'full' },
      format: { kind: 'png', depth: 8 },
      destination: { kind: 'folder', path: home },
    });
    expect((await setside('QM-26', '--spec', elsewhere)).stderr).toContain(
      'Nothing can be sent to this place',
    );
    const nowhere = await setside('QM-26', '--spec', 'print', '--to', 'nobody');
    expect(nowhere.code).toBe(1);
    expect(nowhere.stderr).toContain('There is no destination nobody');
  });

  test('what was paused goes on, what a killed station had made is not made again, what is ended stays ended', async () => {
    const specification = {
      version: 1,
      title: 'Large',
      marks: ['hero', 'select', 'alternate'],
      size: { kind: 'exact', widthPx: 3000, heightPx: 3000 },
      enlarge: true,
      format: { kind: 'png', depth: 16 },
    };
    const begin = async (): Promise<Delivery> =>
      delivery.parse(await (await send('POST', '/deliveries', { job: 'QM-26', specification })).json());
    const first = await begin();
    const some = await when(first.id, ({ filesMade }) => filesMade > 0);
    await send('PATCH', `/deliveries/${first.id}`, { state: 'paused' });
    const made = some.files[0]?.file ?? 'none';
    const before = await stat(join(first.folder, made));
    await station.kill();
    station = await startStation(home);
    expect((await now(first.id)).state).toBe('paused');
    await send('PATCH', `/deliveries/${first.id}`, { state: 'running' });
    const done = await ended(first.id);
    expect(done).toMatchObject({ frames: 4, filesMade: 4, filesMissing: 0 });
    expect(done.files[0]?.findings.map(({ code }) => code)).toEqual(['deliver.enlarged']);
    expect((await stat(join(first.folder, made))).ino).toBe(before.ino);
    expect((await send('PATCH', `/deliveries/${first.id}`, { state: 'paused' })).status).toBe(409);
    const second = await begin();
    await send('PATCH', `/deliveries/${second.id}`, { state: 'aborted' });
    const { deliveries } = deliveryList.parse(await (await send('GET', '/deliveries?job=QM-26')).json());
    expect(deliveries.find(({ id }) => id === second.id)?.state).toBe('aborted');
  });

  test('what was under way when the station was killed goes on by itself', async () => {
    const sent = await send('POST', '/deliveries', { job: 'QM-26', specification: 'archive' });
    const { id } = delivery.parse(await sent.json());
    await station.kill();
    station = await startStation(home);
    expect(await ended(id)).toMatchObject({ filesMissing: 0, frames: 4, filesMade: 4 });
  });
});
