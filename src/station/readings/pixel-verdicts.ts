import type { Question, Verdict } from '../../facts/index.ts';
import { judgeExposed, judgeSharp, notMeasured } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameLimits } from './frame-limits.ts';

/** What the readings of a frame's pixels mean now. */
export function pixelVerdicts(
  { readings }: Pick<FrameRow, 'readings'>,
  { tolerances, reference }: FrameLimits,
): Readonly<Record<Extract<Question, 'sharp' | 'exposed'>, Verdict>> {
  if (readings === null) return { sharp: notMeasured, exposed: notMeasured };
  const { sharp, exposed, trend, said } = readings;
  const against = readings.against?.frame === reference ? readings.against : null;
  return {
    sharp: judgeSharp({
      reading: sharp,
      tolerances,
      reference: against?.sharp ?? null,
      previous: said.sharp ?? null,
    }),
    exposed: judgeExposed({
      reading: exposed,
      tolerances,
      fromReference: against?.light ?? null,
      trend,
      // No delivery asks for anything yet.
      whiteBackdrop: false,
      previous: said.exposed ?? null,
    }),
  };
}

/** The figures by name, each with its unit last. Those of a preview are its camera's making: they are no figures of the frame. */
export function pixelFigures({ readings }: Pick<FrameRow, 'readings'>): Record<string, number> {
  if (readings === null || readings.exposed.source === 'preview') return {};
  const { sharp, exposed, trend, against } = readings;
  const { atSpot, blur } = sharp;
  return known({
    edgeWidthPx: atSpot?.widthPx,
    edgeWidthErrorPx: atSpot?.errorPx,
    edgeSigmaPx: atSpot?.sigmaPx,
    mtf50CyclesPerPx: atSpot?.mtf50,
    edgeSnr: atSpot?.snr,
    edges: atSpot?.edges,
    sharpConfidence: atSpot?.confidence,
    movementPx: blur.lengthPx,
    movementDegrees: blur.directionDegrees,
    saturatedPercent: exposed.saturatedPercent,
    islandsPercent: exposed.islandsPercent,
    headroomStops: exposed.headroomStops,
    underNoisePercent: exposed.underNoisePercent,
    middleStops: exposed.middleStops,
    bandingEv: exposed.banding?.ev,
    lightEv: against?.light?.ev,
    lightFromMedianEv: trend?.fromMedian.ev,
  });
}

function known(figures: Readonly<Record<string, number | null | undefined>>): Record<string, number> {
  const told = Object.entries(figures).filter(
    (entry): entry is [string, number] => typeof entry[1] === 'number',
  );
  return Object.fromEntries(told);
}
