import { expect, test, vi } from 'vitest';
import { defaultFtpLimits } from '../ftp/core/limits.ts';
import { BufferPool } from './buffer-pool.ts';
import { Intake } from './intake.ts';

const limits = { ...defaultFtpLimits, bufferBytes: 256 * 1024, buffersPerUpload: 4 };

interface HeldWrite {
  readonly bytes: Uint8Array;
  settle(): void;
  fail(): void;
}

/** A folder whose writes settle when the test says so. */
function heldFolder() {
  const writes: HeldWrite[] = [];
  const arrival = {
    write: (bytes: Uint8Array) =>
      new Promise<void>((resolve, reject) => {
        writes.push({ bytes, settle: resolve, fail: () => reject(new Error('the disk failed')) });
      }),
  };
  return { writes, arrival };
}

function open(pool = new BufferPool(limits.bufferBytes, 8)) {
  const { writes, arrival } = heldFolder();
  const told = { room: 0, failed: 0 };
  const intake = new Intake(arrival, limits, pool, {
    room: () => {
      told.room += 1;
    },
    failed: () => {
      told.failed += 1;
    },
  });
  let next = 0;
  /** As a socket would: fills what room there is, at most `most` bytes. False when told to stop. */
  const fill = (most: number): boolean => {
    const room = intake.room();
    const bytes = Math.min(room.length, most);
    for (let at = 0; at < bytes; at += 1) {
      room[at] = next & 0xff;
      next += 1;
    }
    return intake.received(bytes);
  };
  return { intake, writes, told, fill };
}

/** Reads until told to stop, or a hundred times where nobody does; says how often. */
function fillUntilStopped(fill: (most: number) => boolean): number {
  for (let reads = 1; reads <= 100; reads += 1) {
    if (!fill(65_536)) return reads;
  }
  return 100;
}

const soon = () => new Promise((resolve) => setImmediate(resolve));

test('6.6 a folder that settles nothing is sent at most three buffers, and the fourth keeps room for one read', () => {
  const { intake, writes, fill } = open();
  const reads = fillUntilStopped(fill);
  expect(writes.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBe(3 * limits.bufferBytes);
  expect(intake.room().length).toBe(limits.bufferBytes);
  expect(reads).toBe(12);
});

test('6.6 reading goes on as soon as one buffer is written, and is told so once', async () => {
  const { writes, told, fill } = open();
  fillUntilStopped(fill);
  for (const write of writes.slice(0, 2)) write.settle();
  await soon();
  expect(told.room).toBe(1);
  expect(fill(65_536)).toBe(true);
});

test('6.6 the bytes handed on are the bytes that came, in order, through many turns of the buffers', async () => {
  const { intake, writes, fill } = open();
  const came: number[] = [];
  for (let turn = 0; turn < 60; turn += 1) {
    fill(50_001);
    for (const write of writes.splice(0)) {
      for (const byte of write.bytes) came.push(byte);
      write.settle();
    }
    await soon();
  }
  const drained = intake.drain();
  for (const write of writes.splice(0)) {
    for (const byte of write.bytes) came.push(byte);
    write.settle();
  }
  await drained;
  expect(came.length).toBe(intake.receivedBytes);
  expect(came.every((value, index) => value === (index & 0xff))).toBe(true);
});

test('9.3 a few bytes are handed on though no more come: the first view must not wait for a full buffer', async () => {
  const { writes, fill } = open();
  fill(1000);
  expect(writes).toHaveLength(0);
  await expect.poll(() => writes.length).toBe(1);
  expect(writes[0].bytes.length).toBe(1000);
});

test('9.3 parts of a buffer are sent 10 ms apart; a line that fills it sooner sends full ones', async () => {
  vi.useFakeTimers();
  try {
    const { writes, fill } = open();
    const sizes = (): number[] => writes.map(({ bytes }) => bytes.length);
    await vi.advanceTimersByTimeAsync(10);
    fill(70_000);
    writes[0].settle();
    await vi.advanceTimersByTimeAsync(9);
    fill(70_000);
    expect(sizes()).toEqual([70_000]);
    await vi.advanceTimersByTimeAsync(1);
    fill(70_000);
    expect(sizes()).toEqual([70_000, 140_000]);
    writes[1].settle();
    await vi.advanceTimersByTimeAsync(9);
    fill(limits.bufferBytes);
    expect(sizes()).toEqual([70_000, 140_000, limits.bufferBytes - 210_000]);
  } finally {
    vi.useRealTimers();
  }
});

test('6.6 a line that the disk keeps up with takes two buffers and no more', async () => {
  const pool = new BufferPool(limits.bufferBytes, 8);
  const take = vi.spyOn(pool, 'take');
  const { writes, fill } = open(pool);
  for (let read = 0; read < 40; read += 1) {
    fill(70_000);
    for (const write of writes.splice(0)) write.settle();
    await soon();
  }
  expect(take).toHaveBeenCalledTimes(2);
});

test('6.3 a rejected write is told once; nothing is handed on after it, and draining still ends', async () => {
  const { intake, writes, told, fill } = open();
  fill(70_000);
  fill(70_000);
  writes[0].fail();
  await soon();
  expect(told.failed).toBe(1);
  expect(fill(300_000)).toBe(false);
  expect(writes).toHaveLength(1);
  await intake.drain();
  expect(intake.failure).toBeInstanceOf(Error);
});

test('9.3 buffers are shared memory and come back to the pool', async () => {
  const pool = new BufferPool(limits.bufferBytes, 8);
  const first = open(pool);
  first.fill(10);
  const memory = first.intake.room().buffer;
  expect(memory).toBeInstanceOf(SharedArrayBuffer);
  const drained = first.intake.drain();
  first.writes[0].settle();
  await drained;
  const again = [pool.take(), pool.take(), pool.take(), pool.take()].map(({ buffer }) => buffer);
  expect(again).toContain(memory);
  expect(pool.take().buffer).not.toBe(memory);
});
