/** The chromaticity of light of a correlated colour temperature, and what it does to the colours of a set lit by D65. */
import { d65White } from './camera-model.ts';
import { adaptation } from './lab-to-scene.ts';

/** The set's own light: D65. */
export const setTemperatureK = 6504;
/** Daylight from here on, glowing below: as CIE 13.3-1995 takes its reference lights. */
const daylightFromK = 5000;

/** CIE 1931 x, y. `temperatureK` 2,500 … 12,000. */
export function whiteOf(temperatureK: number): readonly [number, number] {
  return temperatureK >= daylightFromK ? daylight(temperatureK) : planckian(temperatureK);
}

/** CIE 15:2004, section 3.1, the daylight locus; 4,000 … 25,000 K. */
function daylight(temperatureK: number): readonly [number, number] {
  const t = 1000 / temperatureK;
  const x =
    temperatureK <= 7000
      ? -4.607 * t ** 3 + 2.9678 * t ** 2 + 0.09911 * t + 0.244063
      : -2.0064 * t ** 3 + 1.9018 * t ** 2 + 0.24748 * t + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/** M. Krystek, "An algorithm to calculate correlated colour temperature", Color Research and Application 10(1), 1985. */
function planckian(temperatureK: number): readonly [number, number] {
  const t = temperatureK;
  const u =
    (0.860117757 + 1.54118254e-4 * t + 1.28641212e-7 * t * t) /
    (1 + 8.42420235e-4 * t + 7.08145163e-7 * t * t);
  const v =
    (0.317398726 + 4.22806245e-5 * t + 4.20481691e-8 * t * t) /
    (1 - 2.89741816e-5 * t + 1.61456053e-7 * t * t);
  const scale = 2 * u - 8 * v + 4;
  return [(3 * u) / scale, (2 * v) / scale];
}

/**
 * XYZ in the set's light to XYZ in another, row-major; white keeps its luminance. Spectra are not known, so colours
 * follow the white by Bradford's cone responses (ICC.1:2010 annex E), as a chromatic adaptation does the other way.
 */
export function relightMatrix([x, y]: readonly [number, number]): number[] {
  return adaptation(d65White, [x / y, 1, (1 - x - y) / y]);
}
