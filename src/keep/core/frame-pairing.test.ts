import { expect, test } from 'vitest';
import { FramePairing, pairingWindowMs } from './frame-pairing.ts';

test('K3.7 raw and JPEG of one stem in one folder of one camera join; anything else does not', () => {
  const pairing = new FramePairing();
  pairing.note('cam1', '/a/X.DNG', 'f1', 0);
  expect(pairing.find('cam1', '/a/x.jpg', 1)).toBe('f1');
  expect(pairing.find('cam1', '/a/X.dng', 1)).toBeNull();
  expect(pairing.find('cam1', '/b/X.JPG', 1)).toBeNull();
  expect(pairing.find('cam1', '/a/X2.JPG', 1)).toBeNull();
  expect(pairing.find('cam2', '/a/X.JPG', 1)).toBeNull();
  pairing.note('cam1', '/a/X.JPG', 'f1', 1);
  expect(pairing.find('cam1', '/a/X.JPG', 2)).toBeNull();
  expect(pairing.find('cam1', '/a/X.MOV', 2)).toBe('f1');
});

test('K3.7 the window counts from the first file: at its end they join, a moment later they do not', () => {
  const pairing = new FramePairing();
  pairing.note('cam1', '/X.DNG', 'f1', 0);
  expect(pairing.find('cam1', '/X.JPG', pairingWindowMs)).toBe('f1');
  expect(pairing.find('cam1', '/X.JPG', pairingWindowMs + 1)).toBeNull();
});

test('K3.7 words about a picture join it however late, and again; another picture of the name takes the later ones', () => {
  const pairing = new FramePairing();
  const evening = 40_000_000;
  expect(pairing.find('cam1', '/X.XMP', 0)).toBeNull();
  pairing.note('cam1', '/X.DNG', 'f1', 0);
  pairing.note('cam1', '/Y.DNG', 'f2', pairingWindowMs + 1);
  expect(pairing.find('cam1', '/X.xmp', evening)).toBe('f1');
  pairing.note('cam1', '/X.xmp', 'f1', evening);
  expect(pairing.find('cam1', '/X.xmp', evening + 1)).toBe('f1');
  expect(pairing.find('cam1', '/x.XMP', evening * 2)).toBe('f1');
  expect(pairing.find('cam1', '/a/X.XMP', evening)).toBeNull();
  pairing.note('cam1', '/X.DNG', 'f3', evening * 3);
  expect(pairing.find('cam1', '/X.XMP', evening * 4)).toBe('f3');
});

test('K3.7 words that came for a picture that turned out to be known join the one that is known', () => {
  const pairing = new FramePairing();
  pairing.note('cam1', '/X.DNG', 'void', 0);
  pairing.redirect('cam1', '/X.DNG', 'void', 'known');
  expect(pairing.find('cam1', '/X.XMP', pairingWindowMs * 2)).toBe('known');
});

test('K3.7 after the raw turned out to be known, its JPEG joins the frame that is known', () => {
  const pairing = new FramePairing();
  pairing.note('cam1', '/X.DNG', 'void', 0);
  pairing.redirect('cam1', '/X.DNG', 'void', 'known');
  expect(pairing.find('cam1', '/X.JPG', 1)).toBe('known');
});

test('K3.7 a clock that was put back joins nothing with what came in its future', () => {
  const pairing = new FramePairing();
  const day = 86_400_000;
  pairing.note('cam1', '/X.DNG', 'f1', day);
  expect(pairing.find('cam1', '/X.JPG', 1)).toBeNull();
  // A few minutes are within the window on either side.
  expect(pairing.find('cam1', '/X.JPG', day - pairingWindowMs)).toBe('f1');
  pairing.note('cam1', '/Y.DNG', 'f2', 1);
  expect(pairing.find('cam1', '/Y.JPG', 2)).toBe('f2');
  // Forgotten: when that day comes, the counter may have come round.
  expect(pairing.find('cam1', '/X.JPG', day)).toBeNull();
});
