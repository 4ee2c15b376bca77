import { expect, test } from 'vitest';
import type { LightDifference, Verdict } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { noWishes, readMosaic } from '../read-frame.ts';
import { madeMosaic } from '../testing/made-mosaic.ts';
import type { ExposedFacts } from './exposed-facts.ts';
import { judgeExposed } from './judge-exposed.ts';

const said = (verdict: Verdict): string => sentence(verdict.findings[0]);

test('stripes are a lamp for certain only where the same scene had none; else they may be what is photographed', () => {
  const { exposed } = readMosaic(
    madeMosaic(240, 160, (x, y) => 0.3 + 0.3 * Math.sin(x / 40 + y / 60) ** 2),
    noWishes,
  );
  const judged = (more: Partial<ExposedFacts>): Verdict =>
    judgeExposed({
      reading: { ...exposed, banding: { ev: 1.9, cycles: 8, hertz: null } },
      tolerances: {},
      fromReference: null,
      trend: null,
      whiteBackdrop: false,
      shift: null,
      settings: [],
      previous: null,
      ...more,
    });
  expect(judged({}).judgement).toBe('doubt');
  expect(said(judged({}))).toBe(
    'Stripes of 1.9 EV across the picture: what is photographed has them itself, or a lamp pulses. Against a lamp’s: the mechanical shutter, or a time that fits the mains.',
  );
  const same: LightDifference = { ev: 0.02, spreadEv: 0.03 };
  expect(judged({ fromReference: same, referenceStriped: true }).judgement).toBe('doubt');
  const lamp = judged({ fromReference: same, referenceStriped: false });
  expect(lamp.judgement).toBe('bad');
  expect(said(lamp)).toContain('a lamp pulses. Use');
  // Boards before a reference of something else: neither the lamp nor a strobe is to blame.
  const boards = judged({
    fromReference: { ev: -2.8, spreadEv: 0.6 },
    shift: { unknown: 'one-direction' },
    referenceStriped: false,
  });
  expect(boards.judgement).toBe('doubt');
  expect(boards.findings.map(({ code }) => code)).toEqual(['exposed.stripes']);
});
