import { expect, test } from 'vitest';
import { simulatedDisk } from './testing/simulated-disk.ts';
import {
  fromOffset,
  fromStart,
  home,
  openSimulatedHome,
  originalsOn,
  plain,
  send,
  sha256,
  sized,
} from './testing/simulated-home.ts';

const whole = sized(200);
const cut = whole.subarray(0, 120);

test('K2.1 a file that its structure proves cut stays in incoming/, durable, listed, and is not acknowledged', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  expect(await send(keep, '/X.DNG', cut)).toEqual({ kind: 'broken-off', sizeBytes: 120, expectedBytes: 200 });
  expect(originalsOn(disk).size).toBe(0);
  const [file] = keep.brokenOff();
  expect(file).toMatchObject({ viewPath: '/X.DNG', sizeBytes: 120, expectedBytes: 200, end: 'closed' });
  expect(disk.afterPowerLoss().bytesOf(file?.diskPath ?? '')).toEqual(cut);
  await keep.close();
  expect(events.at(-1)).toMatchObject({ type: 'broken-off', sha256: sha256(cut), expectedBytes: 200 });
});

test('K2.1 more announced than came, and no structure to say otherwise, is cut', async () => {
  const { keep } = await openSimulatedHome();
  const how = { ...fromStart, announcedBytes: 16 };
  expect(await send(keep, '/notes.txt', plain('fifteen letters'), 'closed', how)).toEqual({
    kind: 'broken-off',
    sizeBytes: 15,
    expectedBytes: 16,
  });
  expect(
    await send(keep, '/other.txt', plain('fifteen letters'), 'closed', { ...fromStart, announcedBytes: 15 }),
  ).toMatchObject({ kind: 'kept' });
});

test.each([
  ['at the offset that SIZE tells', fromOffset(120)],
  ['by appending', { ...fromStart, at: 'end' as const }],
])('K2.2 a broken-off file is resumed %s and kept with the hash of the whole', async (_, how) => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  expect((await keep.folderOf('cam1').stat('/X.DNG'))?.sizeBytes).toBe(120);
  expect(await send(keep, '/X.DNG', whole.subarray(120), 'closed', how)).toMatchObject({ kind: 'kept' });
  expect(originalsOn(disk).get('X.DNG')).toEqual(whole);
  expect(keep.brokenOff()).toEqual([]);
  await keep.close();
  expect(events.at(-1)).toMatchObject({ type: 'kept', sha256: sha256(whole), arrival: events[0]?.arrival });
});

test('K2.2 a file is resumed again and again, over restarts', async () => {
  let { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', whole.subarray(0, 50), 'reset');
  for (const [from, to] of [
    [50, 110],
    [110, 150],
  ] as const) {
    ({ keep, disk } = await openSimulatedHome(disk.afterPowerLoss()));
    const outcome = await send(keep, '/X.DNG', whole.subarray(from, to), 'reset', fromOffset(from));
    expect(outcome).toEqual({ kind: 'broken-off', sizeBytes: to, expectedBytes: 200 });
  }
  expect(await send(keep, '/X.DNG', whole.subarray(150), 'closed', fromOffset(150))).toMatchObject({
    kind: 'kept',
  });
  expect(originalsOn(disk).get('X.DNG')).toEqual(whole);
});

test('K2.3 the very same cut bytes a second time are kept as damaged, and so they stay', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const damaged = { kind: 'kept-damaged', sizeBytes: 120, expectedBytes: 200 };
  expect(await send(keep, '/X.DNG', cut)).toEqual(damaged);
  expect(originalsOn(disk).get('X.DNG')).toEqual(cut);
  expect(keep.brokenOff()).toEqual([]);
  expect(await send(keep, '/X.DNG', cut)).toEqual(damaged);
  expect(originalsOn(disk).size).toBe(1);
  await keep.close();
  expect(events.map(({ type }) => type)).toContain('damaged');
});

test('K2.3 a line that always dies at the same place does not make a damaged file', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (let i = 0; i < 3; i++)
    expect(await send(keep, '/X.DNG', cut, 'reset')).toMatchObject({ kind: 'broken-off' });
  expect(originalsOn(disk).size).toBe(0);
});

test('K2.3 other cut bytes are not the same bytes', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut);
  expect(await send(keep, '/X.DNG', whole.subarray(0, 121))).toMatchObject({ kind: 'broken-off' });
  expect(await send(keep, '/X.DNG', sized(200, 9).subarray(0, 120))).toMatchObject({ kind: 'broken-off' });
});

test('K2.3 a resume that brings nothing and ends in order says that this is all there is', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  expect(await send(keep, '/X.DNG', new Uint8Array(0), 'closed', fromOffset(120))).toMatchObject({
    kind: 'kept-damaged',
  });
});

test('K2.1 when a file broke off stays the same, however often it is asked and also after kill -9', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  await (await keep.folderOf('cam1').open('/Y.DNG', fromStart)).write(cut);
  const after = await openSimulatedHome(disk.afterKill());
  const moments = () => after.keep.brokenOff().map((file) => file.atMs);
  const first = moments();
  expect(first).toHaveLength(2);
  expect(moments()).toEqual(first);
});

test('K2.3 after kill -9 the bytes held are read again to compare', async () => {
  const { keep, disk } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/X.DNG', fromStart);
  await arrival.write(cut);
  const after = await openSimulatedHome(disk.afterKill());
  // What its structure says it must become is found out again, since nobody had journalled it yet.
  expect(after.keep.brokenOff()).toMatchObject([{ sizeBytes: 120, expectedBytes: 200, end: 'died' }]);
  expect(await send(after.keep, '/X.DNG', cut)).toMatchObject({ kind: 'kept-damaged' });
});

test('K2.4 sent again from the start: the old bytes stay listed until the new file is kept, and are never deleted', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const [old] = keep.brokenOff();
  const arrival = await keep.folderOf('cam1').open('/X.DNG', fromStart);
  await arrival.write(whole.subarray(0, 150));
  expect(keep.brokenOff().map((file) => file.arrival)).toEqual([old?.arrival]);
  expect((await keep.folderOf('cam1').stat('/X.DNG'))?.sizeBytes).toBe(150);
  await arrival.write(whole.subarray(150));
  expect(await arrival.finish('closed')).toMatchObject({ kind: 'kept' });
  expect(keep.brokenOff()).toEqual([]);
  expect(disk.bytesOf(old?.diskPath ?? '')).toEqual(cut);
  expect(await keep.leftovers()).toMatchObject([{ why: 'made-good', sizeBytes: 120 }]);
  await keep.close();
  expect(events.find(({ type }) => type === 'made-good')).toMatchObject({
    arrival: old?.arrival,
    by: arrival.id,
  });
  expect(new Set(events.map(({ frame }) => frame)).size).toBe(1);
});

test('K2.4 also where the camera deletes the broken-off file before it sends anew', async () => {
  const { keep, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  await keep.folderOf('cam1').hide('/X.DNG');
  await send(keep, '/X.DNG', whole);
  expect(keep.brokenOff()).toEqual([]);
  await keep.close();
  expect(new Set(events.map(({ frame }) => frame)).size).toBe(1);
});

test('K2.4 another picture under the same name: the broken-off file stays listed, as a frame of its own', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const [old] = keep.brokenOff();
  const other = sized(200, 9);
  expect(await send(keep, '/X.DNG', other)).toMatchObject({ kind: 'kept' });
  expect(keep.brokenOff()).toMatchObject([{ arrival: old?.arrival, frame: old?.frame }]);
  expect(await keep.heldInIncoming()).toEqual([{ why: 'waiting', files: 1, bytes: 120 }]);
  // Nothing that comes later joins it, neither the JPEG of the new picture nor a restart's view of it.
  await send(keep, '/X.JPG', plain('the JPEG'));
  await keep.foldDoubles();
  await keep.close();
  const [kept, jpeg] = events.filter(({ type }) => type === 'kept');
  expect(kept).toMatchObject({ startedFrame: old?.frame });
  expect(kept?.frame).not.toBe(old?.frame);
  expect(jpeg?.frame).toBe(kept?.frame);
  const after = await openSimulatedHome(disk.afterPowerLoss());
  expect(after.keep.brokenOff()).toMatchObject([{ arrival: old?.arrival, frame: old?.frame }]);
  // The first picture comes again after all: it is made good, and takes the frame it had.
  expect(await send(after.keep, '/X.DNG', whole)).toMatchObject({ kind: 'kept' });
  expect(after.keep.brokenOff()).toEqual([]);
  await after.keep.close();
  expect(after.events.find(({ type }) => type === 'kept')?.frame).toBe(old?.frame);
});

test('K2.4 a broken-off file of another picture can be given up by a person', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  await send(keep, '/X.DNG', sized(200, 9));
  await keep.letGo(keep.brokenOff()[0]?.arrival ?? '');
  expect(keep.brokenOff()).toEqual([]);
  expect((await keep.folderOf('cam1').stat('/X.DNG'))?.sizeBytes).toBe(200);
});

test('K2.4 one byte past its end, or one that differs, and the attempt is not made good; nothing held is', async () => {
  for (const [held, good] of [
    [whole.subarray(0, 199), true],
    [new Uint8Array(0), true],
    [new Uint8Array([...whole.subarray(0, 119), (whole[119] ?? 0) ^ 1]), false],
    [sized(300).subarray(0, 201), false],
  ] as const) {
    const { keep } = await openSimulatedHome();
    await send(keep, '/X.DNG', held, 'reset');
    await send(keep, '/X.DNG', whole);
    expect(keep.brokenOff().length, `${held.length} bytes`).toBe(good ? 0 : 1);
  }
});

test('K2.4 what another program took out of incoming/ is compared by its journalled hash', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  await disk.rename(keep.brokenOff()[0]?.diskPath ?? '', `${home}/elsewhere`);
  await send(keep, '/X.DNG', whole);
  expect(keep.brokenOff()).toEqual([]);
});

test('K2.5 an earlier offset begins a new file with a copy; the bytes held are not written over', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const [old] = keep.brokenOff();
  const other = sized(200, 5).subarray(60);
  await send(keep, '/X.DNG', other, 'closed', fromOffset(60));
  expect(disk.bytesOf(old?.diskPath ?? '')).toEqual(cut);
  const joined = new Uint8Array([...whole.subarray(0, 60), ...other]);
  expect(originalsOn(disk).get('X.DNG')).toEqual(joined);
});

test('K2.6 going on in a kept file makes a new original from its first bytes and the new ones', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/log.txt', plain('first. '));
  expect(await send(keep, '/log.txt', plain('second.'), 'closed', { ...fromStart, at: 'end' })).toMatchObject(
    {
      kind: 'kept',
      sizeBytes: 14,
    },
  );
  expect(await send(keep, '/log.txt', plain('SECOND'), 'closed', fromOffset(7))).toMatchObject({
    sizeBytes: 13,
  });
  expect([...originalsOn(disk)]).toEqual([
    ['log.txt', plain('first. ')],
    ['log (2).txt', plain('first. second.')],
    ['log (3).txt', plain('first. SECOND')],
  ]);
  await keep.close();
  expect(events.at(-1)).toMatchObject({ type: 'kept', sha256: sha256(plain('first. SECOND')) });
});

test('K2.7 an offset behind what is held is refused, at its end it is taken', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const folder = keep.folderOf('cam1');
  await expect(folder.open('/X.DNG', fromOffset(121))).rejects.toMatchObject({ code: 'offset-beyond-end' });
  await expect(folder.open('/new.DNG', fromOffset(1))).rejects.toMatchObject({ code: 'offset-beyond-end' });
  expect((await folder.open('/X.DNG', fromOffset(120))).offsetBytes).toBe(120);
});

test('K2.8 a file let go is neither listed nor shown, its bytes stay, and it cannot be let go twice', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  const [file] = keep.brokenOff();
  const id = file?.arrival ?? '';
  await keep.letGo(id);
  expect(keep.brokenOff()).toEqual([]);
  expect(await keep.folderOf('cam1').stat('/X.DNG')).toBeNull();
  expect(disk.bytesOf(file?.diskPath ?? '')).toEqual(cut);
  await expect(keep.letGo(id)).rejects.toMatchObject({ code: 'not-broken-off' });
  await expect(keep.letGo('nobody')).rejects.toMatchObject({ code: 'not-broken-off' });
});

test('K2.9 a whole file is kept even if the connection was reset; a text is not', async () => {
  const { keep } = await openSimulatedHome();
  expect(await send(keep, '/X.DNG', whole, 'reset')).toMatchObject({ kind: 'kept', wholeness: 'whole' });
  expect(await send(keep, '/notes.txt', plain('call the'), 'reset')).toMatchObject({
    kind: 'broken-off',
    expectedBytes: null,
  });
});

test('K2.9 a text that ended without close_notify is not believed, unless the camera ends it so twice', async () => {
  const { keep, disk } = await openSimulatedHome();
  const text = plain('call the studio');
  expect(await send(keep, '/notes.txt', text.subarray(0, 8), 'unclosed')).toMatchObject({
    kind: 'broken-off',
  });
  expect(await send(keep, '/notes.txt', text, 'unclosed')).toMatchObject({ kind: 'broken-off' });
  expect(await send(keep, '/notes.txt', text, 'unclosed')).toMatchObject({
    kind: 'kept',
    wholeness: 'unknown',
  });
  expect(originalsOn(disk).get('notes.txt')).toEqual(text);
});

test('K2.3 without close_notify a second time counts only where the first was not broken', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', cut, 'reset');
  expect(await send(keep, '/X.DNG', cut, 'unclosed')).toMatchObject({ kind: 'broken-off' });
  expect(await send(keep, '/X.DNG', cut, 'unclosed')).toEqual({
    kind: 'kept-damaged',
    sizeBytes: 120,
    expectedBytes: 200,
  });
});

test('K2.13 an empty picture is not acknowledged; the very same again is what the camera has', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (const [path, bytes] of [
    ['/E.DNG', new Uint8Array(0)],
    ['/T.JPG', plain('abc')],
  ] as const) {
    const { length: sizeBytes } = bytes;
    expect(await send(keep, path, bytes)).toEqual({ kind: 'broken-off', sizeBytes, expectedBytes: null });
    expect(originalsOn(disk).has(path.slice(1))).toBe(false);
    expect(await send(keep, path, bytes)).toEqual({ kind: 'kept-damaged', sizeBytes, expectedBytes: null });
    expect(originalsOn(disk).get(path.slice(1))).toEqual(bytes);
  }
  expect(keep.brokenOff()).toEqual([]);
});

test('K6.1 after kill -9 a file under way holds what is on the disk; after power loss only what was synced', async () => {
  const { keep, disk } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/X.DNG', fromStart);
  await arrival.write(cut);
  const killed = await openSimulatedHome(disk.afterKill());
  expect(killed.keep.brokenOff()).toMatchObject([{ arrival: arrival.id, sizeBytes: 120, end: 'died' }]);
  expect(await send(killed.keep, '/X.DNG', whole.subarray(120), 'closed', fromOffset(120))).toMatchObject({
    kind: 'kept',
  });
});

test('K6.1 a hole that power loss left in an unsynced file never becomes part of a kept one', async () => {
  const { keep, disk } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/X.DNG', fromStart);
  await arrival.write(sized(2000).subarray(0, 1500));
  // Size and name reached the disk, the blocks did not: the file is there, full of zeroes.
  const holed = disk.afterPowerLoss((what) => !what.startsWith('block'));
  const after = await openSimulatedHome(holed);
  const [file] = after.keep.brokenOff();
  expect(holed.bytesOf(file?.diskPath ?? '')).toEqual(new Uint8Array(1500));
  expect(file?.sizeBytes).toBe(0);
  await expect(after.keep.folderOf('cam1').open('/X.DNG', fromOffset(1500))).rejects.toMatchObject({
    code: 'offset-beyond-end',
  });
  expect(await send(after.keep, '/X.DNG', sized(2000))).toMatchObject({ kind: 'kept', wholeness: 'whole' });
  expect(originalsOn(holed).get('X.DNG')).toEqual(sized(2000));
});

test('K6.3 files that no record knows are listed and left alone', async () => {
  const disk = simulatedDisk();
  disk.put(`${home}/incoming/stranger`, plain('?'));
  disk.put(`${home}/jobs/QM-26/originals/cam1/lost.DNG`, plain('!'));
  const { keep } = await openSimulatedHome(disk);
  expect((await keep.leftovers()).map(({ path, why }) => [path, why])).toEqual([
    [`${home}/incoming/stranger`, 'unrecorded'],
    [`${home}/jobs/QM-26/originals/cam1/lost.DNG`, 'unrecorded'],
  ]);
  expect(disk.files()).toContain(`${home}/incoming/stranger`);
});

test('K2.7 a client that was to go on and began anew is kept, never as whole, and told', async () => {
  const { keep, disk } = await openSimulatedHome();
  const picture = sized(2000);
  await send(keep, '/X.DNG', picture.subarray(0, 1000), 'reset');
  const twice = Buffer.concat([picture.subarray(0, 1000), picture]);
  expect(await send(keep, '/X.DNG', picture, 'closed', fromOffset(1000))).toEqual({
    kind: 'kept',
    wholeness: 'unknown',
    sizeBytes: 3000,
    beganAgainAtBytes: 1000,
  });
  expect(Buffer.from(originalsOn(disk).get('X.DNG') ?? []).equals(twice)).toBe(true);
  // Too little to tell by.
  await send(keep, '/Y.DNG', picture.subarray(0, 511), 'reset');
  expect(await send(keep, '/Y.DNG', picture, 'closed', fromOffset(511))).toMatchObject({
    wholeness: 'whole',
  });
});
