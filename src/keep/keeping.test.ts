import { expect, test } from 'vitest';
import { simulatedDisk } from './testing/simulated-disk.ts';
import {
  home,
  openSimulatedHome,
  originalsOn,
  plain,
  recordsOf,
  send,
  sha256,
  sized,
} from './testing/simulated-home.ts';
import { verifyOriginals } from './verify.ts';

test('K1.1 a file is moved after its bytes are synced, and journalled after both folders are', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  const after = (what: RegExp, from: number): number => {
    const index = disk.steps.findIndex((step, i) => i >= from && what.test(step));
    expect(index, `${what} after step ${from} in\n${disk.steps.join('\n')}`).toBeGreaterThanOrEqual(0);
    return index;
  };
  const lastWrite = disk.steps.findLastIndex((step) => /^write .*incoming/.test(step));
  const synced = after(/^sync .*incoming/, lastWrite);
  const moved = after(/^rename/, synced);
  const gained = after(/^sync-folder .*originals\/cam1$/, moved);
  const lost = after(/^sync-folder .*incoming$/, gained);
  const journalled = after(/^write .*journal/, lost);
  const durable = after(/^sync .*journal/, journalled);
  expect(durable).toBe(disk.steps.length - 1);
});

test('K1.1 the kept record names size, hash, place and wholeness of what lies there', async () => {
  const { keep, disk } = await openSimulatedHome();
  const bytes = sized(120);
  await keep.folderOf('cam1').makeFolder('/DCIM');
  expect(await send(keep, '/DCIM/X.DNG', bytes)).toEqual({
    kind: 'kept',
    wholeness: 'whole',
    sizeBytes: 120,
  });
  const records = await recordsOf(keep);
  expect(records.at(-1)).toMatchObject({
    type: 'kept',
    camera: 'cam1',
    path: '/DCIM/X.DNG',
    original: 'jobs/QM-26/originals/cam1/DCIM/X.DNG',
    sizeBytes: 120,
    sha256: sha256(bytes),
    wholeness: 'whole',
  });
  expect(originalsOn(disk).get('DCIM/X.DNG')).toEqual(bytes);
});

test('K1.3 a target that appears between the claim and the move is not written over by keep itself', async () => {
  // The simulated rename refuses to write over; several files of one name at once would run into it.
  const { keep, disk } = await openSimulatedHome();
  const outcomes = await Promise.all(
    ['cam1', 'cam1', 'cam1'].map(async (camera, i) => {
      const folder = keep.folderOf(camera);
      await folder.makeFolder(`/d${i}`);
      const arrival = await folder.open(`/d${i}/X.DNG`, { via: 'ftp', at: 'start', announcedBytes: null });
      await folder.rename(`/d${i}/X.DNG`, `/X${i}`);
      await arrival.write(sized(100 + i));
      return arrival.finish('closed');
    }),
  );
  expect(outcomes.map(({ kind }) => kind)).toEqual(['kept', 'kept', 'kept']);
  expect(originalsOn(disk).size).toBe(3);
});

test('K1.4 the same name with other bytes becomes a new original beside the old one', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120, 1));
  await send(keep, '/X.DNG', sized(120, 2));
  await send(keep, '/X.DNG', sized(90, 3));
  expect([...originalsOn(disk)]).toEqual([
    ['X.DNG', sized(120, 1)],
    ['X (2).DNG', sized(120, 2)],
    ['X (3).DNG', sized(90, 3)],
  ]);
  const [entry] = await keep.folderOf('cam1').list('/');
  expect(entry?.sizeBytes).toBe(90);
});

test('K1.4 a file that the journal does not know keeps its name', async () => {
  const disk = simulatedDisk();
  disk.put(`${home}/jobs/QM-26/originals/cam1/X.DNG`, plain('somebody put me here'));
  const { keep } = await openSimulatedHome(disk);
  await send(keep, '/X.DNG', sized(120));
  expect(originalsOn(disk).get('X.DNG')).toEqual(plain('somebody put me here'));
  expect(originalsOn(disk).get('X (2).DNG')).toEqual(sized(120));
});

test('K1.5 the same bytes under the same name are the same original', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  expect(await send(keep, '/X.DNG', sized(120))).toEqual({
    kind: 'kept',
    wholeness: 'whole',
    sizeBytes: 120,
  });
  expect([...originalsOn(disk).keys()]).toEqual(['X.DNG']);
  await keep.close();
  const kept = events.find((event) => event.type === 'kept');
  const again = events.find((event) => event.type === 'again');
  expect(again).toMatchObject({
    sameAs: { arrival: kept?.arrival, frame: kept?.frame },
    diskPath: kept?.diskPath,
  });
});

test('K1.5 also after another file of that name has come between', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120, 1));
  await send(keep, '/X.DNG', sized(120, 2));
  await send(keep, '/X.DNG', sized(120, 1));
  expect(originalsOn(disk).size).toBe(2);
});

test('K1.5 the same bytes under another name are another original: two empty files are two files', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/a.txt', new Uint8Array(0));
  await send(keep, '/b.txt', new Uint8Array(0));
  expect([...originalsOn(disk).keys()]).toEqual(['a.txt', 'b.txt']);
});

test('K1.5 an original that is gone from the disk does not answer for new bytes', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  await keep.close();
  // As if a person had cut the original short: the journal still names it.
  const cut = disk.afterPowerLoss();
  cut.put(`${home}/jobs/QM-26/originals/cam1/X.DNG`, sized(120).subarray(0, 7));
  const after = await openSimulatedHome(cut);
  expect(await send(after.keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept' });
  expect(originalsOn(cut).get('X (2).DNG')).toEqual(sized(120));
});

test('K1.5 an original that was altered since, in its size, does not answer for new bytes: they are kept beside it', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  const altered = sized(120).slice();
  altered[100] = (altered[100] ?? 0) ^ 1;
  disk.put(`${home}/jobs/QM-26/originals/cam1/X.DNG`, altered);
  expect(await send(keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept' });
  // The new one answers from now on.
  expect(await send(keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept' });
  expect([...originalsOn(disk)]).toEqual([
    ['X.DNG', altered],
    ['X (2).DNG', sized(120)],
  ]);
  await keep.foldDoubles();
  expect(await keep.heldInIncoming()).toEqual([]);
  await keep.close();
  expect(events.filter(({ type }) => type === 'kept')).toMatchObject([
    { insteadOf: null },
    { insteadOf: 'jobs/QM-26/originals/cam1/X.DNG' },
  ]);
  expect(events.filter(({ type }) => type === 'again')).toMatchObject([
    { diskPath: `${home}/jobs/QM-26/originals/cam1/X (2).DNG` },
  ]);
});

test('K1.5 the new one takes the place of the altered one in its frame, also after a restart', async () => {
  const { keep, disk, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  disk.put(`${home}/jobs/QM-26/originals/cam1/X.DNG`, sized(120).fill(7));
  await send(keep, '/X.DNG', sized(120));
  const waiting = (of: typeof keep): string[] => of.keptWithoutCopy('p').map(({ original }) => original);
  const second = 'jobs/QM-26/originals/cam1/X (2).DNG';
  expect(waiting(keep)).toEqual([second]);
  await keep.close();
  const kept = events.filter(({ type }) => type === 'kept');
  expect(new Set(kept.map(({ frame }) => frame)).size).toBe(1);
  const after = await openSimulatedHome(disk.afterPowerLoss());
  expect(waiting(after.keep)).toEqual([second]);
  expect(kept.map(({ arrival }) => after.keep.keptFile(arrival)?.original ?? null)).toEqual([null, second]);
  await after.keep.close();
  const report = await verifyOriginals(home, undefined, after.disk);
  expect(report).toMatchObject({ files: 1, findings: [], replaced: ['jobs/QM-26/originals/cam1/X.DNG'] });
});

test('K1.5 an original that cannot be read does not answer either', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  disk.refuse((step) => (/^read .*originals/.test(step) ? 'EIO' : null));
  expect(await send(keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept' });
  expect(originalsOn(disk).get('X (2).DNG')).toEqual(sized(120));
});

test('K1.5 what comes again also makes good what broke off of it meanwhile', async () => {
  const { keep } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  await send(keep, '/X.DNG', sized(120).subarray(0, 70), 'reset');
  await send(keep, '/X.DNG', sized(120));
  expect(keep.brokenOff()).toEqual([]);
});

test('K1.6 what nothing proves is kept as unknown: text, and an empty file', async () => {
  const { keep, disk } = await openSimulatedHome();
  expect(await send(keep, '/notes.txt', plain('call the potter'))).toMatchObject({ wholeness: 'unknown' });
  expect(await send(keep, '/empty', new Uint8Array(0))).toMatchObject({ kind: 'kept', wholeness: 'unknown' });
  expect(originalsOn(disk).size).toBe(2);
});

test('K1.6 an inspection that fails proves nothing', async () => {
  const inspect = async (): Promise<never> => {
    throw new Error('the reader tripped');
  };
  const { keep } = await openSimulatedHome(undefined, { inspect });
  expect(await send(keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept', wholeness: 'unknown' });
});

test('K8.1 a file is told from its start to its place, with ids and times', async () => {
  const { keep, events } = await openSimulatedHome();
  await send(keep, '/X.DNG', sized(120));
  await keep.close();
  expect(events.map(({ type }) => type)).toEqual(['started', 'kept']);
  const [started, kept] = events;
  expect(started?.diskPath).toMatch(/^\/home\/incoming\/.*X\.DNG$/);
  expect(kept).toMatchObject({
    arrival: started?.arrival,
    frame: started?.frame,
    job: 'QM-26',
    camera: 'cam1',
    name: 'X.DNG',
    viewPath: '/X.DNG',
    diskPath: '/home/jobs/QM-26/originals/cam1/X.DNG',
    sizeBytes: 120,
    sha256: sha256(sized(120)),
  });
  expect(kept?.firstByteMs).toBeLessThanOrEqual(kept?.lastByteMs ?? 0);
  expect(kept?.lastByteMs).toBeLessThan(kept?.atMs ?? 0);
});

test('K8.1 what people choose is journalled in order and comes back after a restart', async () => {
  const { keep, disk } = await openSimulatedHome();
  await keep.append({ type: 'job-opened', code: 'QM-26', title: 'Autumn', client: 'Quillmere', shots: [] });
  await keep.append({ type: 'mark-set', frame: 'f1', mark: 'hero' });
  await keep.append({ type: 'mark-set', frame: 'f1', mark: 'out' });
  await keep.append({ type: 'camera-added', name: 'cam1', user: 'cam1', passwordHash: null });
  const after = await openSimulatedHome(disk.afterPowerLoss());
  const records = await recordsOf(after.keep);
  expect(records.map((record) => (record.type === 'mark-set' ? record.mark : record.type))).toEqual([
    'opened',
    'job-opened',
    'hero',
    'out',
    'camera-added',
    'opened',
  ]);
  expect(await recordsOf(after.keep, 5)).toHaveLength(1);
});

test('K8.3 a listener that throws costs neither the camera nor the other listeners anything', async () => {
  const { keep, events } = await openSimulatedHome();
  keep.on(() => {
    throw new Error('a page fell over');
  });
  const late: string[] = [];
  keep.on((event) => late.push(event.type));
  expect(await send(keep, '/X.DNG', sized(120))).toMatchObject({ kind: 'kept' });
  await keep.close();
  expect(late).toEqual(events.map(({ type }) => type));
});
