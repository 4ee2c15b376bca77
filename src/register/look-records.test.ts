import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { plainShot } from '../job/index.ts';
import { dialects } from './dialects.ts';
import type { RegisterRecord, RegisterRecordBody } from './records.ts';
import { openRegister, type Register, rebuildRegister } from './register.ts';

const saved = (look: string, version: number): RegisterRecordBody => ({
  ...{ type: 'look-saved', look, name: 'Evening', version, hash: String(version).repeat(64) },
  ...{ document: { version: 2, title: 'Evening', exposureEv: version }, by: 'operator' },
});

/** Looks saved, laid aside, put back and saved again; chosen for a job, a shot and a frame, and taken back. */
const day: readonly RegisterRecord[] = [
  saved('e1', 1),
  {
    ...({ type: 'announced', arrival: 'a1', frame: 'f1', job: 'A', camera: 'cam1' } as const),
    ...{ path: '/X.DNG', incoming: 'a1', announcedBytes: null },
  },
  {
    ...({ type: 'job-described', job: 'A', title: '', client: '' } as const),
    ...{ fromDate: null, toDate: null, place: '', notes: '' },
  },
  {
    type: 'job-hand-over-set',
    job: 'A',
    naming: '',
    look: 'Evening',
    lookId: 'e1',
    deliveries: [],
  } as const,
  { type: 'shot-stated', job: 'A', shot: { ...plainShot('s', 's'), look: 'Evening', lookId: 'e1' } } as const,
  saved('e2', 2),
  { type: 'look-aside-set', look: 'e1', aside: true } as const,
  { type: 'look-set', frame: 'f1', look: 'e2' } as const,
  { type: 'look-aside-set', look: 'e2', aside: true } as const,
  saved('e2', 2),
  { type: 'look-aside-set', look: 'nowhere', aside: true } as const,
].map((body, index) => ({ seq: index + 1, atMs: (index + 1) * 1000, ...body }));

describe.each(dialects)('looks in the register on $name', (dialect) => {
  let folder: string;
  let register: Register;

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'setside-look-records-'));
    register = await openRegister(join(folder, 'setside.db'), dialect);
    for (const record of day) await register.apply(record);
  });

  afterEach(async () => {
    await register.close();
    await rm(folder, { recursive: true });
  });

  test('each version is there as it was saved first, the oldest first; saved again it is no longer laid aside', async () => {
    const look = (id: string, version: number, savedMs: number, laidAside: boolean) => ({
      ...{ id, name: 'Evening', version, hash: String(version).repeat(64), savedBy: 'operator' },
      ...{ document: { version: 2, title: 'Evening', exposureEv: version }, savedMs, laidAside },
    });
    expect(await register.looks()).toEqual([look('e1', 1, 1000, true), look('e2', 2, 6000, false)]);
  });

  test('job, shot and frame each know the version that was chosen, and a choice raises the frame’s version', async () => {
    const [job] = await register.jobs();
    expect([job?.handOver.lookId, job?.shots[0]?.lookId]).toEqual(['e1', 'e1']);
    const before = await register.frame('f1');
    expect(before?.look).toBe('e2');
    await register.apply({ seq: 99, atMs: 99_000, type: 'look-set', frame: 'f1', look: null });
    const after = await register.frame('f1');
    expect([after?.look, after?.version]).toEqual([null, (before?.version ?? 0) + 1]);
  });

  test('a register made anew from the journal is the same', async () => {
    const before = await register.dump();
    expect(before.looks).toHaveLength(2);
    await register.clear();
    expect(await register.looks()).toEqual([]);
    await rebuildRegister(register, day);
    expect(await register.dump()).toEqual(before);
  });
});
