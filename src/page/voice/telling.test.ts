import { expect, test } from 'vitest';
import type { Frame, FrameVerdict } from '../../contract/index.ts';
import { sampleFile, sampleFrame } from '../testing/sample-frame.ts';
import { tellingOf } from './telling.ts';

const answer = (judgement: FrameVerdict['judgement'], code: string): FrameVerdict => ({
  judgement,
  findings: [{ code, args: {} }],
  figure: null,
});

const measured = (change: Partial<Frame['verdicts']> = {}, more: Partial<Frame> = {}): Frame => {
  const frame = sampleFrame('a', 0, more);
  const verdicts = {
    ...frame.verdicts,
    sharp: answer('good', 'sharp.good'),
    exposed: answer('good', 'exposed.good'),
    ...change,
  };
  return { ...frame, verdicts };
};

test('nothing is told of a frame on its way, and nothing of one that is seen in its preview only', () => {
  expect(tellingOf(measured({}, { files: [sampleFile('a.DNG', { state: 'arriving' })] }))).toBeNull();
  expect(tellingOf(sampleFrame('a', 0))).toBeNull();
  for (const [question, code] of [
    ['sharp', 'sharp.preview-soft'],
    ['sharp', 'sharp.preview-sharp'],
    ['exposed', 'exposed.preview'],
    ['exposed', 'exposed.preview-warns'],
  ] as const)
    expect(tellingOf(measured({ [question]: answer('doubt', code) }))).toBeNull();
});

test('the worst answer is told, the first of equals', () => {
  const bad = answer('bad', 'exposed.dark');
  const doubt = answer('doubt', 'sharp.soft');
  expect(tellingOf(measured())?.judgement).toBe('good');
  expect(tellingOf(measured({ sharp: doubt }))).toMatchObject({ judgement: 'doubt', question: 'sharp' });
  expect(tellingOf(measured({ sharp: doubt, exposed: bad }))).toMatchObject({
    judgement: 'bad',
    finding: { code: 'exposed.dark' },
  });
});

test('a copy that is not there yet calls nobody over; a file that broke off does, though nothing else is known', () => {
  expect(tellingOf(measured({ arrived: answer('doubt', 'arrived.one-place') }))?.judgement).toBe('good');
  expect(tellingOf(measured({ arrived: answer('doubt', 'arrived.raw-missing') }))?.judgement).toBe('doubt');
  const broken = sampleFrame('a', 0, { files: [sampleFile('a.DNG', { state: 'broken-off' })] });
  const verdicts = { ...broken.verdicts, arrived: answer('bad', 'arrived.broken-off') };
  expect(tellingOf({ ...broken, verdicts })).toMatchObject({ judgement: 'bad', question: 'arrived' });
});

test('what was asked for and cannot be told is unknown; what nobody asked for is passed over', () => {
  expect(tellingOf(measured({ sharp: answer('unknown', 'sharp.no-edge') }))?.judgement).toBe('unknown');
  expect(tellingOf(measured({ inPlace: answer('unknown', 'place.other-picture') }))?.judgement).toBe(
    'unknown',
  );
  const aside = {
    inPlace: answer('unknown', 'place.no-reference'),
    colour: answer('unknown', 'colour.no-target-counts'),
  };
  expect(tellingOf(measured(aside))?.judgement).toBe('good');
});

test('a picture that cannot be shown is a doubt, a file that is none is unknown', () => {
  const cannot = (code: string): Frame =>
    sampleFrame('a', 0, {
      picture: {
        state: 'cannot',
        reason: { code, args: {} },
        preview: false,
        width: null,
        height: null,
        orientation: null,
        version: 1,
      },
    });
  expect(tellingOf(cannot('picture.broken'))?.judgement).toBe('doubt');
  expect(tellingOf(cannot('picture.not-a-picture'))?.judgement).toBe('unknown');
});

const accepting = (judgement: FrameVerdict['judgement'], covers: boolean): Partial<Frame> => ({
  acceptances: [
    { question: 'sharp', judgement, name: 'Ada', reason: 'meant so', at: '2031-04-06T12:00:00Z', covers },
  ],
});

test('a doubt that was accepted calls nobody, and is not called good by anybody; one that grew worse calls again', () => {
  const doubt = { sharp: answer('doubt', 'sharp.soft') };
  expect(tellingOf(measured(doubt, accepting('doubt', true)))).toMatchObject({
    judgement: 'good',
    accepted: true,
  });
  expect(tellingOf(measured(doubt, accepting('doubt', false)))).toMatchObject({
    judgement: 'doubt',
    accepted: false,
  });
});

test('what the shot does not speak of calls nobody; a file that broke off does all the same', () => {
  const inPlace = answer('bad', 'place.moved');
  expect(tellingOf(measured({ inPlace }))?.judgement).toBe('bad');
  expect(tellingOf(measured({ inPlace }, { mutes: ['inPlace'] }))?.judgement).toBe('good');
  const arrived = answer('bad', 'arrived.broken-off');
  expect(tellingOf(measured({ arrived }, { mutes: ['arrived'] }))?.judgement).toBe('bad');
});
