import { applyMatrix, oklabToXyz, rgbSpaces, xyzToOklab } from '../../colour/index.ts';
import type { Tint } from '../schema.ts';
import type { Stage } from './stage.ts';

const { toXyz, fromXyz } = rgbSpaces.rec2020;

/** Width of the lightness over which one tint goes over into the other. */
const crossingWidth = 0.5;

/**
 * Split tint: dark tones towards one hue, light tones towards another, as toning baths do to a silver print. In OKLab,
 * (a, b) moves by
 *
 *     4 L (1 - L) ((1 - s) dark + s light)        s = smoothstep of L about the crossing
 *
 * so that black and white stay neutral. Our own formula.
 */
export function tintStage(tint: Tint): Stage {
  const dark = polar(tint.darkChroma, tint.darkHueDeg);
  const light = polar(tint.lightChroma, tint.lightHueDeg);
  return (rgb) => {
    const [L, a, b] = xyzToOklab(applyMatrix(toXyz, rgb));
    if (L <= 0 || L >= 1) return rgb;
    const t = Math.min(1, Math.max(0, (L - tint.crossing) / crossingWidth + 0.5));
    const s = t * t * (3 - 2 * t);
    const strength = 4 * L * (1 - L);
    const da = strength * ((1 - s) * dark[0] + s * light[0]);
    const db = strength * ((1 - s) * dark[1] + s * light[1]);
    return applyMatrix(fromXyz, oklabToXyz([L, a + da, b + db]));
  };
}

export function isNeutralTint({ darkChroma, lightChroma }: Tint): boolean {
  return darkChroma === 0 && lightChroma === 0;
}

function polar(chroma: number, hueDeg: number): readonly [number, number] {
  const angle = (hueDeg * Math.PI) / 180;
  return [chroma * Math.cos(angle), chroma * Math.sin(angle)];
}
