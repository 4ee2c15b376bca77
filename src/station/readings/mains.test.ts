import { expect, test } from 'vitest';
import type { ExposedFigures } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { withHertz } from './mains.ts';

const channel = { saturatedPercent: 0, headroomStops: 2, underNoisePercent: 0 };
const exposed: ExposedFigures = {
  source: 'raw',
  red: channel,
  green: channel,
  blue: channel,
  saturatedPercent: 0,
  islandsPercent: 0,
  atBorderPercent: 0,
  headroomStops: 2,
  underNoisePercent: 0,
  middleStops: 0,
  banding: { ev: 0.3, cycles: 4, hertz: null },
  backdrop: { whitePercent: 0, unevenEv: 0 },
};
const picture = (width: number, height: number) => ({
  state: 'rendered',
  width,
  height,
  source: 'raw',
  look: '',
  target: null,
  original: null,
  version: 1,
});

// Hand derivation: 4000 rows of 10 µs are 40 ms; 4 stripes in that are 100 Hz, which mains of 50 Hz make (a lamp
// brightens twice in each cycle; IEC 60050-845 calls the outcome flicker, from memory).
test('stripes over a sensor whose row time is known have a frequency, upright or on its side', () => {
  const upright = withHertz(exposed, { picture: picture(6000, 4000), capture: { orientation: 1 } }, 10);
  expect(upright.banding?.hertz).toBeCloseTo(100, 9);
  const turned = withHertz(exposed, { picture: picture(4000, 6000), capture: { orientation: 8 } }, 10);
  expect(turned.banding?.hertz).toBeCloseTo(100, 9);
  expect(withHertz(exposed, { picture: picture(6000, 4000), capture: null }, null)).toBe(exposed);
  expect(withHertz(exposed, { picture: null, capture: null }, 10)).toBe(exposed);
});

test('a look that cuts the picture takes no row from the sensor', () => {
  const cut = { ...picture(2000, 2000), original: { width: 6000, height: 4000 } };
  expect(withHertz(exposed, { picture: cut, capture: null }, 10).banding?.hertz).toBeCloseTo(100, 9);
});

test('the mains are named where the frequency is twice theirs', () => {
  const said = (hertz: number): string => sentence({ code: 'exposed.banding', args: { ev: 0.3, hertz } });
  expect(said(101)).toContain('a lamp pulses at 101 Hz, with mains of 50 Hz.');
  expect(said(117)).toContain('mains of 60 Hz');
  expect(said(3000)).toContain('a lamp pulses at 3000 Hz.');
  expect(said(0)).toContain('a lamp pulses. Use');
});
