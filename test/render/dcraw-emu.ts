import { execFileSync } from 'node:child_process';

/** Linear light, three channels of 16 bits in rows from the top. */
export interface LinearPicture {
  readonly data: Uint16Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Whether LibRaw's command line (Debian package libraw-bin) is here. */
export function hasDcrawEmu(): boolean {
  try {
    // Without arguments it prints its usage and exits 1.
    execFileSync('dcraw_emu', { stdio: 'ignore' });
    return true;
  } catch (thrown) {
    return !(thrown instanceof Error && 'code' in thrown && thrown.code === 'ENOENT');
  }
}

/**
 * LibRaw's own linear rendering:
 *
 * - `-h` half size, the 2x2 block as one pixel, its greens averaged; at full size `-q` instead: 0 bilinear, 3
 *   adaptive homogeneity-directed (K. Hirakawa, T. W. Parks, IEEE Transactions on Image Processing 14 (3), 2005)
 * - `-4` 16 bits, gamma 1, which includes `-W`, no automatic brightening
 * - `-w` the camera's balance as shot; `+M` the colour matrix of the file
 * - `-o 1` linear light of sRGB's primaries (`-o 4` ROMM's)
 * - `-c 0` the white level as the file states it; else LibRaw lowers it to the brightest value found
 * - `-Z -` a PPM on standard output
 */
export function dcrawEmuLinear(
  path: string,
  outputSpace: 1 | 4,
  size: 'half' | 'full' = 'half',
  quality: 0 | 3 = 0,
): LinearPicture {
  const sizeFlags = size === 'half' ? ['-h'] : ['-q', String(quality)];
  const flags = [...sizeFlags, '-4', '-w', '+M', '-W', '-o', String(outputSpace), '-c', '0', '-Z', '-'];
  return parsePpm16(execFileSync('dcraw_emu', [...flags, path], { maxBuffer: 2 ** 30 }));
}

/**
 * Full size as the sensor's own colours: no balance (`-r 1 1 1 1`), no matrix (`-o 0`).
 */
export function dcrawEmuSensor(path: string, quality: 0 | 3): LinearPicture {
  const flags = ['-q', String(quality), '-4', '-r', '1', '1', '1', '1', '-o', '0', '-c', '0', '-Z', '-'];
  return parsePpm16(execFileSync('dcraw_emu', [...flags, path], { maxBuffer: 2 ** 30 }));
}

/** Netpbm's P6 with 16 bits a sample, most significant byte first. */
function parsePpm16(bytes: Buffer): LinearPicture {
  const [head, width, height] = /^P6\s+(\d+)\s+(\d+)\s+65535\s/.exec(bytes.toString('latin1', 0, 64)) ?? [];
  if (head === undefined) throw new Error('dcraw_emu gave no 16-bit PPM');
  const widthPx = Number(width);
  const heightPx = Number(height);
  const view = new DataView(bytes.buffer, bytes.byteOffset + head.length);
  const data = Uint16Array.from({ length: widthPx * heightPx * 3 }, (_, index) => view.getUint16(2 * index));
  return { data, widthPx, heightPx };
}
