import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { GivenAgreement } from '../facts/index.ts';
import { applyJobChoice, type JobChoice, type Jobs, plainShot } from '../job/index.ts';
import { dialects } from './dialects.ts';
import type { RegisterRecord, RegisterRecordBody } from './records.ts';
import { openRegister, type Register } from './register.ts';

const words = { title: 't', client: 'c', fromDate: '2026-10-01', toDate: null, place: 'p', notes: 'n' };
const stated = (job: string, id: string, hidden = false): JobChoice => ({
  type: 'shot-stated',
  job,
  shot: { ...plainShot(id, id), hidden },
});

const guest = { name: 'Ada', from: 'guest', link: 'tablet' } as const;
const word = (id: string, shot: string): GivenAgreement => ({
  id,
  shot,
  pictures: [{ frame: 'f1', look: 'l', profile: null }],
  by: guest,
  atMs: 5,
});

/** Every kind of choice, in an order that meets what each leaves behind, and some about jobs that are not there. */
const day: readonly JobChoice[] = [
  { type: 'job-described', job: 'A', ...words },
  stated('A', 's1'),
  stated('A', 's2'),
  stated('A', 's3'),
  { type: 'shots-ordered', job: 'A', shots: ['s3', 'nowhere', 's1'] },
  { type: 'job-state-set', job: 'A', state: 'open' },
  { type: 'shot-current-set', job: 'A', shot: 's1' },
  stated('A', 's1', true),
  { type: 'job-tolerances-set', job: 'A', tolerances: { shiftPx: { good: 1, bad: 2 } } },
  { type: 'job-described', job: 'B', ...words, title: 'b' },
  stated('B', 's1'),
  { type: 'job-state-set', job: 'B', state: 'open' },
  { type: 'shot-removed', job: 'A', shot: 's1' },
  stated('A', 's4'),
  { type: 'job-described', job: 'A', ...words, notes: 'later' },
  { type: 'agreed', job: 'A', agreement: word('a1', 's3') },
  { type: 'agreed', job: 'A', agreement: word('a2', 's3') },
  { type: 'agreed', job: 'A', agreement: word('a3', 's4') },
  { type: 'agreement-withdrawn', job: 'A', agreement: 'a3' },
  { type: 'agreed', job: 'nowhere', agreement: word('a4', 's1') },
  { type: 'job-state-set', job: 'B', state: 'closed' },
  stated('nowhere', 's1'),
  { type: 'job-described', job: 'C', ...words },
  { type: 'job-removed', job: 'C' },
  {
    type: 'job-last-numbers-set',
    job: 'A',
    lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter: 12, by: 'operator', atMs: 5 }],
  },
  {
    type: 'job-explained-set',
    job: 'A',
    explained: [{ line: 'strike.gap cam1 2 2 1', name: 'Ada', reason: 'so', atMs: 5 }],
  },
  { type: 'job-signed-set', job: 'A', signed: { name: 'Ada', atMs: 5, state: 'a'.repeat(64) } },
  { type: 'job-signed-set', job: 'A', signed: null },
];

describe.each(dialects)('jobs in the register on $name', (dialect) => {
  let folder: string;
  let register: Register;
  let seq = 0;

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'setside-job-records-'));
    register = await openRegister(join(folder, 'setside.db'), dialect);
    seq = 0;
  });

  afterEach(async () => {
    await register.close();
    await rm(folder, { recursive: true });
  });

  async function apply(...bodies: readonly RegisterRecordBody[]): Promise<void> {
    for (const body of bodies) {
      seq += 1;
      const record: RegisterRecord = { seq, atMs: seq * 1000, ...body };
      await register.apply(record);
    }
  }

  const announced = (frame: string, camera = 'cam1', job = 'A'): RegisterRecordBody => {
    const path = `/${frame}.DNG`;
    return {
      type: 'announced',
      arrival: `a-${frame}`,
      frame,
      job,
      camera,
      path,
      incoming: frame,
      announcedBytes: null,
    };
  };

  test('the tables say after each choice what the rules say', async () => {
    let jobs: Jobs = new Map();
    for (const choice of day) {
      await apply(choice);
      jobs = applyJobChoice(jobs, choice);
      const rows = await register.jobs();
      expect(new Map(rows.map((job) => [job.code, job]))).toEqual(jobs);
    }
    expect(jobs.size).toBe(2);
  });

  test('a frame belongs to the shot that was current when it began to arrive, if that waits for its camera', async () => {
    await apply(...day.slice(0, 7), announced('f1'));
    await apply({ type: 'shot-stated', job: 'A', shot: { ...plainShot('s1', 's1'), camera: 'cam2' } });
    await apply(announced('f2'), announced('f3', 'cam2'), announced('f4', 'cam2', 'unsorted'));
    const shots = await Promise.all(['f1', 'f2', 'f3', 'f4'].map((id) => register.frame(id)));
    expect(shots.map((frame) => frame?.shot)).toEqual(['s1', null, 's1', null]);
  });

  test('why a frame went to no shot as it came is written down, and the tray asks for no shot', async () => {
    await apply({ type: 'job-described', job: 'A', ...words }, announced('f1'));
    await apply(stated('A', 's1', true), announced('f2'), stated('A', 's2'), announced('f3'));
    await apply({ type: 'shot-current-set', job: 'A', shot: 's1' }, announced('f4'));
    await apply({ type: 'shot-stated', job: 'A', shot: { ...plainShot('s2', 's2'), camera: 'cam2' } });
    await apply({ type: 'shot-current-set', job: 'A', shot: 's2' }, announced('f5'), announced('f6', 'cam2'));
    await apply(announced('f7', 'cam1', 'unsorted'));
    const ids = ['f1', 'f2', 'f3', 'f4', 'f5', 'f6', 'f7'];
    const rows = await Promise.all(ids.map((id) => register.frame(id)));
    expect(rows.map((row) => row?.shotless)).toEqual([
      'no-shots',
      // A shot that is hidden is in no list.
      'no-shots',
      'no-current',
      'no-current',
      'other-camera',
      null,
      null,
    ]);
  });

  test('purposes and acceptances stand with their frame, the newest word of each question', async () => {
    const accept = (judgement: 'doubt' | 'bad'): RegisterRecordBody => ({
      type: 'acceptance-set',
      frame: 'f1',
      question: 'sharp',
      acceptance: { judgement, name: 'Ada', reason: 'so' },
    });
    await apply(announced('f1'));
    expect(await register.frame('f1')).toMatchObject({ purpose: 'picture', acceptances: [], version: 1 });
    await apply(accept('doubt'), accept('bad'), { type: 'purpose-set', frame: 'f1', purpose: 'plate' });
    expect(await register.frame('f1')).toMatchObject({
      purpose: 'plate',
      acceptances: [{ question: 'sharp', judgement: 'bad', name: 'Ada', atMs: 3000 }],
      version: 4,
    });
    await apply({ type: 'acceptance-set', frame: 'f1', question: 'sharp', acceptance: null });
    expect((await register.frame('f1'))?.acceptances).toEqual([]);
  });

  test('remarks stand with their frame in the order they were made, with answers and whether they are settled', async () => {
    const made = (id: string): RegisterRecordBody => ({
      type: 'remark-made',
      frame: 'f1',
      remark: { id, at: { x: 0.5, y: 0.25 }, text: id, inside: false, by: guest },
    });
    const answered: RegisterRecordBody = {
      type: 'remark-answered',
      frame: 'f1',
      remark: 'zz',
      answer: { id: 'n1', text: 'done', by: guest },
    };
    const settled = (remark: string, is: boolean): RegisterRecordBody => ({
      type: 'remark-settled',
      frame: 'f1',
      remark,
      settled: is,
      by: guest,
    });
    await apply(announced('f1'), made('zz'), made('aa'), answered, answered, settled('zz', true));
    await apply(settled('aa', true), settled('aa', false), settled('none', true), made('zz'));
    const frame = await register.frame('f1');
    expect(frame?.remarks).toMatchObject([
      { id: 'zz', at: { x: 0.5, y: 0.25 }, atMs: 2000, settled: { by: guest, atMs: 6000 } },
      { id: 'aa', atMs: 3000, settled: null, answers: [] },
    ]);
    expect(frame?.remarks[0]?.answers).toEqual([{ id: 'n1', text: 'done', by: guest, atMs: 5000 }]);
    expect(frame?.version).toBe(10);
    expect((await register.framesPage({ limit: 1 })).frames[0]?.remarks).toEqual(frame?.remarks);
    expect((await register.dump()).remarks).toHaveLength(2);
    await register.clear();
    expect((await register.dump()).remarks).toEqual([]);
  });

  test('what guests see by hand stands with its frame until the mark decides again', async () => {
    await apply(announced('f1'), { type: 'share-set', frame: 'f1', share: 'kept-back' });
    expect(await register.frame('f1')).toMatchObject({ share: 'kept-back', version: 2 });
    await apply({ type: 'share-set', frame: 'f1', share: null });
    expect(await register.frame('f1')).toMatchObject({ share: null, version: 3 });
  });

  test('frames of a job and of a shot are counted', async () => {
    await apply(announced('f1'), announced('f2'), { type: 'shot-set', frame: 'f2', shot: 's1' });
    expect([await register.countFrames('A'), await register.countFrames('A', 's1')]).toEqual([2, 1]);
  });

  test('what was said of a clock is told in its order, also of a camera of which nothing else was said', async () => {
    await apply(
      { type: 'camera-clock-set', camera: 'cam2', offsetMs: 5, sinceMs: null },
      { type: 'camera-clock-set', camera: 'cam2', offsetMs: -7, sinceMs: 9 },
      { type: 'camera-set', camera: 'cam1', expects: 'both' },
    );
    expect(await register.cameras()).toEqual([
      { name: 'cam1', expects: 'both', saidMs: 3000, clocks: [] },
      {
        name: 'cam2',
        expects: null,
        saidMs: null,
        clocks: [
          { offsetMs: 5, sinceMs: null },
          { offsetMs: -7, sinceMs: 9 },
        ],
      },
    ]);
  });

  test('a list of version 1 keeps what was said of its shots since, and drops those it does not name', async () => {
    await apply(...day.slice(0, 3));
    await apply({ type: 'shot-stated', job: 'A', shot: { ...plainShot('s1', 's1'), heroes: 3 } });
    const shots = [
      { id: 's9', name: 'Nine' },
      { id: 's1', name: 'One' },
    ];
    await apply({ type: 'job-opened', code: 'A', title: 'x', client: 'y', shots });
    const [job] = await register.jobs();
    expect(job).toMatchObject({ state: 'open', title: 'x' });
    expect(job?.shots.map(({ id, name, heroes }) => [id, name, heroes])).toEqual([
      ['s9', 'Nine', 1],
      ['s1', 'One', 3],
    ]);
  });
});
