import { spawn } from 'node:child_process';
import { once } from 'node:events';
import sharp, { type JpegOptions } from 'sharp';

/**
 * A raw by LibRaw's own command line, as the camera balanced it, and one JPEG of it by libvips. `options` are those of
 * dcraw_emu. Returns the JPEG.
 */
export async function librawJpeg(
  path: string,
  options: readonly string[],
  jpeg: JpegOptions,
): Promise<Buffer> {
  const run = spawn('dcraw_emu', [...options, '-w', '-Z', '-', path], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const parts: Buffer[] = [];
  run.stdout.on('data', (part: Buffer) => parts.push(part));
  const [status] = await once(run, 'close');
  if (status !== 0) throw new Error(`dcraw_emu ended with ${status}`);
  const { width, height, pixels } = parsePpm(Buffer.concat(parts));
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .jpeg(jpeg)
    .toBuffer();
}

/** Netpbm P6 with 8-bit samples: magic, width, height, 255, one white space, pixels. */
function parsePpm(file: Buffer): { width: number; height: number; pixels: Buffer } {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 64).toString('latin1'));
  if (head === null) throw new Error('dcraw_emu gave no P6');
  return { width: Number(head[1]), height: Number(head[2]), pixels: file.subarray(head[0].length) };
}
