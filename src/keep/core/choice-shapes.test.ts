import { describe, expect, test } from 'vitest';
import type { Choice } from './choice-records.ts';
import { encodeLine, parseLine } from './journal-line.ts';
import { versionOf } from './record-version.ts';
import type { JournalRecord } from './records.ts';
import type { ShotRecord } from './shot-choices.ts';

const shot: ShotRecord = {
  id: 'mug',
  name: 'Mug',
  description: 'blue\nwith a lid',
  camera: null,
  look: null,
  layout: null,
  reference: 'f1',
  baselines: [{ frame: 'f2', fromMs: 5 }],
  heroes: 1,
  selects: 0,
  agreement: true,
  requires: ['arrived', 'sharp'],
  mutes: [],
  tolerances: { shiftPx: { good: 1.5, bad: 4 } },
  hidden: false,
};

const errors = { mean: 1.5, percentile90: 3, max: 5, maxPatch: 13, lightness: 0.5, chroma: 1 };
const profile = {
  toXyz: [0.5, 0.3, 0.1, 0.3, 0.7, 0, 0, 0.1, 0.7],
  multipliers: [2, 1, 1.5],
  fit: errors,
  leaveOneOut: errors,
  patches: 24,
} as const;

const savedLook = {
  type: 'look-saved',
  look: 'look-1',
  name: 'Evening',
  version: 1,
  hash: 'a'.repeat(64),
  document: { version: 2, title: 'Evening', bands: [{ hueDeg: 30 }] },
  by: 'operator',
} as const;

const guest = { name: 'Ada', from: 'guest', link: 'tablet' } as const;
const operator = { name: 'operator', from: 'operator', link: null } as const;
const remark = { id: 'r-1', at: { x: 0.5, y: 1 }, text: '<b>brighter</b>', inside: false, by: guest };
const agreement = {
  id: 'a-1',
  shot: 'mug',
  pictures: [{ frame: 'f', look: '', profile: null }],
  by: guest,
  atMs: 7,
};

const choices: readonly Choice[] = [
  { type: 'mark-set', frame: 'f', mark: 'hero' },
  { type: 'purpose-set', frame: 'f', purpose: 'light-layer' },
  { type: 'spot-set', frame: 'f', spot: { box: { left: 0.4, top: 0, right: 1, bottom: 0.5 }, onward: true } },
  { type: 'spot-set', frame: 'f', spot: null },
  { type: 'look-set', frame: 'f', look: 'look-1' },
  { type: 'look-set', frame: 'f', look: null },
  savedLook,
  { type: 'look-aside-set', look: 'look-1', aside: true },
  { type: 'acceptance-set', frame: 'f', question: 'sharp', acceptance: null },
  { type: 'share-set', frame: 'f', share: 'kept-back' },
  { type: 'share-set', frame: 'f', share: null },
  { type: 'remark-made', frame: 'f', remark },
  { type: 'remark-made', frame: 'f', remark: { ...remark, at: null, inside: true, by: operator } },
  { type: 'remark-answered', frame: 'f', remark: 'r-1', answer: { id: 'n-1', text: 'done', by: operator } },
  { type: 'remark-settled', frame: 'f', remark: 'r-1', settled: true, by: operator },
  { type: 'agreed', job: 'A', agreement },
  { type: 'agreement-withdrawn', job: 'A', agreement: 'a-1' },
  {
    type: 'acceptance-set',
    frame: 'f',
    question: 'sharp',
    acceptance: { judgement: 'doubt', name: 'Ada', reason: 'so' },
  },
  { type: 'job-opened', code: 'A', title: '', client: '', shots: [{ id: 's', name: '' }] },
  {
    type: 'job-described',
    job: 'A',
    title: '',
    client: '',
    fromDate: '2026-10-01',
    toDate: null,
    place: '',
    notes: '',
  },
  { type: 'job-state-set', job: 'A', state: 'open' },
  { type: 'job-tolerances-set', job: 'A', tolerances: {} },
  { type: 'job-removed', job: 'A' },
  { type: 'shot-stated', job: 'A', shot },
  { type: 'shot-stated', job: 'A', shot: { ...shot, look: 'Evening', lookId: 'look-1' } },
  { type: 'shot-stated', job: 'A', shot: { ...shot, order: ['frame-2', 'frame-1'] } },
  { type: 'shots-ordered', job: 'A', shots: ['a', 'b'] },
  { type: 'shot-removed', job: 'A', shot: 'a' },
  { type: 'shot-current-set', job: 'A', shot: null },
  { type: 'job-grey-card-set', job: 'A', on: true },
  { type: 'job-hand-over-set', job: 'A', naming: '{job}_{counter}', look: null, deliveries: ['web'] },
  {
    type: 'job-hand-over-set',
    job: 'A',
    naming: '',
    look: null,
    deliveries: [],
    metadata: '{"version":1,\n"title":"Quillmere"}',
  },
  {
    type: 'job-hand-over-set',
    job: 'A',
    naming: '',
    look: 'Evening',
    lookId: 'look-1',
    deliveries: [],
  },
  { type: 'job-colour-set', job: 'A', edition: 'from-november-2014', toleranceSet: 'iso-19264-1-b' },
  { type: 'job-colour-set', job: 'A', edition: null, toleranceSet: null },
  {
    type: 'job-targets-set',
    job: 'A',
    targets: [
      { frame: 'f', camera: 'cam1', fromMs: 5, profile: null },
      { frame: 'g', camera: 'cam1', fromMs: 6, profile },
    ],
  },
  {
    type: 'job-scales-set',
    job: 'A',
    scales: [
      {
        shot: 'mug',
        frame: 'f',
        camera: 'cam1',
        by: 'points',
        mm: 100,
        px: 1200.5,
        longSidePx: 6000,
        focalLengthMm: null,
      },
    ],
  },
  {
    type: 'job-last-numbers-set',
    job: 'A',
    lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter: 9999, by: 'operator', atMs: 5 }],
  },
  {
    type: 'job-explained-set',
    job: 'A',
    explained: [{ line: 'strike.gap cam1 12 14 3', name: 'Ada', reason: 'tests of the flash', atMs: 5 }],
  },
  { type: 'job-signed-set', job: 'A', signed: { name: 'Ada', atMs: 5, state: 'a'.repeat(64) } },
  { type: 'job-signed-set', job: 'A', signed: null },
  { type: 'shot-followed', frame: 'f', shot: 'mug', by: 'slate' },
  {
    type: 'slate-heeded',
    frame: 'f',
    slate: { job: 'A', shot: 'mug', before: null, inForce: true },
  },
  { type: 'camera-clock-set', camera: 'cam1', offsetMs: -3_600_000, sinceMs: null },
];

function record(body: Choice, v = versionOf(body)): JournalRecord {
  return { v, seq: 1, group: 1, atMs: 0, ...body };
}

function isWritten(body: unknown): boolean {
  try {
    // Of any shape on purpose: the writer is to look.
    encodeLine(record(body as Choice));
    return true;
  } catch {
    return false;
  }
}

describe('choices in the journal', () => {
  test.each(choices.map((choice) => [choice.type, choice] as const))(
    '%s is read as it was written',
    (_type, choice) => {
      const line = encodeLine(record(choice));
      expect(parseLine(line.subarray(0, -1))).toEqual({ kind: 'record', record: record(choice) });
    },
  );

  test('what an earlier version wrote is version 1 to this day, so that it still reads what has nothing new', () => {
    const old = choices.filter(({ type }) => ['mark-set', 'job-opened'].includes(type));
    expect(new Set(old.map(({ type }) => type)).size).toBe(2);
    expect(old.map(versionOf)).toEqual(old.map(() => 1));
    expect(versionOf({ type: 'camera-set', camera: 'cam1', expects: null })).toBe(1);
    expect(versionOf({ type: 'shot-stated', job: 'A', shot })).toBe(2);
    // An earlier reader takes no field that it does not know, so this is refused as newer instead of called damage.
    expect(versionOf({ type: 'shot-stated', job: 'A', shot: { ...shot, lookId: 'look-1' } })).toBe(3);
    expect(versionOf({ type: 'shot-stated', job: 'A', shot: { ...shot, order: ['frame-1'] } })).toBe(3);
    expect(versionOf({ type: 'remark-made', frame: 'f', remark })).toBe(4);
  });

  test('a choice of which it is said who made it is of version 6; a name that is none is not written', () => {
    const mark = { type: 'mark-set', frame: 'f', mark: 'hero' } as const;
    expect(versionOf({ ...mark, who: 'Studio tablet' })).toBe(6);
    expect(isWritten({ ...mark, who: 'Studio tablet' })).toBe(true);
    expect(isWritten({ ...mark, who: '' })).toBe(false);
    expect(isWritten({ type: 'opened', who: 'operator' } as unknown as Choice)).toBe(false);
  });

  test('a record under another version than its own is not written', () => {
    expect(() => encodeLine(record({ type: 'job-removed', job: 'A' }, 1))).toThrow();
  });

  test.each([
    ['a shot with a field too many', { type: 'shot-stated', job: 'A', shot: { ...shot, more: 1 } }],
    ['a shot without a name', { type: 'shot-stated', job: 'A', shot: { ...shot, name: '' } }],
    ['a verdict that is none', { type: 'shot-stated', job: 'A', shot: { ...shot, requires: ['nice'] } }],
    [
      'a limit of another name',
      { type: 'job-tolerances-set', job: 'A', tolerances: { nice: { good: 1, bad: 2 } } },
    ],
    [
      'an acceptance of what is good',
      {
        type: 'acceptance-set',
        frame: 'f',
        question: 'sharp',
        acceptance: { judgement: 'good', name: 'Ada', reason: 'so' },
      },
    ],
    [
      'a spot beyond the picture',
      {
        type: 'spot-set',
        frame: 'f',
        spot: { box: { left: 0, top: 0, right: 1.1, bottom: 1 }, onward: false },
      },
    ],
    ['a chosen version without an id', { type: 'shot-stated', job: 'A', shot: { ...shot, lookId: null } }],
    ['a look of version 0', { ...savedLook, version: 0 }],
    ['a look without a hash', { ...savedLook, hash: '' }],
    ['a look that is a list', { ...savedLook, document: [] }],
    [
      'a look longer than a text of one may be',
      { ...savedLook, document: { description: 'x'.repeat(65_537 - '{"description":""}'.length) } },
    ],
    [
      'a last number of 0',
      {
        type: 'job-last-numbers-set',
        job: 'A',
        lastNumbers: [{ camera: 'cam1', prefix: 'ST', counter: 0, by: 'operator', atMs: 5 }],
      },
    ],
    [
      'a signature without a state',
      { type: 'job-signed-set', job: 'A', signed: { name: 'Ada', atMs: 5, state: '' } },
    ],
    [
      'a remark beyond the picture',
      { type: 'remark-made', frame: 'f', remark: { ...remark, at: { x: 1.1, y: 0 } } },
    ],
    ['a remark without a text', { type: 'remark-made', frame: 'f', remark: { ...remark, text: '' } }],
    [
      'a remark that is too long',
      { type: 'remark-made', frame: 'f', remark: { ...remark, text: 'x'.repeat(1001) } },
    ],
    [
      'a remark of nobody',
      { type: 'remark-made', frame: 'f', remark: { ...remark, by: { ...guest, name: '' } } },
    ],
    ['a share that is none', { type: 'share-set', frame: 'f', share: 'sold' }],
    ['an agreement without a shot', { type: 'agreed', job: 'A', agreement: { ...agreement, shot: '' } }],
    ['a purpose that is none', { type: 'purpose-set', frame: 'f', purpose: 'fun' }],
    ['a state that is none', { type: 'job-state-set', job: 'A', state: 'lost' }],
    ['an order of too many', { type: 'shots-ordered', job: 'A', shots: Array(501).fill('a') }],
    [
      'a description that is too long',
      {
        type: 'shot-stated',
        job: 'A',
        shot: { ...shot, description: 'x'.repeat(2001) },
      },
    ],
  ])('%s is not written', (_what, body) => {
    expect(isWritten(body)).toBe(false);
  });

  test('the longest there may be are written', () => {
    expect(isWritten({ type: 'shots-ordered', job: 'A', shots: Array(500).fill('a') })).toBe(true);
    const longest = { description: 'x'.repeat(65_536 - '{"description":""}'.length) };
    expect(isWritten({ ...savedLook, document: longest })).toBe(true);
    expect(
      isWritten({ type: 'shot-stated', job: 'A', shot: { ...shot, description: 'x'.repeat(2000) } }),
    ).toBe(true);
  });
});
