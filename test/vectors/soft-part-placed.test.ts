import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { Rgb8 } from '../../src/image/index.ts';
import {
  againstReference,
  judgeSharp,
  noWishes,
  partReadings,
  placeOfPicture,
  readPicture,
} from '../../src/judge/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

async function beside(name: string): Promise<Rgb8> {
  const path = sharedPath(`reference/registration/${name}`);
  const { data, info } = await sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), widthPx: info.width, heightPx: info.height, channels: 3 };
}

/** A photograph turned and resized by OpenCV without any blur of its own (`in-place/pairs.json` tells the source). */
describe.skipIf(!hasShared())('what was turned and made larger is not called soft', () => {
  test.each(['hats-1.png', 'hats-2.png', 'hats-3.png'])('%s', async (name) => {
    const [reference, moved] = [await beside('hats-ref.png'), await beside(name)];
    const plane = placeOfPicture(reference, null);
    const theirs = partReadings(readPicture(reference, noWishes, null), null, null);
    const own = partReadings(
      readPicture(moved, { ...noWishes, reference: { plane, region: null } }, null),
      null,
      'hats-ref',
    );
    const held = againstReference(own.kept, own.detail, null, {
      frame: 'hats-ref',
      readings: theirs.kept,
      detail: theirs.detail,
      settings: null,
    });
    const { findings } = judgeSharp({
      reading: own.kept.sharp,
      tolerances: {},
      reference: held.sharp,
      previous: null,
    });
    expect(findings.map(({ code }) => code).filter((code) => code.startsWith('sharp.part-'))).toEqual([]);
  });
});
