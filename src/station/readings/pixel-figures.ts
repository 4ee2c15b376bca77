import type { ColourFigures, KeptReadings } from '../../facts/index.ts';
import type { FrameRow } from '../../register/index.ts';

type Figures = Readonly<Record<string, number | null | undefined>>;

/** The figures by name, each with its unit last. Those of a preview are its camera's making: they are no figures of the frame. */
/** `mmPerPx`: what one of its pixels is on the set; null where nobody told it. */
export function pixelFigures(
  { readings }: Pick<FrameRow, 'readings'>,
  mmPerPx: number | null,
): Record<string, number> {
  if (readings === null || readings.exposed.source === 'preview') return {};
  const { colour, drift } = readings;
  return known({
    ...sharpFigures(readings),
    ...exposedFigures(readings),
    ...placeFigures(readings, mmPerPx),
    ...(colour?.found === true ? targetFigures(colour) : {}),
    deliveredMeanDeltaE00: readings.delivered?.colour?.mean,
    deliveredMaxDeltaE00: readings.delivered?.colour?.max,
    driftDeltaUv: drift?.drift?.deltaUv,
    driftDeltaE00: drift?.drift?.deltaE00Mean,
    driftEv: drift?.drift?.ev,
  });
}

function sharpFigures({ sharp: { atSpot, blur } }: KeptReadings): Figures {
  return {
    edgeWidthPx: atSpot?.widthPx,
    edgeWidthErrorPx: atSpot?.errorPx,
    edgeSigmaPx: atSpot?.sigmaPx,
    mtf50CyclesPerPx: atSpot?.mtf50,
    edgeSnr: atSpot?.snr,
    edges: atSpot?.edges,
    sharpConfidence: atSpot?.confidence,
    movementPx: blur.lengthPx,
    movementDegrees: blur.directionDegrees,
  };
}

function exposedFigures({ exposed, trend, against }: KeptReadings): Figures {
  return {
    saturatedPercent: exposed.saturatedPercent,
    islandsPercent: exposed.islandsPercent,
    headroomStops: exposed.headroomStops,
    underNoisePercent: exposed.underNoisePercent,
    middleStops: exposed.middleStops,
    bandingEv: exposed.banding?.ev,
    lightEv: against?.light?.ev,
    lightFromMedianEv: trend?.fromMedian.ev,
  };
}

function placeFigures({ place: { shift, subject } }: KeptReadings, mmPerPx: number | null): Figures {
  const moved = shift === null || 'unknown' in shift ? null : shift;
  const stands = 'unknown' in subject ? null : subject;
  return {
    shiftPx: moved === null ? null : Math.hypot(moved.rightPx, moved.downPx),
    mmPerPx,
    shiftMm: moved === null || mmPerPx === null ? null : Math.hypot(moved.rightPx, moved.downPx) * mmPerPx,
    shiftRightPx: moved?.rightPx,
    shiftDownPx: moved?.downPx,
    shiftErrorPx: moved?.errorPx,
    rotationDeg: moved?.clockwiseDegrees,
    rotationErrorDeg: moved?.errorDegrees,
    scalePercent: moved?.largerPercent,
    scaleErrorPercent: moved?.errorPercent,
    partShiftPx: moved?.part == null ? null : Math.hypot(moved.part.rightPx, moved.part.downPx),
    partRightPx: moved?.part?.rightPx,
    partDownPx: moved?.part?.downPx,
    placeLikeness: moved?.likeness,
    placeConfidence: moved?.confidence,
    subjectFillPercent: stands?.fillPercent,
    marginLeftPercent: stands?.marginsPercent.left,
    marginTopPercent: stands?.marginsPercent.top,
    marginRightPercent: stands?.marginsPercent.right,
    marginBottomPercent: stands?.marginsPercent.bottom,
  };
}

function targetFigures(colour: Extract<ColourFigures, { found: true }>): Figures {
  return {
    meanDeltaE00: colour.colour?.mean,
    percentile90DeltaE00: colour.colour?.percentile90,
    maxDeltaE00: colour.colour?.max,
    maxPatch: colour.colour?.maxPatch,
    neutralDuv: colour.greys?.duv,
    neutralDeltaK: colour.greys?.deltaK,
    neutralDeltaAb: colour.greys?.deltaAb,
    targetConfidence: colour.confidence,
    targetWidthPx: colour.place.widthPx,
    targetExposureEv: colour.exposureEv,
    profileFitDeltaE00: colour.profile?.fit.mean,
    profileLeaveOneOutDeltaE00: colour.profile?.leaveOneOut.mean,
    profileLeaveOneOutMaxDeltaE00: colour.profile?.leaveOneOut.max,
  };
}

function known(figures: Figures): Record<string, number> {
  const told = Object.entries(figures).filter(
    (entry): entry is [string, number] => typeof entry[1] === 'number',
  );
  return Object.fromEntries(told);
}
