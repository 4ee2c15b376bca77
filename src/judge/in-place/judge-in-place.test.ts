import { expect, test } from 'vitest';
import {
  type Judgement,
  noPlaceReasons,
  type PlaceReading,
  type PlaceShift,
  type Tolerances,
  type Verdict,
} from '../../facts/index.ts';
import { knownCodes, sentence } from '../../words/index.ts';
import { usualTolerances } from '../limits.ts';
import { judgeInPlace } from './judge-in-place.ts';

const shift = (more: Partial<PlaceShift> = {}): PlaceShift => ({
  rightPx: 0.3,
  downPx: -0.4,
  clockwiseDegrees: 0.01,
  largerPercent: -0.02,
  errorPx: 0.06,
  errorDegrees: 0.001,
  errorPercent: 0.002,
  at: { x: 0.5, y: 0.5 },
  likeness: 0.97,
  confidence: 1,
  part: null,
  lost: null,
  changed: null,
  ...more,
});
const reading = (found: PlaceReading['shift'], source: PlaceReading['source'] = 'raw'): PlaceReading => ({
  source,
  shift: found,
  subject: { unknown: 'not-plain' },
});
const judge = (
  found: PlaceReading,
  tolerances: Tolerances = {},
  mmPerPx: number | null = null,
  previous: Judgement | null = null,
): Verdict =>
  judgeInPlace({
    reading: found,
    against: found.shift === null ? 'nothing' : 'reference',
    tolerances,
    mmPerPx,
    previous,
  });
const said = ({ findings }: Verdict): string => sentence(findings[0]);

test('a frame on its reference is good, and says how near', () => {
  const verdict = judge(reading(shift()));
  expect(verdict.judgement).toBe('good');
  expect(verdict.figure).toEqual({ value: 0.5, unit: 'px' });
  expect(said(verdict)).toBe(
    'In place: 0.50 px off the reference, turned by 0.01° clockwise, 0.02 % smaller.',
  );
});

test('a subject that was moved is said with where it lies and what is allowed', () => {
  const verdict = judge(reading(shift({ rightPx: 23.2, downPx: -4.1 })));
  expect(verdict.judgement).toBe('doubt');
  expect(said(verdict)).toBe(
    'Not in place: it lies 23.2 px to the right and 4.1 px higher, up to 10 px is in place.',
  );
  expect(judge(reading(shift({ rightPx: -60, downPx: 1 }))).judgement).toBe('bad');
  expect(said(judge(reading(shift({ rightPx: -60, downPx: 1 }))))).toContain('lies 60 px to the left, up');
});

test('turned and resized have limits of their own; the worst leads', () => {
  const turned = judge(reading(shift({ clockwiseDegrees: -1.2, rightPx: 12 })));
  expect(turned.judgement).toBe('bad');
  expect(turned.figure).toEqual({ value: -1.2, unit: '°' });
  expect(turned.findings.map(({ code }) => code)).toEqual(['place.turned', 'place.moved']);
  expect(said(turned)).toBe(
    'Not in place: it is turned by 1.2° anticlockwise against the reference, up to 0.20° is in place.',
  );
  expect(said(judge(reading(shift({ largerPercent: 2.5 }))))).toBe(
    'Not in place: it is 2.5 % larger than in the reference, up to 0.40 % is in place.',
  );
});

test('a limit in millimetres takes the place of the usual one where the scale is known', () => {
  const tolerances = { shiftMm: { good: 2, bad: 5 } };
  const moved = reading(shift({ rightPx: 30, downPx: 0 }));
  expect(judge(moved, tolerances, 0.05).judgement).toBe('good');
  expect(judge(moved, tolerances, 0.1).figure).toEqual({ value: 3, unit: 'mm' });
  expect(said(judge(moved, tolerances, 0.1))).toBe(
    'Not in place: it lies 30 px to the right (3 mm), up to 2 mm is in place.',
  );
  // Nobody knows the scale: the usual limit on the picture stands.
  expect(judge(moved, tolerances).figure?.unit).toBe('px');
  // Both were set: both count.
  expect(judge(moved, { ...tolerances, shiftPx: { good: 5, bad: 10 } }, 0.05).judgement).toBe('bad');
});

test('what cannot be told is unknown, each reason with a sentence', () => {
  for (const unknown of noPlaceReasons) {
    const verdict = judge(reading({ unknown }));
    expect(verdict.judgement).toBe('unknown');
    expect(knownCodes()).toContain(verdict.findings[0].code);
    expect(said(verdict)).toMatch(/^The place cannot be told: /);
  }
  expect(said(judge(reading(null)))).toContain('no reference frame');
  const unsure = judge(reading(shift({ confidence: 0.1, rightPx: 90 })));
  expect(unsure.judgement).toBe('unknown');
  expect(said(unsure)).toContain('it seems 90 px off');
});

test('without a reference the room about the subject is still said', () => {
  const subject = {
    box: { left: 0.3, top: 0.1, right: 0.7, bottom: 0.95 },
    fillPercent: 85,
    marginsPercent: { left: 30, top: 10, right: 30, bottom: 5 },
  };
  const { findings } = judge({ source: 'raw', shift: null, subject });
  expect(findings[1] === undefined ? '' : sentence(findings[1])).toBe(
    'The subject fills 85 % of the frame, with 30 % on the left, 10 % above, 30 % on the right and 5 % below free.',
  );
});

test('a preview proves nothing: unknown, or a doubt where it is far off', () => {
  expect(judge(reading(shift(), 'preview')).judgement).toBe('unknown');
  expect(judge(reading(shift({ rightPx: 20 }), 'preview')).judgement).toBe('unknown');
  const off = judge(reading(shift({ rightPx: 90 }), 'preview'));
  expect(off.judgement).toBe('doubt');
  expect(off.findings.map(({ code }) => code)).toEqual(['place.preview-off', 'place.moved']);
});

test('a verdict holds on to what it was about its limit, and an error has to fit in', () => {
  const { good } = usualTolerances.shiftPx;
  const at = (px: number, errorPx: number, previous: Judgement | null): Judgement =>
    judge(reading(shift({ rightPx: px, downPx: 0, errorPx })), {}, null, previous).judgement;
  expect(at(good * 1.03, 0, 'good')).toBe('good');
  expect(at(good * 1.03, 0, null)).toBe('doubt');
  expect(at(good * 0.95, good * 0.1, null)).toBe('doubt');
  // No false good at twice the tolerance, whatever was said before.
  expect(at(good * 2, 0, 'good')).not.toBe('good');
});

test('under light that differs unevenly a part that seems moved is no figure and a doubt at most: shadows move', () => {
  const part = {
    rightPx: 60,
    downPx: 0,
    errorPx: 0.2,
    box: { left: 0.2, top: 0.2, right: 0.4, bottom: 0.4 },
  };
  const at = (lightSpreadEv: number, rightPx: number) =>
    judgeInPlace({
      reading: reading(shift({ part: { ...part, rightPx } })),
      against: 'reference',
      tolerances: {},
      mmPerPx: null,
      lightSpreadEv,
      previous: null,
    });
  expect(at(0.02, 60).judgement).toBe('bad');
  expect(at(0.3, 60).judgement).toBe('doubt');
  expect(at(0.3, 5).figure?.value).toBeCloseTo(0.5, 6);
  expect(said(at(0.3, 5))).toContain('In place: 0.50 px off');
  expect(at(0.02, 5).figure?.value).toBeGreaterThan(5);
});

test('a part that moved by itself is held against the limit in millimetres too, where the scale is known', () => {
  const box = { left: 0.1, top: 0.1, right: 0.3, bottom: 0.3 };
  const part = { rightPx: 30, downPx: 40, errorPx: 0.1, box };
  const moved = reading(shift({ rightPx: 0, downPx: 0, part }));
  const tolerances = { shiftMm: { good: 2, bad: 4 } };
  // 3, 4, 5: the part lies 50 px off, at 0.1 mm a pixel 5 mm.
  expect(judge(moved, tolerances, 0.1)).toMatchObject({ judgement: 'bad', figure: { value: 5, unit: 'mm' } });
  expect(said(judge(moved, tolerances, 0.1))).toContain('(5 mm) while the rest holds still, up to 2 mm');
  expect(judge(moved, tolerances).figure).toEqual({ value: 50, unit: 'px' });
});

test('in place says millimetres too, where the scale is known', () => {
  expect(said(judge(reading(shift()), {}, 0.1))).toContain('0.50 px (0.05 mm) off the reference');
});
