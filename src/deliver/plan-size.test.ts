import { expect, test } from 'vitest';
import { planSize, type SizeWish } from './plan-size.ts';

const picture = { widthPx: 6000, heightPx: 4000 };
const small = { widthPx: 600, heightPx: 400 };
const whole = { leftPx: 0, topPx: 0, ...picture };

function wish(size: SizeWish['size'], rest: Partial<SizeWish> = {}): SizeWish {
  return { size, enlarge: false, mayExtend: false, ...rest };
}

const square = (px: number, fillPercent: number | null = null): SizeWish['size'] => ({
  kind: 'exact',
  widthPx: px,
  heightPx: px,
  fillPercent,
});
const codes = (plan: ReturnType<typeof planSize>): string[] => plan.findings.map(({ code }) => code);

test('full size, long edge and box keep the shape', () => {
  expect(planSize(picture, null, wish({ kind: 'full' })).target).toEqual(picture);
  expect(planSize(picture, null, wish({ kind: 'long-edge', px: 1500 }))).toEqual({
    window: whole,
    target: { widthPx: 1500, heightPx: 1000 },
    isExtended: false,
    findings: [],
  });
  const upright = { widthPx: 4000, heightPx: 6000 };
  expect(planSize(upright, null, wish({ kind: 'long-edge', px: 1500 })).target).toEqual({
    widthPx: 1000,
    heightPx: 1500,
  });
  expect(planSize(picture, null, wish({ kind: 'box', widthPx: 3000, heightPx: 1000 })).target).toEqual({
    widthPx: 1500,
    heightPx: 1000,
  });
});

test('a picture with too few pixels stays as it is, and that is said', () => {
  const plan = planSize(small, null, wish({ kind: 'long-edge', px: 1200 }));
  expect(plan.target).toEqual(small);
  expect(plan.findings).toEqual([{ code: 'deliver.too-few-pixels', args: { ...small, percent: 50 } }]);
});

test('where it may be enlarged it is, and that is said too', () => {
  const plan = planSize(small, null, wish({ kind: 'long-edge', px: 1200 }, { enlarge: true }));
  expect(plan.target).toEqual({ widthPx: 1200, heightPx: 800 });
  expect(plan.findings).toEqual([
    { code: 'deliver.enlarged', args: { widthPx: 1200, heightPx: 800, percent: 200 } },
  ]);
  expect(codes(planSize(picture, null, wish({ kind: 'long-edge', px: 1200 }, { enlarge: true })))).toEqual(
    [],
  );
});

test('an exact size is cut out of the middle where nothing may be put around it', () => {
  const plan = planSize(picture, null, wish(square(2000)));
  expect(plan.window).toEqual({ leftPx: 1000, topPx: 0, widthPx: 4000, heightPx: 4000 });
  expect(plan.target).toEqual({ widthPx: 2000, heightPx: 2000 });
  expect(plan.isExtended).toBe(false);
});

test('an exact size holds the whole picture where white may be put around it', () => {
  const plan = planSize(picture, null, wish(square(2000), { mayExtend: true }));
  expect(plan.window).toEqual({ leftPx: 0, topPx: -1000, widthPx: 6000, heightPx: 6000 });
  expect(plan.isExtended).toBe(true);
});

test('an exact size of too few pixels: smaller in its shape, or set into white', () => {
  const cut = planSize(small, null, wish(square(800)));
  expect(cut.target).toEqual({ widthPx: 400, heightPx: 400 });
  expect(codes(cut)).toEqual(['deliver.too-few-pixels']);
  const set = planSize(small, null, wish(square(800), { mayExtend: true }));
  expect(set.target).toEqual({ widthPx: 800, heightPx: 800 });
  expect(set.window).toEqual({ leftPx: -100, topPx: -200, widthPx: 800, heightPx: 800 });
  expect(codes(set)).toEqual(['deliver.stands-small']);
});

test('the subject fills its share and stands in the middle', () => {
  const subject = { leftPx: 3000, topPx: 1000, widthPx: 1000, heightPx: 1700 };
  const plan = planSize(picture, subject, wish(square(1000, 85)));
  // 1700 px are to be 850: two to one.
  expect(plan.window).toEqual({ leftPx: 2500, topPx: 850, widthPx: 2000, heightPx: 2000 });
  expect(plan.target).toEqual({ widthPx: 1000, heightPx: 1000 });
  expect(codes(plan)).toEqual([]);
});

test('a subject without picture around it: white is put there, or it fills more and that is said', () => {
  const subject = { leftPx: 0, topPx: 0, widthPx: 6000, heightPx: 4000 };
  const set = planSize(picture, subject, wish(square(1500, 50), { mayExtend: true }));
  expect(set.window).toEqual({ leftPx: -3000, topPx: -4000, widthPx: 12_000, heightPx: 12_000 });
  const cut = planSize(picture, subject, wish(square(1500, 50)));
  expect(cut.window).toEqual({ leftPx: 1000, topPx: 0, widthPx: 4000, heightPx: 4000 });
  expect(codes(cut)).toEqual(['deliver.fuller-than-asked']);
});

test('a fill without a subject takes the whole picture, and says so', () => {
  expect(codes(planSize(picture, null, wish(square(1000, 85))))).toEqual(['deliver.no-subject']);
});

test('whatever is asked for, a window that may not reach beyond the picture does not, and an exact target is never larger', () => {
  for (const [w, h] of [
    [6000, 4000],
    [17, 9001],
    [333, 333],
  ] as const) {
    for (const edge of [16, 999, 5000]) {
      for (const fill of [null, 10, 85, 100]) {
        const subject = {
          leftPx: Math.floor(w / 3),
          topPx: Math.floor(h / 3),
          widthPx: Math.ceil(w / 4),
          heightPx: Math.ceil(h / 5),
        };
        const plan = planSize({ widthPx: w, heightPx: h }, subject, wish(square(edge, fill)));
        expect(plan.isExtended, `${w} ${h} ${edge} ${fill}`).toBe(false);
        expect(plan.target.widthPx).toBeLessThanOrEqual(edge);
        // Half a pixel of rounding at each end.
        expect(plan.target.widthPx / plan.window.widthPx).toBeLessThanOrEqual(1 + 1 / plan.window.widthPx);
      }
    }
  }
});
