/**
 * The temperature of a light, K, by the codes of Exif 2.32 LightSource, which DNG uses for CalibrationIlluminant: CIE's for
 * the standard lights, the middle of the range that Exif prints for lamps, and for flash, shade and clouds what the
 * standard lights nearest to them have (common practice, no source). Others count as D65.
 */
export function lightSourceTemperature(lightSource: number): number {
  switch (lightSource) {
    case 1: // daylight
    case 4: // flash
    case 9: // fine weather
    case 20: // D55
      return 5503;
    case 3: // tungsten
      return 2850;
    case 11: // shade
    case 22: // D75
      return 7504;
    case 12: // daylight fluorescent, 5700 to 7100 K
      return 6400;
    case 13: // day white fluorescent, 4600 to 5500 K
      return 5050;
    case 14: // cool white fluorescent, 3800 to 4500 K
      return 4150;
    case 15: // white fluorescent, 3250 to 3800 K
      return 3525;
    case 16: // warm white fluorescent, 2600 to 3250 K
      return 2925;
    case 17: // standard light A
      return 2856;
    case 18: // B
      return 4874;
    case 19: // C
      return 6774;
    case 23: // D50
      return 5003;
    case 24: // ISO studio tungsten
      return 3200;
    default:
      return d65K;
  }
}

export const d65K = 6504;
