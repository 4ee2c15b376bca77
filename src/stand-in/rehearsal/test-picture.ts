import sharp from 'sharp';

/** As large as a small JPEG of a camera: a line's speed shows from half a megabyte on. */
const size = { width: 1800, height: 1200 };

/**
 * A picture of noise around mid-grey, some 1.5 MB as JPEG: a real one, so that the station shows that it came. Noise, since
 * nothing on the way can make it smaller.
 */
export function testPicture(): Promise<Uint8Array> {
  const noise = { type: 'gaussian', mean: 118, sigma: 24 } as const;
  return sharp({ create: { ...size, channels: 3, background: 'grey', noise } })
    .jpeg({ quality: 90 })
    .toBuffer();
}
