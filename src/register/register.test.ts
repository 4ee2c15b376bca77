import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { dialects } from './dialects.ts';
import type { RegisterRecord, RegisterRecordBody } from './records.ts';
import { openRegister, type Register, rebuildRegister } from './register.ts';
import { pageFramesMax } from './rows.ts';

const sha = (digit: string): string => digit.repeat(64);

/** Numbers bodies as the journal would; one second between records. */
function journal(...bodies: readonly RegisterRecordBody[]): RegisterRecord[] {
  return bodies.map((body, index) => ({ seq: index + 1, atMs: (index + 1) * 1000, ...body }));
}

const announced = (arrival: string, frame: string, path: string, job = 'QM-26'): RegisterRecordBody => ({
  type: 'announced',
  arrival,
  frame,
  job,
  camera: 'cam1',
  path,
  incoming: `${arrival}-x`,
  announcedBytes: null,
});

const kept = (arrival: string, frame: string, path: string, digit: string): RegisterRecordBody => ({
  type: 'kept',
  arrival,
  frame,
  job: 'QM-26',
  camera: 'cam1',
  path,
  name: path.slice(path.lastIndexOf('/') + 1),
  original: `jobs/QM-26/originals/cam1${path}`,
  sizeBytes: 100,
  sha256: sha(digit),
  wholeness: 'whole',
  expectedBytes: null,
  firstByteMs: 1100,
  lastByteMs: 1900,
});

/** A morning: two frames, one of raw and JPEG, a broken-off one made good, a repeat, a rename, marks, jobs. */
const morning = journal(
  { type: 'opened' },
  {
    type: 'job-opened',
    code: 'QM-26',
    title: 'Autumn',
    client: 'Quillmere',
    shots: [{ id: 's1', name: 'Mug' }],
  },
  announced('a1', 'f1', '/A.DNG'),
  kept('a1', 'f1', '/A.DNG', '1'),
  announced('a2', 'f1', '/A.JPG'),
  kept('a2', 'f1', '/A.JPG', '2'),
  announced('a3', 'f2', '/B.DNG'),
  {
    type: 'broken-off',
    arrival: 'a3',
    sizeBytes: 40,
    expectedBytes: 100,
    sha256: null,
    firstByteMs: 1,
    lastByteMs: 2,
  },
  announced('a4', 'f2', '/B.DNG'),
  kept('a4', 'f2', '/B.DNG', '4'),
  { type: 'made-good', arrival: 'a3' },
  announced('a5', 'f3', '/A.DNG'),
  { type: 'again', arrival: 'a5', sameAs: 'a1' },
  { type: 'renamed', camera: 'cam1', from: '/B.DNG', to: '/C.DNG', arrival: 'a4' },
  { type: 'mark-set', frame: 'f1', mark: 'hero' },
  { type: 'shot-set', frame: 'f1', shot: 's1' },
  { type: 'hidden', arrival: 'a2' },
);

function pick<Row, Name extends keyof Row>(row: Row, ...names: readonly Name[]): Pick<Row, Name> {
  return Object.fromEntries(names.map((name) => [name, row[name]])) as Pick<Row, Name>;
}

describe.each(dialects)('register on $name', (dialect) => {
  const open: { register: Register; folder: string }[] = [];

  async function newRegister(records: readonly RegisterRecord[] = []): Promise<Register> {
    const folder = await mkdtemp(join(tmpdir(), 'setside-register-'));
    const register = await openRegister(join(folder, 'setside.db'), dialect);
    open.push({ register, folder });
    await Promise.all(records.map((record) => register.apply(record)));
    return register;
  }

  afterEach(async () => {
    for (const { register, folder } of open.splice(0)) {
      await register.close();
      await rm(folder, { recursive: true });
    }
  });

  test('a frame holds its raw and its JPEG, with mark, shot and times', async () => {
    const register = await newRegister(morning);
    const frame = await register.frame('f1');
    expect(frame).toMatchObject({ job: 'QM-26', camera: 'cam1', shot: 's1', mark: 'hero', name: 'A.DNG' });
    expect(frame?.files.map(({ name, state, hidden }) => [name, state, hidden])).toEqual([
      ['A.DNG', 'whole', false],
      ['A.JPG', 'whole', true],
    ]);
    expect(frame?.times).toMatchObject({
      beganMs: frame?.orderMs,
      firstByteMs: 1100,
      lastByteMs: 1900,
      keptMs: 6000,
    });
    expect(frame?.files[0]?.path).toBe('jobs/QM-26/originals/cam1/A.DNG');
  });

  test('a broken-off file that was made good is no longer shown, and the frame has the new name', async () => {
    const register = await newRegister(morning);
    const frame = await register.frame('f2');
    expect(frame?.name).toBe('C.DNG');
    // It stays where its first file began, however often it is sent.
    expect(frame?.times.beganMs).toBe(frame?.orderMs);
    expect(frame?.times.beganMs).toBeLessThan(frame?.times.keptMs ?? 0);
    expect(frame?.files.map((file) => [file.arrival, file.state])).toEqual([['a4', 'whole']]);
  });

  test('a sidecar that comes before its picture gives the frame its name only until the picture is there', async () => {
    const early = journal(announced('x1', 'f9', '/X.XMP'), kept('x1', 'f9', '/X.XMP', '7'));
    const late = journal(
      announced('x1', 'f9', '/X.XMP'),
      kept('x1', 'f9', '/X.XMP', '7'),
      announced('x2', 'f9', '/X.DNG'),
      kept('x2', 'f9', '/X.DNG', '8'),
    );
    expect((await (await newRegister(early)).frame('f9'))?.name).toBe('X.XMP');
    expect((await (await newRegister(late)).frame('f9'))?.name).toBe('X.DNG');
  });

  test('a file that is kept in another frame than it was announced in leaves that one to what broke off', async () => {
    const story = journal(
      announced('b1', 'f1', '/A.DNG'),
      {
        type: 'broken-off',
        arrival: 'b1',
        sizeBytes: 40,
        expectedBytes: 100,
        sha256: null,
        firstByteMs: 1,
        lastByteMs: 2,
      },
      announced('b2', 'f1', '/A.DNG'),
      kept('b2', 'f2', '/A.DNG', '1'),
    );
    const register = await newRegister(story);
    const shown = async (id: string): Promise<unknown> =>
      (await register.frame(id))?.files.map((file) => [file.arrival, file.state]);
    expect(await shown('f1')).toEqual([['b1', 'broken-off']]);
    expect(await shown('f2')).toEqual([['b2', 'whole']]);
    expect((await register.frame('f1'))?.times.keptMs).toBeNull();
    await register.close();
  });

  test('a copy that is lost is on the frame no more, until it is made anew', async () => {
    const place = { type: 'place-made', place: 'p1', folder: '/mnt/second' } as const;
    const copied = {
      type: 'copied',
      arrival: 'a1',
      place: 'p1',
      readBack: 'direct',
      otherDevice: true,
    } as const;
    const story = journal(
      announced('a1', 'f1', '/A.DNG'),
      kept('a1', 'f1', '/A.DNG', '1'),
      place,
      copied,
      { type: 'copy-lost', arrival: 'a1', place: 'p1' },
      copied,
    );
    const register = await newRegister(story.slice(0, 4));
    const before = await register.frame('f1');
    expect(before?.files[0]?.copies).toMatchObject([{ folder: '/mnt/second', copiedMs: 4000 }]);
    for (const record of story.slice(4, 5)) await register.apply(record);
    const lost = await register.frame('f1');
    expect(lost?.files[0]?.copies).toEqual([]);
    expect(lost?.version).toBeGreaterThan(before?.version ?? 0);
    for (const record of story.slice(5)) await register.apply(record);
    expect((await register.frame('f1'))?.files[0]?.copies).toMatchObject([{ copiedMs: 6000 }]);
  });

  test('the same bytes kept a second time in a frame take the place of the first, and choices stay', async () => {
    const again = journal(announced('a9', 'f9', '/A.DNG'), kept('a9', 'f1', '/A.DNG', '1'));
    const later = again.map((record, at) => ({ ...record, seq: morning.length + at + 1 }));
    const register = await newRegister([...morning, ...later]);
    const frame = await register.frame('f1');
    expect(frame).toMatchObject({ mark: 'hero', shot: 's1' });
    expect(frame?.files.map(({ name, arrival }) => [name, arrival])).toEqual([
      ['A.DNG', 'a9'],
      ['A.JPG', 'a2'],
    ]);
    expect((await register.frame('f9'))?.files).toEqual([]);
  });

  test('the frame of a file that came again is void: known, and on no page', async () => {
    const register = await newRegister(morning);
    expect((await register.frame('f3'))?.files).toEqual([]);
    const page = await register.framesPage({ limit: 10 });
    expect(page.frames.map((frame) => frame.id)).toEqual(['f1', 'f2']);
  });

  test('pages follow the shutter, not the order of arrival, and join without a gap or a double', async () => {
    const bodies = Array.from({ length: 25 }, (_, i) => announced(`a${i}`, `f${i}`, `/${i}.DNG`));
    const register = await newRegister(journal(...bodies));
    // The camera sends the newest first; four shutter times are equal, so that the id has to decide.
    for (let i = 0; i < 25; i++) await register.upsertFacts(`f${i}`, { shutterMs: 900 - Math.floor(i / 4) });
    const seen: string[] = [];
    let after: string | null | undefined;
    for (let pages = 0; after !== null; pages++) {
      expect(pages).toBeLessThan(10);
      const page = await register.framesPage({ limit: 4, ...(after === undefined ? {} : { after }) });
      seen.push(...page.frames.map((frame) => frame.id));
      after = page.next;
    }
    const expected = Array.from({ length: 25 }, (_, i) => ({ id: `f${i}`, at: 900 - Math.floor(i / 4) }))
      .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1))
      .map((frame) => frame.id);
    expect(seen).toEqual(expected);
  });

  test('a shutter that cannot be believed does not place a frame: its first byte does', async () => {
    const day = 86_400_000;
    const at = (seq: number) => ({ seq, atMs: day + seq * 1000 });
    const register = await newRegister([
      { ...at(1), ...announced('a1', 'ahead', '/1.DNG') },
      { ...at(2), ...announced('a2', 'true', '/2.DNG') },
      { ...at(3), ...announced('a3', 'behind', '/3.DNG') },
    ]);
    await register.upsertFacts('ahead', { shutterMs: 9 * day });
    await register.upsertFacts('true', { shutterMs: day });
    await register.upsertFacts('behind', { shutterMs: 0 });
    const order = (await register.framesPage({ limit: 9 })).frames.map(({ id, orderMs }) => [
      id,
      orderMs - day,
    ]);
    expect(order).toEqual([
      ['true', 0],
      ['ahead', 1000],
      ['behind', 3000],
    ]);
  });

  test('a page is narrowed by job, shot, camera and mark; a frame nobody marked is marked none', async () => {
    const register = await newRegister([
      ...morning,
      { seq: 100, atMs: 1, ...announced('b1', 'g1', '/Z.DNG', 'unsorted') },
    ]);
    const ids = async (query: object): Promise<string[]> =>
      (await register.framesPage({ limit: 10, ...query })).frames.map((frame) => frame.id).sort();
    expect(await ids({ job: 'unsorted' })).toEqual(['g1']);
    expect(await ids({ mark: 'hero' })).toEqual(['f1']);
    expect(await ids({ mark: 'none' })).toEqual(['f2', 'g1']);
    expect(await ids({ shot: 's1' })).toEqual(['f1']);
    expect(await ids({ shot: null })).toEqual(['f2', 'g1']);
    expect(await ids({ camera: 'cam2' })).toEqual([]);
  });

  test('a brief page holds the same frames, files and copies as a whole one', async () => {
    const copied: RegisterRecordBody = {
      type: 'copied',
      arrival: 'a4',
      place: 'p1',
      readBack: 'direct',
      otherDevice: true,
    };
    const place: RegisterRecordBody = { type: 'place-made', place: 'p1', folder: '/mnt/second' };
    const seq = morning.length;
    const register = await newRegister([
      ...morning,
      { seq: seq + 1, atMs: 90_000, ...place },
      { seq: seq + 2, atMs: 90_000, ...copied },
    ]);
    const queries = [
      {},
      { job: 'QM-26' },
      { notJob: 'QM-26' },
      { camera: 'cam1' },
      { ids: ['f2'] },
      { limit: 1 },
    ] as const;
    for (const query of queries) {
      const { frames, next } = await register.framesPage({ limit: 50, ...query });
      const brief = frames.map(({ times, files, ...frame }) => ({
        ...pick(frame, 'id', 'job', 'shot', 'camera', 'name', 'orderMs', 'mark', 'purpose'),
        firstByteMs: times.firstByteMs,
        files: files.map(({ copies, ...file }) => ({
          ...pick(file, 'arrival', 'name', 'state'),
          copies: copies.map((copy) => pick(copy, 'place', 'otherDevice')),
        })),
      }));
      expect(await register.briefPage({ limit: 50, ...query })).toEqual({ frames: brief, next });
    }
    const { frames } = await register.briefPage({ limit: 50 });
    expect(frames.flatMap(({ files }) => files.flatMap(({ copies }) => copies))).toEqual([
      { place: 'p1', otherDevice: true },
    ]);
    await expect(register.briefPage({ limit: 0 })).rejects.toMatchObject({ code: 'bad-limit' });
  });

  test('a page holds 1 to the most frames, no fewer and no more, and only knows cursors it gave', async () => {
    const register = await newRegister();
    await expect(register.framesPage({ limit: 0 })).rejects.toMatchObject({ code: 'bad-limit' });
    await expect(register.framesPage({ limit: pageFramesMax + 1 })).rejects.toMatchObject({
      code: 'bad-limit',
    });
    expect((await register.framesPage({ limit: pageFramesMax })).frames).toEqual([]);
    for (const after of ['', 'x', "1~a'; drop table frames", '1', '~a', `1~${'a'.repeat(65)}`]) {
      await expect(register.framesPage({ limit: 1, after })).rejects.toMatchObject({ code: 'bad-cursor' });
    }
  });

  test('facts found out are kept field by field, raise the version, and move the frame to its shutter time', async () => {
    const register = await newRegister(morning);
    const before = await register.frame('f2');
    await register.upsertFacts('f2', {
      kind: 'dng',
      capture: { cameraModel: 'Stand-in', fNumber: 8 },
    });
    await register.upsertFacts('f2', { shutterMs: 5, picture: { state: 'rendered', width: 6000 } });
    const after = await register.frame('f2');
    expect(after).toMatchObject({
      kind: 'dng',
      shutterMs: 5,
      capture: { cameraModel: 'Stand-in', fNumber: 8 },
      picture: { state: 'rendered', width: 6000 },
    });
    expect(after?.version).toBe((before?.version ?? 0) + 2);
    expect((await register.framesPage({ limit: 1 })).frames[0]?.id).toBe('f2');
  });

  test('the newest words about a job stand, and one job is open at a time', async () => {
    const register = await newRegister(
      journal(
        { type: 'job-opened', code: 'A', title: 'a', client: 'c', shots: [] },
        { type: 'job-opened', code: 'B', title: 'b', client: 'c', shots: [] },
        { type: 'job-opened', code: 'A', title: 'a2', client: 'c', shots: [{ id: 's', name: 'Jug' }] },
      ),
    );
    expect((await register.jobs()).map(({ code, title, state }) => [code, title, state])).toEqual([
      ['A', 'a2', 'open'],
      ['B', 'b', 'waiting'],
    ]);
    await register.apply({ seq: 4, atMs: 4, type: 'job-closed' });
    expect((await register.jobs()).some(({ state }) => state === 'open')).toBe(false);
  });

  test('a renamed folder takes its files along, and no neighbour with a similar name', async () => {
    const register = await newRegister(
      journal(announced('a1', 'f1', '/DCIM/𝔸/A.DNG'), announced('a2', 'f2', '/DCIM2/B.DNG'), {
        type: 'renamed',
        camera: 'cam1',
        from: '/DCIM',
        to: '/day-1',
        arrival: null,
      }),
    );
    expect((await register.frame('f1'))?.files[0]?.viewPath).toBe('/day-1/𝔸/A.DNG');
    expect((await register.frame('f2'))?.files[0]?.viewPath).toBe('/DCIM2/B.DNG');
  });

  test('a record that is applied twice changes nothing the second time', async () => {
    const register = await newRegister(morning);
    const before = await register.dump();
    for (const record of morning) await register.apply(record);
    expect(await register.dump()).toEqual(before);
    expect(await register.appliedSeq()).toBe(morning.length);
  });

  test('a file that is kept once more, since the journal could not be read in part, is one file', async () => {
    const register = await newRegister(morning);
    const before = await register.frame('f1');
    const [again] = journal(...morning, kept('a1', 'f1', '/A.DNG', '1')).slice(morning.length);
    if (again === undefined) throw new Error('one more than before');
    await register.apply(again);
    expect((await register.frame('f1'))?.files).toEqual(before?.files);
  });

  test('a register rebuilt from the journal dumps identically, and keeps what was found out about frames', async () => {
    const register = await newRegister(morning);
    await register.upsertFacts('f1', { shutterMs: 77 });
    const before = await register.dump();
    await rebuildRegister(register, morning);
    expect(await register.dump()).toEqual(before);
    expect(await register.frame('f1')).toMatchObject({ shutterMs: 77 });

    const another = await newRegister();
    await rebuildRegister(another, morning);
    await another.upsertFacts('f1', { shutterMs: 77 });
    expect(await another.dump()).toEqual(before);
  });

  test('a file that is no database is refused by code, and the cure is named', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'setside-register-'));
    await writeFile(
      join(folder, 'setside.db'),
      'not a database, but long enough to be taken for one'.repeat(40),
    );
    await expect(openRegister(join(folder, 'setside.db'), dialect)).rejects.toMatchObject({
      code: 'register-unusable',
    });
    await rm(folder, { recursive: true });
  });
});
