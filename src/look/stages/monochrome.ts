import { applyMatrix, rgbSpaces, xyzToOklab } from '../../colour/index.ts';
import type { Monochrome } from '../schema.ts';
import { hueTrust, hueWeight } from './hue-window.ts';
import type { Stage } from './stage.ts';

const { toXyz } = rgbSpaces.rec2020;

/**
 * Black and white: each colour becomes the grey of its luminance Y (ITU-R BT.2020), made lighter or darker by the hue it
 * had, as a filter in front of panchromatic film does, in stops:
 *
 *     grey = Y 2^(t^2 sum(w ev))        out = (1 - amount) in + amount grey
 *
 * with the windows w and the trust t of hue-window.ts, squared, so that light goes over smoothly from grey to colour
 * on every side. Our own formula; greys keep their place.
 */
export function monochromeStage({ amount, bands }: Monochrome): Stage {
  return (rgb) => {
    const xyz = applyMatrix(toXyz, rgb);
    const [, a, b] = xyzToOklab(xyz);
    const hue = Math.atan2(b, a);
    const trust = hueTrust(Math.hypot(a, b)) ** 2;
    const ev = bands.reduce(
      (sum, band) => sum + trust * hueWeight(hue, band.hueDeg, band.reachDeg) * band.ev,
      0,
    );
    const grey = xyz[1] * 2 ** ev;
    const [r, g, bl] = rgb;
    return [r + amount * (grey - r), g + amount * (grey - g), bl + amount * (grey - bl)];
  };
}
