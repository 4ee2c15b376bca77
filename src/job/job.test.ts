import { describe, expect, test } from 'vitest';
import { applyJobChoice } from './apply-choice.ts';
import { isDate } from './checks.ts';
import type { JobChoice } from './choice.ts';
import {
  clockOffsetInForce,
  covers,
  openQuestions,
  referenceInForce,
  requiredOf,
  shotForArrival,
  tolerancesInForce,
} from './in-force.ts';
import { type Jobs, openJobOf, plainShot } from './job.ts';
import {
  baselinesMax,
  deliveriesMax,
  metadataCharactersMax,
  nameCharactersMax,
  namingCharactersMax,
  shotsMax,
  textCharactersMax,
  undoActsMax,
} from './limits.ts';
import { planFrameChange } from './plan-frame.ts';
import { planJobChange, planNewJob } from './plan-job.ts';
import {
  planBaseline,
  planBaselineRemoval,
  planNewShot,
  planOrder,
  planShotChange,
  planShotRemoval,
} from './plan-shot.ts';
import { newShotId } from './shot-id.ts';
import { type Act, inverseOfFrameChoices, inverseOfJobChoices, takeAct, touchedBy, withAct } from './undo.ts';

const none: Jobs = new Map();

function made(jobs: Jobs, ...choices: readonly JobChoice[]): Jobs {
  return choices.reduce(applyJobChoice, jobs);
}

/** A pottery's job of three shots, open. */
const pots = made(
  none,
  ...planNewJob(none, { code: 'QM-26', title: 'Autumn', client: 'Quillmere', notes: 'bring clay' }),
  ...['Mug', 'Jug', 'Bowl'].map(
    (name): JobChoice => ({ type: 'shot-stated', job: 'QM-26', shot: plainShot(name.toLowerCase(), name) }),
  ),
  { type: 'job-state-set', job: 'QM-26', state: 'open' },
);
const ids = (jobs: Jobs): string[] | undefined => jobs.get('QM-26')?.shots.map(({ id }) => id);

const refusal = (work: () => unknown): string => {
  try {
    work();
    return 'none';
  } catch (thrown) {
    return thrown instanceof Error && 'code' in thrown ? String(thrown.code) : 'other';
  }
};

describe('jobs', () => {
  test('they stand in the order in which they were opened, or made', () => {
    const three = made(none, ...['A', 'B', 'C'].flatMap((code) => planNewJob(none, { code })));
    expect([...three.keys()]).toEqual(['A', 'B', 'C']);
    const opened = made(three, { type: 'job-state-set', job: 'A', state: 'open' });
    expect([...opened.keys()]).toEqual(['B', 'C', 'A']);
    const other = made(opened, { type: 'job-state-set', job: 'C', state: 'open' });
    expect([...other.keys()]).toEqual(['B', 'A', 'C']);
  });

  test.each(['QM-26', 'a', 'Autumn.2026', 'x'.repeat(40)])('%s can be a code', (code) => {
    expect(planNewJob(none, { code })[0]).toMatchObject({ type: 'job-described', job: code });
  });

  test.each([
    '',
    '.hidden',
    '../up',
    'a/b',
    'a b',
    'CON',
    'lpt1.x',
    'unsorted',
    'Unsorted',
    'x'.repeat(41),
    'ends.',
  ])('%j can not', (code) => {
    expect(refusal(() => planNewJob(none, { code }))).toBe('bad-job-code');
  });

  test('a code is taken once, whatever its case, since folders may not know the difference', () => {
    expect(refusal(() => planNewJob(pots, { code: 'qm-26' }))).toBe('job-exists');
  });

  test('a job copied from an earlier one has its shots, limits, client and place, and a day of its own', () => {
    const limits = { shiftPx: { good: 2, bad: 8 } };
    const earlier = made(
      pots,
      { type: 'job-tolerances-set', job: 'QM-26', tolerances: limits },
      ...planBaseline(pots, 'QM-26', 'mug', { id: 'f9', atMs: 9 }),
    );
    const jobs = made(earlier, ...planNewJob(earlier, { code: 'QM-27', copyOf: 'QM-26', title: 'Spring' }));
    const job = jobs.get('QM-27');
    expect(job).toMatchObject({ title: 'Spring', client: 'Quillmere', notes: '', tolerances: limits });
    expect(job?.state).toBe('waiting');
    expect(job?.shots.map(({ name, baselines }) => [name, baselines])).toEqual([
      ['Mug', []],
      ['Jug', []],
      ['Bowl', []],
    ]);
  });

  test('opening one job lays the other aside, and one is open at a time', () => {
    const two = made(pots, ...planNewJob(pots, { code: 'B' }), {
      type: 'job-state-set',
      job: 'B',
      state: 'open',
    });
    expect(openJobOf(two)?.code).toBe('B');
    expect(two.get('QM-26')?.state).toBe('waiting');
  });

  test('a closed job is not changed until it is opened again, but for marks of its frames', () => {
    const closed = made(pots, ...planJobChange(pots, 'QM-26', { state: 'closed' }));
    expect(openJobOf(closed)).toBeNull();
    expect(refusal(() => planJobChange(closed, 'QM-26', { title: 'x' }))).toBe('job-finished');
    const frame = { id: 'f', mark: 'none', job: 'QM-26', shot: null, purpose: 'picture' } as const;
    const kept = {
      ...frame,
      spot: null,
      acceptances: [],
      placedBy: 'arrival',
      look: null,
      share: null,
      slate: null,
    } as const;
    expect(planFrameChange(closed, kept, { mark: 'select' })).toEqual([
      { type: 'mark-set', frame: kept.id, mark: 'select' },
    ]);
    expect(refusal(() => planFrameChange(closed, kept, { mark: 'select', shot: 'mug' }))).toBe(
      'job-finished',
    );
    expect(refusal(() => planFrameChange(closed, kept, { purpose: 'test' }))).toBe('job-finished');
    expect(planFrameChange(pots, kept, { spot: null })).toEqual([]);
    expect(refusal(() => planFrameChange(pots, kept, { mark: 'select' }))).toBe('none');
    expect(refusal(() => planNewShot(closed, 'QM-26', 'Cup', {}))).toBe('job-finished');
    expect(planJobChange(closed, 'QM-26', { state: 'open', title: 'x' })).toHaveLength(2);
  });

  test('how a job is handed over is kept as it was said, copied with the job, and taken back', () => {
    const said = { naming: '{job}_{shot}_{counter}', look: 'clay', deliveries: ['web', 'print'] };
    const choices = planJobChange(pots, 'QM-26', { handOver: said });
    const jobs = made(pots, ...choices);
    expect(jobs.get('QM-26')?.handOver).toEqual(said);
    expect(planJobChange(jobs, 'QM-26', { handOver: { naming: said.naming } })).toEqual([]);
    const copied = made(jobs, ...planNewJob(jobs, { code: 'QM-27', copyOf: 'QM-26' }));
    expect(copied.get('QM-27')?.handOver).toEqual(said);
    expect(made(jobs, ...inverseOfJobChoices(pots, choices)).get('QM-26')?.handOver).toEqual({
      naming: '',
      look: null,
      deliveries: [],
    });
  });

  test('what is written into a job’s pictures stays when something else is said, and is taken back', () => {
    const metadata = '{"version":1,"title":"Quillmere"}';
    const choices = planJobChange(pots, 'QM-26', { handOver: { metadata } });
    const jobs = made(pots, ...choices);
    const renamed = made(
      jobs,
      ...planJobChange(jobs, 'QM-26', { handOver: { naming: '{name}', look: 'clay' } }),
    );
    expect(renamed.get('QM-26')?.handOver).toMatchObject({ metadata, naming: '{name}' });
    expect(planJobChange(jobs, 'QM-26', { handOver: { metadata } })).toEqual([]);
    expect(made(jobs, ...inverseOfJobChoices(pots, choices)).get('QM-26')?.handOver.metadata ?? '').toBe('');
    const most = 'x'.repeat(metadataCharactersMax);
    expect(planJobChange(pots, 'QM-26', { handOver: { metadata: most } })).toHaveLength(1);
    expect(refusal(() => planJobChange(pots, 'QM-26', { handOver: { metadata: `${most}x` } }))).toBe(
      'bad-words',
    );
  });

  test.each([
    ['a naming that leads to another folder', { naming: '../{counter}' }],
    ['a naming too long', { naming: 'x'.repeat(namingCharactersMax + 1) }],
    ['a delivery twice', { deliveries: ['web', 'web'] }],
    ['a delivery without a name', { deliveries: [' '] }],
    ['too many', { deliveries: Array.from({ length: deliveriesMax + 1 }, (_, index) => `d${index}`) }],
  ])('%s is refused', (_what, handOver) => {
    expect(refusal(() => planJobChange(pots, 'QM-26', { handOver }))).toBe('bad-words');
  });

  test('naming and deliveries fit up to their bounds', () => {
    const deliveries = Array.from({ length: deliveriesMax }, (_, index) => `d${index}`);
    const handOver = { naming: 'x'.repeat(namingCharactersMax), deliveries };
    expect(planJobChange(pots, 'QM-26', { handOver })).toHaveLength(1);
  });

  test('a change that changes nothing makes no choice', () => {
    expect(planJobChange(pots, 'QM-26', { title: 'Autumn', state: 'open', tolerances: {} })).toEqual([]);
  });

  test('texts fit up to their bound and not one character more', () => {
    const change = (title: string, notes: string): (() => unknown) => {
      return () => planJobChange(pots, 'QM-26', { title, notes });
    };
    expect(refusal(change('x'.repeat(nameCharactersMax), 'x'.repeat(textCharactersMax)))).toBe('none');
    expect(refusal(change('x'.repeat(nameCharactersMax + 1), ''))).toBe('bad-words');
    expect(refusal(change('', 'x'.repeat(textCharactersMax + 1)))).toBe('bad-words');
  });

  // Leap years after RFC 3339 appendix C: 2000 is one, 1900 and 2026 are none.
  test.each([
    ['2026-10-01', true],
    ['2000-02-29', true],
    ['1900-02-29', false],
    ['2026-02-29', false],
    ['2026-04-31', false],
    ['2026-13-01', false],
    ['2026-1-1', false],
  ])('%s is a date: %s', (text, is) => {
    expect(isDate(text)).toBe(is);
  });

  test('the last day does not lie before the first', () => {
    expect(
      refusal(() => planJobChange(pots, 'QM-26', { fromDate: '2026-10-02', toDate: '2026-10-01' })),
    ).toBe('bad-words');
  });

  test.each([
    [{ good: 2, bad: 1 }],
    [{ good: -1, bad: 1 }],
    [{ good: Number.NaN, bad: 1 }],
    [{ good: 0, bad: Number.POSITIVE_INFINITY }],
  ])('limits %j are none', (shiftPx) => {
    expect(refusal(() => planJobChange(pots, 'QM-26', { tolerances: { shiftPx } }))).toBe('bad-tolerance');
  });
});

describe('shots', () => {
  test('an id says the name, and is never given twice', () => {
    expect(newShotId('Plate stack, gross & flat', new Set())).toBe('plate-stack-gross-flat');
    expect(newShotId('Mug', new Set(['mug', 'mug-2']))).toBe('mug-3');
    expect(newShotId('x'.repeat(41), new Set())).toHaveLength(40);
  });

  test('a list has the most shots there may be and not one more', () => {
    let jobs = pots;
    for (let count = 3; count < shotsMax; count += 1) {
      jobs = made(jobs, { type: 'shot-stated', job: 'QM-26', shot: plainShot(`s${count}`, 'x') });
    }
    expect(refusal(() => planNewShot(jobs, 'QM-26', 'Cup', {}))).toBe('too-many-shots');
    const one = made(jobs, { type: 'shot-removed', job: 'QM-26', shot: 's3' });
    expect(refusal(() => planNewShot(one, 'QM-26', 'Cup', {}))).toBe('none');
  });

  test('one without frames goes; one with frames is hidden, and is no longer current', () => {
    const current = made(pots, { type: 'shot-current-set', job: 'QM-26', shot: 'jug' });
    expect(ids(made(current, ...planShotRemoval(current, 'QM-26', 'jug', false)))).toEqual(['mug', 'bowl']);
    const hidden = made(current, ...planShotRemoval(current, 'QM-26', 'jug', true));
    expect(ids(hidden)).toEqual(['mug', 'jug', 'bowl']);
    expect(hidden.get('QM-26')).toMatchObject({ currentShot: null });
    expect(refusal(() => planShotChange(hidden, 'QM-26', 'jug', { heroes: 2 }))).toBe('no-shot');
  });

  test('an order names each listed shot once', () => {
    expect(ids(made(pots, ...planOrder(pots, 'QM-26', ['bowl', 'mug', 'jug'])))).toEqual([
      'bowl',
      'mug',
      'jug',
    ]);
    for (const order of [['bowl', 'mug'], ['bowl', 'mug', 'mug'], ['bowl', 'mug', 'jug', 'x'], []]) {
      expect(refusal(() => planOrder(pots, 'QM-26', order))).toBe('bad-order');
    }
  });

  test('a frame goes to the current shot, unless that waits for another camera', () => {
    const job = made(pots, { type: 'shot-current-set', job: 'QM-26', shot: 'jug' }).get('QM-26');
    if (job === undefined) throw new Error('the job is there');
    expect(shotForArrival(job, 'cam1')).toBe('jug');
    const of = { ...job, shots: job.shots.map((shot) => ({ ...shot, camera: 'cam2' })) };
    expect([shotForArrival(of, 'cam1'), shotForArrival(of, 'cam2')]).toEqual([null, 'jug']);
    expect(shotForArrival({ ...job, currentShot: null }, 'cam1')).toBeNull();
  });

  test('a frame is held against the newest baseline of its own moment, or the reference', () => {
    let jobs = made(pots, ...planShotChange(pots, 'QM-26', 'mug', { reference: 'r' }));
    for (const atMs of [200, 100]) {
      jobs = made(jobs, ...planBaseline(jobs, 'QM-26', 'mug', { id: `b${atMs}`, atMs }));
    }
    const shot = jobs.get('QM-26')?.shots[0] ?? plainShot('', '');
    expect([99, 100, 199, 200].map((atMs) => referenceInForce(shot, atMs))).toEqual([
      'r',
      'b100',
      'b100',
      'b200',
    ]);
  });

  test('a shot has the most baselines there may be and not one more', () => {
    let jobs = pots;
    for (let atMs = 0; atMs < baselinesMax; atMs += 1) {
      jobs = made(jobs, ...planBaseline(jobs, 'QM-26', 'mug', { id: `b${atMs}`, atMs }));
    }
    const more = { id: 'more', atMs: 1000 };
    expect(refusal(() => planBaseline(jobs, 'QM-26', 'mug', more))).toBe('too-many-baselines');
    expect(refusal(() => planBaseline(jobs, 'QM-26', 'mug', { id: 'b0', atMs: 1000 }))).toBe('none');
  });

  test('a baseline is taken away again, and one that is none changes nothing', () => {
    const jobs = ['a', 'b'].reduce(
      (now, id, atMs) => made(now, ...planBaseline(now, 'QM-26', 'mug', { id, atMs })),
      pots,
    );
    const left = made(jobs, ...planBaselineRemoval(jobs, 'QM-26', 'mug', 'a'));
    expect(left.get('QM-26')?.shots[0]?.baselines).toEqual([{ frame: 'b', fromMs: 1 }]);
    expect(planBaselineRemoval(left, 'QM-26', 'mug', 'a')).toEqual([]);
  });

  test("a shot's own limits stand before the job's, one by one", () => {
    const job = pots.get('QM-26');
    if (job === undefined) throw new Error('the job is there');
    const limit = (good: number): { good: number; bad: number } => ({ good, bad: 9 });
    expect(
      tolerancesInForce(
        { ...job, tolerances: { shiftPx: limit(1), lightEv: limit(2) } },
        { ...plainShot('a', 'a'), tolerances: { shiftPx: limit(3) } },
      ),
    ).toEqual({ shiftPx: limit(3), lightEv: limit(2) });
  });
});

describe('acceptance', () => {
  const shot = { ...plainShot('mug', 'Mug'), requires: ['arrived', 'sharp', 'colour'] as const };
  const judgements = {
    arrived: 'good',
    sharp: 'doubt',
    exposed: 'bad',
    inPlace: 'bad',
    colour: 'unknown',
  } as const;

  test('what is required and neither good nor accepted is open; unknown is not good', () => {
    expect(openQuestions(shot, { purpose: 'picture', judgements, acceptances: [] })).toEqual([
      'sharp',
      'colour',
    ]);
    const accepted = {
      question: 'sharp',
      judgement: 'doubt',
      name: 'Ada',
      reason: 'soft on purpose',
    } as const;
    expect(openQuestions(shot, { purpose: 'picture', judgements, acceptances: [accepted] })).toEqual([
      'colour',
    ]);
  });

  test('an acceptance covers the same verdict and better ones, and no worse one', () => {
    expect(covers({ judgement: 'doubt' }, 'doubt')).toBe(true);
    expect(covers({ judgement: 'doubt' }, 'bad')).toBe(false);
    expect(covers({ judgement: 'unknown' }, 'bad')).toBe(false);
    expect(covers({ judgement: 'bad' }, 'doubt')).toBe(true);
  });

  test('only a picture needs every verdict; a target has to arrive', () => {
    expect(requiredOf(shot, 'target')).toEqual(['arrived']);
  });
});

describe('undo', () => {
  const choices: readonly (readonly JobChoice[])[] = [
    planNewJob(pots, { code: 'B', copyOf: 'QM-26', tolerances: { shiftPx: { good: 1, bad: 2 } } }),
    planJobChange(pots, 'QM-26', {
      title: 'x',
      currentShot: 'jug',
      tolerances: { shiftPx: { good: 1, bad: 2 } },
    }),
    planJobChange(pots, 'QM-26', { state: 'closed' }),
    planNewShot(pots, 'QM-26', 'Cup', { heroes: 3 }),
    planShotChange(pots, 'QM-26', 'jug', { heroes: 3 }),
    planShotChange(pots, 'QM-26', 'jug', { order: ['f2', 'f1'] }),
    planShotRemoval(pots, 'QM-26', 'jug', false),
    planShotRemoval(pots, 'QM-26', 'jug', true),
    planOrder(pots, 'QM-26', ['bowl', 'mug', 'jug']),
    [{ type: 'job-removed', job: 'QM-26' }],
  ];
  const plain = (jobs: Jobs): unknown => [...jobs.values()].map(({ version: _version, ...job }) => job);

  test.each(choices.map((each) => [each.at(-1)?.type ?? '', each] as const))(
    'the inverse of an act that ends in %s leads back to where it began',
    (_name, act) => {
      const done = made(pots, ...act);
      expect(plain(done)).not.toEqual(plain(pots));
      expect(plain(made(done, ...inverseOfJobChoices(pots, act)))).toEqual(plain(pots));
    },
  );

  test('undoing the opening of a job opens again the one it laid aside', () => {
    const two = made(pots, ...planNewJob(pots, { code: 'B' }));
    const act: JobChoice[] = [{ type: 'job-state-set', job: 'B', state: 'open' }];
    expect(openJobOf(made(two, ...act, ...inverseOfJobChoices(two, act)))?.code).toBe('QM-26');
  });

  test('a frame goes back to what was chosen before, last change first', () => {
    const before = {
      id: 'f',
      mark: 'select',
      job: 'A',
      shot: 's',
      purpose: 'test',
      spot: { box: { left: 0.1, top: 0.1, right: 0.2, bottom: 0.2 }, onward: true },
      placedBy: 'hand',
      look: null,
      share: 'shown',
      slate: null,
      acceptances: [{ question: 'sharp', judgement: 'doubt', name: 'Ada', reason: 'so' }],
    } as const;
    expect(
      inverseOfFrameChoices(before, [
        { type: 'job-set', frame: 'f', job: 'B' },
        { type: 'shot-set', frame: 'f', shot: null },
        { type: 'acceptance-set', frame: 'f', question: 'sharp', acceptance: null },
        { type: 'acceptance-set', frame: 'f', question: 'colour', acceptance: null },
        { type: 'spot-set', frame: 'f', spot: null },
      ]),
    ).toEqual([
      { type: 'spot-set', frame: 'f', spot: before.spot },
      { type: 'acceptance-set', frame: 'f', question: 'colour', acceptance: null },
      {
        type: 'acceptance-set',
        frame: 'f',
        question: 'sharp',
        acceptance: { judgement: 'doubt', name: 'Ada', reason: 'so' },
      },
      { type: 'shot-set', frame: 'f', shot: 's' },
      { type: 'job-set', frame: 'f', job: 'A' },
    ]);
  });

  const act = (id: string, ...touched: string[]): Act => ({
    id,
    atMs: 0,
    by: 'operator',
    screen: null,
    whole: null,
    what: { code: 'x', args: {} },
    touched,
    choices: [],
    inverse: [],
  });

  test('an act is taken back out of its order unless a later one touched the same', () => {
    const mark = touchedBy({ type: 'mark-set', frame: 'f', mark: 'hero' });
    const acts = [act('1', mark), act('2', 'job A'), act('3', mark), act('4', 'job A shot s')];
    expect(takeAct(acts).act.id).toBe('4');
    expect(takeAct(acts, '3').left.map(({ id }) => id)).toEqual(['1', '2', '4']);
    expect(refusal(() => takeAct(acts, '1'))).toBe('undo-overtaken');
    expect(refusal(() => takeAct(acts, '2'))).toBe('undo-overtaken');
    expect(refusal(() => takeAct(acts, '5'))).toBe('nothing-to-undo');
    expect(refusal(() => takeAct([]))).toBe('nothing-to-undo');
  });

  test('the oldest act is forgotten when there is one too many', () => {
    let acts: readonly Act[] = [];
    for (let count = 0; count <= undoActsMax; count += 1) acts = withAct(acts, act(String(count)));
    expect([acts.length, acts[0]?.id]).toEqual([undoActsMax, '1']);
  });
});

describe('camera clocks', () => {
  test('an offset counts from when it was said to, or for all frames', () => {
    const history = [
      { offsetMs: 10, sinceMs: null },
      { offsetMs: 0, sinceMs: 500 },
    ];
    expect([0, 499, 500].map((at) => clockOffsetInForce(history, at))).toEqual([10, 10, 0]);
    expect(clockOffsetInForce([], 0)).toBe(0);
    expect(clockOffsetInForce([...history, { offsetMs: 7, sinceMs: null }], 600)).toBe(7);
  });
});
