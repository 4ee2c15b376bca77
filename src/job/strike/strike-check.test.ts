import { describe, expect, test } from 'vitest';
import type { Agreement, Judgement, Mark, Question } from '../../facts/index.ts';
import { type Job, noColour, noHandOver, noWords, plainShot, type Shot } from '../job.ts';
import { type StrikeInput, stateOf, strikeCheck } from './strike-check.ts';
import type { JudgedFrame, StrikeFrame } from './strike-frame.ts';
import { noStrike, type StrikeState } from './strike-state.ts';

// The conditions are those of the project's own rules (docs/strike.md): per shot and for the job, worst first.

const mug: Shot = plainShot('mug', 'Mug');
const said: StrikeState = {
  ...noStrike,
  lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter: 3, by: 'operator', atMs: 9 }],
};

function jobOf(shots: readonly Shot[] = [mug], strike: StrikeState = said): Job {
  return {
    ...noWords,
    code: 'A',
    state: 'open',
    tolerances: {},
    greyCard: false,
    handOver: noHandOver,
    colour: noColour,
    targets: [],
    scales: [],
    agreements: [],
    strike,
    shots,
    currentShot: null,
    version: 1,
  };
}

function judged(of: Partial<Record<Question, Judgement>> = {}, more: Partial<JudgedFrame> = {}): JudgedFrame {
  const verdict = (question: Question) => ({ judgement: of[question] ?? ('good' as const), because: null });
  return {
    verdicts: {
      arrived: verdict('arrived'),
      sharp: verdict('sharp'),
      exposed: verdict('exposed'),
      inPlace: verdict('inPlace'),
      colour: verdict('colour'),
    },
    acceptances: [],
    target: 'f1',
    ...more,
  };
}

function frame(counter: number, more: Partial<StrikeFrame> & { mark?: Mark } = {}): StrikeFrame {
  const name = `QMST${String(counter).padStart(4, '0')}.DNG`;
  return {
    id: `f${counter}`,
    camera: 'cam1',
    name,
    counter,
    momentMs: counter * 1000,
    cameMs: counter * 1000 + 500,
    shot: 'mug',
    mark: 'none',
    purpose: 'picture',
    files: [{ name, state: 'whole', copies: 1 }],
    judged: null,
    ...more,
  };
}

const hero = frame(3, { mark: 'hero', judged: judged() });
const day = [frame(1, { purpose: 'target' }), frame(2), hero];

function check(frames: readonly StrikeFrame[], job: Job = jobOf(), more: Partial<StrikeInput> = {}) {
  return strikeCheck(job, {
    frames,
    elsewhere: [],
    agreements: new Map<string, Agreement>(),
    secondPlaces: 1,
    cardNumbers: [],
    ...more,
  });
}

const codes = (frames: readonly StrikeFrame[], job?: Job, more?: Partial<StrikeInput>): string[] =>
  check(frames, job, more).open.map(({ finding }) => finding.code);

describe('the strike check', () => {
  test('looks at each frame as often with forty shots on the list as with one', () => {
    const looksOf = (shots: readonly Shot[]): number => {
      let looks = 0;
      const counted = (each: StrikeFrame): StrikeFrame =>
        Object.defineProperty({ ...each }, 'shot', {
          get: () => {
            looks += 1;
            return each.shot;
          },
        });
      check(day.map(counted), jobOf([...shots]));
      return looks;
    };
    const many = Array.from({ length: 40 }, (_, at) => plainShot(`s${at}`, `Shot ${at}`));
    expect(looksOf([mug, ...many])).toBe(looksOf([mug]));
  });

  test('a job whose shots have their heroes, all good, copied, with every number, is ready', () => {
    expect(check(day)).toMatchObject({ ready: true, open: [], accepted: [], frames: 3 });
  });

  test('a job without a shot is not ready: nobody said what it has to bring home', () => {
    expect(codes(day, jobOf([]))).toEqual(['strike.no-shots']);
  });

  test('a shot without a frame, without a hero and with too few selects says which', () => {
    const jug = plainShot('jug', 'Jug');
    expect(codes(day, jobOf([mug, jug]))).toEqual(['strike.no-frames']);
    expect(codes([frame(1), frame(2), frame(3)])).toEqual(['strike.no-hero']);
    expect(codes(day, jobOf([{ ...mug, selects: 2 }]))).toEqual(['strike.too-few-selects']);
  });

  test('a shot that was taken from the list asks for nothing', () => {
    const jug = { ...plainShot('jug', 'Jug'), hidden: true };
    expect(codes(day, jobOf([mug, jug]))).toEqual([]);
  });

  test.each(['doubt', 'unknown', 'bad'] as const)(
    'a verdict that is %s is open until it is accepted as that',
    (judgement) => {
      const open = [frame(1), frame(2), { ...hero, judged: judged({ sharp: judgement }) }];
      expect(codes(open)).toEqual([`strike.verdict-${judgement}`]);
      expect(check(open).open[0]).toMatchObject({
        frame: 'f3',
        shot: 'mug',
        question: 'sharp',
        explainable: false,
      });
      const acceptances = [{ question: 'sharp', judgement, name: 'Ada', reason: 'soft on purpose' }] as const;
      const taken = [frame(1), frame(2), { ...hero, judged: judged({ sharp: judgement }, { acceptances }) }];
      expect(check(taken)).toMatchObject({
        ready: true,
        accepted: [{ question: 'sharp', accepted: { name: 'Ada', reason: 'soft on purpose' } }],
      });
    },
  );

  test('an acceptance of a doubt does not cover what is bad by now', () => {
    const acceptances = [{ question: 'sharp', judgement: 'doubt', name: 'Ada', reason: 'so' }] as const;
    const worse = { ...hero, judged: judged({ sharp: 'bad' }, { acceptances }) };
    expect(codes([frame(1), frame(2), worse])).toEqual(['strike.verdict-bad']);
  });

  test('only the verdicts that the shot asks for are asked, and whether it arrived always', () => {
    const job = jobOf([{ ...mug, requires: ['sharp'] }]);
    const other = { ...hero, judged: judged({ inPlace: 'bad', colour: 'unknown' }, { target: null }) };
    expect(codes([frame(1), frame(2), other], job)).toEqual([]);
    const inOnePlace = { ...hero, judged: judged({ arrived: 'doubt' }) };
    expect(codes([frame(1), frame(2), inOnePlace], job)).toEqual(['strike.verdict-doubt']);
  });

  test('a hero whose colour no target proves asks for one, once: not where its colour is open or accepted anyway', () => {
    const of = (colour: Judgement, more: Partial<JudgedFrame> = {}) => {
      const without = { ...hero, judged: judged({ colour }, { target: null, ...more }) };
      return codes([frame(1), frame(2), without]);
    };
    expect(of('good')).toEqual(['strike.no-target']);
    expect(of('unknown')).toEqual(['strike.verdict-unknown']);
    const acceptances = [{ question: 'colour', judgement: 'unknown', name: 'Ada', reason: 'so' }] as const;
    expect(of('unknown', { acceptances })).toEqual([]);
  });

  test('the client’s word is asked for where the shot asks for it, and one given to another picture is none', () => {
    const job = jobOf([{ ...mug, agreement: true }]);
    const word = (agreement: Agreement) => ({ agreements: new Map([['mug', agreement]]) });
    expect(codes(day, job)).toEqual(['strike.word-missing']);
    expect(codes(day, job, word('older'))).toEqual(['strike.word-older']);
    expect(codes(day, job, word('given'))).toEqual([]);
    expect(check(day).shots[0]?.agreement).toBeNull();
  });

  test('a file that broke off or came damaged is open until a whole one of its name came, it is out or accepted', () => {
    const name = 'QMST0002.DNG';
    const damaged = frame(2, {
      files: [{ name, state: 'damaged', copies: 1 }],
      judged: judged({ arrived: 'bad' }),
    });
    const broken = frame(2, {
      files: [{ name, state: 'broken-off', copies: 0 }],
      judged: judged({ arrived: 'bad' }),
    });
    expect(codes([frame(1), damaged, hero])).toEqual(['strike.damaged']);
    expect(codes([frame(1), broken, hero])).toEqual(['strike.broken-off']);
    expect(codes([frame(1), { ...damaged, mark: 'out' }, hero])).toEqual([]);
    const again = { ...frame(2), id: 'f2-again', name: 'QMST0002-2.DNG' };
    expect(
      codes([frame(1), damaged, { ...again, files: [{ name, state: 'whole', copies: 1 }] }, hero]),
    ).toEqual([]);
    const acceptances = [
      { question: 'arrived', judgement: 'bad', name: 'Ada', reason: 'not needed' },
    ] as const;
    expect(
      codes([frame(1), { ...damaged, judged: judged({ arrived: 'bad' }, { acceptances }) }, hero]),
    ).toEqual([]);
  });

  test('files on their way are counted', () => {
    const coming = frame(4, { files: [{ name: 'QMST0004.DNG', state: 'arriving', copies: 0 }] });
    expect(check([...day, coming]).open.map(({ finding }) => finding)).toContainEqual({
      code: 'strike.arriving',
      args: { count: 1 },
    });
  });

  test('frames in one place are told as one line, and a place that is not there at all as such', () => {
    const alone = frame(2, { files: [{ name: 'QMST0002.DNG', state: 'whole', copies: 0 }] });
    const frames = [frame(1), alone, hero];
    expect(check(frames).open).toMatchObject([
      { cost: 'copy', finding: { code: 'strike.not-copied', args: { count: 1 } }, explainable: true },
    ]);
    expect(codes(frames, jobOf(), { secondPlaces: 0 })).toEqual(['strike.no-second-place']);
    expect(codes([frame(1), { ...alone, mark: 'out' }, hero])).toEqual([]);
  });

  test('numbers that never came are a gap; one that lies in another job is none', () => {
    const gappy = [frame(1), { ...hero, id: 'f3' }];
    expect(check(gappy).open.map(({ finding }) => finding)).toEqual([
      { code: 'strike.gap', args: { camera: 'cam1', from: 2, to: 2, count: 1 } },
    ]);
    expect(codes(gappy, jobOf(), { elsewhere: [frame(2)] })).toEqual([]);
  });

  test('a gap that somebody explains is accepted, and another gap is not covered', () => {
    const gappy = [frame(1), hero];
    const line = check(gappy).open[0]?.key ?? '';
    const explained = [{ line, name: 'Ada', reason: 'shutter pressed by accident', atMs: 5 }];
    const job = jobOf([mug], { ...said, explained });
    expect(check(gappy, job)).toMatchObject({ ready: true, accepted: [{ accepted: { name: 'Ada' } }] });
    expect(codes([hero, frame(5)], job)).toContain('strike.gap');
  });

  test('what may not be explained stays open, whatever was said of its line', () => {
    const open = check([frame(1), frame(2), frame(3)]).open[0]?.key ?? '';
    const explained = [{ line: open, name: 'Ada', reason: 'never mind', atMs: 5 }];
    expect(codes([frame(1), frame(2), frame(3)], jobOf([mug], { ...said, explained }))).toEqual([
      'strike.no-hero',
    ]);
  });

  test('no later number shows a gap at the end, so the camera’s own last number is asked for', () => {
    expect(codes(day, jobOf([mug], noStrike))).toEqual(['strike.number-wanted']);
    const last = (counter: number): StrikeState => ({
      ...noStrike,
      lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter, by: 'operator', atMs: 9 }],
    });
    const open = (counter: number) =>
      check(day, jobOf([mug], last(counter))).open.map(({ finding }) => finding);
    expect(open(3)).toEqual([]);
    expect(open(5)).toEqual([
      { code: 'strike.numbers-missing', args: { camera: 'cam1', from: 4, to: 5, count: 2 } },
    ]);
    expect(open(2)).toEqual([
      { code: 'strike.number-behind', args: { camera: 'cam1', name: 'QMST0003.DNG', said: 2 } },
    ]);
  });

  test('a card that is safe answers it too, until a later word or a frame that is not on it', () => {
    const card = (counter: number, atMs: number) => ({
      cardNumbers: [{ camera: 'cam1', prefix: 'ST', counter, atMs }],
    });
    const said = (counter: number): StrikeState => ({
      ...noStrike,
      lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter, by: 'operator', atMs: 9 }],
    });
    expect(codes(day, jobOf([mug], noStrike), card(3, 5))).toEqual([]);
    expect(check(day, jobOf([mug], noStrike), card(3, 5)).cameras[0]?.said).toMatchObject({ how: 'card' });
    // Somebody read a higher one off the camera after the card was checked.
    expect(codes(day, jobOf([mug], said(5)), card(3, 5))).toEqual(['strike.numbers-missing']);
    expect(codes(day, jobOf([mug], said(5)), card(3, 10))).toEqual([]);
    // It was checked before the newest frame was taken.
    expect(codes(day, jobOf([mug], noStrike), card(2, 5))).toEqual(['strike.number-behind']);
    expect(
      codes(day, jobOf([mug], noStrike), {
        cardNumbers: [{ ...card(3, 5).cardNumbers[0], camera: 'cam9', prefix: 'ST', counter: 3, atMs: 5 }],
      }),
    ).toEqual(['strike.number-wanted']);
  });

  test('a number that came, but lies earlier in the day or in another job, is not missing at the end', () => {
    const lastNumbers = [{ camera: 'cam1', prefix: 'ST', counter: 5, by: 'operator', atMs: 9 }];
    const job = jobOf([mug], { ...noStrike, lastNumbers });
    const missing = (frames: readonly StrikeFrame[], elsewhere: readonly StrikeFrame[] = []): unknown =>
      check(frames, job, { elsewhere }).open.map(({ finding }) => finding);
    // Its clock was off: 0004 stands first in the order of the day.
    const early = { ...frame(4), momentMs: 0, cameMs: 9 };
    const five = { code: 'strike.numbers-missing', args: { camera: 'cam1', from: 5, to: 5, count: 1 } };
    expect(missing([early, ...day])).toEqual([five]);
    expect(missing([early, ...day], [frame(5)])).toEqual([]);
  });

  // CIPA DC-009 (DCF 2.0) 3.3.1: after 9999 comes 0001.
  test('the last number counts on from 9999 to 1', () => {
    const end = frame(9999, { mark: 'hero', judged: judged() });
    const lastNumbers = [{ camera: 'cam1', prefix: 'ST', counter: 2, by: 'operator', atMs: 9 }];
    const job = jobOf([mug], { ...noStrike, lastNumbers });
    expect(check([frame(9998), end], job).open.map(({ finding }) => finding)).toEqual([
      { code: 'strike.numbers-missing', args: { camera: 'cam1', from: 1, to: 2, count: 2 } },
    ]);
  });

  test('names without numbers prove nothing: it is asked whether they are all there', () => {
    const nameless = frame(4, { camera: 'cam2', name: 'harbour.jpg', counter: null });
    expect(check([...day, nameless]).open).toMatchObject([
      { finding: { code: 'strike.no-numbers', args: { camera: 'cam2', count: 1 } }, explainable: true },
    ]);
  });

  test('a sidecar without its picture is no frame that a camera counted', () => {
    const alone = frame(99, { name: 'QMST0099.xmp', counter: null });
    expect(check([...day, alone]).open).toEqual(check(day).open);
    expect(check([...day, alone]).cameras).toEqual(check(day).cameras);
  });

  test('worst first: what costs a reshoot, what a card may still hold, a word, a copy', () => {
    const job = jobOf([{ ...mug, agreement: true }, plainShot('jug', 'Jug')]);
    const soft = { ...hero, judged: judged({ sharp: 'bad' }) };
    const alone = frame(1, { files: [{ name: 'QMST0001.DNG', state: 'whole', copies: 0 }] });
    expect(codes([alone, soft], job)).toEqual([
      'strike.no-frames',
      'strike.verdict-bad',
      'strike.gap',
      'strike.word-missing',
      'strike.not-copied',
    ]);
  });

  test.each([
    ['a frame that came', [...day, frame(4)]],
    ['a hero that is another', [frame(1), { ...frame(2), mark: 'hero', judged: judged() }, hero]],
    ['a verdict that changed', [frame(1), frame(2), { ...hero, judged: judged({ colour: 'doubt' }) }]],
    ['another target', [frame(1), frame(2), { ...hero, judged: judged({}, { target: 'f2' }) }]],
  ] as [string, StrikeFrame[]][])('%s is another state of the check', (_what, frames) => {
    expect(stateOf(check(frames))).not.toBe(stateOf(check(day)));
  });

  test('a name that changed is the same state', () => {
    expect(stateOf(check(day, jobOf([{ ...mug, name: 'Big mug' }])))).toBe(stateOf(check(day)));
  });
});
