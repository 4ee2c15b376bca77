import { expect, test } from 'vitest';
import { defaultKeepLimits } from './limits.ts';
import {
  fromStart,
  openSimulatedHome,
  originalsOn,
  plain,
  recordsOf,
  send,
  sized,
} from './testing/simulated-home.ts';

test('K3.1 a temporary name and the real one after it: the view and the frame change, the disk does not', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await send(keep, '/upload.tmp', sized(120));
  await folder.rename('/upload.tmp', '/X.DNG');
  expect(await folder.list('/')).toMatchObject([{ name: 'X.DNG', kind: 'file', sizeBytes: 120 }]);
  expect([...originalsOn(disk).keys()]).toEqual(['upload.tmp']);
  await keep.close();
  expect(events.at(-1)).toMatchObject({
    type: 'renamed',
    fromPath: '/upload.tmp',
    name: 'X.DNG',
    viewPath: '/X.DNG',
  });
});

test('K3.1 a delete hides: the original stays, and the name is free', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await send(keep, '/X.DNG', sized(120));
  await folder.hide('/X.DNG');
  expect(await folder.stat('/X.DNG')).toBeNull();
  expect(originalsOn(disk).get('X.DNG')).toEqual(sized(120));
  await send(keep, '/X.DNG', sized(120, 2));
  expect(originalsOn(disk).size).toBe(2);
  await keep.close();
  expect(events.map(({ type }) => type)).toContain('hidden');
});

test('K3.1 a file renamed while it arrives is kept under the new name', async () => {
  const { keep, events } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  const arrival = await folder.open('/upload.tmp', fromStart);
  await arrival.write(sized(120).subarray(0, 60));
  await folder.rename('/upload.tmp', '/X.DNG');
  await arrival.write(sized(120).subarray(60));
  await arrival.finish('closed');
  expect((await folder.stat('/X.DNG'))?.sizeBytes).toBe(120);
  await keep.close();
  expect(events.at(-1)).toMatchObject({ type: 'kept', name: 'X.DNG' });
});

test('K3.1 a renamed folder takes everything along', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await folder.makeFolder('/DCIM');
  await folder.makeFolder('/DCIM/100');
  await send(keep, '/DCIM/100/X.DNG', sized(120));
  await folder.rename('/DCIM', '/day-1');
  expect((await folder.stat('/day-1/100/X.DNG'))?.sizeBytes).toBe(120);
  expect(await folder.stat('/DCIM')).toBeNull();
});

test('K3.2 what the view cannot do is refused by its code and journals nothing', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await folder.makeFolder('/a');
  await send(keep, '/a/x', plain('x'));
  await send(keep, '/y', plain('y'));
  const before = (await recordsOf(keep)).length;
  const refused: readonly [Promise<unknown>, string][] = [
    [folder.list('/nowhere'), 'not-found'],
    [folder.list('/y'), 'not-a-folder'],
    [folder.makeFolder('/a'), 'exists'],
    [folder.makeFolder('/y'), 'exists'],
    [folder.makeFolder('/'), 'exists'],
    [folder.makeFolder('/nowhere/b'), 'not-found'],
    [folder.makeFolder('/y/b'), 'not-found'],
    [folder.removeFolder('/nowhere'), 'not-found'],
    [folder.removeFolder('/y'), 'not-a-folder'],
    [folder.removeFolder('/a'), 'not-empty'],
    [folder.removeFolder('/'), 'not-empty'],
    [folder.rename('/nowhere', '/z'), 'not-found'],
    [folder.rename('/y', '/a/x'), 'exists'],
    [folder.rename('/y', '/a'), 'exists'],
    [folder.rename('/a', '/a/inside'), 'exists'],
    [folder.rename('/y', '/nowhere/y'), 'not-found'],
    [folder.hide('/nowhere'), 'not-found'],
    [folder.hide('/a'), 'not-a-file'],
    [folder.setModified('/nowhere', 1), 'not-found'],
    [folder.open('/a', fromStart), 'not-a-file'],
    [folder.open('/nowhere/x', fromStart), 'not-found'],
    [folder.open('/', fromStart), 'not-a-file'],
    // The session normalises paths; should it ever not, nothing of this gets further.
    [folder.open('/../../etc/passwd', fromStart), 'not-found'],
    [folder.open('relative', fromStart), 'not-found'],
    [folder.open('/a//x', fromStart), 'not-found'],
  ];
  for (const [call, code] of refused) await expect(call).rejects.toMatchObject({ code });
  expect((await recordsOf(keep)).length).toBe(before);
});

test('K3.2 an empty folder goes', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await folder.makeFolder('/a');
  await folder.removeFolder('/a');
  expect(await folder.list('/')).toEqual([]);
});

test('K3.3 a file that arrives shows what has come; the time set by MFMT is the time shown', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  const arrival = await folder.open('/X.DNG', fromStart);
  await arrival.write(sized(120).subarray(0, 70));
  expect((await folder.stat('/X.DNG'))?.sizeBytes).toBe(70);
  await arrival.write(sized(120).subarray(70));
  await arrival.finish('closed');
  await folder.setModified('/X.DNG', 86_400_000);
  expect(await folder.stat('/X.DNG')).toEqual({
    name: 'X.DNG',
    kind: 'file',
    sizeBytes: 120,
    modifiedMs: 86_400_000,
  });
});

test('K3.3 a list is in the order of names', async () => {
  const { keep } = await openSimulatedHome();
  for (const name of ['b', 'a', 'c']) await send(keep, `/${name}`, plain(name));
  expect((await keep.folderOf('cam1').list('/')).map(({ name }) => name)).toEqual(['a', 'b', 'c']);
});

test('K3.4 one path takes one living connection at a time, and then the next', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  const [first, second] = await Promise.allSettled([
    folder.open('/X.DNG', fromStart),
    folder.open('/X.DNG', fromStart),
  ]);
  expect(second).toMatchObject({ status: 'rejected', reason: { code: 'busy', retryable: true } });
  if (first.status === 'rejected') throw first.reason;
  await first.value.finish('reset');
  await expect(folder.open('/X.DNG', fromStart)).resolves.toMatchObject({ offsetBytes: 0 });
});

test('K3.5 after a restart every folder is as it was left', async () => {
  const { keep, disk } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  await folder.makeFolder('/DCIM');
  await folder.makeFolder('/empty');
  await send(keep, '/DCIM/A', plain('a'));
  await send(keep, '/DCIM/B', sized(100).subarray(0, 40), 'reset');
  await send(keep, '/C', plain('c'));
  await folder.rename('/C', '/DCIM/D');
  await folder.setModified('/DCIM/A', 5000);
  await folder.hide('/DCIM/A');
  const before = [await folder.list('/'), await folder.list('/DCIM')];
  const after = await openSimulatedHome(disk.afterPowerLoss());
  const again = after.keep.folderOf('cam1');
  expect([await again.list('/'), await again.list('/DCIM')]).toEqual(before);
  expect(await after.keep.folderOf('cam2').list('/')).toEqual([]);
});

test('K3.6 a client that missed our answers sends and renames once more, and is told yes', async () => {
  const { keep, disk } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  for (let i = 0; i < 2; i++) {
    expect(await send(keep, '/upload.tmp', sized(120))).toMatchObject({ kind: 'kept' });
    await folder.rename('/upload.tmp', '/X.DNG');
  }
  expect((await folder.list('/')).map(({ name }) => name)).toEqual(['X.DNG']);
  expect(originalsOn(disk).size).toBe(1);
});

test('K3.7 raw and JPEG of one name are one frame; the name coming round again is another', async () => {
  let nowMs = 0;
  const { keep, events } = await openSimulatedHome(undefined, { now: () => ++nowMs });
  await send(keep, '/IMG_0001.DNG', sized(120, 1));
  await send(keep, '/IMG_0001.JPG', sized(80, 1));
  await send(keep, '/IMG_0002.DNG', sized(120, 2));
  nowMs += 4 * 3_600_000;
  await send(keep, '/IMG_0001.DNG', sized(120, 3));
  await send(keep, '/img_0001.jpg', sized(80, 3));
  await keep.close();
  const frames = events.filter(({ type }) => type === 'kept').map(({ frame }) => frame);
  expect(frames[1]).toBe(frames[0]);
  expect(frames[4]).toBe(frames[3]);
  expect(new Set(frames).size).toBe(3);
});

test('K7.1 below the floor new files are refused; what has begun may end, and be resumed', async () => {
  const { keep, disk } = await openSimulatedHome(undefined, { diskFloorBytes: 1000 });
  const folder = keep.folderOf('cam1');
  let freeBytes = 1000;
  disk.free = async () => ({ freeBytes, totalBytes: 10_000 });
  const begun = await folder.open('/X.DNG', fromStart);
  await send(keep, '/Y.DNG', sized(100).subarray(0, 60), 'reset');
  freeBytes = 999;
  await expect(folder.open('/Z.DNG', fromStart)).rejects.toMatchObject({ code: 'disk-full' });
  await begun.write(sized(120));
  expect(await begun.finish('closed')).toMatchObject({ kind: 'kept' });
  const resumed = await folder.open('/Y.DNG', { ...fromStart, at: 'end' });
  await resumed.write(sized(100).subarray(60));
  expect(await resumed.finish('closed')).toMatchObject({ kind: 'kept' });
});

test('K7.1 a file announced larger than what is free is refused before its first byte', async () => {
  const { keep, disk } = await openSimulatedHome();
  disk.free = async () => ({ freeBytes: 5000, totalBytes: 10_000 });
  const folder = keep.folderOf('cam1');
  await expect(folder.open('/X', { ...fromStart, announcedBytes: 5001 })).rejects.toMatchObject({
    code: 'disk-full',
  });
  await expect(folder.open('/X', { ...fromStart, announcedBytes: 5000 })).resolves.toBeDefined();
});

test('K7.3 a camera has so many files on their way and no more; another camera is not held up by it', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  const arrivals = await Promise.all(
    Array.from({ length: defaultKeepLimits.arrivalsPerCameraMax }, (_, i) => folder.open(`/${i}`, fromStart)),
  );
  await expect(folder.open('/more', fromStart)).rejects.toMatchObject({ code: 'too-many' });
  await expect(keep.folderOf('cam2').open('/one', fromStart)).resolves.toBeDefined();
  await arrivals[0]?.finish('reset');
  await expect(folder.open('/more', fromStart)).resolves.toBeDefined();
});

test('K7.3 a camera has so many folders and no more', async () => {
  const { keep } = await openSimulatedHome();
  const folder = keep.folderOf('cam1');
  // The root is one of them.
  await Promise.all(
    Array.from({ length: defaultKeepLimits.foldersPerCameraMax - 1 }, (_, i) => folder.makeFolder(`/${i}`)),
  );
  await expect(folder.makeFolder('/more')).rejects.toMatchObject({ code: 'too-many' });
  await folder.removeFolder('/0');
  await folder.makeFolder('/more');
});
