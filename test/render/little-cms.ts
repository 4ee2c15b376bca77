import { execFileSync } from 'node:child_process';
import type { Vector3 } from '../../src/colour/index.ts';

/**
 * Little CMS (transicc, relative colorimetric, floating point): colours of 0 … 255 through profiles. `to` is a profile's
 * path, or `*Lab` for Lab of D50. Results of a profile are 0 … 255 as well, not rounded.
 */
export function littleCms(from: string, to: string, colours: readonly Vector3[]): Vector3[] {
  const input = colours.map((rgb) => rgb.join('\n')).join('\n');
  const out = execFileSync('transicc', ['-i', from, '-o', to, '-t1', '-n'], {
    input,
    // Its title line.
    stdio: ['pipe', 'pipe', 'ignore'],
    maxBuffer: 64 * 2 ** 20,
  });
  const numbers = out.toString().trim().split(/\s+/).map(Number).filter(Number.isFinite);
  if (numbers.length !== colours.length * 3)
    throw new Error('transicc answered with another number of colours');
  return colours.map((_, index) => {
    const [x = Number.NaN, y = Number.NaN, z = Number.NaN] = numbers.slice(3 * index, 3 * index + 3);
    return [x, y, z];
  });
}
