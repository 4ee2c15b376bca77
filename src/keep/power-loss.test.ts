import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Keep } from './keep.ts';
import { type SimulatedDisk, simulatedDisk } from './testing/simulated-disk.ts';
import {
  fromOffset,
  home,
  openSimulatedHome,
  recordsOf,
  send,
  sha256,
  sized,
} from './testing/simulated-home.ts';

/**
 * A day in short. Everything that was acknowledged is noted in `acknowledged` at the moment of the answer; the first
 * failure ends the day, as it would for a camera.
 */
async function day(keep: Keep, acknowledged: Acknowledged): Promise<void> {
  const folder = keep.folderOf('cam1');
  const keepOne = async (path: string, bytes: Uint8Array, at = 0): Promise<void> => {
    const outcome = await send(keep, path, bytes.subarray(at), 'closed', fromOffset(at));
    if (outcome.kind === 'failed') throw new Error('the day is over');
    if (outcome.kind === 'broken-off') acknowledged.brokenOff.set(path, bytes);
    else acknowledged.kept.push(bytes);
  };
  await folder.makeFolder('/DCIM');
  acknowledged.folders.push('/DCIM');
  await keepOne('/DCIM/A.DNG', sized(130, 1));
  // Both to their ends, so that no answer comes after the day is over.
  const pair = [keepOne('/DCIM/B.DNG', sized(90, 2)), keepOne('/DCIM/B.JPG', sized(60, 3))];
  await Promise.allSettled(pair);
  await Promise.all(pair);
  await keepOne('/DCIM/C.DNG', sized(200, 4).subarray(0, 110));
  acknowledged.brokenOff.delete('/DCIM/C.DNG');
  await keepOne('/DCIM/C.DNG', sized(200, 4), 110);
  await keepOne('/DCIM/D.DNG', sized(150, 5).subarray(0, 70));
  acknowledged.brokenOff.delete('/DCIM/D.DNG');
  await keepOne('/DCIM/D.DNG', sized(150, 5));
  await keepOne('/DCIM/A.DNG', sized(130, 1));
  await keepOne('/DCIM/A.DNG', sized(130, 6));
  await keepOne('/upload.tmp', sized(80, 7));
  await folder.rename('/upload.tmp', '/DCIM/E.DNG');
  acknowledged.renamed.push('/DCIM/E.DNG');
  await keep.append({ type: 'mark-set', frame: 'f', mark: 'hero' });
  acknowledged.marks += 1;
}

interface Acknowledged {
  readonly kept: Uint8Array[];
  readonly brokenOff: Map<string, Uint8Array>;
  readonly folders: string[];
  readonly renamed: string[];
  marks: number;
}

/** Lives a day on a disk until the power goes at a step, and gives what had been acknowledged by then. */
async function liveUntil(disk: SimulatedDisk, step: number): Promise<Acknowledged> {
  const acknowledged: Acknowledged = { kept: [], brokenOff: new Map(), folders: [], renamed: [], marks: 0 };
  disk.cutPowerAt(step);
  try {
    const { keep } = await openSimulatedHome(disk);
    await day(keep, acknowledged);
  } catch {
    // The power went; whoever asked got no answer.
  }
  return acknowledged;
}

/** What must hold of a home after whatever happened to it. */
async function expectNothingLost(keep: Keep, disk: SimulatedDisk, acknowledged: Acknowledged): Promise<void> {
  expect(keep.troubles).toEqual([]);
  const records = await recordsOf(keep);
  const originals = new Map<string, string>();
  for (const record of records) {
    if (record.type !== 'kept') continue;
    const bytes = disk.bytesOf(`${home}/${record.original}`);
    expect(bytes === null ? null : sha256(bytes)).toBe(record.sha256);
    expect(bytes?.length).toBe(record.sizeBytes);
    expect(originals.has(record.original), `${record.original} twice`).toBe(false);
    // The day sends no two-times-cut file: whatever is kept says its own size and has it.
    expect(new TextDecoder('latin1').decode(bytes ?? undefined)).toMatch(
      new RegExp(`^SIZE ${record.sizeBytes}\n`),
    );
    originals.set(record.original, record.sha256);
  }
  for (const bytes of acknowledged.kept) expect([...originals.values()]).toContain(sha256(bytes));
  const folder = keep.folderOf('cam1');
  for (const path of acknowledged.folders) expect((await folder.stat(path))?.kind).toBe('folder');
  for (const path of acknowledged.renamed) expect((await folder.stat(path))?.sizeBytes).toBe(80);
  for (const [path, bytes] of acknowledged.brokenOff) {
    const listed = keep.brokenOff().find((file) => file.viewPath === path && file.sizeBytes === bytes.length);
    expect(disk.bytesOf(listed?.diskPath ?? '')?.subarray(0, bytes.length)).toEqual(bytes);
  }
  expect(records.filter(({ type }) => type === 'mark-set').length).toBeGreaterThanOrEqual(acknowledged.marks);
}

async function stepsOfDay(): Promise<number> {
  const disk = simulatedDisk();
  const acknowledged = await liveUntil(disk, Number.POSITIVE_INFINITY);
  expect(acknowledged.marks).toBe(1);
  expect(acknowledged.kept).toHaveLength(8);
  return disk.steps.length;
}

const steps = await stepsOfDay();

test('K1.2 power loss at every step, everything unsynced gone: nothing acknowledged is lost, no half file is whole', async () => {
  for (let step = 0; step < steps; step++) {
    const disk = simulatedDisk();
    const acknowledged = await liveUntil(disk, step);
    const after = disk.afterPowerLoss();
    const { keep } = await openSimulatedHome(after);
    await expectNothingLost(keep, after, acknowledged);
    // The camera goes on: whatever had no answer is sent again.
    const next: Acknowledged = { ...acknowledged, brokenOff: new Map(), folders: [], renamed: [] };
    await keep.folderOf('cam1').makeFolder('/day-2');
    await send(keep, '/day-2/A.DNG', sized(130, 1));
    await expectNothingLost(keep, after, { ...next, kept: [...next.kept, sized(130, 1)] });
  }
});

test('K1.2 kill -9 at every step: the same, and nothing that was written is gone', async () => {
  for (let step = 0; step < steps; step++) {
    const disk = simulatedDisk();
    const acknowledged = await liveUntil(disk, step);
    const after = disk.afterKill();
    const { keep } = await openSimulatedHome(after);
    await expectNothingLost(keep, after, acknowledged);
    // Every file is known: held, kept, or made good; none is a stranger.
    expect((await keep.leftovers()).filter(({ why }) => why === 'unrecorded')).toEqual([]);
  }
});

test('K1.2 power loss at any step, any part of the unsynced there, and again while starting: the same', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 0, max: steps }),
      fc.integer({ min: 0, max: 40 }),
      fc.infiniteStream(fc.boolean()),
      async (step, stepOfStart, chances) => {
        const survives = (): boolean => chances.next().value;
        const disk = simulatedDisk();
        const acknowledged = await liveUntil(disk, step);
        const second = disk.afterPowerLoss(survives);
        second.cutPowerAt(stepOfStart);
        await openSimulatedHome(second).catch(() => {});
        const third = second.afterPowerLoss(survives);
        const { keep } = await openSimulatedHome(third);
        await expectNothingLost(keep, third, acknowledged);
      },
    ),
    { numRuns: 200 },
  );
});

test('K7.2 a refused operation at every step: no acknowledgement without the bytes, and the day after it is right', async () => {
  for (const code of ['ENOSPC', 'EIO'] as const) {
    for (let step = 0; step < steps; step++) {
      const disk = simulatedDisk();
      disk.refuse((_, at) => (at === step ? code : null));
      const acknowledged = await liveUntil(disk, Number.POSITIVE_INFINITY);
      const after = disk.afterPowerLoss();
      const { keep } = await openSimulatedHome(after);
      await expectNothingLost(keep, after, acknowledged);
    }
  }
});
