import { expect, test } from 'vitest';
import type { Finding } from '../facts/index.ts';
import { knownCodes, sentence } from './sentences.ts';
import { aloud, spokenFrame, spokenFrames } from './spoken.ts';

const soft: Finding = { code: 'sharp.soft', args: { px: 4.1, limitPx: 2.8 } };

test('a good frame is one word; of another the word comes first and then why, units by name', () => {
  expect(spokenFrame({ judgement: 'good', finding: soft })).toBe('Good.');
  expect(spokenFrame({ judgement: 'doubt', finding: soft })).toBe(
    'Doubt. Soft: edges 4.1 pixels wide, up to 2.8 pixels is sharp.',
  );
  expect(spokenFrame({ judgement: 'bad', finding: null })).toBe('Bad.');
});

test('several frames are summed up in one breath', () => {
  expect(spokenFrames(['good', 'good', 'doubt', 'good'])).toBe('Four frames, one doubt.');
  expect(spokenFrames(['good', 'good', 'good'])).toBe('Three frames, all good.');
  expect(spokenFrames(['bad', 'doubt', 'doubt', 'unknown'])).toBe(
    'Four frames, one bad, two doubts and one unknown.',
  );
  expect(spokenFrames(Array.from({ length: 30 }, () => 'good' as const))).toBe('30 frames, all good.');
});

test('signs and units are said by their names', () => {
  expect(aloud('Light −0.50 EV, 1 px, 12 px, 1.3 mm, 0.20° and 41 %, 3.0 ΔE00, 250 K, at 100 Hz.')).toBe(
    'Light minus 0.50 stops, 1 pixel, 12 pixels, 1.3 millimetres, 0.20 degrees and 41 per cent, 3.0 delta E, 250 kelvin, at 100 hertz.',
  );
});

test('no sentence of a verdict keeps a unit that a voice would spell out', () => {
  const args = {
    px: 4,
    limitPx: 3,
    ev: -0.5,
    percent: 12,
    mm: 2,
    hertz: 100,
    kelvin: 300,
    duv: 0.01,
    mean: 5,
  };
  const codes = knownCodes().filter((code) => /^(arrived|sharp|exposed|place|colour)\./.test(code));
  expect(codes.length).toBeGreaterThan(50);
  for (const code of codes) {
    const said = aloud(
      sentence({ code, args: { ...args, bytes: 25e6, expectedBytes: 30e6, max: 7, patch: 3 } }),
    );
    expect(said, code).not.toMatch(/\b(px|EV|mm|MB|Hz)\b|[%°Δ−]/);
  }
});
