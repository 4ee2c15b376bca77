import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { appendFile, mkdtemp, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  type FolderLimits,
  type LineReport,
  type Proof,
  type WatchedFolder,
  watchFolder,
} from '../../src/receive/index.ts';
import { MemoryFolder, type MemoryFolderOptions } from '../../src/receive/testing/memory-folder.ts';
import { runProgram } from '../flow/clients.ts';
import { eventually } from '../flow/running-station.ts';

/** Real files of a real file system, copied in by cp and mv, written slowly, rewritten, pulled away. */
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const bytesOf = (length: number, seed = 1): Uint8Array =>
  new Uint8Array(length).map((_, index) => (Math.imul(index + seed, 2_654_435_761) >>> 13) & 0xff);
/** Waits that tests can afford, in the order of the real ones. */
const limits = {
  quietMs: 120,
  patienceMs: 240,
  cutPatienceMs: 30_000,
  lookMs: 20,
  rootLookMs: 40,
  missedLookMs: 60,
  retryMs: 150,
};

let place: string;
let card: string;
let folder: MemoryFolder;
let reports: LineReport[];
let watched: WatchedFolder | null;

beforeEach(async () => {
  place = await mkdtemp(join(tmpdir(), 'setside-watch-'));
  card = join(place, 'card');
  mkdirSync(card);
  watched = null;
});
afterEach(async () => {
  await watched?.close();
  await rm(place, { recursive: true, force: true });
});

function begin(
  options: MemoryFolderOptions = {},
  proofOf: (path: string) => Proof = () => 'whole',
  more: Partial<FolderLimits> = {},
): void {
  folder = new MemoryFolder(options);
  reports = [];
  goOn(proofOf, more);
}

/** Watches again with the folder as it is, as a station does that was started anew. */
function goOn(proofOf: (path: string) => Proof = () => 'whole', more: Partial<FolderLimits> = {}): void {
  watched = watchFolder(
    {
      folder: card,
      camera: { name: 'Camera A', folder },
      prove: async (path) => proofOf(path),
      limits: { ...limits, ...more },
    },
    (report) => reports.push(report),
  );
}

const codes = (): string[] => reports.map(({ finding }) => finding.code);
const kept = (count: number): Promise<true> =>
  eventually(`${count} kept`, async () => folder.originals.length >= count || null);

test('12.1 what lies on a card is copied with its folders, and nothing of it is touched', async () => {
  mkdirSync(join(card, 'DCIM/100SETSD'), { recursive: true });
  const frame = bytesOf(2_000_000);
  const file = join(card, 'DCIM/100SETSD/SET_0001.DNG');
  await writeFile(file, frame);
  await utimes(file, 1_500_000_000, 1_500_000_000);
  const before = statSync(file);
  begin();
  await kept(1);
  await eventually('its time is known', async () => {
    const there = await folder.stat('/DCIM/100SETSD/SET_0001.DNG');
    return there?.modifiedMs === 1_500_000_000_000;
  });
  expect(sha256(folder.read('/DCIM/100SETSD/SET_0001.DNG') ?? new Uint8Array(0))).toBe(sha256(frame));
  const { size, mtimeMs, ino, mode } = statSync(file);
  expect({ size, mtimeMs, ino, mode }).toEqual({
    size: before.size,
    mtimeMs: before.mtimeMs,
    ino: before.ino,
    mode: before.mode,
  });
  expect(sha256(readFileSync(file))).toBe(sha256(frame));
});

test('12.1 files that come by cp and by mv are taken', async () => {
  begin();
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  await writeFile(join(place, 'a.dng'), bytesOf(300_000, 1));
  await writeFile(join(place, 'b.dng'), bytesOf(300_000, 2));
  await runProgram('cp', [join(place, 'a.dng'), card]);
  await runProgram('mv', [join(place, 'b.dng'), card]);
  await kept(2);
  expect(folder.originals.map(({ bytes }) => sha256(bytes)).sort()).toEqual(
    [1, 2].map((seed) => sha256(bytesOf(300_000, seed))).sort(),
  );
});

test('12.2 a slow writer is followed while it writes, and its file taken once it is whole', async () => {
  const frame = bytesOf(400_000);
  const file = join(card, 'SET_0001.DNG');
  begin({}, () => (statSync(file).size < frame.length ? 'cut' : 'whole'));
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  for (let at = 0; at < frame.length; at += 100_000) {
    await appendFile(file, frame.subarray(at, at + 100_000));
    await eventually('it is followed', async () => folder.arriving === 1);
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  await kept(1);
  expect(folder.originals.map(({ bytes }) => sha256(bytes))).toEqual([sha256(frame)]);
});

test('12.4 a file that is rewritten from its start is taken as it is in the end', async () => {
  begin();
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  const file = join(card, 'x.tif');
  await writeFile(file, bytesOf(200_000, 1));
  await eventually('it is followed', async () => folder.arriving === 1);
  await writeFile(file, bytesOf(150_000, 2));
  await eventually('the last is kept', async () =>
    folder.originals.some(({ bytes }) => sha256(bytes) === sha256(bytesOf(150_000, 2))),
  );
  expect(sha256(folder.read('/x.tif') ?? new Uint8Array(0))).toBe(sha256(bytesOf(150_000, 2)));
});

test('12.4 a header that is written last, in place, is not missed', async () => {
  const file = join(card, 'x.tif');
  const frame = bytesOf(200_000);
  const patched = Uint8Array.from(frame).fill(0, 0, 8);
  const isWhole = (): boolean => readFileSync(file).subarray(0, 8).equals(frame.subarray(0, 8));
  begin({}, () => (isWhole() ? 'whole' : 'cut'));
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  await writeFile(file, patched);
  await eventually('it is followed', async () => folder.arriving === 1);
  const { open } = await import('node:fs/promises');
  const handle = await open(file, 'r+');
  await handle.write(frame.subarray(0, 8), 0, 8, 0);
  await handle.close();
  await eventually('what it is in the end is kept', async () =>
    folder.originals.some(({ bytes }) => sha256(bytes) === sha256(frame)),
  );
  expect(folder.originals.some(({ bytes }) => sha256(bytes) === sha256(patched))).toBe(false);
});

test('12.3 a temporary name is passed over until it is renamed', async () => {
  begin();
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  await writeFile(join(card, 'a.jpg.part'), bytesOf(1000));
  await writeFile(join(card, '.hidden.jpg'), bytesOf(1000, 2));
  await writeFile(join(card, 'b.jpg'), bytesOf(1000, 3));
  await kept(1);
  expect(folder.originals.map(({ name }) => name)).toEqual(['b.jpg']);
  renameSync(join(card, 'a.jpg.part'), join(card, 'a.jpg'));
  await kept(2);
  expect(folder.originals.map(({ name }) => name)).toEqual(['b.jpg', 'a.jpg']);
});

test('12.5 a card that is pulled out and put in again is told and goes on by itself', async () => {
  await writeFile(join(card, 'a.jpg'), bytesOf(1000, 1));
  begin();
  await kept(1);
  renameSync(card, join(place, 'pocket'));
  await eventually('it is away', async () => codes().includes('line.watch-away'));
  await writeFile(join(place, 'pocket', 'b.jpg'), bytesOf(1000, 2));
  renameSync(join(place, 'pocket'), card);
  await kept(2);
  expect(folder.originals.map(({ name }) => name)).toEqual(['a.jpg', 'b.jpg']);
  expect(codes().filter((code) => code === 'line.watch-begun')).toHaveLength(2);
});

test('12.5 a folder that is not there yet is waited for', async () => {
  renameSync(card, join(place, 'pocket'));
  begin();
  await eventually('it is missed', async () => codes().includes('line.watch-away'));
  await writeFile(join(place, 'pocket', 'a.jpg'), bytesOf(10));
  renameSync(join(place, 'pocket'), card);
  await kept(1);
});

test('12.5 what comes at any moment of the first look is not missed', async () => {
  // The watcher reads a folder and then asks for its changes. Which moment lies between the two is not known: so all are tried.
  const stays: { folder: MemoryFolder; watched: WatchedFolder }[] = [];
  for (let moment = 0; moment < 120; moment += 1) {
    const root = join(place, `card${moment}`);
    mkdirSync(join(root, 'DCIM/100SETSD'), { recursive: true });
    await writeFile(join(root, 'DCIM/100SETSD/SET_0001.JPG'), bytesOf(10));
    const folder = new MemoryFolder();
    const camera = { name: 'Camera A', folder };
    const watched = watchFolder(
      { folder: root, camera, prove: async () => 'whole', limits },
      () => undefined,
    );
    stays.push({ folder, watched });
    const until = performance.now() + moment / 10;
    while (performance.now() < until) await new Promise((resolve) => setImmediate(resolve));
    writeFileSync(join(root, 'DCIM/100SETSD/SET_0002.JPG'), bytesOf(10, 2));
  }
  const missed = (): number => stays.filter(({ folder }) => folder.originals.length < 2).length;
  await eventually('all are kept', async () => missed() === 0);
  for (const { watched } of stays) await watched.close();
});

test('12.7 what was taken is not taken again after a restart, what changed since is', async () => {
  await writeFile(join(card, 'a.jpg'), bytesOf(1000, 1));
  await writeFile(join(card, 'b.jpg'), bytesOf(1000, 2));
  begin();
  await kept(2);
  await eventually('times are known', async () => {
    const there = await folder.list('/');
    return there.every(
      ({ modifiedMs, name }) => modifiedMs === Math.floor(statSync(join(card, name)).mtimeMs),
    );
  });
  await watched?.close();
  await writeFile(join(card, 'b.jpg'), bytesOf(1001, 3));
  await writeFile(join(card, 'c.jpg'), bytesOf(1000, 4));
  goOn();
  await kept(4);
  expect(folder.originals.map(({ name }) => name).sort()).toEqual(['a.jpg', 'b.jpg', 'b.jpg', 'c.jpg']);
});

test('12.10 what can never be taken is told: a name that is no UTF-8, a link, a control character', async () => {
  // é in ISO 8859-1: e9 alone is no UTF-8 (RFC 3629, section 3).
  const latin = Buffer.concat([Buffer.from(`${card}/caf`), Buffer.from([0xe9]), Buffer.from('.jpg')]);
  await writeFile(latin, bytesOf(1000));
  symlinkSync(join(place, 'elsewhere.jpg'), join(card, 'link.jpg'));
  await writeFile(join(card, 'bell\u0007.jpg'), bytesOf(1000, 2));
  await writeFile(join(card, 'good.jpg'), bytesOf(1000, 3));
  begin();
  await kept(1);
  const told = (code: string) =>
    reports.filter(({ finding }) => finding.code === code).map(({ finding }) => finding.args);
  await eventually('they are counted', async () => told('line.watch-not-taken').at(-1)?.count === 3);
  expect(told('line.watch-link')).toEqual([{ name: 'link.jpg' }]);
  expect(
    told('line.watch-name')
      .map(({ why }) => why)
      .sort(),
  ).toEqual(['control-character', 'not-utf-8']);
  unlinkSync(latin);
  unlinkSync(join(card, 'link.jpg'));
  renameSync(join(card, 'bell\u0007.jpg'), join(card, 'bell.jpg'));
  await kept(2);
  await eventually('all is well', async () => codes().includes('line.watch-none-missed'));
});

test('12.8 links are not followed, neither files nor folders', async () => {
  await writeFile(join(place, 'secret.jpg'), bytesOf(10));
  mkdirSync(join(place, 'elsewhere'));
  await writeFile(join(place, 'elsewhere', 'secret.jpg'), bytesOf(10));
  symlinkSync(join(place, 'secret.jpg'), join(card, 'link.jpg'));
  symlinkSync(join(place, 'elsewhere'), join(card, 'folder'));
  await writeFile(join(card, 'own.jpg'), bytesOf(10, 2));
  begin();
  await kept(1);
  await writeFile(join(card, 'last.jpg'), bytesOf(10, 3));
  await kept(2);
  expect(folder.originals.map(({ name }) => name)).toEqual(['own.jpg', 'last.jpg']);
});

test('12.5 a file that cannot be read is told and tried again', async () => {
  await writeFile(join(card, 'a.jpg'), bytesOf(10));
  // A worn card: the system gives up once. That it is the folder that says so here makes no difference to the taker.
  class WornOut extends MemoryFolder {
    #tries = 0;
    override async open(...args: Parameters<MemoryFolder['open']>): ReturnType<MemoryFolder['open']> {
      this.#tries += 1;
      if (this.#tries === 1) throw Object.assign(new Error('worn out'), { code: 'EIO' });
      return super.open(...args);
    }
  }
  folder = new WornOut();
  reports = [];
  goOn();
  await kept(1);
  expect(codes()).toContain('line.watch-unreadable');
});

test('12.5 a file that goes while it is followed breaks off and is forgotten', async () => {
  begin({}, () => 'cut');
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  await writeFile(join(card, 'a.dng'), bytesOf(1000));
  await eventually('it is followed', async () => folder.arriving === 1);
  unlinkSync(join(card, 'a.dng'));
  await eventually('it has ended', async () => folder.ends.length === 1);
  expect(folder.ends).toEqual(['aborted']);
  expect(existsSync(join(card, 'a.dng'))).toBe(false);
});

/** A card of `count` frames, the last one the newest. */
async function fill(count: number): Promise<void> {
  for (let number = 0; number < count; number += 1) {
    const file = join(card, frameName(number));
    await writeFile(file, bytesOf(5000, number));
    await utimes(file, 1_500_000_000 + number, 1_500_000_000 + number);
  }
}
const frameName = (number: number): string => `SET_${String(number).padStart(4, '0')}.JPG`;
const newestFirst = (count: number): string[] =>
  Array.from({ length: count }, (_, at) => frameName(count - 1 - at));

test('12.6 a full card comes in two files at a time', async () => {
  const count = 60;
  await fill(count);
  let most = 0;
  begin({
    beforeFinish: async () => {
      most = Math.max(most, folder.arriving);
      if (folder.originals.length === 0)
        await eventually('a second comes', async () => folder.arriving === 2);
    },
  });
  await kept(count);
  expect(most).toBe(2);
});

test('12.6 the newest is the first', async () => {
  const count = 60;
  await fill(count);
  // One by one, since two at a time may overtake each other as the system pleases.
  begin({}, () => 'whole', { copiesAtOnceMax: 1 });
  await kept(count);
  expect(folder.originals.map(({ name }) => name)).toEqual(newestFirst(count));
});

/** A card whose newest file is seen only when all others have lain still for long. */
class SlowToSee extends MemoryFolder {
  readonly #slow: string;
  readonly #seen: Promise<unknown>;
  constructor(slow: string, seen: Promise<unknown>) {
    super();
    this.#slow = slow;
    this.#seen = seen;
  }
  override async stat(path: string): ReturnType<MemoryFolder['stat']> {
    if (path === this.#slow) await this.#seen;
    return super.stat(path);
  }
}

test('12.6 the newest is the first also on a card that takes longer to look through than a file has to lie still', async () => {
  await fill(5);
  folder = new SlowToSee(
    `/${frameName(4)}`,
    new Promise((resolve) => setTimeout(resolve, limits.quietMs * 4)),
  );
  reports = [];
  goOn(() => 'whole', { copiesAtOnceMax: 1 });
  await kept(5);
  expect(folder.originals.map(({ name }) => name)).toEqual(newestFirst(5));
});

test('12.6 a look that does not end holds up the others for so long and no longer', async () => {
  await fill(5);
  let seen = (): void => {};
  folder = new SlowToSee(
    `/${frameName(4)}`,
    new Promise<void>((resolve) => {
      seen = resolve;
    }),
  );
  reports = [];
  goOn(() => 'whole', { firstLookMs: 300 });
  await kept(4);
  seen();
  await kept(5);
});

test('12.2 a file that is proved cut and lies still for long is kept as damaged', async () => {
  await writeFile(join(card, 'a.dng'), bytesOf(1000));
  begin({ expectedBytes: () => 2000 }, () => 'cut', { cutPatienceMs: 300 });
  await kept(1);
  await eventually('it is told', async () => codes().includes('line.upload-kept-damaged'));
  // That it was not taken whole would be contrary to that it is kept as it is.
  expect(codes().filter((code) => code.startsWith('line.upload'))).toEqual([
    'line.upload-started',
    'line.upload-kept-damaged',
  ]);
});

test('a full disk is told once, and the file taken when there is room', async () => {
  await writeFile(join(card, 'a.jpg'), bytesOf(1000));
  const room = { capacityBytes: 0 };
  begin(room);
  await eventually('it is told', async () => codes().includes('line.disk-full'));
  room.capacityBytes = 1e6;
  await kept(1);
});

test('12.9 closing ends what is under way', async () => {
  begin({}, () => 'cut');
  await eventually('it is watched', async () => codes().includes('line.watch-begun'));
  await writeFile(join(card, 'a.dng'), bytesOf(1000));
  await eventually('it is followed', async () => folder.arriving === 1);
  await watched?.close();
  expect(folder.ends).toEqual(['stopping']);
  expect(folder.arriving).toBe(0);
});
