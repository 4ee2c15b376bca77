import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  labToXyz,
  rgbSpaces,
  type Vector3,
} from '../../colour/index.ts';
import type { TargetReadings } from '../../contract/index.ts';
import type { KeptReadings, PatchReading, Tolerances } from '../../facts/index.ts';
import { usualTolerances } from '../../judge/index.ts';

/** The target's readings as they are shown; null where none was read. */
export function targetShape(
  reading: KeptReadings['colour'],
  patches: readonly PatchReading[] | null,
  tolerances: Tolerances,
): TargetReadings | null {
  if (reading === null || !reading.found || patches === null) return null;
  const { source, place, colour } = reading;
  const mean = tolerances.meanDeltaE00 ?? usualTolerances.meanDeltaE00;
  const max = tolerances.maxDeltaE00 ?? usualTolerances.maxDeltaE00;
  const [a, b, c, d] = place.corners;
  return {
    source,
    corners: [[...a], [...b], [...c], [...d]],
    mean: colour?.mean ?? null,
    percentile90: colour?.percentile90 ?? null,
    max: colour?.max ?? null,
    goodMean: mean.good,
    badMean: mean.bad,
    goodMax: max.good,
    badMax: max.bad,
    patches: patches.map(({ patch, published, lab, deltaE00, deltaL, deltaC, saturatedPercent }) => ({
      patch,
      published: hexOfLab(published),
      measured: lab === null ? null : hexOfLab(lab),
      deltaE00,
      deltaL,
      deltaC,
      saturatedPercent,
    })),
  };
}

const toD65 = adaptWhite(d50Xyz, d65Xyz);

/** sRGB of L*a*b* D50, cut to what it holds. */
export function hexOfLab(lab: Vector3): string {
  const { fromXyz, transfer } = rgbSpaces.srgb;
  const linear = applyMatrix(fromXyz, applyMatrix(toD65, labToXyz(lab)));
  const codes = linear.map((value) =>
    Math.round(255 * transfer.encode(Math.min(1, Math.max(0, value))))
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${codes.join('')}`;
}
