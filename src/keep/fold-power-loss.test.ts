import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Keep } from './keep.ts';
import { type SimulatedDisk, simulatedDisk } from './testing/simulated-disk.ts';
import { openSimulatedHome, plain, send, sized } from './testing/simulated-home.ts';

/**
 * A camera with a bad line, whose doubles are folded away all the time. Everything it was ever answered about is in
 * `sent`, also what broke off: of all of it every byte has to be held somewhere, from its first one on.
 */
async function badDay(keep: Keep, sent: Uint8Array[]): Promise<void> {
  const sendOne = async (
    path: string,
    bytes: Uint8Array,
    end: 'closed' | 'reset' = 'closed',
  ): Promise<void> => {
    const outcome = await send(keep, path, bytes, end);
    if (outcome.kind === 'failed') throw new Error('the day is over');
    sent.push(bytes);
    const { failure } = await keep.foldDoubles();
    if (failure !== null) throw new Error('the day is over');
  };
  await sendOne('/A.DNG', sized(130, 1));
  await sendOne('/A.DNG', sized(130, 1));
  await sendOne('/B.DNG', sized(150, 2).subarray(0, 70), 'reset');
  await sendOne('/B.DNG', sized(150, 2).subarray(0, 40), 'reset');
  await sendOne('/B.DNG', sized(150, 2).subarray(0, 90), 'reset');
  await sendOne('/B.DNG', sized(150, 3).subarray(0, 60), 'reset');
  await sendOne('/B.DNG', sized(150, 2));
  await sendOne('/C.txt', plain('a note'), 'reset');
  await sendOne('/C.txt', plain('a note that was written anew'));
  await sendOne('/C.txt', plain('a note that was written anew'));
}

async function liveUntil(disk: SimulatedDisk, step: number): Promise<Uint8Array[]> {
  const sent: Uint8Array[] = [];
  disk.cutPowerAt(step);
  try {
    const { keep } = await openSimulatedHome(disk);
    await badDay(keep, sent);
  } catch {
    // The power went, or the disk refused.
  }
  return sent;
}

function expectAllHeld(disk: SimulatedDisk, sent: readonly Uint8Array[], when: string): void {
  const held = disk.files().map((path) => Buffer.from(disk.bytesOf(path) ?? new Uint8Array(0)));
  for (const [index, bytes] of sent.entries()) {
    const isHeld = held.some((file) => file.subarray(0, bytes.length).equals(bytes));
    expect(isHeld, `${when}: the ${bytes.length} bytes of upload ${index}`).toBe(true);
  }
}

/** The next start finds everything, and folds what the last one left half done. */
async function expectGoodNext(disk: SimulatedDisk, sent: readonly Uint8Array[], when: string): Promise<void> {
  expectAllHeld(disk, sent, when);
  const { keep } = await openSimulatedHome(disk);
  expect((await keep.foldDoubles()).failure).toBeNull();
  expectAllHeld(disk, sent, `${when}, and folded again`);
  expect(keep.troubles).toEqual([]);
  const strange = (await keep.heldInIncoming()).filter(({ why }) => why === 'unrecorded');
  expect(strange, when).toEqual([]);
}

async function stepsOfDay(): Promise<number> {
  const disk = simulatedDisk();
  const sent = await liveUntil(disk, Number.POSITIVE_INFINITY);
  expect(sent).toHaveLength(10);
  // The attempts with bytes of their own are left: 60 of another picture, 6 of another text (a prefix: gone).
  expect(disk.files().filter((path) => path.startsWith('/home/incoming/'))).toHaveLength(1);
  expect(disk.steps.filter((step) => step.startsWith('discard')).length).toBeGreaterThanOrEqual(5);
  return disk.steps.length;
}

const steps = await stepsOfDay();

test('K2.12 power loss at every step, everything unsynced gone: every byte that was answered for is held', async () => {
  for (let step = 0; step < steps; step++) {
    const disk = simulatedDisk();
    const sent = await liveUntil(disk, step);
    await expectGoodNext(disk.afterPowerLoss(), sent, `power loss at step ${step}`);
  }
});

test('K2.12 kill -9 at every step: the same', async () => {
  for (let step = 0; step < steps; step++) {
    const disk = simulatedDisk();
    const sent = await liveUntil(disk, step);
    await expectGoodNext(disk.afterKill(), sent, `kill at step ${step}`);
  }
});

test('K2.12 power loss at any step, any part of the unsynced there, and again while starting: the same', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 0, max: steps }),
      fc.integer({ min: 0, max: 60 }),
      fc.infiniteStream(fc.boolean()),
      async (step, stepOfStart, chances) => {
        const survives = (): boolean => chances.next().value;
        const disk = simulatedDisk();
        const sent = await liveUntil(disk, step);
        const second = disk.afterPowerLoss(survives);
        second.cutPowerAt(stepOfStart);
        await openSimulatedHome(second)
          .then(({ keep }) => keep.foldDoubles())
          .catch(() => {});
        await expectGoodNext(second.afterPowerLoss(survives), sent, `power loss at step ${step}`);
      },
    ),
    { numRuns: 200 },
  );
});

test('K2.12 a refused operation at every step, and then power loss: the same', async () => {
  for (const code of ['ENOSPC', 'EIO'] as const) {
    for (let step = 0; step < steps; step++) {
      const disk = simulatedDisk();
      disk.refuse((_, at) => (at === step ? code : null));
      const sent = await liveUntil(disk, Number.POSITIVE_INFINITY);
      await expectGoodNext(disk.afterPowerLoss(), sent, `${code} at step ${step}`);
    }
  }
});
