import { median } from '../../base/index.ts';
import type { Banding } from '../../facts/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { blockMeans } from '../kernels/block-means.ts';
import { type Wave, waveFinder } from './stripe-waves.ts';

/** The picture is cut into so many strips side by side, and each into so many parts from top to bottom. */
const strips = 8;
const partsMax = 384;
/** Fewer stripes over the height are shading. */
const cyclesMin = 3;
const cyclesMax = 80;
const cyclesStep = 0.25;
/** Each strip is looked at in so many lengths; in fewer where they would hold less than one and a half stripes. */
const lengths = { few: 2, many: 3, manyFrom: 5.25 };
/** From dark to bright, EV: less is not seen. */
const evMin = 0.06;
/** A cell bears the stripes out where its own wave lies so near to what all say, share of that. */
const nearShare = 0.5;
/** So many of the cells have to. What stands in the picture hides the stripes in some, and has none of its own in all. */
const agreementMin = { few: 0.75, many: 0.65 };
/** The stripes' height against what chance makes of a cell's noise, standard deviations. */
const aboveNoise = 4;
/** Cells in the dark say nothing; fewer that are lit say nothing of the picture. */
const litShareMin = 0.5;

/**
 * Looks for stripes that run across the whole picture with one height and one phase, from top to bottom: light that pulsed
 * while the rows were read. `rowTimeS`: from one row of the sensor to the next, or null.
 *
 * The picture is cut into cells, strips side by side in two or three lengths, and in each a wave is fitted beside the
 * shading. The middle of all waves speaks, and a wave counts where nearly all cells bear it out: an edge across the picture
 * lies in one length only, a thing in some strips only, and noise agrees with nothing.
 */
export function readBanding(plane: HalfPlane, noise: number, rowTimeS: number | null): Banding | null {
  const parts = Math.min(partsMax, plane.heightPx);
  if (parts < 64) return null;
  const profiles = stripProfiles(plane, parts, noise);
  const few = waveFinder(profiles, parts, lengths.few);
  const many = waveFinder(profiles, parts, lengths.many);
  const most = Math.min(cyclesMax, parts / 4);
  let best: (Wave & { readonly cycles: number }) | null = null;
  for (let cycles = cyclesMin; cycles <= most; cycles += cyclesStep) {
    const wave = (cycles < lengths.manyFrom ? few : many)(cycles);
    if (wave !== null && isStriped(wave, cycles) && (best === null || heightOf(wave) > heightOf(best)))
      best = { ...wave, cycles };
  }
  if (best === null) return null;
  const seconds = rowTimeS === null ? null : rowTimeS * plane.heightPx * 2;
  return {
    ev: 2 * heightOf(best),
    cycles: best.cycles,
    hertz: seconds === null ? null : best.cycles / seconds,
  };
}
function heightOf({ cosine, sine }: Wave): number {
  return Math.hypot(cosine, sine);
}

function isStriped(wave: Wave, cycles: number): boolean {
  const height = heightOf(wave);
  if (2 * height < evMin || wave.cells.length < litShareMin * wave.all) return false;
  const noise = median(wave.cells.map(({ error }) => error));
  if (height < aboveNoise * noise) return false;
  const near = wave.cells.filter(
    ({ cosine, sine }) => Math.hypot(cosine - wave.cosine, sine - wave.sine) <= nearShare * height,
  );
  const least = cycles < lengths.manyFrom ? agreementMin.few : agreementMin.many;
  return near.length >= least * wave.cells.length;
}

/** Light of each strip from top to bottom, stops; NaN in the dark. */
function stripProfiles({ data, widthPx, heightPx }: HalfPlane, parts: number, noise: number): Float64Array[] {
  const means = new Float64Array(strips * parts);
  blockMeans(data, widthPx, heightPx, strips, parts, means);
  return Array.from({ length: strips }, (_, strip) =>
    Float64Array.from({ length: parts }, (_, part) => {
      const light = means[part * strips + strip] ?? 0;
      return light > Math.max(noise, 0) ? Math.log2(light) : Number.NaN;
    }),
  );
}
