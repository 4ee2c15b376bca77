import { createHash } from 'node:crypto';
import { open, readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { workerError } from './errors.ts';
import type { ProveAnswer, ProveJob } from './finish-messages.ts';

/**
 * The job `prove`: that a file into which metadata was written still holds the picture that it was made of, with its profile. It is
 * on the disk for certain when the answer comes. Errors: `delivery-not-as-written`, the system's own.
 */
export async function proveDelivery({ path, pixelsSha256, profileSha256 }: ProveJob): Promise<ProveAnswer> {
  const file = await open(path, 'r+');
  await file.sync().finally(() => file.close());
  const bytes = await readFile(path);
  const { widthPx, heightPx, ...seen } = await seenIn(bytes);
  if (seen.profileSha256 !== profileSha256) throw workerError('delivery-not-as-written', { why: 'profile' });
  if (seen.pixelsSha256 !== pixelsSha256) throw workerError('delivery-not-as-written', { why: 'pixels' });
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { widthPx, heightPx, bytes: bytes.length, sha256 };
}

interface Seen extends Omit<ProveJob, 'path'> {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Hashes of what a reader sees: pixels as 8 bits of the file's own space, and the profile. */
async function seenIn(bytes: Uint8Array): Promise<Seen> {
  const opened = sharp(bytes, { ignoreIcc: true, failOn: 'warning', limitInputPixels: false });
  const { icc } = await opened.metadata();
  const { data, info } = await opened
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const hash = (of: Uint8Array): string => createHash('sha256').update(of).digest('hex');
  return {
    widthPx: info.width,
    heightPx: info.height,
    pixelsSha256: hash(data),
    profileSha256: hash(icc ?? new Uint8Array()),
  };
}
