import { expect, test } from 'vitest';
import { missingPartner, type PartnerFacts, partnerWaitMs } from './partner.ts';

const late: PartnerFacts = {
  names: ['A0001.DNG'],
  kind: null,
  expects: 'both',
  keptMs: 1000,
  nowMs: 1000 + partnerWaitMs,
};

test('where both are expected the one that has not come is named, once it had its two minutes', () => {
  expect(missingPartner(late)).toBe('jpeg');
  expect(missingPartner({ ...late, names: ['A0001.JPG'] })).toBe('raw');
  expect(missingPartner({ ...late, nowMs: late.nowMs - 1 })).toBeNull();
});

test('raw and JPEG together are complete, whatever lies beside them', () => {
  expect(missingPartner({ ...late, names: ['A0001.DNG', 'A0001.jpeg'] })).toBeNull();
  expect(missingPartner({ ...late, names: ['A0001.XMP', 'A0001.DNG'] })).toBe('jpeg');
  expect(missingPartner({ ...late, names: ['A0001.WAV'] })).toBeNull();
});

test('a film and what a camera writes for itself wait for no partner, and are none', () => {
  for (const name of ['MVI_0001.MP4', 'A0001.mov', 'INDEX.DAT']) {
    expect(missingPartner({ ...late, names: [name] }), name).toBeNull();
  }
  expect(missingPartner({ ...late, names: ['A0001.DNG', 'A0001.MP4'] })).toBe('jpeg');
});

test('a camera that sends one kind, or of which nobody has said anything, misses nothing', () => {
  for (const expects of ['raw', 'jpeg', null] as const) {
    expect(missingPartner({ ...late, expects })).toBeNull();
    expect(missingPartner({ ...late, expects, names: ['A0001.JPG'] })).toBeNull();
  }
});

test('a JPEG under the name of a raw is a JPEG: what is missing is the raw', () => {
  expect(missingPartner({ ...late, names: ['A0001.DNG', 'A0001.XMP'], kind: 'jpeg' })).toBe('raw');
  expect(missingPartner({ ...late, names: ['A0001.DNG'], kind: 'tiff-raw' })).toBe('jpeg');
});
