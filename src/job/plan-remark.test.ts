import { expect, test } from 'vitest';
import { errorCode } from '../base/index.ts';
import type { Remark, Speaker } from '../facts/index.ts';
import { remarkCharactersOfFrameMax, remarkEntriesOfFrameMax } from './limits.ts';
import { planAnswer, planRemark, planSettling } from './plan-remark.ts';

const guest: Speaker = { name: 'Ada', from: 'guest', link: 'tablet' };
const operator: Speaker = { name: 'operator', from: 'operator', link: null };
const wish = { id: 'r1', at: { x: 0.2, y: 0.3 }, text: 'brighter', inside: false, by: guest };
const remark: Remark = { ...wish, atMs: 1, settled: null, answers: [] };
const frame = (...remarks: readonly Remark[]) => ({ id: 'f', remarks });
const answer = { id: 'n1', text: 'done', by: operator };

function refusal(plan: () => unknown): string {
  try {
    plan();
    return 'none';
  } catch (thrown) {
    return String(errorCode(thrown));
  }
}

test('a remark that is sent twice counts once, whatever name is given the second time; another text under its id is refused', () => {
  expect(planRemark(frame(), wish)).toEqual([{ type: 'remark-made', frame: 'f', remark: wish }]);
  expect(planRemark(frame(remark), { ...wish, by: { ...guest, name: 'Ada L.' } })).toEqual([]);
  expect(refusal(() => planRemark(frame(remark), { ...wish, text: 'darker' }))).toBe('id-taken');
});

test('an answer that is sent twice counts once; there is none to what is not there', () => {
  expect(planAnswer(frame(remark), 'r1', answer)).toEqual([
    { type: 'remark-answered', frame: 'f', remark: 'r1', answer },
  ]);
  const answered = { ...remark, answers: [{ ...answer, atMs: 2 }] };
  expect(planAnswer(frame(answered), 'r1', answer)).toEqual([]);
  expect(refusal(() => planAnswer(frame(answered), 'r1', { ...answer, text: 'x' }))).toBe('id-taken');
  expect(refusal(() => planAnswer(frame(), 'r1', answer))).toBe('no-remark');
});

test('what the studio says among itself is not there for a guest', () => {
  const inside = { ...remark, inside: true };
  expect(refusal(() => planAnswer(frame(inside), 'r1', { ...answer, by: guest }))).toBe('no-remark');
  expect(refusal(() => planAnswer(frame(inside), 'r1', answer))).toBe('none');
});

test('a guest who answers a settled remark opens it again; the operator’s answer leaves it settled', () => {
  const settled = { ...remark, settled: { by: operator, atMs: 3 } };
  expect(planAnswer(frame(settled), 'r1', { ...answer, by: guest }).map(({ type }) => type)).toEqual([
    'remark-answered',
    'remark-settled',
  ]);
  expect(planAnswer(frame(settled), 'r1', answer)).toHaveLength(1);
});

test('a remark is settled once, and opened again once', () => {
  expect(planSettling(frame(remark), 'r1', true, operator)).toEqual([
    { type: 'remark-settled', frame: 'f', remark: 'r1', settled: true, by: operator },
  ]);
  expect(planSettling(frame(remark), 'r1', false, operator)).toEqual([]);
  const settled = { ...remark, settled: { by: operator, atMs: 3 } };
  expect(planSettling(frame(settled), 'r1', true, operator)).toEqual([]);
  expect(planSettling(frame(settled), 'r1', false, operator)).toHaveLength(1);
});

test('a frame takes so many remarks and answers, and so many characters, and not one more', () => {
  const many = (count: number): Remark => ({
    ...remark,
    answers: Array.from({ length: count - 1 }, (_, index) => ({ ...answer, id: `n${index}`, atMs: 2 })),
  });
  const another = { ...wish, id: 'r2' };
  expect(refusal(() => planRemark(frame(many(remarkEntriesOfFrameMax)), another))).toBe('too-many-remarks');
  expect(refusal(() => planRemark(frame(many(remarkEntriesOfFrameMax - 1)), another))).toBe('none');
  const long = { ...remark, text: 'x'.repeat(remarkCharactersOfFrameMax - wish.text.length) };
  expect(refusal(() => planRemark(frame(long), another))).toBe('none');
  expect(refusal(() => planRemark(frame(long), { ...another, text: `${wish.text}!` }))).toBe(
    'too-many-remarks',
  );
  expect(refusal(() => planAnswer(frame({ ...long, text: `${long.text}xxxxxxx` }), 'r1', answer))).toBe(
    'too-many-remarks',
  );
});
