import { writeDng } from '../render/dng-writer.ts';

/** What a made raw shows. */
export interface MadeFrame {
  /** Of the Gaussian blur; the values are sampled at points, so that the pixel's aperture is not in it. */
  readonly sigmaPx: number;
  readonly ev: number;
}

const [widthPx, heightPx] = [640, 480];

/** A raw with slanted squares on a shaded ground: what is sharp about it follows from the formula alone. */
export function madeRaw({ sigmaPx, ev }: MadeFrame): Uint8Array {
  const values = new Uint16Array(widthPx * heightPx);
  const [c, s] = [Math.cos(0.12), Math.sin(0.12)];
  const steps = stepTable();
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const [u, v] = [x * c + y * s, y * c - x * s];
      const step = (d: number): number =>
        steps[Math.min(steps.length - 1, Math.max(0, Math.round((d / sigmaPx) * 100) + 400))] ?? 0;
      const inside =
        step(40 - Math.abs((u % 160) - 80)) * step(40 - Math.abs((((v % 160) + 160) % 160) - 80));
      const light = (0.06 + 0.02 * (x / widthPx) + 0.2 * inside) * 2 ** ev;
      values[y * widthPx + x] = Math.min(16_383, Math.round(512 + light * 15_871));
    }
  }
  return writeDng({ widthPx, heightPx, values, asShotNeutral: [1, 1, 1], baselineExposure: 0.42 });
}

/** A Gaussian's step from -4 to 4 sigma, in hundredths, by adding up its density. */
function stepTable(): Float64Array {
  const table = new Float64Array(801);
  let sum = 0;
  for (let k = 0; k < 801; k++) {
    table[k] = sum + Math.exp(-0.5 * ((k - 400) / 100) ** 2) / 200 / Math.sqrt(2 * Math.PI);
    sum += Math.exp(-0.5 * ((k - 400) / 100) ** 2) / 100 / Math.sqrt(2 * Math.PI);
  }
  return table;
}
