import { expect, test } from 'vitest';
import { recordEveryBytes } from './incoming-writer.ts';
import { fromOffset, fromStart, openSimulatedHome, recordsOf } from './testing/simulated-home.ts';

/** One large write each, so that the simulated disk copies it once. */
const head = new Uint8Array(recordEveryBytes).fill(1);

test('K6.1 a long file is synced as it comes: after power loss what was synced is held, and resumed', async () => {
  const { keep, disk } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/long.MOV', fromStart);
  await arrival.write(head);
  await expect.poll(async () => (await recordsOf(keep)).at(-1)?.type).toBe('synced');
  await arrival.write(new Uint8Array(1000).fill(2));
  const after = await openSimulatedHome(disk.afterPowerLoss());
  expect(after.keep.brokenOff()).toMatchObject([{ sizeBytes: recordEveryBytes, end: 'died' }]);
  const resumed = await after.keep.folderOf('cam1').open('/long.MOV', fromOffset(recordEveryBytes));
  expect(resumed.id).toBe(arrival.id);
  await resumed.write(new Uint8Array(1000).fill(3));
  expect(await resumed.finish('closed')).toMatchObject({ kind: 'kept', sizeBytes: recordEveryBytes + 1000 });
});

test('K6.1 one byte less is an ordinary frame, and the journal has no word of it on its way', async () => {
  const { keep } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/frame.DNG', fromStart);
  await arrival.write(head.subarray(1));
  await arrival.finish('closed');
  expect((await recordsOf(keep)).map(({ type }) => type)).not.toContain('synced');
});

test('K6.1 a tail in doubt after power loss is not built on: the resumed file is a copy of what is certain', async () => {
  const { keep, disk } = await openSimulatedHome();
  const arrival = await keep.folderOf('cam1').open('/long.MOV', fromStart);
  await arrival.write(head);
  await expect.poll(async () => (await recordsOf(keep)).at(-1)?.type).toBe('synced');
  await arrival.write(new Uint8Array(1000).fill(2));
  // The size reached the disk, the last block did not.
  const after = await openSimulatedHome(disk.afterPowerLoss((what) => what.startsWith('size')));
  const [held] = after.keep.brokenOff();
  expect(after.disk.bytesOf(held?.diskPath ?? '')?.length).toBe(recordEveryBytes + 1000);
  expect(held?.sizeBytes).toBe(recordEveryBytes);
  const resumed = await after.keep.folderOf('cam1').open('/long.MOV', { ...fromStart, at: 'end' });
  expect(resumed.offsetBytes).toBe(recordEveryBytes);
  expect(resumed.id).not.toBe(arrival.id);
  await resumed.write(new Uint8Array(1000).fill(3));
  expect(await resumed.finish('closed')).toMatchObject({ kind: 'kept', sizeBytes: recordEveryBytes + 1000 });
});

test('K8.2 progress is told once early, then once in 50 ms however fast the line is', async () => {
  let clockMs = 5;
  const { keep, events } = await openSimulatedHome(undefined, { now: () => clockMs });
  const arrival = await keep.folderOf('cam1').open('/frame.DNG', fromStart);
  const piece = new Uint8Array(32 * 1024);
  for (let i = 0; i < 10; i++) await arrival.write(piece);
  clockMs += 49;
  await arrival.write(piece);
  clockMs += 1;
  for (let i = 0; i < 9; i++) await arrival.write(piece);
  await arrival.finish('closed');
  await keep.close();
  const told = events.filter(({ type }) => type === 'progress').map(({ sizeBytes }) => sizeBytes / 1024);
  // The second piece makes 64; the twelfth is the first after 50 ms; 640 in all.
  expect(told).toEqual([64, 384]);
});

test('K8.2 the last bytes before a pause of the line are told though they came too soon after the last word', async () => {
  const { keep, events } = await openSimulatedHome(undefined, { now: () => 5 });
  const arrival = await keep.folderOf('cam1').open('/frame.DNG', fromStart);
  await arrival.write(new Uint8Array(64 * 1024));
  await arrival.write(new Uint8Array(1000));
  await expect
    .poll(() => events.filter(({ type }) => type === 'progress').at(-1)?.sizeBytes, { timeout: 5000 })
    .toBe(64 * 1024 + 1000);
  await arrival.finish('closed');
  await keep.close();
});
