import type { ExposedReading, LightSourceName, LostMap, Mosaic, Orientation } from '../../facts/index.ts';
import type { Rgb8 } from '../../image/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { clippedBlocks, clippedPixels } from '../kernels/clipped-areas.ts';
import { countCodes, countValues, valueCounts } from '../kernels/count-values.ts';
import type { LightGrid } from '../light-grid.ts';
import { srgbDecodeTable } from '../srgb-light.ts';
import { readBackdrop } from './backdrop.ts';
import { readBanding } from './banding.ts';
import { lightMap, middle } from './light-map.ts';
import { type LostLight, lostLight } from './lost-light.ts';
import { lostMapOfMosaic, lostMapOfPicture } from './lost-map.ts';
import { darkNoise } from './noise-floor.ts';
import { saturationValue } from './saturation.ts';
import { type ChannelCounts, type CountedChannel, readChannel, sceneSteps } from './stops.ts';

export interface ExposedOptions {
  readonly source: LightSourceName;
  /** From one row of the sensor to the next, seconds; null where nobody knows. */
  readonly rowTimeS: number | null;
}

/** Reads the exposure of a raw, from its bare values. `plane`: half-size light of its green. */
export function readExposedMosaic(
  mosaic: Mosaic,
  { saturation }: LightGrid,
  plane: HalfPlane,
  options: ExposedOptions,
): ExposedReading {
  const { values, widthPx, heightPx, blackLevels, whiteLevel, filters } = mosaic;
  const counts = new Uint32Array(4 * valueCounts);
  countValues(values, widthPx, heightPx, counts);
  const steps = sceneSteps(mosaic);
  const noise = darkNoise(mosaic);
  const placeCounts = ([0, 1, 2, 3] as const).map((place): ChannelCounts => {
    const black = blackLevels[place];
    const own = counts.subarray(place * valueCounts, (place + 1) * valueCounts);
    return {
      counts: own,
      sceneValue: (value) => (value - black) * steps[place],
      saturated: saturationValue(own, black, whiteLevel),
      underNoise: black + noise,
    };
  });
  const channel = (filter: number): CountedChannel =>
    readChannel(placeCounts.filter((_, place) => filters[place] === filter));
  const mask = new Uint8Array(plane.widthPx * plane.heightPx);
  const limits = Float64Array.from(placeCounts, ({ saturated }) => saturated);
  clippedBlocks(values, widthPx, heightPx, limits, mask);
  const greenPlace = filters.indexOf(1) === 0 ? 0 : 1;
  return assemble(
    { red: channel(0), green: channel(1), blue: channel(2) },
    { light: lostLight(mask, plane), map: lostMapOfMosaic(mosaic, limits, mask) },
    { plane, sceneStep: steps[greenPlace], saturation, noise, orientation: mosaic.orientation },
    options,
  );
}

/** The same of a finished picture, on its decoded linear values. */
export function readExposedPicture(
  picture: Rgb8,
  { saturation }: LightGrid,
  plane: HalfPlane,
  options: ExposedOptions,
): ExposedReading {
  const { data, widthPx, heightPx } = picture;
  const counts = new Uint32Array(768);
  countCodes(data, widthPx * heightPx, counts);
  const decode = srgbDecodeTable();
  const channel = (index: number): CountedChannel => {
    const own = counts.subarray(index * 256, (index + 1) * 256);
    return readChannel([
      { counts: own, sceneValue: (code) => decode[code] ?? 1, saturated: 255, underNoise: 0 },
    ]);
  };
  const mask = new Uint8Array(widthPx * heightPx);
  clippedPixels(data, mask);
  return assemble(
    { red: channel(0), green: channel(1), blue: channel(2) },
    {
      light: lostLight(mask, { widthPx, heightPx }),
      map: lostMapOfPicture(picture, mask),
    },
    { plane, sceneStep: 1 / saturation, saturation, noise: 0, orientation: 1 },
    options,
  );
}

interface Light {
  readonly plane: HalfPlane;
  /** Scene value of one step of the plane. */
  readonly sceneStep: number;
  readonly saturation: number;
  readonly noise: number;
  /** As the plane lies. */
  readonly orientation: Orientation;
}

function assemble(
  channels: Readonly<Record<'red' | 'green' | 'blue', CountedChannel>>,
  lost: { readonly light: LostLight; readonly map: LostMap },
  { plane, sceneStep, saturation, noise, orientation }: Light,
  { source, rowTimeS }: ExposedOptions,
): ExposedReading {
  const { red, green, blue } = channels;
  const all = [red.reading, green.reading, blue.reading];
  const light = lightMap(plane, sceneStep, saturation, noise, orientation);
  const known = light.stops.filter((stops) => stops !== null);
  return {
    source,
    red: red.reading,
    green: green.reading,
    blue: blue.reading,
    histogram: { red: red.histogram, green: green.histogram, blue: blue.histogram },
    saturatedPercent: lost.light.areasPercent,
    islandsPercent: lost.light.islandsPercent,
    atBorderPercent: lost.light.atBorderPercent,
    headroomStops: Math.min(...all.map(({ headroomStops }) => headroomStops)),
    underNoisePercent: Math.max(...all.map(({ underNoisePercent }) => underNoisePercent)),
    middleStops: known.length === 0 ? null : middle(known),
    light,
    lost: lost.map,
    banding: readBanding(plane, noise, rowTimeS),
    backdrop: readBackdrop(plane, saturation),
  };
}
