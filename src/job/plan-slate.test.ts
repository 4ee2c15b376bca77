import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyJobChoice } from './apply-choice.ts';
import type { Choice } from './choice.ts';
import { type Job, type Jobs, plainShot } from './job.ts';
import { planNewJob } from './plan-job.ts';
import { type FrameInOrder, nextShot, planHeed, planLate, type ShotWord, shotInForce } from './plan-slate.ts';
import { inverseOfFrameChoices, inverseOfJobChoices } from './undo.ts';

const shots = ['a', 'b', 'c', 'd'];

function jobWith(currentShot: string | null): Job {
  let jobs: Jobs = new Map();
  for (const choice of planNewJob(jobs, { code: 'J' })) jobs = applyJobChoice(jobs, choice);
  for (const id of shots) {
    const camera = id === 'd' ? 'cam2' : null;
    jobs = applyJobChoice(jobs, { type: 'shot-stated', job: 'J', shot: { ...plainShot(id, id), camera } });
  }
  jobs = applyJobChoice(jobs, { type: 'shot-current-set', job: 'J', shot: currentShot });
  const job = jobs.get('J');
  if (job === undefined) throw new Error('the job was made above');
  return job;
}

function frameAt(orderMs: number, parts: Partial<FrameInOrder> = {}): FrameInOrder {
  return {
    id: `f${orderMs}`,
    mark: 'none',
    job: 'J',
    shot: 'a',
    spot: null,
    purpose: 'picture',
    acceptances: [],
    placedBy: 'arrival',
    look: null,
    share: null,
    slate: null,
    camera: 'cam1',
    orderMs,
    arrivedMs: orderMs,
    ...parts,
  };
}

const frameChoices = (choices: readonly Choice[], frame: string): Choice[] =>
  choices.filter((choice) => 'frame' in choice && choice.frame === frame);

describe('a slate', () => {
  const heed = (parts: Partial<Parameters<typeof planHeed>[0]> = {}): Choice[] =>
    planHeed({
      job: jobWith('a'),
      frame: frameAt(10),
      shot: 'b',
      purpose: 'test',
      words: [],
      later: [frameAt(20), frameAt(30, { placedBy: 'hand' })],
      ...parts,
    });

  test('makes its shot current and takes along what lies behind it, but for what a hand moved', () => {
    expect(heed()).toEqual([
      { type: 'slate-heeded', frame: 'f10', slate: { job: 'J', shot: 'b', before: 'a', inForce: true } },
      { type: 'purpose-set', frame: 'f10', purpose: 'test' },
      { type: 'shot-current-set', job: 'J', shot: 'b' },
      { type: 'shot-followed', frame: 'f10', shot: 'b', by: 'slate' },
      { type: 'shot-followed', frame: 'f20', shot: 'b', by: 'slate' },
    ]);
  });

  test('leaves a purpose that somebody gave', () => {
    const choices = heed({ frame: frameAt(10, { purpose: 'plate' }) });
    expect(choices.some(({ type }) => type === 'purpose-set')).toBe(false);
  });

  test('with a later word behind it makes nothing current and reaches up to that word', () => {
    const words = [{ atMs: 25, heardMs: 25, shot: 'c', before: 'a' }];
    const choices = heed({ words, later: [frameAt(20), frameAt(25, { shot: 'c' }), frameAt(30)] });
    expect(choices.some(({ type }) => type === 'shot-current-set')).toBe(false);
    expect(frameChoices(choices, 'f20')).toHaveLength(1);
    expect(frameChoices(choices, 'f25')).toEqual([]);
    expect(frameChoices(choices, 'f30')).toEqual([]);
  });

  test('of a shot that is one camera’s takes frames of others to none, as they would have come', () => {
    const choices = heed({ shot: 'd', later: [frameAt(20), frameAt(30, { camera: 'cam2' })] });
    expect(frameChoices(choices, 'f20')).toMatchObject([{ shot: null }]);
    expect(frameChoices(choices, 'f30')).toMatchObject([{ shot: 'd' }]);
  });

  test('is taken back whole: job and frames stand as before, and that it was seen stays known', () => {
    const job = jobWith('a');
    const frame = frameAt(10);
    const choices = heed();
    const jobChoices = choices.filter((choice) => 'job' in choice && !('frame' in choice));
    expect(
      inverseOfJobChoices(
        new Map([['J', job]]),
        jobChoices.filter((c) => c.type === 'shot-current-set'),
      ),
    ).toEqual([{ type: 'shot-current-set', job: 'J', shot: 'a' }]);
    const own = frameChoices(choices, 'f10').filter(
      (choice) =>
        choice.type === 'slate-heeded' || choice.type === 'purpose-set' || choice.type === 'shot-followed',
    );
    expect(inverseOfFrameChoices(frame, own)).toEqual([
      { type: 'shot-followed', frame: 'f10', shot: 'a', by: 'arrival' },
      { type: 'purpose-set', frame: 'f10', purpose: 'picture' },
      { type: 'slate-heeded', frame: 'f10', slate: { job: 'J', shot: 'b', before: 'a', inForce: false } },
    ]);
  });
});

test('the next shot is the next that is listed, the first after none, and none after the last', () => {
  const job = jobWith('a');
  expect([null, 'a', 'c', 'd'].map((after) => nextShot(job, after))).toEqual(['a', 'b', 'd', null]);
  const hidden = { ...job, shots: job.shots.map((shot) => ({ ...shot, hidden: shot.id === 'b' })) };
  expect(nextShot(hidden, 'a')).toBe('c');
});

test('a frame in front of all slates went where frames went before the first', () => {
  const words: ShotWord[] = [{ atMs: 10, heardMs: 99, shot: 'b', before: 'a' }];
  expect(shotInForce(jobWith('b'), words, 5)).toBe('a');
  expect(shotInForce(jobWith('b'), words, 10)).toBe('b');
  expect(shotInForce(jobWith('b'), [], 5)).toBe('b');
});

/**
 * What must hold in the end is said here from the slates alone: each frame belongs to the last slate in front of it. Frames
 * come in any order, slates are read at any later time, and a few frames are moved by hand.
 */
test('in whatever order frames come and slates are read, each frame ends where the last slate in front of it says', () => {
  const day = fc.array(
    fc.record({
      slate: fc.option(fc.constantFrom('a', 'b', 'c'), { nil: null, freq: 3 }),
      comes: fc.integer({ min: 0, max: 1000 }),
      readAfter: fc.integer({ min: 1, max: 1000 }),
      byHand: fc.boolean(),
    }),
    { minLength: 1, maxLength: 12 },
  );
  fc.assert(
    fc.property(day, (frames) => {
      const end = playDay(frames);
      for (const [at, frame] of frames.entries()) {
        if (frame.byHand && frame.slate === null) {
          expect(end.shots.get(at)).toBe('d');
          continue;
        }
        const last = frames.slice(0, at + 1).findLast(({ slate }) => slate !== null);
        expect(end.shots.get(at), JSON.stringify({ at, frames })).toBe(last?.slate ?? 'a');
      }
      expect(end.currentShot).toBe(frames.findLast(({ slate }) => slate !== null)?.slate ?? 'a');
    }),
    { numRuns: 2000 },
  );
});

interface PlayedFrame {
  readonly slate: string | null;
  readonly comes: number;
  readonly readAfter: number;
  readonly byHand: boolean;
}

/** A station in small: frames come to the shot that is current, and the plans under test do the rest. */
function playDay(frames: readonly PlayedFrame[]): {
  shots: ReadonlyMap<number, string | null>;
  currentShot: string | null;
} {
  let job = jobWith('a');
  const here = new Map<number, FrameInOrder>();
  const words: ShotWord[] = [];
  const apply = (choices: readonly Choice[], heardMs: number): void => {
    for (const choice of choices) {
      if (choice.type === 'shot-current-set') job = { ...job, currentShot: choice.shot };
      if (choice.type === 'slate-heeded') {
        const { shot, before } = choice.slate;
        words.push({ atMs: Number(choice.frame.slice(1)), heardMs, shot, before });
      }
      if (choice.type !== 'shot-followed') continue;
      const at = Number(choice.frame.slice(1));
      const frame = here.get(at);
      if (frame !== undefined) here.set(at, { ...frame, shot: choice.shot, placedBy: choice.by });
    }
  };
  const events = frames.flatMap((frame, at) => [
    { atMs: 1000 + frame.comes, at, what: 'comes' },
    ...(frame.slate === null ? [] : [{ atMs: 1000 + frame.comes + frame.readAfter, at, what: 'read' }]),
  ]);
  for (const [tick, { at, what }] of events.sort((a, b) => a.atMs - b.atMs).entries()) {
    const frame = frames[at];
    if (frame === undefined) continue;
    const nowMs = 1000 + tick;
    if (what === 'comes') {
      const come = frameAt(at, { shot: job.currentShot, arrivedMs: nowMs });
      const hand = frame.byHand && frame.slate === null;
      here.set(at, hand ? { ...come, shot: 'd', placedBy: 'hand' } : come);
      apply(planLate(job, here.get(at) ?? come, words), nowMs);
      continue;
    }
    const own = here.get(at);
    if (own === undefined || frame.slate === null) continue;
    const later = [...here.entries()].filter(([other]) => other > at).map(([, each]) => each);
    later.sort((one, other) => one.orderMs - other.orderMs);
    apply(planHeed({ job, frame: own, shot: frame.slate, purpose: 'test', words, later }), nowMs);
  }
  return {
    shots: new Map([...here].map(([at, { shot }]) => [at, shot])),
    currentShot: job.currentShot,
  };
}
