import { expect, test, vi } from 'vitest';
import type { Keep } from './keep.ts';
import type { SimulatedDisk } from './testing/simulated-disk.ts';
import {
  fromOffset,
  fromStart,
  home,
  openSimulatedHome,
  plain,
  recordsOf,
  send,
  sha256,
  sized,
} from './testing/simulated-home.ts';

const original = (name: string): string => `${home}/jobs/QM-26/originals/cam1/${name}`;
const incoming = (disk: SimulatedDisk): Uint8Array[] =>
  disk
    .files()
    .filter((path) => path.startsWith(`${home}/incoming/`))
    .map((path) => disk.bytesOf(path) ?? new Uint8Array(0));

async function foldedRecords(keep: Keep): Promise<object[]> {
  return (await recordsOf(keep)).filter(({ type }) => type === 'folded');
}

test('K2.10 a file that was sent again though it was kept is given back, and the journal says where its bytes are', async () => {
  const { keep, disk } = await openSimulatedHome();
  const bytes = sized(120);
  for (let times = 0; times < 4; times++) await send(keep, '/A.DNG', bytes);
  expect(incoming(disk)).toHaveLength(3);
  expect(await keep.foldDoubles()).toEqual({ files: 3, bytes: 360, failure: null, more: false });
  expect(incoming(disk)).toEqual([]);
  expect(disk.bytesOf(original('A.DNG'))).toEqual(bytes);
  const records = await foldedRecords(keep);
  expect(records).toHaveLength(3);
  expect(records[0]).toMatchObject({ sizeBytes: 120, sha256: sha256(bytes) });
  expect(await keep.foldDoubles()).toEqual({ files: 0, bytes: 0, failure: null, more: false });
  // What the camera sees is as before, and it may send once more.
  expect(await send(keep, '/A.DNG', bytes)).toMatchObject({ kind: 'kept' });
});

test('K2.10 a cut file that was made good is given back where the original begins with its bytes', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/A.DNG', sized(150).subarray(0, 70), 'reset');
  await send(keep, '/A.DNG', sized(150));
  expect(await keep.foldDoubles()).toMatchObject({ files: 1, bytes: 70 });
  expect(await foldedRecords(keep)).toMatchObject([
    { sizeBytes: 70, sha256: sha256(sized(150).subarray(0, 70)) },
  ]);
  expect(incoming(disk)).toEqual([]);
});

test('K2.10 one byte that the original does not hold, and the attempt stays', async () => {
  const { keep, disk } = await openSimulatedHome();
  const cut = sized(150).slice(0, 70);
  cut[69] = (cut[69] ?? 0) ^ 1;
  await send(keep, '/A.DNG', cut, 'reset');
  await send(keep, '/A.DNG', sized(150));
  expect(await keep.foldDoubles()).toEqual({ files: 0, bytes: 0, failure: null, more: false });
  expect(incoming(disk)).toEqual([cut]);
  expect(await foldedRecords(keep)).toEqual([]);
  // It is not read again and again.
  const steps = disk.steps.length;
  await keep.foldDoubles();
  expect(disk.steps.slice(steps).filter((step) => step.startsWith('read'))).toEqual([]);
});

test('K2.10 an original that was altered, cut or lost since proves nothing: the attempt may be the only whole one', async () => {
  for (const spoil of ['altered', 'cut', 'gone'] as const) {
    const { keep, disk } = await openSimulatedHome();
    const bytes = sized(120);
    for (let times = 0; times < 2; times++) await send(keep, '/A.DNG', bytes);
    const spoilt = bytes.slice();
    spoilt[119] = (spoilt[119] ?? 0) ^ 1;
    if (spoil === 'gone') await disk.rename(original('A.DNG'), `${home}/elsewhere`);
    else disk.put(original('A.DNG'), spoil === 'cut' ? bytes.slice(0, 119) : spoilt);
    expect(await keep.foldDoubles(), spoil).toMatchObject({ files: 0, failure: null });
    expect(incoming(disk), spoil).toEqual([bytes]);
  }
});

test('K2.10 what is waited for, let go, or unknown to the journal stays', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/W.DNG', sized(100).subarray(0, 60), 'reset');
  await send(keep, '/L.DNG', sized(100).subarray(0, 50), 'reset');
  const given = keep.brokenOff().find(({ name }) => name === 'L.DNG');
  await keep.letGo(given?.arrival ?? '');
  disk.put(`${home}/incoming/stranger.bin`, plain('whose is this?'));
  expect(await keep.foldDoubles()).toMatchObject({ files: 0 });
  expect(await keep.heldInIncoming()).toEqual([
    { why: 'waiting', files: 1, bytes: 60 },
    { why: 'let-go', files: 1, bytes: 50 },
    { why: 'unrecorded', files: 1, bytes: 14 },
  ]);
});

test('K2.11 a camera that breaks off again and again takes room for two attempts, however often it tries', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  const whole = sized(400);
  let longest = 0;
  for (const cut of [40, 90, 30, 200, 120, 200, 10, 60, 0, 150]) {
    await send(keep, '/A.DNG', whole.subarray(0, cut), 'reset');
    longest = Math.max(longest, cut);
    await keep.foldDoubles();
    expect(incoming(disk).length).toBeLessThanOrEqual(2);
    expect(Math.max(...incoming(disk).map(({ length }) => length))).toBe(longest);
    expect(keep.brokenOff().length).toBe(incoming(disk).length);
  }
  await vi.waitFor(() => expect(events.filter(({ type }) => type === 'folded')).toHaveLength(8), 30_000);
  // The last attempt is what the camera goes on from; in the end all of them are in the original.
  const arrival = await keep.folderOf('cam1').open('/A.DNG', { ...fromStart, at: 'end' });
  expect(arrival.offsetBytes).toBe(150);
  await arrival.write(whole.slice(150));
  expect(await arrival.finish('closed')).toMatchObject({ kind: 'kept', sizeBytes: 400 });
  await keep.foldDoubles();
  expect(incoming(disk)).toEqual([]);
  expect(disk.bytesOf(original('A.DNG'))).toEqual(whole);
});

test('K2.3 cut bytes that came before and were folded still tell that the camera has no more', async () => {
  const { keep } = await openSimulatedHome();
  const cut = sized(400).subarray(0, 80);
  await send(keep, '/A.DNG', cut, 'reset');
  await send(keep, '/A.DNG', sized(400).subarray(0, 120), 'reset');
  expect(await keep.foldDoubles()).toMatchObject({ files: 1, bytes: 80 });
  expect(await send(keep, '/A.DNG', cut)).toMatchObject({ kind: 'kept-damaged', sizeBytes: 80 });
});

test('K2.11 attempts that are living are left alone', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/A.DNG', sized(100).subarray(0, 60), 'reset');
  const arrival = await keep.folderOf('cam1').open('/A.DNG', fromStart);
  await arrival.write(sized(100).slice(0, 30));
  expect(await keep.foldDoubles()).toMatchObject({ files: 0 });
  expect(incoming(disk)).toHaveLength(2);
  await arrival.finish('reset');
});

test('K2.11 nothing is taken from under an upload that begins with a copy of it', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/A.DNG', sized(100).subarray(0, 60), 'reset');
  await send(keep, '/A.DNG', sized(100).subarray(0, 50), 'reset');
  // On from its middle: the shown attempt is copied into a new one, and is shown no more.
  const arrival = await keep.folderOf('cam1').open('/A.DNG', fromOffset(30));
  expect(await keep.foldDoubles()).toMatchObject({ files: 0 });
  expect(incoming(disk)).toHaveLength(3);
  await arrival.finish('reset');
  expect(await keep.foldDoubles()).toMatchObject({ files: 1, bytes: 50 });
});

test('K7.5 a full disk: nothing is given back before that is journalled, and it is as soon as there is room', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (let times = 0; times < 3; times++) await send(keep, '/A.DNG', sized(120));
  disk.refuse((step) => (/^(write|create)/.test(step) ? 'ENOSPC' : null));
  expect(await keep.foldDoubles()).toEqual({ files: 0, bytes: 0, failure: 'disk-full', more: false });
  expect(disk.steps.filter((step) => step.startsWith('discard'))).toEqual([]);
  expect(incoming(disk)).toHaveLength(2);
  disk.refuse(() => null);
  expect(await keep.foldDoubles()).toEqual({ files: 2, bytes: 240, failure: null, more: false });
  expect(incoming(disk)).toEqual([]);
});

test('K2.10 what was journalled and not yet given back when the station died is given back by the next one', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (let times = 0; times < 2; times++) await send(keep, '/A.DNG', sized(120));
  disk.refuse((step) => (step.startsWith('discard') ? 'EIO' : null));
  expect(await keep.foldDoubles()).toMatchObject({ files: 0, failure: 'disk-failed' });
  const next = await openSimulatedHome(disk.afterKill());
  expect(await next.keep.heldInIncoming()).toEqual([{ why: 'folded', files: 1, bytes: 120 }]);
  expect(await next.keep.foldDoubles()).toMatchObject({ files: 1 });
  expect(await foldedRecords(next.keep)).toHaveLength(1);
  expect(await next.keep.heldInIncoming()).toEqual([]);
});

test('one pass reads so much and says that there is more', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (let times = 0; times < 4; times++) await send(keep, '/A.DNG', sized(120));
  expect(await keep.foldDoubles(240)).toMatchObject({ files: 2, more: true });
  expect(await keep.foldDoubles(241)).toMatchObject({ files: 1, more: false });
  expect(incoming(disk)).toEqual([]);
});
