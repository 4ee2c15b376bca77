import { expect, test } from 'vitest';
import { planSurround, type SizePlan } from './index.ts';

const picture = { widthPx: 6000, heightPx: 4000 };
const plain = { left: true, top: true, right: true, bottom: true };
const subject = { left: 0.4, top: 0.2, right: 0.6, bottom: 0.8 };
const wish = {
  size: { kind: 'exact', widthPx: 2000, heightPx: 2000, fillPercent: 50 },
  enlarge: false,
  mayExtend: true,
} as const;
const codes = ({ findings }: SizePlan): string[] => findings.map(({ code }) => code);

test('before a plain backdrop the subject fills its share in the middle, and the backdrop goes on', () => {
  const plan = planSurround(picture, { subject, plain }, wish);
  // 2400 px are to be 1000.
  expect(plan.window).toEqual({ leftPx: 600, topPx: -400, widthPx: 4800, heightPx: 4800 });
  expect(plan.target).toEqual({ widthPx: 2000, heightPx: 2000 });
  expect(codes(plan)).toEqual([]);
});

test('over a side that is not plain nothing is made up: the frame stays inside, and both are said', () => {
  const plan = planSurround(picture, { subject, plain: { ...plain, top: false } }, wish);
  expect(plan.isExtended).toBe(false);
  expect(plan.window).toEqual({ leftPx: 1000, topPx: 0, widthPx: 4000, heightPx: 4000 });
  expect(plan.findings[0]).toEqual({ code: 'deliver.not-extended', args: { sides: 'top' } });
  expect(codes(plan)).toEqual(['deliver.not-extended', 'deliver.fuller-than-asked']);
});

test('a side that the frame does not reach over may be as it is', () => {
  const plan = planSurround(picture, { subject, plain: { ...plain, left: false, right: false } }, wish);
  expect(plan.isExtended).toBe(true);
  expect(codes(plan)).toEqual([]);
});

test('a subject that was not told is said, and the whole picture stands in the frame', () => {
  const plan = planSurround(picture, { subject: null, plain }, wish);
  expect(plan.window).toEqual({ leftPx: 0, topPx: -1000, widthPx: 6000, heightPx: 6000 });
  expect(codes(plan)).toEqual(['deliver.no-subject']);
});
