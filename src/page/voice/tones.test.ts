import { expect, test } from 'vitest';
import { judgements } from '../../facts/index.ts';
import { renderTones } from './render-tones.ts';
import { goneTones, lengthMsOf, type TonePattern, verdictTones } from './tones.ts';

const rate = 48_000;
const all: readonly (readonly [string, TonePattern])[] = [
  ...judgements.map((judgement) => [judgement, verdictTones[judgement]] as const),
  ['gone', goneTones],
];

/** Share of a stretch's energy at one frequency: Goertzel's recurrence (Am. Math. Monthly 65, 1958, 34). */
function shareAt(samples: Float32Array, hertz: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hertz) / rate);
  let [one, two, energy] = [0, 0, 0];
  for (const sample of samples) {
    [one, two] = [sample + turn * one - two, one];
    energy += sample * sample;
  }
  return (2 * (one * one + two * two - turn * one * two)) / (samples.length * energy);
}

/** Stretches that sound, samples: louder than a hundredth, with less than 20 ms of silence inside. */
function sounding(samples: Float32Array): number[] {
  const lengths: number[] = [];
  let [from, last] = [-1, -1];
  samples.forEach((sample, index) => {
    if (Math.abs(sample) < 0.01) return;
    if (from < 0) from = index;
    else if (index - last > 0.02 * rate) {
      lengths.push(last - from);
      from = index;
    }
    last = index;
  });
  return [...lengths, last - from];
}

test('no two patterns have the same number of tones, length of tone and pitch: two of the three differ', () => {
  for (const [index, [name, one]] of all.entries())
    for (const [otherName, other] of all.slice(index + 1)) {
      const [a, b] = [one[0], other[0]];
      const differs = [
        one.length !== other.length,
        Math.max(a.lastsMs, b.lastsMs) / Math.min(a.lastsMs, b.lastsMs) >= 1.5,
        Math.abs(Math.log2(a.hertz / b.hertz)) >= 1 / 6 ||
          (a.hertz === a.toHertz) !== (b.hertz === b.toHertz),
      ];
      expect(differs.filter(Boolean).length, `${name}, ${otherName}`).toBeGreaterThanOrEqual(2);
    }
});

test.each(all)('%s is short, never loud beyond full scale, and begins and ends in silence', (_, pattern) => {
  const samples = renderTones(pattern, rate);
  expect(lengthMsOf(pattern)).toBeLessThanOrEqual(1000);
  expect(Math.max(...samples.map(Math.abs))).toBeLessThanOrEqual(1);
  expect(Math.max(...samples.map(Math.abs))).toBeGreaterThan(0.4);
  for (const end of [samples.slice(0, 24), samples.slice(-24)])
    expect(Math.max(...end.map(Math.abs))).toBeLessThan(0.02);
});

test.each(all)('what is heard of %s is what stands in its pattern: count, length, pitch', (_, pattern) => {
  const heard = sounding(renderTones(pattern, rate));
  expect(heard).toHaveLength(pattern.length);
  for (const [index, { atMs, lastsMs, hertz, toHertz }] of pattern.entries()) {
    expect(Math.abs((heard[index] / rate) * 1000 - lastsMs)).toBeLessThan(8);
    const from = Math.round((atMs / 1000) * rate);
    const stretch = renderTones(pattern, rate).subarray(from, from + Math.round((lastsMs / 1000) * rate));
    if (hertz !== toHertz) continue;
    // The second partial has a sixteenth of the first one's energy.
    expect(shareAt(stretch, hertz)).toBeGreaterThan(0.6);
    expect(shareAt(stretch, hertz * 1.2)).toBeLessThan(0.05);
  }
});

test('a glide begins and ends at its pitches', () => {
  const samples = renderTones(goneTones.slice(0, 1), rate);
  const eighth = Math.floor(samples.length / 8);
  expect(crossings(samples.subarray(eighth, 2 * eighth))).toBeCloseTo(880 * 2 ** (-3 / 16), -2);
  expect(crossings(samples.subarray(6 * eighth, 7 * eighth))).toBeCloseTo(880 * 2 ** (-13 / 16), -2);
});

/** Upward crossings of zero a second. */
function crossings(samples: Float32Array): number {
  const ups = samples.filter((sample, index) => index > 0 && samples[index - 1] < 0 && sample >= 0).length;
  return (ups * rate) / samples.length;
}
