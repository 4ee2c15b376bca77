import type { DepthReadings } from '../../contract/index.ts';
import type { CaptureFacts } from '../../facts/index.ts';
import { circleOfConfusion, depthOfField } from '../../judge/index.ts';

/** Depth of field as far as the camera said what it follows from, and what it did not say. */
export function depthOf(capture: CaptureFacts | null): DepthReadings {
  const { focalLengthMm, fNumber, subjectDistanceM, focalLength35Mm } = capture ?? {};
  if (
    focalLengthMm === undefined ||
    fNumber === undefined ||
    subjectDistanceM === undefined ||
    focalLength35Mm === undefined ||
    subjectDistanceM * 1000 <= focalLengthMm
  ) {
    const missing: DepthReadings['missing'] = [];
    if (focalLengthMm === undefined) missing.push('focal');
    if (fNumber === undefined) missing.push('aperture');
    // One that lies within the lens says nothing either.
    if (subjectDistanceM === undefined || subjectDistanceM * 1000 <= (focalLengthMm ?? 0))
      missing.push('distance');
    if (focalLength35Mm === undefined) missing.push('format');
    return { missing, field: null };
  }
  const facts = {
    focalMm: focalLengthMm,
    fNumber,
    distanceMm: subjectDistanceM * 1000,
    circleMm: circleOfConfusion(focalLengthMm, focalLength35Mm),
  };
  const { nearMm, farMm, airyMm, withDiffraction } = depthOfField(facts);
  return { missing: [], field: { ...facts, airyMm, nearMm, farMm, withDiffraction } };
}
