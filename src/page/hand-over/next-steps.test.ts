import { expect, test } from 'vitest';
import type { BagWork, CardCheck, DeliveryState, Verification } from '../../contract/index.ts';
import { sentence } from '../../words/index.ts';
import { nextSteps, type StepsInput } from './next-steps.ts';

const quiet: StepsInput = {
  deliveries: [],
  card: null,
  bag: null,
  verification: null,
  station: { secondPlaces: [{ folder: '/p', otherDevice: true, waiting: 0, trouble: null }], demo: false },
  jobs: [{ code: 'QM-26', deliveries: [] }],
  strike: null,
  hasFrames: true,
};
const codes = (more: Partial<StepsInput>): string[] =>
  nextSteps({ ...quiet, ...more }).map(({ finding }) => finding.code);

const slip = (more: Partial<DeliveryState>): DeliveryState => ({
  id: 'd-1',
  job: 'QM-26',
  title: 'Print',
  specificationSha256: '0'.repeat(64),
  folder: '/d',
  state: 'done',
  startedAt: '2026-10-01T08:00:00.000Z',
  endedAt: null,
  frames: 2,
  filesMade: 2,
  filesMissing: 0,
  gapsLeft: false,
  destination: null,
  filesSent: 0,
  bytesSent: 0,
  bytesToSend: 0,
  finding: null,
  ...more,
});
// Only what the steps go by.
const card = (counts: Partial<CardCheck['counts']>, more: Partial<CardCheck> = {}): CardCheck =>
  ({
    state: 'done',
    mayBeWiped: false,
    counts: { safe: 0, once: 0, missing: 0, unread: 0, ...counts },
    takingIn: null,
    ...more,
  }) as CardCheck;
const read = (badOriginals: number, bad: number): Verification => ({
  everyDays: 30,
  dueAt: null,
  running: null,
  last: {
    startedAt: '2026-10-01T08:00:00.000Z',
    endedAt: '2026-10-01T08:00:00.000Z',
    files: 4,
    bytes: 40,
    badOriginals,
    places: [{ folder: '/p', files: 4, bad, wasRead: true }],
  },
});

test('where all is in order nothing is asked', () => {
  expect(
    codes({
      deliveries: [slip({})],
      card: card({ safe: 3 }, { mayBeWiped: true }),
      verification: read(0, 0),
    }),
  ).toEqual([]);
});

test('a package that broke off or does not hold is said, one that holds or goes on is not', () => {
  // Only what the steps go by.
  const bag = (state: BagWork['state'], valid: boolean | null): BagWork =>
    ({ state, folder: '/b', outcome: valid === null ? null : { valid } }) as BagWork;
  expect(codes({ bag: bag('failed', null) })).toEqual(['hand.bag-failed']);
  expect(codes({ bag: bag('done', false) })).toEqual(['hand.bag-bad']);
  expect([...codes({ bag: bag('done', true) }), ...codes({ bag: bag('running', null) })]).toEqual([]);
});

test('worst first: what may be lost, where copies go, the card, the set, what was asked for', () => {
  const steps = nextSteps({
    ...quiet,
    verification: read(1, 2),
    station: { secondPlaces: [{ folder: '/p', otherDevice: true, waiting: 3, trouble: null }], demo: false },
    card: card({ missing: 2 }),
    strike: { open: [{}, {}] as never },
    deliveries: [slip({ id: 'd-2', title: 'Web', state: 'paused' }), slip({ filesMissing: 1 })],
    jobs: [{ code: 'QM-26', deliveries: ['Archive', 'print'] }],
  });
  expect(steps.map(({ finding }) => finding.code)).toEqual([
    'hand.bad-originals',
    'hand.bad-copies',
    'hand.copies-wait',
    'hand.card-missing',
    'hand.strike-open',
    'hand.delivery-waits',
    'hand.delivery-gaps',
    'hand.not-delivered',
  ]);
  // Each is a sentence, with its figures.
  for (const { finding } of steps) expect(sentence(finding)).not.toMatch(/\?|hand\./);
});

test('with nothing yet it says what to do first; on one disk, that a second place is missing', () => {
  expect(codes({ jobs: [], hasFrames: false })).toEqual(['hand.no-job', 'hand.no-frames', 'hand.then-mark']);
  expect(codes({ station: { secondPlaces: [], demo: false } })).toEqual(['hand.no-place']);
});

test('a delivery that was made again whole has mended the one before; a card that was taken in is checked again', () => {
  expect(codes({ deliveries: [slip({ id: 'd-2' }), slip({ filesMissing: 1 })] })).toEqual([]);
  const takingIn = { state: 'done' } as CardCheck['takingIn'];
  expect(codes({ card: card({ missing: 2 }, { takingIn }) })).toEqual(['hand.card-again']);
});

test('gaps that somebody left as they are ask for nothing; a line leads to its own delivery', () => {
  const gaps = slip({ id: 'd-7', filesMade: 1, filesMissing: 1 });
  expect(nextSteps({ ...quiet, deliveries: [gaps] })).toMatchObject([
    { finding: { code: 'hand.delivery-gaps' }, delivery: 'd-7', mayLeave: true },
  ]);
  expect(codes({ deliveries: [{ ...gaps, gapsLeft: true }] })).toEqual([]);
  // An older one of its kind does not come forward in its place.
  expect(
    codes({
      deliveries: [
        { ...gaps, gapsLeft: true },
        { ...gaps, id: 'd-6' },
      ],
    }),
  ).toEqual([]);
});
