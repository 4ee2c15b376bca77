import { link, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ExifTool } from 'exiftool-vendored';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import type { Finding, Mark } from '../../facts/index.ts';
import { type Job, plainShot } from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { sidecarPaths } from './sidecar-path.ts';
import { SidecarWriter } from './sidecar-writer.ts';

// ExifTool is the judge of what is written here: it reads our sidecars, and what it changes is told from what we wrote.
const tool = new ExifTool();
let home = '';
let told: Finding[] = [];
let failures: unknown[] = [];
const rows = new Map<string, FrameRow>();
const job = {
  title: 'Autumn & winter',
  client: 'Quillmere',
  place: 'Studio “2”',
  code: 'A',
  shots: [{ ...plainShot('mug', 'Mug <blue>'), description: 'with a lid' }],
} as unknown as Job;

beforeAll(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-sidecars-'));
});
afterAll(async () => {
  await tool.end();
  await rm(home, { recursive: true });
});
beforeEach(async () => {
  await rm(join(home, 'jobs'), { recursive: true, force: true });
  rows.clear();
  told = [];
  failures = [];
});

function row(id: string, mark: Mark | null, ...paths: readonly string[]): FrameRow {
  const files = paths.map((path) => ({
    name: path.split('/').at(-1) ?? '',
    path: `jobs/A/originals/cam1/${path}`,
  }));
  // As much of a row as the writer reads.
  return {
    id,
    job: 'A',
    shot: 'mug',
    mark: mark ?? 'none',
    marked: mark !== null,
    files,
  } as unknown as FrameRow;
}

/** Everything that waits is written when it settles. */
async function write(...of: readonly FrameRow[]): Promise<void> {
  const asked: string[] = [];
  let allAsked = (): void => {};
  const done = new Promise<void>((resolve) => {
    allAsked = resolve;
  });
  const writer = new SidecarWriter({
    homePath: home,
    row: async (id) => {
      asked.push(id);
      if (asked.length === of.length) allAsked();
      return rows.get(id) ?? null;
    },
    job: () => job,
    tell: (finding) => told.push(finding),
    trouble: (thrown) => failures.push(thrown),
  });
  for (const each of of) {
    rows.set(each.id, each);
    writer.add(each.id);
  }
  await done;
  await writer.close();
}

const folder = (): string => join(home, 'jobs/A/sidecars/cam1');
const sidecar = (name: string): string => join(folder(), name);

async function tagsOf(name: string): Promise<unknown> {
  const readArgs = ['-G1', '-XMP:all', '-n'];
  return tool.readRaw(sidecar(name), { readArgs });
}

// The glossary's mapping; ISO 16684-1:2019, 8.4.
test.each([
  ['hero', 5],
  ['select', 4],
  ['alternate', 2],
  ['out', -1],
  ['none', 0],
] as const)(
  'ExifTool reads a frame that was marked %s as rated %d, with what was said of shot and job',
  async (mark, rating) => {
    await write(row('f1', mark, 'DCIM/IMG_0001.DNG', 'DCIM/IMG_0001.JPG'));
    expect(failures).toEqual([]);
    expect(await readdir(join(folder(), 'DCIM'))).toEqual(['IMG_0001.xmp']);
    expect(await tagsOf('DCIM/IMG_0001.xmp')).toMatchObject({
      'XMP-xmp:Rating': rating,
      'XMP-dc:Title': 'Mug <blue>',
      'XMP-dc:Description': 'with a lid',
      'XMP-dc:Subject': ['A', 'Quillmere', 'Mug <blue>'],
      'XMP-dc:Identifier': 'f1',
      'XMP-iptcCore:Location': 'Studio “2”',
      'XMP-iptcExt:Event': 'Autumn & winter',
    });
  },
);

test('a frame that nobody marked, and one of which nothing is kept, has none', async () => {
  await write(row('f1', null, 'IMG_0001.DNG'), row('f2', 'hero'));
  expect(failures).toEqual([]);
  await expect(readdir(folder())).rejects.toMatchObject({ code: 'ENOENT' });
});

test('a mark that changes is written over the one before, and nothing else is left', async () => {
  await write(row('f1', 'hero', 'IMG_0001.DNG'));
  await write(row('f1', 'out', 'IMG_0001.DNG'));
  expect(await readdir(folder())).toEqual(['IMG_0001.xmp']);
  expect(await tagsOf('IMG_0001.xmp')).toMatchObject({ 'XMP-xmp:Rating': -1 });
  expect(told).toEqual([]);
});

test('two frames of one stem have one each', async () => {
  await write(row('f1', 'hero', 'IMG_0001.DNG'), row('f2', 'out', 'IMG_0001.MOV'));
  await write(row('f1', 'select', 'IMG_0001.DNG'), row('f2', 'alternate', 'IMG_0001.MOV'));
  expect((await readdir(folder())).sort()).toEqual(['IMG_0001.MOV.xmp', 'IMG_0001.xmp']);
  expect(await tagsOf('IMG_0001.xmp')).toMatchObject({ 'XMP-xmp:Rating': 4, 'XMP-dc:Identifier': 'f1' });
  expect(await tagsOf('IMG_0001.MOV.xmp')).toMatchObject({ 'XMP-xmp:Rating': 2, 'XMP-dc:Identifier': 'f2' });
});

test('one that ExifTool changed is set aside and told, never written over', async () => {
  await write(row('f1', 'hero', 'IMG_0001.DNG'));
  await tool.write(sidecar('IMG_0001.xmp'), {}, { writeArgs: ['-XMP-xmp:Rating=3', '-overwrite_original'] });
  await write(row('f1', 'out', 'IMG_0001.DNG'));
  expect((await readdir(folder())).sort()).toEqual(['IMG_0001.aside-1.xmp', 'IMG_0001.xmp']);
  expect(await tagsOf('IMG_0001.aside-1.xmp')).toMatchObject({ 'XMP-xmp:Rating': 3 });
  expect(await tagsOf('IMG_0001.xmp')).toMatchObject({ 'XMP-xmp:Rating': -1 });
  expect(told).toEqual([
    {
      code: 'station.sidecar-set-aside',
      args: { path: sidecar('IMG_0001.xmp'), aside: sidecar('IMG_0001.aside-1.xmp') },
    },
  ]);
});

test('whatever lies there and is not ours is set aside under a name that is free', async () => {
  await mkdir(folder(), { recursive: true });
  await writeFile(sidecar('IMG_0001.xmp'), 'not ours');
  await writeFile(sidecar('IMG_0001.aside-1.xmp'), 'neither');
  await write(row('f1', 'hero', 'IMG_0001.DNG'));
  expect(await readFile(sidecar('IMG_0001.aside-1.xmp'), 'utf8')).toBe('neither');
  expect(await readFile(sidecar('IMG_0001.aside-2.xmp'), 'utf8')).toBe('not ours');
});

test('a sidecar that came in is an original: its own place is another, and a link to it is not written through', async () => {
  expect(sidecarPaths(row('f1', 'hero', 'DCIM/IMG_0001.xmp', 'DCIM/IMG_0001.DNG'))).toEqual([
    'jobs/A/sidecars/cam1/DCIM/IMG_0001.xmp',
    'jobs/A/sidecars/cam1/DCIM/IMG_0001.DNG.xmp',
  ]);
  const original = join(home, 'jobs/A/originals/cam1/IMG_0001.xmp');
  await mkdir(join(home, 'jobs/A/originals/cam1'), { recursive: true });
  await mkdir(folder(), { recursive: true });
  await writeFile(original, 'from the camera');
  await link(original, sidecar('IMG_0001.xmp'));
  await write(row('f1', 'hero', 'IMG_0001.xmp', 'IMG_0001.DNG'));
  expect(await readFile(original, 'utf8')).toBe('from the camera');
});

test('a folder that cannot be made is told, and the next one is written', async () => {
  await mkdir(join(home, 'jobs/A/sidecars'), { recursive: true });
  await writeFile(join(home, 'jobs/A/sidecars/cam1'), 'a file in the way');
  await write(row('f1', 'hero', 'IMG_0001.DNG'));
  expect(failures).toHaveLength(1);
});
