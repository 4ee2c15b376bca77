import { expect, test } from 'vitest';
import type { ExposedFigures, SettingChange, Verdict } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import type { ExposedFacts } from './exposed-facts.ts';
import { judgeExposed } from './judge-exposed.ts';

const channel = { saturatedPercent: 0, headroomStops: 1, underNoisePercent: 0 };
const reading: ExposedFigures = {
  source: 'raw',
  red: channel,
  green: channel,
  blue: channel,
  saturatedPercent: 0,
  islandsPercent: 0,
  atBorderPercent: 0,
  headroomStops: 1,
  underNoisePercent: 0,
  middleStops: 0,
  banding: null,
  backdrop: { whitePercent: 0, unevenEv: 0 },
};
const judged = (settings: readonly SettingChange[], more: Partial<ExposedFacts> = {}): Verdict =>
  judgeExposed({
    reading,
    tolerances: {},
    fromReference: { ev: 0.02, spreadEv: 0.01 },
    trend: null,
    whiteBackdrop: false,
    shift: null,
    settings,
    previous: null,
    ...more,
  });
const said = ({ findings }: Verdict): string[] => findings.map((finding) => sentence(finding));

const aperture: SettingChange = { setting: 'aperture', was: 11, is: 8 };
const time: SettingChange = { setting: 'time', was: 1 / 125, is: 1 / 60 };
const darker = { fromReference: { ev: -0.3, spreadEv: 0.01 } };

test('a setting that was bumped is a doubt, with what it was and what it is', () => {
  expect(judged([]).judgement).toBe('good');
  const verdict = judged([aperture]);
  expect(verdict.judgement).toBe('doubt');
  expect(verdict.figure).toBeUndefined();
  expect(said(verdict)).toEqual(['Aperture f/8 since the reference’s f/11.']);
  expect(said(judged([aperture, { setting: 'sensitivity', was: 100, is: 50 }]))).toHaveLength(2);
});

test('an exposure time is told by itself where the light is the reference’s, and with the light where it is not', () => {
  expect(said(judged([time]))).toEqual(['Exposure time 1/60 s since the reference’s 1/125 s.']);
  expect(said(judged([time], darker))).toEqual([
    'The light is 0.30 EV darker than the reference’s; the exposure time is 1/60 s since the reference’s 1/125 s.',
  ]);
  // An aperture lets more in, but is not told by the light.
  expect(said(judged([aperture, time], darker))[1]).toBe('Aperture f/8 since the reference’s f/11.');
  // Light that cannot be held against the reference's explains nothing.
  expect(said(judged([time], { fromReference: null }))).toHaveLength(1);
});

test('worse things come first, and stay as bad as they are', () => {
  const verdict = judged([aperture], { reading: { ...reading, saturatedPercent: 5 } });
  expect(verdict).toMatchObject({ judgement: 'bad', figure: { unit: '%' } });
  expect(verdict.findings.map(({ code }) => code)).toEqual(['exposed.clipped', 'exposed.setting-aperture']);
});

test('what a camera was set to needs no pixels: it is told while only the preview is here', () => {
  const preview = { reading: { ...reading, source: 'preview' }, fromReference: null } as const;
  expect(judged([], preview).judgement).toBe('unknown');
  const verdict = judged([aperture], preview);
  expect(verdict.judgement).toBe('doubt');
  expect(verdict.findings.map(({ code }) => code)).toEqual(['exposed.setting-aperture', 'exposed.preview']);
});

test.each([
  [
    'white-balance',
    'manual',
    'auto',
    'The camera chooses the white balance itself; in the reference it was set by hand.',
  ],
  ['program', 1, 3, 'Exposure program aperture priority since the reference’s manual.'],
  ['format', 'raw', 'jpeg', 'The camera sent a JPEG; the reference is a raw.'],
  ['size', '6000 x 4000', '3000 x 2000', 'Size 3000 × 2000 px since the reference’s 6000 × 4000 px.'],
  ['depth', 14, 12, 'Depth 12 bits since the reference’s 14 bits.'],
  ['compression', 7, 34_892, 'Compression lossy since the reference’s lossless.'],
  ['compression', 7, 34_713, 'The raw is compressed by another method than the reference’s.'],
  [
    'jpeg-compression',
    4,
    2,
    'The JPEG is compressed harder than the reference’s: 2 bits for each pixel since 4.',
  ],
] as const)('%s from %s to %s is said as a person says it', (setting, was, is, expected) => {
  expect(said(judged([{ setting, was, is }]))).toEqual([expected]);
});
