import { expect, test } from 'vitest';
import type { Frame, FrameVerdict } from '../../contract/index.ts';
import { type FrameList, noFrames, withFrame } from '../state/frame-list.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { follow, followFrom } from './follow.ts';

const answer = (judgement: FrameVerdict['judgement'], code: string): FrameVerdict => ({
  judgement,
  findings: [{ code, args: {} }],
  figure: null,
});

function judged(id: string, second: number, judgement: FrameVerdict['judgement'], version = 2): Frame {
  const frame = sampleFrame(id, second, { version });
  const sharp = answer(judgement, `sharp.${judgement}`);
  return { ...frame, verdicts: { ...frame.verdicts, sharp, exposed: answer('good', 'exposed.good') } };
}

const listOf = (...frames: Frame[]): FrameList => frames.reduce<FrameList>(withFrame, noFrames);
const said = (result: ReturnType<typeof follow>): string[] =>
  result.tell.map(({ frame, judgement }) => `${frame} ${judgement}`);

test('what was there before is not told; a frame is told once, when it is measured', () => {
  const before = listOf(judged('a', 0, 'bad'));
  let followed = followFrom(before);
  const arrived = withFrame(before, sampleFrame('b', 5, { version: 1 }));
  const first = follow(followed, arrived);
  expect(said(first)).toEqual([]);
  followed = first.followed;
  const measured = withFrame(arrived, judged('b', 5, 'doubt'));
  const second = follow(followed, measured);
  expect(said(second)).toEqual(['b doubt']);
  const copied = withFrame(measured, judged('b', 5, 'doubt', 3));
  expect(said(follow(second.followed, copied))).toEqual([]);
});

test('the newest is told again where its answer changed, an older one is not', () => {
  const start = follow(followFrom(noFrames), listOf(judged('a', 0, 'good'), judged('b', 5, 'good')));
  expect(said(start)).toEqual(['a good', 'b good']);
  const { frames } = start.followed;
  const both = withFrame(withFrame(frames, judged('a', 0, 'bad', 3)), judged('b', 5, 'bad', 3));
  expect(said(follow(start.followed, both))).toEqual(['b bad']);
});

test('several at once come in the order of the shutter', () => {
  const list = listOf(judged('c', 9, 'good'), judged('a', 1, 'good'), judged('b', 5, 'doubt'));
  expect(said(follow(followFrom(noFrames), list))).toEqual(['a good', 'b doubt', 'c good']);
});

test('an old frame that is measured at last is no news: ten minutes and no more', () => {
  const list = listOf(judged('old', 0, 'bad'), judged('edge', 1, 'bad'), judged('new', 601, 'good'));
  expect(said(follow(followFrom(noFrames), list))).toEqual(['edge bad', 'new good']);
});

test('while the listing is still being read, what lies before all that was known is history and not told', () => {
  const followed = followFrom(listOf(judged('c', 30, 'good')));
  const more = listOf(judged('a', 10, 'bad'), judged('c', 30, 'good'), judged('d', 40, 'doubt'));
  const reading = follow(followed, more, false);
  expect(said(reading)).toEqual(['d doubt']);
  // Nor afterwards, when it is copied, say.
  const copied = withFrame(more, judged('a', 10, 'bad', 3));
  expect(said(follow(reading.followed, copied, true))).toEqual([]);
  // A backlog that comes when all is known is news.
  expect(said(follow(followed, more, true))).toEqual(['a bad', 'd doubt']);
});
